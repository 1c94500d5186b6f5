//! The columns of a stock-take.

use pennantry_contract::table::{Kind, NEW_PIECE, PIECE_KIND};

use crate::words;

/// A column.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Column {
    /// Label of the piece.
    Label,
    /// Code of its material.
    Code,
    /// What kind of piece it is.
    Kind,
    /// How much it holds, of what is measured.
    Length,
    /// How much it holds, of what is counted.
    Count,
    /// Usable width.
    Width,
    /// Dye lot.
    Lot,
    /// Where it lies.
    Place,
    /// Its flaws.
    Flaws,
    /// What it cost.
    Cost,
    /// Who it came from.
    Supplier,
    /// How the supplier calls it.
    Reference,
    /// Numbers of its certificates.
    Certificates,
}

/// All of them, in the order in which they are written; read they are in any order.
pub const COLUMNS: [Column; 13] = [
    Column::Label,
    Column::Code,
    Column::Kind,
    Column::Length,
    Column::Count,
    Column::Width,
    Column::Lot,
    Column::Place,
    Column::Flaws,
    Column::Cost,
    Column::Supplier,
    Column::Reference,
    Column::Certificates,
];

/// Units that may stand behind the header of a length.
pub const UNITS: [&str; 6] = ["mm", "cm", "m", "in", "ft", "yd"];

impl Column {
    /// Its header.
    pub const fn name(self) -> &'static str {
        match self {
            Column::Label => "label",
            Column::Code => "code",
            Column::Kind => "kind",
            Column::Length => "length",
            Column::Count => "count",
            Column::Width => "width",
            Column::Lot => "lot",
            Column::Place => "place",
            Column::Flaws => "flaws",
            Column::Cost => "cost",
            Column::Supplier => "supplier",
            Column::Reference => "reference",
            Column::Certificates => "certificates",
        }
    }

    /// The field of a new piece that it fills, in JSON.
    pub const fn field(self) -> &'static str {
        match self {
            Column::Label => "pieceId",
            Column::Code => "code",
            Column::Kind => "kind",
            Column::Length | Column::Count => "quantity",
            Column::Width => "widthMm",
            Column::Lot => "lot",
            Column::Place => "location",
            Column::Flaws => "flaws",
            Column::Cost => "cost",
            Column::Supplier => "supplier",
            Column::Reference => "supplierReference",
            Column::Certificates => "certificates",
        }
    }

    /// What it says, and an example.
    fn about(self) -> (&'static str, &'static str) {
        match self {
            Column::Label => ("label of the piece; empty gives it a new one", "L-107"),
            Column::Code => ("code of the fabric, binding or trimming; must be there", "kelp"),
            Column::Kind => ("what kind of piece; empty is what is usual for the material", "remnant"),
            Column::Length => ("how much it holds, of what is measured", "12.4 m"),
            Column::Count => ("how many, of what is counted", "250"),
            Column::Width => ("usable width of cloth; empty is that of the fabric", "112 cm"),
            Column::Lot => ("dye lot; empty is not known", "0417"),
            Column::Place => ("where it lies", "rack B, second shelf"),
            Column::Flaws => ("flaws from the free end, with | between them", "1.2 m..1.25 m | 3 m..3.1 m"),
            Column::Cost => ("what it cost in all, without tax that comes back", "86.40"),
            Column::Supplier => ("who it came from", "Hollin Mill"),
            Column::Reference => ("how the supplier calls it", "HM 2231"),
            Column::Certificates => ("numbers of certificates, with | between them", "T-1182 | T-1183"),
        }
    }

    /// Characters of a text at most, by the contract; of a list it says how many entries.
    pub fn most_characters(self) -> Option<usize> {
        let field = NEW_PIECE
            .field(self.field())
            .filter(|field| matches!(field.kind, Kind::String) && !field.repeated)?;
        field.most.and_then(|most| format!("{most:.0}").parse().ok())
    }
}

/// What `receive --columns` says.
pub fn documented() -> String {
    let line = |column: Column| {
        let (about, example) = column.about();
        format!("  {:<14}{about}, such as {example}\n", column.name())
    };
    let lines: String = COLUMNS.into_iter().map(line).collect();
    format!(
        "A stock-take is a file of comma-separated values: a line of headers, then a line a piece.\n\
         These are the columns, in any order; all but code, and one of length and count, can be left out.\n\n\
         {lines}\n\
         Lengths have their unit (12.4 m, 7 1/2 in), or the header names it: \"length m\", \"width cm\".\n\
         Kinds are {}. Each line has a length or a count, never both.\n\
         Cells may be parted by commas, semicolons or tabs, decimals by a point or a comma; UTF-8.\n\
         A \\ before a | in a certificate makes the | a part of its number.\n\
         Up to {} pieces come in one call, all of them or none; a longer file has to be parted by hand.\n\
         \"bolts --csv\" writes such a file.\n",
        words::all(&PIECE_KIND).join(", "),
        super::MOST_PIECES,
    )
}
