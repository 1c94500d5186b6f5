use pennantry_contract::v1::{HangLayout, Hook, Shape, SizeAt};
use proptest::prelude::*;

use super::frame::{MOST, Strung, choose};
use super::*;
use crate::fixture::{marks, pennant, strung};

fn drawn(quote: &v1::Quote) -> Drawing {
    draw(quote, &Keys::of(quote)).expect("it can be drawn")
}

/// Columns at which runs of a letter begin and end in a line.
fn runs(line: &str, of: char) -> Vec<(usize, usize)> {
    let cells: Vec<char> = line.chars().collect();
    let mut found: Vec<(usize, usize)> = Vec::new();
    for (at, cell) in cells.iter().enumerate().filter(|(_, cell)| **cell == of) {
        match found.last_mut() {
            Some((_, end)) if *end == at => *end = at + 1,
            _ => found.push((at, at + 1)),
        }
        assert_eq!(*cell, of);
    }
    found
}

/// Three pennants of 160 by 200 mm, gaps of 40, tails of 100: flagged 560, overall 760. Eight
/// columns of 160 are 20 mm each, the gap two of them; all of it 38, which fits. Edges at 100,
/// 300 and 500 mm are columns 5, 15 and 25; the drop is 200 / 40 = 5 rows. The middles of the
/// rows are 20, 60, 100, 140 and 180 mm deep, where a side is 8, 24, 40, 56 and 72 mm in: 0, 1, 2,
/// 3 and 4 columns to the nearest, of 4 to the middle.
#[test]
fn a_short_string_is_drawn_whole() {
    let drawing = drawn(&strung(3, 160.0, 200.0, 40.0, 100.0));
    assert_eq!(drawing.frame.scale_um, 20_000);
    assert!(drawing.frame.breaks.is_empty() && !drawing.unlisted);
    let expected = [
        "├────────────────────────────────────┤",
        "     aaaaaaaa  aaaaaaaa  aaaaaaaa",
        "      aaaaaa    aaaaaa    aaaaaa",
        "       aaaa      aaaa      aaaa",
        "        aa        aa        aa",
        "         a         a         a",
        "         1         2         3",
    ];
    assert_eq!(drawing.lines, expected);
    assert_eq!(runs(&drawing.lines[1], 'a'), [(5, 13), (15, 23), (25, 33)]);
    assert_eq!(drawing.lines[0].chars().count(), 38);
}

/// The story: 29 of 190 by 210 mm in 6 200, tails of 300. 190 / 8 is 23.75, and a gap of 24 whole
/// millimetres has its column at 24: 283 columns, too many. Tails take 300 / 24 + 1 = 13 columns
/// each, so 96 - 2 - 26 = 68 are left, less 11 for the words of the break; half of 57 is 28
/// columns of 24 mm, 672 mm, in which 3 pitches of 214.6 fit: 23 are left out. The left part ends
/// a gap after the third pennant, at 300 + 3 x 214.643 = 943.9 mm: 39 columns, then 11 of words.
#[test]
fn a_long_string_is_broken_in_the_middle_and_says_so() {
    let gap = 690.0 / 28.0;
    let drawing = drawn(&strung(29, 190.0, 210.0, gap, 300.0));
    assert_eq!(drawing.frame.scale_um, 24_000);
    assert_eq!(drawing.frame.sides, (3, 3));
    let words: Vec<(usize, &str)> =
        drawing.frame.breaks.iter().map(|b| (b.column, b.words.as_str())).collect();
    assert_eq!(words, [(39, "~ 23 more ~")]);
    assert!(drawing.lines[0].contains("─~ 23 more ~─"));
    // left edges at 300, 514.643 and 729.286 mm: 12.5, 21.4 and 30.4 columns; right edges at 490,
    // 704.643 and 919.286: 20.4, 29.4 and 38.3
    assert_eq!(runs(&drawing.lines[1], 'a')[..3], [(13, 20), (21, 29), (30, 38)]);
    let last = drawing.lines.last().unwrap();
    assert_eq!(last.split_whitespace().collect::<Vec<_>>(), ["1", "2", "3", "27", "28", "29"]);
}

/// Tails of 3 000 at 20 mm a column would be 150 columns each: four at each side of a break stay.
#[test]
fn a_long_tail_is_broken_too() {
    let drawing = drawn(&strung(3, 160.0, 200.0, 40.0, 3_000.0));
    let frame = &drawing.frame;
    assert_eq!((frame.scale_um, frame.sides), (20_000, (3, 0)));
    let words: Vec<&str> = frame.breaks.iter().map(|b| b.words.as_str()).collect();
    assert_eq!(words, ["~ tail ~", "~ tail ~"]);
    // 4 of the tail, 8 words, 4 of the tail, then the first pennant
    assert_eq!(runs(&drawing.lines[1], 'a')[0], (16, 24));
    assert_eq!(frame.columns(), 16 + 28 + 16);
}

/// 40 pennants of 100 mm with gaps of 50 in 5 950, tails of 100, overall 6 150 mm: 13 mm a column
/// are too many columns, 6 150 / 96 = 64.06, up to 65 mm a column, gives a pennant less than two:
/// broken. With pennants of 400 the same string has 4 columns or more for each at whole length.
#[test]
fn a_string_is_drawn_whole_where_its_pennants_are_seen() {
    let narrow = drawn(&strung(40, 100.0, 150.0, 50.0, 100.0));
    assert_eq!(narrow.frame.breaks.len(), 1);
    let wide = drawn(&strung(12, 400.0, 500.0, 100.0, 50.0));
    // 12 x 400 + 11 x 100 + 2 x 50 = 6 000; 6 000 / 96 = 62.5, up to 63: 400 is 6.3 columns
    assert_eq!((wide.frame.scale_um, wide.frame.breaks.len()), (63_000, 0));
    assert_eq!(runs(&wide.lines[1], 'a').len(), 12);
}

#[test]
fn every_shape_is_told_from_the_others() {
    let mut seen = Vec::new();
    for (shape, set) in [
        (Shape::Triangle, None),
        (Shape::Blunt, Some(60.0)),
        (Shape::Swallowtail, Some(80.0)),
        (Shape::Shield, Some(120.0)),
        (Shape::Scallop, Some(80.0)),
        (Shape::Rectangle, None),
    ] {
        let mut quote = strung(2, 160.0, 200.0, 40.0, 100.0);
        let asked = pennant(&mut quote);
        asked.set_shape(shape);
        (asked.foot_mm, asked.notch_mm, asked.shoulder_mm, asked.rise_mm) = (set, set, set, set);
        seen.push(drawn(&quote).lines.join("\n"));
    }
    // by hand at 20 mm a column, rows at 20, 60, 100, 140, 180 mm
    let first = |drawing: &String| -> Vec<String> {
        drawing
            .lines()
            .skip(1)
            .take(5)
            .map(|line| line.chars().skip(5).take(8).collect::<String>().trim_end().to_owned())
            .collect()
    };
    // a foot of 60 leans in by 50: 5, 15, 25, 35, 45 mm: 0, 1, 1, 2, 2 columns
    assert_eq!(first(&seen[1]), ["aaaaaaaa", " aaaaaa", " aaaaaa", "  aaaa", "  aaaa"]);
    // a notch of 80 begins at 120: half of it is 20 of 80 at 140, 60 at 180: 1 and 3 columns
    assert_eq!(first(&seen[2]), ["aaaaaaaa", "aaaaaaaa", "aaaaaaaa", "aaa  aaa", "a      a"]);
    // straight for 120, then 80 to the point: 20 and 60 mm in: 1 and 3 columns
    assert_eq!(first(&seen[3]), ["aaaaaaaa", "aaaaaaaa", "aaaaaaaa", " aaaaaa", "   aa"]);
    // half a circle of 80: 20 below its chord 77.46 wide a side, 60 below 52.92: 3 and 27 mm in
    assert_eq!(first(&seen[4]), ["aaaaaaaa", "aaaaaaaa", "aaaaaaaa", "aaaaaaaa", " aaaaaa"]);
    assert_eq!(first(&seen[5]), ["aaaaaaaa"; 5]);
    let count = seen.len();
    seen.sort();
    seen.dedup();
    assert_eq!(seen.len(), count);
}

/// Straight sides told from the binding's edge begin in it: 20 mm more of them.
#[test]
fn straight_sides_from_the_binding_edge_are_longer() {
    let mut quote = strung(1, 160.0, 200.0, 0.0, 100.0);
    let asked = pennant(&mut quote);
    asked.set_shape(Shape::Shield);
    asked.set_size_at(SizeAt::BindingEdge);
    asked.shoulder_mm = Some(90.0);
    quote.binding = Some(v1::BindingUse { insertion_mm: 50.0, ..v1::BindingUse::default() });
    // 140 of 200: the row at 140 is straight, that at 180 is 40 / 60 of 80 in: 53 mm, 3 columns
    let lines = drawn(&quote).lines;
    assert_eq!((lines[4].trim(), lines[5].trim()), ("aaaaaaaa", "aa"));
}

#[test]
fn letters_stand_free_on_their_pennants_and_fabrics_have_keys() {
    let mut quote = strung(3, 160.0, 200.0, 40.0, 100.0);
    for (mark, (code, letter)) in
        marks(&mut quote).iter_mut().zip([("kelp", "H"), ("rope", ""), ("kelp", "字")])
    {
        (mark.fabric_code, mark.letter) = (code.to_owned(), letter.to_owned());
    }
    let drawing = drawn(&quote);
    assert_eq!(drawing.lines[1], "     aaaaaaaa  bbbbbbbb  aaaaaaaa");
    // the second row is filled from 6 to 11: H at 5 + (8 - 1) / 2 = 8, free at 7 and 9; two columns
    // wide, the other begins at 25 + (8 - 2) / 2 = 28 and is free at 27 and 30
    assert_eq!(drawing.lines[2], "      a H aa    bbbbbb    a 字 a");
    assert_eq!(Keys::of(&quote).told(), ["a kelp", "b rope"]);
}

#[test]
fn more_fabrics_than_letters_share_a_star() {
    let mut quote = strung(30, 160.0, 200.0, 40.0, 100.0);
    for (place, mark) in marks(&mut quote).iter_mut().enumerate() {
        mark.fabric_code = format!("cloth-{place}");
    }
    let keys = Keys::of(&quote);
    assert_eq!((keys.letter("cloth-25"), keys.letter("cloth-26"), keys.letter("cloth-29")), ('z', '*', '*'));
    assert_eq!(keys.letter("never-seen"), '.');
}

/// Beyond 400 the answer lists the first and the last mark only: the others are not guessed.
#[test]
fn a_fabric_that_is_not_listed_is_not_invented() {
    let drawing = drawn(&strung(1_000, 160.0, 200.0, 40.0, 100.0));
    assert!(drawing.unlisted);
    let line = &drawing.lines[1];
    assert_eq!(runs(line, 'a').len(), 2, "{line}");
    let (left, right) = drawing.frame.sides;
    assert_eq!(i64::try_from(runs(line, '.').len()).unwrap(), left + right - 2, "{line}");
    assert!(drawing.lines[0].contains(&format!("~ {} more ~", 1_000 - left - right)));
}

/// Hooks in the middle and 200 mm to its right: 380 and 580 mm from the left end, columns 19 and 29.
#[test]
fn hooks_are_drawn_on_the_binding() {
    let mut quote = strung(3, 160.0, 200.0, 40.0, 100.0);
    let hook = |at_mm| Hook { at_mm, ..Hook::default() };
    let hang = HangLayout { hooks: vec![hook(0.0), hook(200.0)], ..HangLayout::default() };
    quote.layout.as_mut().unwrap().hang = Some(hang);
    assert_eq!(runs(&drawn(&quote).lines[0], 'o'), [(19, 20), (29, 30)]);
}

/// Pennants of 160 that overlap by 40: edges at 100, 220 and 340 mm, columns 5, 11 and 17; a later
/// one covers the one before.
#[test]
fn overlapping_pennants_cover_each_other() {
    let mut quote = strung(3, 160.0, 200.0, -40.0, 100.0);
    for (mark, code) in marks(&mut quote).iter_mut().zip(["a", "b", "c"]) {
        mark.fabric_code = code.to_owned();
    }
    assert_eq!(drawn(&quote).lines[1], "     aaaaaabbbbbbcccccccc");
}

#[test]
fn what_cannot_be_drawn_is_not() {
    let keys = Keys::default();
    let good = strung(3, 160.0, 200.0, 40.0, 100.0);
    assert!(draw(&good, &keys).is_some());
    let spoiled: [fn(&mut v1::Quote); 6] = [
        |quote| quote.layout = None,
        |quote| quote.understood = None,
        |quote| pennant(quote).shape = None,
        |quote| pennant(quote).set_shape(Shape::Blunt),
        |quote| quote.layout.as_mut().unwrap().top_width_mm = f64::NAN,
        |quote| quote.layout.as_mut().unwrap().overall_mm = 1.0,
    ];
    for (place, spoil) in spoiled.iter().enumerate() {
        let mut quote = good.clone();
        spoil(&mut quote);
        assert_eq!(draw(&quote, &keys), None, "{place}");
    }
}

proptest! {
    /// Within each part every edge is at its column to the nearest; parts and breaks stand side
    /// by side; what is not drawn is what the break says; all of it fits.
    #[test]
    fn every_drawing_is_to_scale_and_fits(
        count in 1_i64..3_000, width in 20_000_i64..1_000_000, drop in 20_000_i64..1_500_000,
        gap in -10_000_i64..2_000_000, tail in 0_i64..10_000_000,
    ) {
        let flagged = count * width + (count - 1) * gap;
        let string = Strung { count, width, drop, flagged, tail, overall: flagged + 2 * tail };
        let frame = choose(&string).expect("a sound string");
        prop_assert!(frame.columns() <= usize::try_from(MOST).unwrap(), "{} columns", frame.columns());
        let scale = frame.scale_um;
        let mut drawn = 0;
        for place in frame.drawn(count) {
            drawn += 1;
            for (edge, column) in [
                (string.left_of(place), frame.column(string.left_of(place))),
                (string.left_of(place) + width, frame.column_end(string.left_of(place) + width)),
            ] {
                let column = column.expect("a drawn edge lies in a part");
                let part = frame.windows.iter().find(|w| w.from <= edge && edge <= w.to && w.column <= column).unwrap();
                let off = (i64::try_from(column - part.column).unwrap() * scale - (edge - part.from)).abs();
                prop_assert!(2 * off <= scale, "{off} of {scale}");
            }
        }
        let said: i64 = frame.breaks.iter().filter_map(|b| b.words.split_whitespace().nth(1)?.parse::<i64>().ok()).sum();
        prop_assert_eq!(drawn + said, count);
        let mut begins: Vec<(usize, usize)> =
            frame.windows.iter().map(|w| (w.column, w.end_column(scale))).collect();
        begins.extend(frame.breaks.iter().map(|b| (b.column, b.column + b.words.len())));
        begins.sort_unstable();
        prop_assert!(begins.windows(2).all(|two| two[0].1 == two[1].0), "{begins:?}");
        prop_assert_eq!(begins[0].0, 0);
    }
}
