use pennantry_contract::v1::{self, Quantity, quantity};

use super::*;
use crate::typed::money::Currency;

fn amount(row: &Row) -> quantity::Amount {
    row.piece.quantity.and_then(|quantity| quantity.amount).expect("an amount")
}

fn mm(row: &Row) -> f64 {
    match amount(row) {
        quantity::Amount::LengthMm(mm) => mm,
        quantity::Amount::Count(count) => panic!("{count} things"),
    }
}

#[test]
fn every_column_fills_its_field() {
    let file = "Reference,certificates,label, Supplier ,cost,flaws,place,lot,width,count,length,kind,code\n\
        HM 2231,T-1 | T\\|2,L-107,Hollin Mill,86.4,1.2 m..1.25 m | 3 m..305 cm,\"rack B, second\",0417,112 cm,,12.4 m,Remnant,kelp\n\
        ,,,,,,,,,250,,,star\n";
    let rows = rows(file);
    let piece = v1::NewPiece {
        piece_id: "L-107".to_owned(),
        code: "kelp".to_owned(),
        kind: v1::PieceKind::Remnant.into(),
        quantity: Some(Quantity { amount: Some(quantity::Amount::LengthMm(12_400.0)) }),
        width_mm: Some(1_120.0),
        lot: "0417".to_owned(),
        flaws: vec![
            v1::Flaw { from_mm: 1_200.0, to_mm: 1_250.0 },
            v1::Flaw { from_mm: 3_000.0, to_mm: 3_050.0 },
        ],
        location: "rack B, second".to_owned(),
        cost: None,
        supplier: "Hollin Mill".to_owned(),
        supplier_reference: "HM 2231".to_owned(),
        certificates: vec!["T-1".to_owned(), "T|2".to_owned()],
    };
    assert_eq!(rows[0].piece, piece);
    let pounds = Currency { code: "GBP".to_owned(), minor_digits: 2 };
    let cost = rows[0].cost.as_ref().unwrap().to_wire(&pounds).unwrap();
    assert_eq!((cost.minor_units, cost.currency_code.as_str()), (8_640, "GBP"));
    let star = v1::NewPiece {
        code: "star".to_owned(),
        quantity: Some(Quantity { amount: Some(quantity::Amount::Count(250)) }),
        ..v1::NewPiece::default()
    };
    assert_eq!((&rows[1].piece, rows[1].cost.is_none(), rows[1].line), (&star, true, 3));
}

/// The same three pieces, however the file is written.
#[test]
fn marks_line_ends_separators_and_decimals_are_read_rightly() {
    let plain = "code,length\nkelp,2.5 m\ntern,190.5 mm\nkelp,3 m\n";
    let expected = [2_500.0, 190.5, 3_000.0];
    let bom = format!("\u{feff}{plain}");
    let crlf = plain.replace('\n', "\r\n");
    let cr = plain.replace('\n', "\r");
    for file in [
        plain,
        &bom,
        &crlf,
        &cr,
        plain.trim_end(),
        "code;length\nkelp;2,5 m\ntern;7 1/2 in\nkelp;3 m\n",
        "code;length\r\nkelp;2.5 m\r\ntern;190,5 mm\r\nkelp;3 m\r\n",
        "code\tlength\nkelp\t2,5 m\ntern\t7½\"\nkelp\t3 m\n",
        "code,length\nkelp,\"2,5 m\"\n\"tern\",\"7 1/2\"\"\"\nkelp,300 cm\n",
        // what a header says of its cells, unless a cell says it itself
        "code;length m\nkelp;2,5\ntern;0,1905\nkelp;3\n",
        "code,length (cm)\nkelp,250\ntern,7 1/2 in\nkelp,\"300,0\"\n",
        "code,length in\nkelp,2.5 m\ntern,7 1/2\nkelp,118 1/10\n".replace("118 1/10", "3 m").as_str(),
        // lines without a piece, as spreadsheets leave them
        "\n\ncode,length\n\nkelp,2.5 m\n,\n , \ntern,190.5 mm\nkelp,3 m\n,\n\n",
    ] {
        let told: Vec<f64> = rows(file).iter().map(mm).collect();
        assert_eq!(told, expected, "{file:?}");
    }
}

/// By hand: the records begin on the lines that an editor shows.
#[test]
fn lines_are_counted_as_an_editor_does() {
    let file = "\r\ncode,length,place\r\n\r\n\r\nkelp,1 m,\"b\"\r\n,,\r\nkelp,1 m,c\r\n";
    let lines: Vec<usize> = rows(file).iter().map(|row| row.line).collect();
    assert_eq!(lines, [5, 7]);
    let told = faults(b"code,length\n\n\nkelp,1 m\nkelp,\"1\nm\"\nkelp,2\n");
    assert!(told[0].starts_with("line 5, length: "), "{told:?}");
    assert!(told[1].starts_with("line 7, length: "), "{told:?}");
}

/// A point in a file that is not parted by commas parts decimals only where it cannot part
/// thousands.
#[test]
fn a_point_that_cannot_part_thousands_is_read() {
    for (cell, expected) in
        [("0.125 m", 125.0), ("1.25 m", 1_250.0), ("1.2500 m", 1_250.0), ("1000.5 mm", 1_000.5)]
    {
        let told: Vec<f64> = rows(&format!("code;length\nkelp;{cell}\n")).iter().map(mm).collect();
        assert_eq!(told, [expected], "{cell}");
    }
    // where cells are parted by commas it always does
    let told: Vec<f64> = rows("code,length\nkelp,2.125 m\n").iter().map(mm).collect();
    assert_eq!(told, [2_125.0]);
}

#[test]
fn what_is_documented_is_read() {
    let told = documented();
    for column in COLUMNS {
        let name = column.name();
        let line = told.lines().find(|line| line.trim_start().starts_with(name)).expect(name);
        let example = line.split_once("such as ").expect(name).1;
        let (header, cells) = match column {
            Column::Code => ("length".to_owned(), "1 m".to_owned()),
            Column::Length | Column::Count => ("code".to_owned(), "kelp".to_owned()),
            _ => ("code,length".to_owned(), "kelp,12 m".to_owned()),
        };
        rows(&format!("{header},{name}\n{cells},\"{example}\"\n"));
    }
    for word in ["length m", "width cm", "bolt, remnant, roll, box", "5000"] {
        assert!(told.contains(word), "{word}: {told}");
    }
}

#[test]
fn five_thousand_pieces_are_read() {
    let lines: Vec<String> =
        (0..MOST_PIECES).map(|place| format!("kelp,{} mm,L-{place}\n", place + 1)).collect();
    let file = format!("code,length,label\n{}", lines.concat());
    let all = rows(&file);
    assert_eq!((all.len(), all[4_999].line, mm(&all[4_999])), (5_000, 5_001, 5_000.0));
    let told = faults((file + "kelp,1 m,L-one-too-many\n").as_bytes());
    assert_eq!(told.len(), 1);
    assert!(told[0].starts_with("5001 pieces are too many") && told[0].contains("at most 5000"), "{told:?}");
}
