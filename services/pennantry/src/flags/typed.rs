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
