//! A rule stands once: what a field's option says is what the table of bounds says, and
//! what its comment tells people.

use std::collections::HashMap;

use pennantry_contract::table;
use pennantry_measure::Length;
use pennantry_measure::bounds::{self, Bound};
use prost_reflect::FieldDescriptor;

use crate::contract_source::{Source, compile};
use crate::contract_tables::{messages, rule_of};

/// Every field whose range is a bound of lengths.
const LENGTHS: [(&str, Bound<Length>); 25] = [
    ("Enquiry.flagged_mm", bounds::LENGTH),
    ("Enquiry.overall_mm", bounds::LENGTH),
    ("Enquiry.binding_mm", bounds::LENGTH),
    ("Enquiry.gap_mm", bounds::GAP),
    ("Enquiry.tail_mm", bounds::TAIL),
    ("Hang.span_mm", bounds::LENGTH),
    ("Hang.dip_mm", bounds::DIP),
    ("Fit.min_gap_mm", bounds::GAP),
    ("Fit.max_gap_mm", bounds::GAP),
    ("Pennant.width_mm", bounds::WIDTH),
    ("Pennant.drop_mm", bounds::DROP),
    ("Pennant.foot_mm", bounds::FOOT),
    ("Pennant.notch_mm", bounds::NOTCH),
    ("Pennant.shoulder_mm", bounds::SHOULDER),
    ("Pennant.rise_mm", bounds::RISE),
    ("End.loop_mm", bounds::LOOP),
    ("Near.fixing_height_mm", bounds::FIXING_HEIGHT),
    ("Near.span_mm", bounds::LENGTH),
    ("Near.cot_distance_mm", bounds::COT_DISTANCE),
    ("Near.wall_width_mm", bounds::WALL_WIDTH),
    ("Near.wall_height_mm", bounds::WALL_HEIGHT),
    ("End.tie_mm", bounds::TIE),
    ("End.second_tie_mm", bounds::TIE),
    ("End.ties_apart_mm", bounds::TIES_APART),
    ("NewPiece.width_mm", bounds::CLOTH_WIDTH),
];

/// Every field whose range is a bound of counts; of texts and lists the number of
/// characters and entries.
const COUNTS: [(&str, Bound<u32>); 78] = [
    ("CalculateQuotesRequest.enquiries", bounds::ENQUIRIES),
    ("Enquiry.pennant_count", bounds::PENNANTS),
    ("Enquiry.lettering", bounds::LETTERS),
    ("Enquiry.quantity", bounds::QUANTITY),
    ("Hang.swag_count", bounds::SWAGS),
    ("ColourOrder.fabric_codes", bounds::PENNANTS),
    ("Trimming.per_pennant", bounds::PER_PENNANT),
    ("Near.youngest_months", bounds::MONTHS),
    ("Near.fixings", bounds::FIXINGS),
    ("Discount.reason", bounds::REASON),
    ("Discount.minor_units", bounds::DISCOUNT_MINOR),
    ("CreateReservationRequest.request_id", bounds::NAME),
    ("ExtendReservationRequest.request_id", bounds::NAME),
    ("ConfirmReservationRequest.request_id", bounds::NAME),
    ("ReleaseReservationRequest.request_id", bounds::NAME),
    ("CancelReservationRequest.request_id", bounds::NAME),
    ("AmendReservationRequest.request_id", bounds::NAME),
    ("ReceiveStockRequest.request_id", bounds::NAME),
    ("AdjustStockRequest.request_id", bounds::NAME),
    ("RecordCutRequest.request_id", bounds::NAME),
    ("UndoCutRequest.request_id", bounds::NAME),
    ("PlaceOrderRequest.request_id", bounds::NAME),
    ("CancelOrderRequest.request_id", bounds::NAME),
    ("Hold.supersedes_id", bounds::NAME),
    ("GetReservationRequest.reservation_id", bounds::NAME),
    ("ExtendReservationRequest.reservation_id", bounds::NAME),
    ("ConfirmReservationRequest.reservation_id", bounds::NAME),
    ("ReleaseReservationRequest.reservation_id", bounds::NAME),
    ("CancelReservationRequest.reservation_id", bounds::NAME),
    ("AmendReservationRequest.reservation_id", bounds::NAME),
    ("RecordCutRequest.reservation_id", bounds::NAME),
    ("UndoCutRequest.cut_id", bounds::NAME),
    ("ListReservationsRequest.page_token", bounds::NAME),
    ("ListStockRequest.page_token", bounds::LABEL),
    ("ReceiveStockRequest.order_id", bounds::LABEL),
    ("NewPiece.piece_id", bounds::LABEL),
    ("AdjustStockRequest.piece_id", bounds::LABEL),
    ("GetPieceRequest.piece_id", bounds::LABEL),
    ("CutPart.piece_id", bounds::LABEL),
    ("NewRemnant.piece_id", bounds::LABEL),
    ("PlaceOrderRequest.order_id", bounds::LABEL),
    ("CancelOrderRequest.order_id", bounds::LABEL),
    ("NewPiece.code", bounds::WORD),
    ("NewPiece.lot", bounds::WORD),
    ("NewPiece.location", bounds::WORD),
    ("AdjustStockRequest.location", bounds::WORD),
    ("ListStockRequest.code", bounds::WORD),
    ("GetBurnReportRequest.code", bounds::WORD),
    ("ListStockRequest.lot", bounds::WORD),
    ("NewRemnant.location", bounds::WORD),
    ("NewOrderLine.code", bounds::WORD),
    ("NewPiece.supplier", bounds::PARTY),
    ("NewPiece.supplier_reference", bounds::PARTY),
    ("PlaceOrderRequest.supplier", bounds::PARTY),
    ("Confirmation.order_reference", bounds::PARTY),
    ("AdjustStockRequest.note", bounds::NOTE),
    ("CutPart.note", bounds::NOTE),
    ("PlaceOrderRequest.note", bounds::NOTE),
    ("CancelOrderRequest.reason", bounds::NOTE),
    ("Hold.override_reason", bounds::END_REASON),
    ("AmendReservationRequest.override_reason", bounds::END_REASON),
    ("AmendReservationRequest.reason", bounds::NOTE),
    ("CancelReservationRequest.reason", bounds::END_REASON),
    ("Hold.acknowledged_rule_ids", bounds::ACKNOWLEDGED),
    ("AmendReservationRequest.acknowledged_rule_ids", bounds::ACKNOWLEDGED),
    ("Hold.seconds", bounds::HOLD_SECONDS),
    ("Extension.seconds", bounds::HOLD_SECONDS),
    ("ReceiveStockRequest.pieces", bounds::RECEIVED),
    ("CheckDeliveryRequest.pieces", bounds::CHECKED),
    ("NewPiece.flaws", bounds::FLAWS),
    ("Flaws.flaws", bounds::FLAWS),
    ("NewPiece.certificates", bounds::CERTIFICATES),
    ("RecordCutRequest.parts", bounds::CUT_PARTS),
    ("CutPart.offcuts", bounds::OFFCUTS),
    ("PlaceOrderRequest.lines", bounds::ORDER_LINES),
    ("ListStockRequest.page_size", bounds::PAGE_PIECES),
    ("ListReservationsRequest.page_size", bounds::PAGE_RESERVATIONS),
    ("ListBurnReportsRequest.page_size", bounds::PAGE_REPORTS),
];

/// Every other field with a range, and why no bound of measures is its own.
const OTHERS: [(&str, &str); 25] = [
    ("Enquiry.design_code", "length of a code of the catalogue"),
    ("Enquiry.backing", "length of a code of the catalogue"),
    ("Enquiry.binding_code", "length of a code of the catalogue"),
    ("Enquiry.service", "length of a code of the catalogue"),
    ("Trimming.code", "length of a code of the catalogue"),
    ("Enquiry.wanted_date", "length of an ISO date"),
    ("Destination.country_code", "length of an ISO code"),
    ("End.breakaway_n", "a force, which measures has no type for"),
    ("Finish.ends", "a string has two ends"),
    ("Finish.trimmings", "kinds of trimming"),
    ("Near.jurisdictions", "values of the enum"),
    ("End.trimming_code", "length of a code of the catalogue"),
    ("Enquiry.as_of_date", "length of an ISO date"),
    ("Discount.percent", "a share, whose least is what anybody would call a discount"),
    ("Ticket.token", "length of a ticket, which its own reader checks"),
    ("Hold.token", "length of a ticket, which its own reader checks"),
    ("AmendReservationRequest.token", "length of a ticket, which its own reader checks"),
    ("PlaceOrderRequest.expected_date", "length of an ISO date"),
    ("RecordCutRequest.cut_date", "length of an ISO date"),
    ("GetBurnReportRequest.date", "length of an ISO date"),
    ("RunBurnReportRequest.date", "length of an ISO date"),
    ("CancelBurnReportRequest.date", "length of an ISO date"),
    ("ListBurnReportsRequest.from_date", "length of an ISO date"),
    ("ListBurnReportsRequest.to_date", "length of an ISO date"),
    ("ListReservationsRequest.states", "values of the enum"),
];

fn name(field: &FieldDescriptor) -> String {
    format!("{}.{}", field.parent_message().name(), field.name())
}

fn mm(length: Length) -> f64 {
    // Bounds are far below what a double holds exactly.
    f64::from(i32::try_from(length.um() / 1000).unwrap())
}

#[test]
fn contract_rules_are_the_table_of_bounds() {
    let pool = compile().pool;
    let mut seen = Vec::new();
    for field in messages(&pool).flat_map(|message| message.fields().collect::<Vec<_>>()) {
        let (name, rule) = (name(&field), rule_of(&field));
        if rule.least.is_none() && rule.most.is_none() {
            continue;
        }
        if let Some((_, bound)) = LENGTHS.iter().find(|(other, _)| *other == name) {
            assert_eq!((rule.least, rule.most), (Some(mm(bound.least)), Some(mm(bound.most))), "{name}");
            assert_eq!(rule.decimals, 3, "{name} is read to the micrometre");
        } else if let Some((_, bound)) = COUNTS.iter().find(|(other, _)| *other == name) {
            assert_eq!(rule.most, Some(f64::from(bound.most)), "{name}");
            // Texts and lists may say nothing of a least: an empty one has its own reason.
            let text = field.kind() == prost_reflect::Kind::String;
            let silent = rule.least.is_none() && (field.is_list() || text);
            assert!(silent || rule.least == Some(f64::from(bound.least)), "{name}: {:?}", rule.least);
        } else {
            assert!(
                OTHERS.iter().any(|(other, _)| *other == name),
                "{name} has a range that is neither paired with a bound nor explained"
            );
        }
        seen.push(name);
    }
    let listed = LENGTHS.iter().map(|(name, _)| name).chain(COUNTS.iter().map(|(name, _)| name));
    for name in listed.chain(OTHERS.iter().map(|(name, _)| name)) {
        assert!(seen.iter().any(|other| other == name), "{name} is listed, but has no range in proto/");
    }
}

/// Comments in front of every field, by message and field.
fn comments(source: &Source) -> HashMap<String, String> {
    let mut found = HashMap::new();
    for file in &source.commented.file {
        for location in &file.source_code_info.as_ref().unwrap().location {
            // A message of the file (4) and a field of it (2), by their places.
            if let [4, message, 2, field] = location.path[..] {
                let message = &file.message_type[usize::try_from(message).unwrap()];
                let field = &message.field[usize::try_from(field).unwrap()];
                let text = location.leading_comments().split_whitespace().collect::<Vec<_>>().join(" ");
                found.insert(format!("{}.{}", message.name(), field.name()), text);
            }
        }
    }
    found
}

/// `1 000` as it is written in comments.
fn spaced(value: f64) -> String {
    let digits = format!("{:.0}", value.abs());
    let mut out = if value < 0.0 { "-".to_owned() } else { String::new() };
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (digits.len() - index).is_multiple_of(3) {
            out.push(' ');
        }
        out.push(digit);
    }
    out
}

#[test]
fn contract_comments_tell_the_range_and_what_stands_in() {
    let source = compile();
    let comments = comments(&source);
    let mut told = 0;
    for field in messages(&source.pool).flat_map(|message| message.fields().collect::<Vec<_>>()) {
        let (name, rule) = (name(&field), rule_of(&field));
        let comment = comments.get(&name).unwrap_or_else(|| panic!("{name} has no comment"));
        if let (Some(least), Some(most)) = (rule.least, rule.most) {
            let range = format!("ange {} to {}", spaced(least), spaced(most));
            let range_of = range.replacen("ange ", "ange: ", 1);
            assert!(
                comment.contains(&range) || comment.contains(&range_of),
                "{name}: r{range}, but: {comment}"
            );
            told += 1;
        }
        if name.ends_with("_mm") {
            assert!(comment.contains("Unit mm"), "{name} names its unit: {comment}");
            assert_eq!(rule.decimals.max(3), rule.decimals, "{name} is written to the micrometre");
        }
    }
    assert!(told > 20, "only {told} ranges were compared");
}

/// The tables that the program looks things up in, against the descriptor they are made
/// from; the figures here are written by hand from the proto.
#[test]
fn contract_tables_are_looked_up() {
    let find = |message: &str, field: &str| {
        let message = table::message(message).unwrap_or_else(|| panic!("{message}"));
        message.field(field).unwrap_or_else(|| panic!("{field}"))
    };
    let gap = find("pennantry.v1.Enquiry", "gapMm");
    assert_eq!((gap.name, gap.number, gap.optional, gap.oneof), ("gap_mm", 7, true, None));
    assert_eq!((gap.least, gap.most, gap.decimals), (Some(-1000.0), Some(2000.0), 3));
    assert_eq!(gap.stands_in, "design, or what comes out");
    let hang = find("pennantry.v1.Enquiry", "hang");
    assert!(matches!(hang.kind, table::Kind::Message(message) if message.name == "pennantry.v1.Hang"));
    assert_eq!((hang.oneof, hang.optional), (Some("length"), false));
    let lengths: Vec<&str> = table::ENQUIRY.oneof("length").map(|field| field.json_name).collect();
    assert_eq!(lengths, ["flaggedMm", "overallMm", "bindingMm", "hang"]);
    assert!(find("pennantry.v1.Hang", "spanMm").required);
    assert!(find("pennantry.v1.ColourOrder", "fabricCodes").repeated);
    let shop_alone = find("pennantry.v1.Price", "cost");
    assert_eq!(shop_alone.audience, table::Audience::Shop);
    let shape = table::enumeration("pennantry.v1.Shape").unwrap();
    assert_eq!(shape.named("SHAPE_BLUNT").unwrap().number, 2);
    assert_eq!(shape.numbered(0).unwrap().name, "SHAPE_UNSPECIFIED");
    assert!(shape.numbered(99).is_none() && shape.named("").is_none());
    let method = table::method("pennantry.v1.QuoteService", "CalculateQuote").unwrap();
    assert_eq!(method.path(), "/pennantry.v1.QuoteService/CalculateQuote");
    assert_eq!(method.request.name, "pennantry.v1.CalculateQuoteRequest");
    let http =
        table::Http { verb: "POST", path: "/v1/quotes", body: Some("enquiry"), response_body: Some("quote") };
    assert_eq!(method.http, Some(http));
    assert!(table::method("pennantry.v1.QuoteService", "CalculateQuotes").unwrap().http.is_none());
    assert!(table::message("google.api.HttpRule").is_none(), "only what is sent");
}
