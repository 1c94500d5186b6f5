use pennantry_contract::v1::{self, Quantity, quantity};
use proptest::prelude::*;

use super::*;
use crate::length::{from_wire, to_wire};
use crate::typed::money::Currency;
use pennantry_measure::Length;

fn pounds() -> Currency {
    Currency { code: "GBP".to_owned(), minor_digits: 2 }
}

/// Text as a shop keeps it: whatever can be seen, no spaces at its ends.
fn text(most: usize) -> impl Strategy<Value = String> {
    "[ -~À-ž漢½|;,\"\\\\]{0,30}"
        .prop_map(move |text| text.trim().chars().take(most).collect::<String>().trim().to_owned())
}

fn length(most_um: i64) -> impl Strategy<Value = f64> {
    (1..most_um).prop_map(|um| to_wire(Length::from_um(um)))
}

fn quantity() -> impl Strategy<Value = Quantity> {
    prop_oneof![
        length(200_000_000).prop_map(quantity::Amount::LengthMm),
        (1..100_000_u32).prop_map(quantity::Amount::Count),
    ]
    .prop_map(|amount| Quantity { amount: Some(amount) })
}

fn from_wire_of(amount: quantity::Amount) -> i64 {
    match amount {
        quantity::Amount::LengthMm(mm) => from_wire(mm).expect("a length").um(),
        quantity::Amount::Count(_) => 0,
    }
}

prop_compose! {
    fn piece()(
        label in "[A-Za-z0-9.-]{1,12}",
        code in "[a-z][a-z-]{0,20}",
        kind in 1..=4_i32,
        left in quantity(),
        width in prop_oneof![Just(0.0), (20_000..5_000_000_i64).prop_map(|um| to_wire(Length::from_um(um)))],
        words in prop::collection::vec(text(60), 4),
        certificates in prop::collection::vec(text(80).prop_filter("not empty", |text| !text.is_empty()), 0..4),
        share in prop::collection::vec(1..999_i64, 0..4),
        cost in prop::option::of(0..10_000_000_i64),
    ) -> v1::StockPiece {
        let mut words = words.into_iter();
        let mut next = || words.next().expect("four");
        // flaws anywhere on the piece
        let flaws = match left.amount.map(|amount| (amount, from_wire_of(amount))) {
            Some((quantity::Amount::LengthMm(_), um)) => share
                .iter()
                .map(|share| v1::Flaw {
                    from_mm: to_wire(Length::from_um(um * share / 1_000 - um / 1_000)),
                    to_mm: to_wire(Length::from_um((um * share / 1_000).max(1))),
                })
                .filter(|flaw| flaw.from_mm < flaw.to_mm)
                .collect(),
            _ => Vec::new(),
        };
        v1::StockPiece {
            piece_id: label,
            code,
            kind,
            lot: next(),
            width_mm: width,
            received: Some(left),
            left: Some(left),
            flaws,
            location: next(),
            cost: cost.map(|minor_units| v1::Money { currency_code: "GBP".to_owned(), minor_units }),
            supplier: next(),
            supplier_reference: next(),
            certificates,
            ..v1::StockPiece::default()
        }
    }
}

/// A piece on the shelf as one that comes.
fn coming(piece: &v1::StockPiece) -> v1::NewPiece {
    v1::NewPiece {
        piece_id: piece.piece_id.clone(),
        code: piece.code.clone(),
        kind: piece.kind,
        quantity: piece.left,
        width_mm: (piece.width_mm > 0.0).then_some(piece.width_mm),
        lot: piece.lot.clone(),
        flaws: piece.flaws.clone(),
        location: piece.location.clone(),
        cost: piece.cost.clone(),
        supplier: piece.supplier.clone(),
        supplier_reference: piece.supplier_reference.clone(),
        certificates: piece.certificates.clone(),
    }
}

proptest! {
    #[test]
    fn what_is_written_is_read_back_to_the_micrometre_and_the_penny(pieces in prop::collection::vec(piece(), 1..40)) {
        let mut pieces = pieces;
        for (place, piece) in pieces.iter_mut().enumerate() {
            piece.piece_id = format!("{}-{place}", piece.piece_id);
        }
        let written = write(&pieces, Some(&pounds())).expect("written");
        prop_assert_eq!(written.without_cost, 0);
        // as it is, and as a spreadsheet would save it again
        for file in [written.text.clone(), format!("\u{feff}{}", written.text.replace('\n', "\r\n"))] {
            let rows = read(file.as_bytes());
            prop_assert!(rows.is_ok(), "{:?}\n{}", rows, file);
            let back: Vec<v1::NewPiece> = rows
                .unwrap()
                .into_iter()
                .map(|row| v1::NewPiece { cost: row.cost.map(|cost| cost.to_wire(&pounds()).unwrap()), ..row.piece })
                .collect();
            let expected: Vec<v1::NewPiece> = pieces.iter().map(coming).collect();
            prop_assert_eq!(back, expected);
        }
    }

    #[test]
    fn no_bytes_panic(bytes in prop::collection::vec(any::<u8>(), 0..300), text in "[a-z,;\n\r\t\"\u{feff} 0-9.m|½]{0,200}") {
        let _ = read(&bytes);
        let _ = read(text.as_bytes());
        let _ = read(format!("code,length,flaws,cost,certificates\n{text}").as_bytes());
    }
}

/// A cost is that of the whole piece: 4 m of 10 m did not cost as much.
#[test]
fn the_cost_of_a_piece_that_was_begun_is_left_out_and_said() {
    let amount = |mm| Some(Quantity { amount: Some(quantity::Amount::LengthMm(mm)) });
    let begun = v1::StockPiece {
        code: "kelp".to_owned(),
        received: amount(10_000.0),
        left: amount(4_000.0),
        cost: Some(v1::Money { currency_code: "GBP".to_owned(), minor_units: 8_640 }),
        ..v1::StockPiece::default()
    };
    let whole = v1::StockPiece { left: amount(10_000.0), ..begun.clone() };
    let written = write(&[begun, whole], Some(&pounds())).unwrap();
    assert_eq!(written.without_cost, 1);
    assert_eq!(
        written.text,
        "label,code,kind,length,count,width,lot,place,flaws,cost,supplier,reference,certificates\n\
         ,kelp,,4000 mm,,,,,,,,,\n\
         ,kelp,,10000 mm,,,,,,86.40,,,\n"
    );
}
