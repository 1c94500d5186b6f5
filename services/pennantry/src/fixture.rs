//! Answers made by hand, for tests.

use pennantry_contract::v1::{self, ClothRole, Shape};

/// A layout of so many pennants of one fabric, in whole millimetres.
pub fn strung(count: u32, width: f64, drop: f64, gap: f64, tail: f64) -> v1::Quote {
    let flagged = width * f64::from(count) + gap * f64::from(count - 1);
    let mark = |place: u32| v1::Mark {
        left_mm: (width + gap) * f64::from(place) - flagged / 2.0,
        fabric_code: "kelp".to_owned(),
        ..v1::Mark::default()
    };
    let marks: Vec<v1::Mark> = if count <= 400 { (0..count).map(mark).collect() } else { Vec::new() };
    let positions = v1::Positions {
        first: Some(mark(0)),
        last: Some(mark(count - 1)),
        marks,
        ..v1::Positions::default()
    };
    let layout = v1::Layout {
        pennant_count: count,
        gap_mm: gap,
        flagged_mm: flagged,
        overall_mm: flagged + 2.0 * tail,
        tail_mm: tail,
        top_width_mm: width,
        top_drop_mm: drop,
        positions: Some(positions),
        ..v1::Layout::default()
    };
    let pennant = v1::Pennant { shape: Some(Shape::Triangle.into()), ..v1::Pennant::default() };
    v1::Quote {
        understood: Some(v1::Enquiry { pennant: Some(pennant), ..v1::Enquiry::default() }),
        layout: Some(layout),
        fabrics: vec![v1::FabricUse {
            fabric_code: "kelp".to_owned(),
            role: ClothRole::Pennants.into(),
            ..v1::FabricUse::default()
        }],
        ..v1::Quote::default()
    }
}

/// The pennant that was understood.
pub fn pennant(quote: &mut v1::Quote) -> &mut v1::Pennant {
    quote.understood.as_mut().and_then(|asked| asked.pennant.as_mut()).expect("strung has one")
}

/// The marks of the layout.
pub fn marks(quote: &mut v1::Quote) -> &mut Vec<v1::Mark> {
    let layout = quote.layout.as_mut().expect("strung has one");
    &mut layout.positions.as_mut().expect("strung has them").marks
}
