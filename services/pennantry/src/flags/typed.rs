//! What is typed for the fields of requests at the shelf and the bench.

/// Of a piece that comes, or of the call.
pub const RECEIVE: &[(&str, &str)] = &[
    ("pieces.pieceId", "--label"),
    ("pieces.code", "CODE"),
    ("pieces.kind", "--kind"),
    ("pieces.quantity", "LENGTH|COUNT"),
    ("pieces.widthMm", "--width"),
    ("pieces.lot", "--lot"),
    ("pieces.flaws", "--flaw"),
    ("pieces.location", "--place"),
    ("pieces.cost", "--cost"),
    ("pieces.supplierReference", "--reference"),
    ("pieces.supplier", "--supplier"),
    ("pieces.certificates", "--certificate"),
    ("orderId", "--on-order"),
    ("requestId", "--request-id"),
];

/// Of a list of pieces.
pub const BOLTS: &[(&str, &str)] = &[("code", "CODE"), ("lot", "--lot"), ("emptyToo", "--empty")];

/// Of a fact about a piece.
pub const FACT: &[(&str, &str)] = &[
    ("pieceId", "LABEL"),
    ("counted", "LENGTH|COUNT"),
    ("gone.quantity", "LENGTH|COUNT"),
    ("gone.reason", "--why"),
    ("found", "LENGTH|COUNT"),
    ("flaws", "FROM..TO"),
    ("moreFlaws", "FROM..TO"),
    ("location", "PLACE"),
    ("note", "--note"),
    ("requestId", "--request-id"),
];

/// What is typed for each field of a hold, and of what is done with one.
pub const HOLD: &[(&str, &str)] = &[
    ("hold.token", "--token"),
    ("hold.acknowledgedRuleIds", "--acknowledge"),
    ("hold.seconds", "--for"),
    ("hold.supersedesId", "--instead-of"),
    ("hold.overrideReason", "--override"),
    ("extension.seconds", "--for"),
    ("confirmation.orderReference", "--order-ref"),
    // the body alone is what the public door is sent, so its fields are named without it
    ("seconds", "--for"),
    ("supersedesId", "--instead-of"),
    ("orderReference", "--order-ref"),
    ("token", "--token"),
    ("acknowledgedRuleIds", "--acknowledge"),
    ("overrideReason", "--override"),
    ("reason", "--because"),
    ("reservationId", "RESERVATION"),
    ("requestId", "--request-id"),
];

/// Of a cut.
pub const CUT: &[(&str, &str)] = &[
    ("parts.line", "--line"),
    ("parts.pieceId", "--piece"),
    ("parts.taken", "--taken"),
    ("parts.spoiled", "--spoiled"),
    ("parts.why", "--why"),
    ("parts.offcuts", "--kept"),
    ("parts.done", "--done"),
    ("parts.shapes", "--shapes"),
    ("cutDate", "--on"),
    ("parts.note", "--note"),
    ("reservationId", "RESERVATION"),
    ("cutId", "CUT"),
    ("requestId", "--request-id"),
];

/// Of an order at a supplier.
pub const ORDER: &[(&str, &str)] = &[
    ("orderId", "ORDER"),
    ("supplier", "SUPPLIER"),
    ("expectedDate", "--by"),
    ("lines", "--line"),
    ("note", "--note"),
    ("reason", "--because"),
    ("requestId", "--request-id"),
];

#[cfg(test)]
mod tests {
    use clap::CommandFactory;
    use pennantry_contract::table::{Kind, METHODS, Message};

    use super::*;
    use crate::cli::Cli;
    use crate::flags::under;

    /// Which commands a table serves, and by which calls.
    type Served = (&'static [(&'static str, &'static str)], &'static [&'static str], &'static [&'static str]);

    const SERVED: &[Served] = &[
        (RECEIVE, &["receive"], &["ReceiveStock", "CheckDelivery"]),
        (BOLTS, &["bolts"], &["ListStock"]),
        (FACT, &["count", "gone", "found", "flaw", "move", "piece"], &["AdjustStock", "GetPiece"]),
        (
            HOLD,
            &["reserve", "reservations", "confirm", "extend", "release", "cancel", "amend"],
            &[
                "CreateReservation",
                "GetReservation",
                "ConfirmReservation",
                "ExtendReservation",
                "ReleaseReservation",
                "CancelReservation",
                "AmendReservation",
            ],
        ),
        (CUT, &["cut", "undo"], &["RecordCut", "UndoCut"]),
        (ORDER, &["place", "list", "cancel"], &["PlaceOrder", "ListOrders", "CancelOrder"]),
    ];

    /// Fields that are asked without a flag: pages, and what is no text of a person's.
    const UNTYPED: &[&str] = &["pageSize", "pageToken", "closedToo"];

    fn leaves(of: &Message, above: &str, found: &mut Vec<String>) {
        for field in of.fields {
            let path = format!("{above}{}", field.json_name);
            match field.kind {
                Kind::Message(inner) => leaves(inner, &format!("{path}."), found),
                _ => found.push(path),
            }
        }
    }

    fn fields(calls: &[&str]) -> Vec<String> {
        let mut found = Vec::new();
        for call in calls {
            let method = METHODS.iter().find(|method| method.name == *call).expect(call);
            leaves(method.request, "", &mut found);
        }
        found
    }

    /// A field that is added to a request fails here until it has a flag.
    #[test]
    fn every_field_of_every_request_is_told_by_what_is_typed() {
        for (table, _, calls) in SERVED {
            for field in fields(calls) {
                let told = under(table, &field).is_some() || UNTYPED.contains(&field.as_str());
                assert!(told, "{calls:?}: {field}");
            }
        }
        // every call that changes something is served
        let served: Vec<&str> = SERVED.iter().flat_map(|(_, _, calls)| *calls).copied().collect();
        for method in METHODS.iter().filter(|method| method.request.field("requestId").is_some()) {
            assert!(served.contains(&method.name), "{}", method.name);
        }
    }

    #[test]
    fn no_row_is_of_no_field_and_each_can_be_typed() {
        let cli = Cli::command();
        for (table, commands, calls) in SERVED {
            let fields = fields(calls);
            for (path, flag) in *table {
                let under = |field: &String| {
                    let below = field == path || field.starts_with(&format!("{path}."));
                    below || field.ends_with(&format!(".{path}"))
                };
                assert!(fields.iter().any(under), "{calls:?}: {path}");
                let typed = commands.iter().any(|name| {
                    let order = cli.find_subcommand("order").expect("there");
                    let command =
                        if *table == ORDER { order.find_subcommand(name) } else { cli.find_subcommand(name) };
                    let positional = |arg: &clap::Arg| {
                        let names = arg.get_value_names().is_some_and(|names| names == [*flag]);
                        arg.is_positional() && (names || arg.get_id().as_str().eq_ignore_ascii_case(flag))
                    };
                    let long = flag.strip_prefix("--");
                    command
                        .expect(name)
                        .get_arguments()
                        .any(|arg| long.map_or_else(|| positional(arg), |long| arg.get_long() == Some(long)))
                });
                assert!(typed, "{commands:?}: {path} by {flag}");
            }
        }
    }

    /// What a command may get wrong of its own accord: names twice, groups that are none.
    #[test]
    fn the_command_line_is_sound() {
        Cli::command().debug_assert();
    }
}
