//! Checking, at the fixture shop.

use super::*;
use crate::fixture::{mm, shop};
use crate::shop::{Construction, Shape};

fn refused(asked: &Asked) -> Vec<(Field, Reason)> {
    match check(&shop(), asked, &[]) {
        Ok(order) => panic!("not refused: {order:?}"),
        Err(found) => found.into_iter().map(|v| (v.field, v.reason)).collect(),
    }
}

fn flagged(length: i64) -> Asked {
    Asked { length: Some(AskedLength::Flagged(mm(length))), ..Asked::default() }
}

#[test]
fn the_design_stands_in_for_what_is_not_said() {
    let shop = shop();
    let order = check(&shop, &flagged(6_200), &[]).unwrap();
    let design = &shop.designs[0];
    assert_eq!(
        (order.width, order.drop, order.gap, order.tail),
        (design.width, design.drop, design.gap, design.tail)
    );
    assert_eq!((order.fabrics, order.binding), (design.fabrics.clone(), design.binding));
    assert_eq!((order.quantity, order.rule, order.leftover), (1, ColourRule::Repeat, Leftover::Gaps));
    assert!(!order.gap_given && !order.tail_given);
}

#[test]
fn what_is_left_over_goes_where_the_question_puts_it() {
    let goes = |asked: &Asked| check(&shop(), asked, &[]).unwrap().leftover;
    let overall = Asked { length: Some(AskedLength::Overall(mm(6_200))), ..Asked::default() };
    assert_eq!(goes(&overall), Leftover::Tails);
    assert_eq!(goes(&Asked { count: Some(20), ..overall.clone() }), Leftover::Gaps);
    assert_eq!(goes(&Asked { count: Some(20), gap: Some(mm(20)), ..overall }), Leftover::Tails);
    assert_eq!(goes(&Asked { gap: Some(mm(20)), ..flagged(6_200) }), Leftover::Tails);
    assert_eq!(goes(&Asked { leftover: Some(Leftover::Tails), ..flagged(6_200) }), Leftover::Tails);
}

#[test]
fn everything_is_told_at_once_in_the_order_of_the_fields() {
    let asked = Asked {
        design: Some("none".into()),
        length: Some(AskedLength::Flagged(mm(100))),
        gap: Some(mm(-200)),
        min_gap: Some(mm(30)),
        max_gap: Some(mm(10)),
        shape: Some(Shape::Shield),
        construction: Some(Construction::SinglePinked),
        backing: Some("none".into()),
        fabrics: vec!["none".into()],
        letters: vec!["\u{7}".into()],
        binding: Some("none".into()),
        trimmings: vec![("none".into(), 1)],
        ..Asked::default()
    };
    let found = refused(&asked);
    let fields: Vec<Field> = found.iter().map(|(field, _)| *field).collect();
    let mut sorted = fields.clone();
    sorted.sort();
    assert_eq!(fields, sorted);
    for wanted in [
        (Field::Design, Reason::UnknownCode),
        (Field::Flagged, Reason::OutOfRange),
        (Field::Gap, Reason::Contradiction),
        (Field::MinGap, Reason::Contradiction),
        (Field::Shoulder, Reason::Missing),
        (Field::Backing, Reason::Contradiction),
        (Field::Backing, Reason::UnknownCode),
        (Field::Fabric(0), Reason::UnknownCode),
        (Field::Lettering, Reason::BadText),
        (Field::Binding, Reason::UnknownCode),
        (Field::Trimming(0), Reason::UnknownCode),
    ] {
        assert!(found.contains(&wanted), "{wanted:?} is missing from {found:?}");
    }
}

#[test]
fn something_has_to_say_how_long() {
    assert_eq!(refused(&Asked::default()), [(Field::Flagged, Reason::Missing)]);
    // said but not readable is said
    assert!(check(&shop(), &Asked::default(), &[Field::Overall]).is_ok());
    assert!(check(&shop(), &Asked { count: Some(9), ..Asked::default() }, &[]).is_ok());
    assert!(check(&shop(), &Asked { letters: vec!["A".into()], ..Asked::default() }, &[]).is_ok());
}

#[test]
fn spaces_at_the_ends_of_a_lettering_fall_away() {
    let letters =
        |text: &str| Asked { letters: text.chars().map(String::from).collect(), ..Asked::default() };
    let order = check(&shop(), &letters(" A B "), &[]).unwrap();
    assert_eq!(order.letters, [Some("A".to_owned()), None, Some("B".to_owned())]);
    assert_eq!(refused(&letters("   ")), [(Field::Lettering, Reason::BadText)]);
}

#[test]
fn a_letter_that_nobody_sees_is_refused_and_one_that_joins_is_not() {
    let letters = |all: &[&str]| Asked {
        letters: all.iter().map(|letter| (*letter).to_owned()).collect(),
        ..Asked::default()
    };
    for hidden in ["\u{202e}", "\u{200b}", "\u{feff}", "\u{61c}", "A\u{2066}", "\u{200d}", "\u{fe0f}"] {
        assert_eq!(refused(&letters(&["A", hidden])), [(Field::Lettering, Reason::BadText)], "{hidden:?}");
    }
    let family = "\u{1f469}\u{200d}\u{1f467}";
    assert!(check(&shop(), &letters(&["e\u{301}", family, "ש"]), &[]).is_ok());
}

#[test]
fn a_list_may_repeat_fabrics_but_not_name_too_many() {
    let code = shop().fabrics[0].code.clone();
    let many = |rule, count| Asked { rule: Some(rule), fabrics: vec![code.clone(); count], ..flagged(6_200) };
    assert!(check(&shop(), &many(ColourRule::Repeat, 26), &[]).is_ok());
    assert_eq!(refused(&many(ColourRule::Repeat, 27)), [(Field::Fabrics, Reason::OutOfRange)]);
    assert!(check(&shop(), &many(ColourRule::Listed, 300), &[]).is_ok());
    let nothing = Asked { rule: Some(ColourRule::Listed), ..flagged(6_200) };
    assert_eq!(refused(&nothing), [(Field::Fabrics, Reason::Missing)]);
}

#[test]
fn one_end_said_is_both_and_none_is_plain() {
    let looped = AskedEnd {
        style: Some(EndStyle::Loop),
        perimeter: Some(mm(60)),
        slips: Some(false),
        ..AskedEnd::default()
    };
    let ends = |ends: Vec<AskedEnd>| check(&shop(), &Asked { ends, ..flagged(6_200) }, &[]).unwrap().ends;
    assert_eq!(ends(Vec::new()), [End::default(); 2]);
    let both = ends(vec![looped.clone()]);
    assert_eq!(both[0], both[1]);
    assert_eq!(
        (both[0].style, both[0].perimeter, both[0].slips),
        (EndStyle::Loop, Some(mm(60)), Some(false))
    );
    let left = ends(vec![looped, AskedEnd::default()]);
    assert_eq!((left[0], left[1]), (both[0], End::default()));
}

#[test]
fn what_is_said_of_an_end_goes_with_its_style() {
    use pennantry_measure::Force;
    let all = AskedEnd {
        perimeter: Some(mm(60)),
        slips: Some(true),
        breakaway: Some(Force::from_newtons(22)),
        tie: Some(mm(200)),
        second_tie: Some(mm(200)),
        ties_apart: Some(mm(0)),
        ..AskedEnd::default()
    };
    let told = |style, end: &AskedEnd| {
        let ends = vec![AskedEnd { style, ..end.clone() }];
        let found = check(&shop(), &Asked { ends, ..flagged(6_200) }, &[]).err().unwrap_or_default();
        found.iter().map(|v| (v.field, v.reason)).collect::<Vec<_>>()
    };
    let wrong = |part| (Field::End(0, part), Reason::Contradiction);
    let of_a_loop = [EndPart::Perimeter, EndPart::Slips, EndPart::Breakaway].map(wrong);
    let of_a_tie = [EndPart::Tie, EndPart::SecondTie, EndPart::TiesApart].map(wrong);
    assert_eq!(told(None, &all), [of_a_loop, of_a_tie].concat());
    assert_eq!(told(Some(EndStyle::Plain), &all), [of_a_loop, of_a_tie].concat());
    assert_eq!(told(Some(EndStyle::Loop), &all), of_a_tie);
    assert_eq!(told(Some(EndStyle::Tie), &all), of_a_loop);
    assert_eq!(
        told(Some(EndStyle::Tie), &AskedEnd { ties_apart: Some(mm(5)), ..AskedEnd::default() }),
        of_a_tie[2..]
    );
    let unknown = AskedEnd { trimming: Some("none".into()), ..AskedEnd::default() };
    assert_eq!(told(None, &unknown), [(Field::End(0, EndPart::Trimming), Reason::UnknownCode)]);
    // a style that cannot be read is told once
    let ends = vec![all];
    let style = [Field::End(0, EndPart::Style)];
    assert!(check(&shop(), &Asked { ends, ..flagged(6_200) }, &style).is_ok());
}

#[test]
fn the_rules_are_those_of_the_destination_and_those_that_are_named() {
    let shop = shop();
    let near = |asked: &Asked| check(&shop, asked, &[]).unwrap().near;
    assert_eq!(near(&flagged(6_200)).jurisdictions, [Jurisdiction::Gb]);
    let said = Near { jurisdictions: vec![Jurisdiction::Ca, Jurisdiction::Eu], ..Near::default() };
    let asked = Asked { near: said, ..flagged(6_200) };
    assert_eq!(near(&asked).jurisdictions, [Jurisdiction::Eu, Jurisdiction::Gb, Jurisdiction::Ca]);
    assert_eq!(near(&flagged(6_200)), Near { jurisdictions: vec![Jurisdiction::Gb], ..Near::default() });
    // ISO 3166-1, and the treaties: 27 members, neither Norway nor Switzerland among them
    for (code, whose) in [
        ("FR", Some(Jurisdiction::Eu)),
        ("GR", Some(Jurisdiction::Eu)),
        ("GB", Some(Jurisdiction::Gb)),
        ("US", Some(Jurisdiction::Us)),
        ("CA", Some(Jurisdiction::Ca)),
        ("AU", Some(Jurisdiction::Au)),
        ("NO", None),
        ("CH", None),
        ("NZ", None),
        ("EL", None),
        ("", None),
    ] {
        assert_eq!(Jurisdiction::of_country(code), whose, "{code}");
    }
}

#[test]
fn the_hooks_of_a_hang_are_its_fixings() {
    let hang = Hang { span: mm(6_500), dip: mm(200), swags: 2 };
    let with = |near: Near| {
        check(&shop(), &Asked { length: Some(AskedLength::Hang(hang)), near, ..Asked::default() }, &[])
    };
    let near = with(Near::default()).unwrap().near;
    assert_eq!((near.fixings, near.span), (Some(3), Some(mm(6_500))));
    assert!(with(Near { fixings: Some(3), span: Some(mm(6_500)), ..Near::default() }).is_ok());
    let found = with(Near { fixings: Some(2), span: Some(mm(6_499)), ..Near::default() }).unwrap_err();
    let told: Vec<_> = found.iter().map(|v| (v.field, v.reason)).collect();
    assert_eq!(
        told,
        [NearPart::Fixings, NearPart::Span].map(|part| (Field::Near(part), Reason::Contradiction))
    );
}

#[test]
fn a_rush_is_for_shops_that_offer_one() {
    let mut shop = shop();
    let asked = Asked { rush: true, ..flagged(6_200) };
    assert!(check(&shop, &asked, &[]).unwrap().rush);
    shop.calendar.rush = None;
    let found = check(&shop, &asked, &[]).unwrap_err();
    assert_eq!(found.len(), 1);
    assert_eq!((found[0].field, found[0].reason), (Field::Rush, Reason::NotOffered));
    assert!(found[0].message.contains("leave it out"), "{}", found[0].message);
    assert!(check(&shop, &flagged(6_200), &[]).is_ok());
}

#[test]
fn a_discount_is_taken_as_it_was_said() {
    let discount = Discount { off: Off::Share(Percent::from_milli(12_500)), reason: String::from("late") };
    let asked = Asked { discount: Some(discount.clone()), ..flagged(6_200) };
    assert_eq!(check(&shop(), &asked, &[]).unwrap().discount, Some(discount));
}
