mod coverage;

use pennantry_contract::v1::{
    FigureOrigin, Finding, Jurisdiction, Outcome, PaperFinding, PaperOutcome, RuleBasis, WithdrawalRight,
};
use unicode_width::UnicodeWidthStr;

use super::page::WIDTH;
use super::*;
use crate::fixture::strung;

fn money(minor_units: i64) -> v1::Money {
    v1::Money { currency_code: "XTS".to_owned(), minor_units }
}

/// A short answer made by hand: what other parts of the server will fill is filled here.
fn answer() -> v1::Quote {
    let finding = Finding {
        rule_id: "R99".to_owned(),
        jurisdiction: Jurisdiction::Gb.into(),
        outcome: Outcome::Restrict.into(),
        measured: "free cord 305 mm".to_owned(),
        limit: "220 mm".to_owned(),
        source: "a text that is named".to_owned(),
        remedy: "three fixings".to_owned(),
        text: "the cord is too long".to_owned(),
        basis: RuleBasis::Analogy.into(),
        figure: FigureOrigin::Remembered.into(),
    };
    let line = |text: &str, minor| v1::PriceLine {
        text: text.to_owned(),
        amount: Some(money(minor)),
        ..v1::PriceLine::default()
    };
    v1::Quote {
        quote_id: Some("q-1".to_owned()),
        expire_time: Some("2026-12-02T00:00:00Z".to_owned()),
        token: Some("abc.def".to_owned()),
        price: Some(v1::Price {
            lines: vec![line("Bunting", 10_000), line("Discount, a friend", -1_000), line("Delivery", 5)],
            total: Some(money(9_005)),
            minor_digits: 3,
            per_metre: Some(money(1_325)),
            withdrawal: Some(v1::Withdrawal {
                right: WithdrawalRight::Excluded.into(),
                reason: "made to measure".to_owned(),
                source: "a statute".to_owned(),
            }),
            breaks: vec![v1::QuantityBreak { quantity: 10, off_percent: 5.0 }],
            ..v1::Price::default()
        }),
        child: Some(v1::ChildFinding {
            outcome: Outcome::Restrict.into(),
            findings: vec![finding],
            lowest_mm: Some(1253.0),
            jurisdictions: vec![Jurisdiction::Gb.into()],
            scope: "decorations hung at home".to_owned(),
            acknowledge: vec!["R99".to_owned()],
        }),
        paperwork: Some(v1::Paperwork {
            outcome: PaperOutcome::Duty.into(),
            findings: vec![PaperFinding {
                rule_id: "R98".to_owned(),
                outcome: PaperOutcome::Duty.into(),
                remedy: "print the address".to_owned(),
                text: "the maker is not named".to_owned(),
                ..PaperFinding::default()
            }],
            ..v1::Paperwork::default()
        }),
        leaflet: vec!["Keep it out of reach.".to_owned()],
        workings: vec![v1::Working {
            name: "layout.flaggedMm".to_owned(),
            formula: "3 * 160 + 2 * 40".to_owned(),
            value: "560".to_owned(),
            unit: "mm".to_owned(),
            rounding: "exact".to_owned(),
            source: "layout".to_owned(),
        }],
        ..strung(3, 160.0, 200.0, 40.0, 100.0)
    }
}

fn holds(sheet: &str, lines: &[&str]) {
    for line in lines {
        assert!(sheet.lines().any(|told| told.trim() == *line), "{line:?} is no line of\n{sheet}");
    }
}

#[test]
fn findings_are_told_with_what_to_do_and_where_the_figure_is_from() {
    let sheet = render(&answer(), Style::default());
    holds(
        &sheet,
        &[
            "small children: RESTRICT: only as the remedies say",
            "rules looked at: GB",
            "lowest point 1253 mm above whatever a child can stand on",
            "RESTRICT R99: the cord is too long",
            "what to do: three fixings",
            "measured free cord 305 mm; limit 220 mm",
            "to be acknowledged before the public may hold it: R99",
            "decorations hung at home",
            "DUE R98: the maker is not named",
            "what to do: print the address",
            "Local rules and competent people decide; nothing here clears a use.",
        ],
    );
    let words = sheet.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("GB: a text that is named; a rule for something else, taken as a yardstick; figure remembered: look it up"), "{sheet}");
    // what is not told is said not to be
    assert!(words.contains("everywhere: source not told; kind of rule not told"), "{sheet}");
}

/// The lines of a sheet as one text.
fn in_one(sheet: &str) -> String {
    sheet.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn findings_are_said_to_be_in_millimetres_once_and_only_beside_another_unit() {
    let said = "findings, here and under PAPERWORK, are in mm";
    for (unit, times) in
        [(Unit::Mm, 0), (Unit::Cm, 1), (Unit::M, 1), (Unit::In, 1), (Unit::Ft, 1), (Unit::Yd, 1)]
    {
        let style = Style { unit, ..Style::default() };
        assert_eq!(render(&answer(), style).matches(said).count(), times, "{unit:?}");
        // paper alone has findings too, and without any there is nothing to say
        let paper = v1::Quote { child: None, ..answer() };
        assert_eq!(render(&paper, style).matches(said).count(), times, "{unit:?}");
        let none = v1::Quote { paperwork: None, ..paper };
        assert_eq!(render(&none, style).matches(said).count(), 0, "{unit:?}");
    }
}

#[test]
fn findings_and_notices_name_what_can_be_typed() {
    let mut quote = answer();
    let found = &mut quote.child.as_mut().unwrap().findings[0];
    found.remedy = "Give slips: false ends it, and less once spanMm is told".to_owned();
    found.text = "Give near.youngestMonths, or cotDistanceMm.".to_owned();
    quote.paperwork.as_mut().unwrap().findings[0].remedy = "tell near.wallWidthMm".to_owned();
    quote.notices = vec![v1::Notice { message: "give gapMm".to_owned(), ..v1::Notice::default() }];
    let told = in_one(&render(&quote, Style::default()));
    for words in [
        "Give --slips no ends it, and less once --fixing-span is told",
        "Give --youngest, or --cot-distance.",
        "tell --wall-width",
        "give --gap",
    ] {
        assert!(told.contains(words), "{words} in {told}");
    }
    for name in ["spanMm", "slips: false", "youngestMonths", "cotDistanceMm", "wallWidthMm", "gapMm"] {
        assert!(!told.contains(name), "{name} in {told}");
    }
}

/// Whose rule and figure it is stands there once, and what the source does not say beside it.
#[test]
fn a_source_that_says_whose_it_is_is_not_said_again() {
    use {FigureOrigin as From, RuleBasis as Basis};
    for (source, basis, figure, told) in [
        ("The shop's own rule; its yardstick", Basis::Shop, From::Shop, "The shop's own rule; its yardstick"),
        ("The shop's own rule", Basis::Shop, From::None, "The shop's own rule; no figure in it"),
        ("The shop's own figure", Basis::Shop, From::Shop, "The shop's own figure"),
        ("common practice", Basis::Shop, From::Shop, "common practice; the shop's own rule and figure"),
        ("common practice", Basis::Shop, From::None, "common practice; the shop's own rule; no figure in it"),
        ("a text", Basis::Guidance, From::Shop, "a text; official guidance; the shop's own figure"),
        (
            "The shop's own figure, after a text",
            Basis::Analogy,
            From::Shop,
            "The shop's own figure, after a text; a rule for something else, taken as a yardstick",
        ),
        (
            "a text, in the Union; the shop's own rule elsewhere",
            Basis::Law,
            From::Read,
            "a text, in the Union; the shop's own rule elsewhere; law for decorations; figure read there",
        ),
        (
            "a text, from memory",
            Basis::Law,
            From::Remembered,
            "a text, from memory; law for decorations; look it up before you rely on it",
        ),
        (
            "a text (remembered)",
            Basis::Law,
            From::Remembered,
            "a text (remembered); law for decorations; look it up before you rely on it",
        ),
        (
            "",
            Basis::Shop,
            From::Unspecified,
            "source not told; the shop's own rule; where its figure is from is not told",
        ),
    ] {
        let mut quote = answer();
        let found = &mut quote.child.as_mut().unwrap().findings[0];
        (found.source, found.basis, found.figure) = (source.to_owned(), basis.into(), figure.into());
        let sheet = in_one(&render(&quote, Style::default()));
        assert!(sheet.contains(&format!(" GB: {told} to be acknowledged")), "{told} in {sheet}");
    }
}

#[test]
fn paper_that_finds_nothing_clears_nothing_and_says_what_was_looked_at() {
    let scope = "duties on paper were looked at by no rules: that clears nothing";
    let notice = |code: &str, message: &str| v1::Notice {
        code: code.to_owned(),
        message: message.to_owned(),
        ..v1::Notice::default()
    };
    let paperwork = v1::Paperwork {
        outcome: PaperOutcome::NothingFound.into(),
        findings: Vec::new(),
        scope: scope.to_owned(),
    };
    let notices = vec![notice("PAPERWORK", scope)];
    let quote = v1::Quote { paperwork: Some(paperwork), notices, ..answer() };
    let sheet = render(&quote, Style::default());
    holds(&sheet, &["nothing found by these rules, which clears nothing; local rules decide", scope]);
    assert!(sheet.matches(scope).count() == 1 && !sheet.contains("NOTICES"), "{sheet}");
    // what says more than the scope stays
    let notices = vec![notice("PAPERWORK", "more"), notice("OTHER", scope)];
    let sheet = render(&v1::Quote { notices, ..quote }, Style::default());
    holds(&sheet, &["PAPERWORK: more", &format!("OTHER: {scope}")]);
}

/// Unknown never reads as harmless.
#[test]
fn invariant_06_what_was_not_looked_at_is_said() {
    let mut quote = answer();
    (quote.child, quote.paperwork, quote.dates) = (None, None, None);
    let sheet = render(&quote, Style::default());
    holds(
        &sheet,
        &[
            "small children: not looked at, which clears nothing",
            "not looked at in this answer, which clears nothing",
            "not looked at in this answer; local rules decide",
            "none: bench or post have no day for it",
        ],
    );
    let mut child = answer().child.unwrap();
    (child.outcome, child.lowest_mm, child.jurisdictions, child.findings) = (0, None, Vec::new(), Vec::new());
    let sheet = render(&v1::Quote { child: Some(child), ..answer() }, Style::default());
    holds(
        &sheet,
        &[
            "small children: not looked at, which clears nothing",
            "no local rules for where it goes are known here",
            "no height was told, which counts as within reach",
        ],
    );
}

/// A value of a newer server is told by its number, and never as harmless.
#[test]
fn an_outcome_that_is_not_known_clears_nothing() {
    let mut quote = answer();
    let child = quote.child.as_mut().unwrap();
    (child.outcome, child.findings[0].outcome, child.findings[0].jurisdiction) = (99, 99, 99);
    let sheet = render(&quote, Style::default());
    holds(
        &sheet,
        &["small children: not looked at, which clears nothing", "NOT TOLD R99: the cord is too long"],
    );
    assert!(sheet.contains("NUMBER 99, NOT KNOWN TO THIS PROGRAM"), "{sheet}");
}

#[test]
fn amounts_have_the_digits_of_the_answer_and_stand_under_each_other() {
    let sheet = render(&answer(), Style::default());
    let amount = |words: &str| -> &str {
        let line = sheet.lines().find(|line| line.trim_start().starts_with(words));
        line.unwrap_or_else(|| panic!("no {words} in\n{sheet}"))
    };
    for (words, told) in [
        ("Bunting", "10.000"),
        ("Discount, a friend", "-1.000"),
        ("Delivery", "0.005"),
        ("TOTAL", "9.005"),
        ("to compare by", "1.325"),
    ] {
        assert!(amount(words).ends_with(&format!(" {told}")), "{}", amount(words));
        assert_eq!(amount(words).width(), WIDTH);
    }
    holds(
        &sheet,
        &[
            "total XTS 9.005",
            "no tax line: none is charged",
            "from 10 strings 5 % off the goods",
            "right to withdraw: excluded: made to measure (a statute)",
        ],
    );
}

#[test]
fn leaflet_workings_and_ticket_are_told_when_they_are_asked() {
    let sheet = render(&answer(), Style::default());
    assert!(
        !sheet.contains("LEAFLET") && !sheet.contains("WORKINGS") && !sheet.contains("abc.def"),
        "{sheet}"
    );
    holds(&sheet, &["catalogue , quote q-1, holds until 2026-12-02T00:00:00Z"]);
    let all = Style { leaflet: true, workings: true, ..Style::default() };
    holds(
        &render(&answer(), all),
        &["Keep it out of reach.", "layout.flaggedMm = 560 mm | 3 * 160 + 2 * 40 | exact | layout"],
    );
    let none = v1::Quote { leaflet: Vec::new(), workings: Vec::new(), ..answer() };
    holds(&render(&none, all), &["no leaflet in this answer", "no workings in this answer"]);
}

/// Only fields that are there are told; an empty answer says what is missing and nothing else.
#[test]
fn nothing_is_made_up_for_an_empty_answer() {
    let sheet = render(&v1::Quote::default(), Style::default());
    assert!(!sheet.contains(" 0 "), "{sheet}");
    for section in ["LAYOUT", "MARKS", "CLOTH", "BINDING", "THREAD", "BENCH", "PARCEL", "PRICE", "COST"] {
        assert!(!sheet.contains(section), "{section} in\n{sheet}");
    }
}

/// The drawing, the units and the marks of an answer whose every place is worked by hand: edges
/// at 100, 300 and 500 mm from the left end, see the tests of the drawing.
#[test]
fn a_sheet_in_feet_and_ascii() {
    let mut quote = answer();
    let layout = quote.layout.as_mut().unwrap();
    // 2 ft = 609.6 mm, 1/2 in = 12.7 mm
    (layout.binding_cut_mm, layout.tolerance_mm) = (609.6, 12.7);
    quote.understood.as_mut().unwrap().lettering = Some("Zoë ½".to_owned());
    let sheet = render(&quote, Style { unit: Unit::Ft, plain: true, ..Style::default() });
    assert!(sheet.is_ascii(), "{sheet}");
    assert!(sheet.contains("|------------------------------------|\n"), "{sheet}");
    assert!(sheet.contains("lettering \"Zo? ?\""), "{sheet}");
    let line = sheet.lines().find(|line| line.contains("binding cut")).unwrap();
    assert!(line.contains(" 2 ft "), "{line}");
    assert!(sheet.contains("+- 1/2 in"), "{sheet}");
    // 560 mm = 22.04724 in
    assert!(
        sheet.starts_with("3 pennants, gap 1.5748 in, flagged 1 ft 10.04724 in, overall 2 ft 5.92126 in\n"),
        "{sheet}"
    );
}

/// What a break leaves out of the drawing is in the order of the fabrics.
#[test]
fn a_broken_drawing_has_every_fabric_in_order_beside_it() {
    let mut quote = strung(29, 190.0, 210.0, 20.0, 300.0);
    for (place, mark) in crate::fixture::marks(&mut quote).iter_mut().enumerate() {
        mark.fabric_code = ["kelp", "rope", "oil"][place % 3].to_owned();
    }
    let sheet = render(&quote, Style::default());
    holds(&sheet, &["a kelp, b rope, c oil", "all from the left: abcabcabcabcabcabcabcabcabcab"]);
    assert!(!sheet.contains("letters, - for none"), "{sheet}");
    for (mark, letter) in crate::fixture::marks(&mut quote).iter_mut().skip(12).zip(["H", "E", "", "Y", "O"])
    {
        mark.letter = letter.to_owned();
    }
    let letters = format!("letters, - for none: {}HE-YO{}", "-".repeat(12), "-".repeat(12));
    holds(&render(&quote, Style::default()), &[&letters]);
    assert!(!render(&answer(), Style::default()).contains("from the left:"));
}

/// Both sides of both measures, each in its own column.
#[test]
fn a_mark_is_told_from_the_cut_end_and_from_the_middle() {
    let mut quote = answer();
    let first = quote.layout.as_mut().unwrap().positions.as_mut().unwrap().first.as_mut().unwrap();
    (first.left_from_end_mm, first.right_from_end_mm) = (110.0, 270.0);
    (first.left_mm, first.right_mm) = (-280.0, -120.0);
    let sheet = render(&quote, Style::default());
    let row = sheet.lines().find(|line| line.contains("110 mm")).unwrap();
    assert_eq!(
        row.split_whitespace().collect::<Vec<_>>().join(" "),
        "1 110 mm 270 mm -280 mm -120 mm a kelp"
    );
}

#[test]
fn every_mark_is_told_when_it_is_asked() {
    let rows = |marks| {
        let sheet = render(&answer(), Style { marks, ..Style::default() });
        let (_, section) = sheet.split_once("\nMARKS\n").unwrap();
        section.split("\n\n").next().unwrap().lines().filter(|line| line.ends_with("a kelp")).count()
    };
    assert_eq!((rows(false), rows(true)), (2, 3));
    let long = strung(500, 160.0, 200.0, 40.0, 100.0);
    let sheet = render(&long, Style { marks: true, ..Style::default() });
    holds(&sheet, &["the answer lists no more marks than these"]);
}

#[test]
fn what_comes_from_the_server_cannot_move_the_cursor() {
    let mut quote = answer();
    let price = quote.price.as_mut().unwrap();
    price.lines[0].text = "a\u{1b}[2J\rb\nTOTAL 0".to_owned();
    quote.child.as_mut().unwrap().scope = "\u{202e}x".to_owned();
    let sheet = render(&quote, Style::default());
    assert!(sheet.chars().all(|c| c == '\n' || !c.is_control()) && !sheet.contains('\u{202e}'), "{sheet}");
    assert!(!sheet.lines().any(|line| line.starts_with("TOTAL 0")), "{sheet}");
    // the leaflet has the maker's words in it, the sheet the lettering and the discount's reason
    for hidden in [
        '\u{61c}', '\u{200b}', '\u{200e}', '\u{202a}', '\u{202e}', '\u{2028}', '\u{2060}', '\u{2066}',
        '\u{feff}',
    ] {
        let mut quote = answer();
        quote.leaflet = vec![format!("Made by {hidden}")];
        quote.price.as_mut().unwrap().lines[1].text = format!("Discount, {hidden}");
        quote.understood =
            Some(v1::Enquiry { lettering: Some(format!("A{hidden}")), ..v1::Enquiry::default() });
        let sheet = render(&quote, Style { leaflet: true, ..Style::default() });
        assert!(!sheet.contains(hidden), "{hidden:?}");
        holds(&sheet, &["Made by ?", "lettering \"A?\""]);
    }
}

/// Whoever is refused is not sent for a word that would not help.
#[test]
fn where_it_is_refused_no_acknowledgement_is_asked_for() {
    let mut child = answer().child.unwrap();
    child.outcome = v1::Outcome::Refuse.into();
    for acknowledge in [Vec::new(), vec!["R99".to_owned()]] {
        child.acknowledge = acknowledge;
        let sheet = render(&v1::Quote { child: Some(child.clone()), ..answer() }, Style::default());
        holds(&sheet, &["the public cannot hold it: no acknowledgement helps"]);
        assert!(!sheet.contains("to be acknowledged"), "{sheet}");
    }
}
