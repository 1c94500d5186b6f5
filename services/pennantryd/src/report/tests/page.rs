//! The page, read by a parser of HTML.

use pennantry_contract::v1::{BurnFabric, BurnNote, BurnReport};
use scraper::{ElementRef, Html, Selector};

use super::shop;
use crate::report::{STYLE, page};

pub(super) fn all<'a>(html: &'a Html, css: &str) -> Vec<ElementRef<'a>> {
    html.select(&Selector::parse(css).expect("a selector")).collect()
}

pub(super) fn words(element: ElementRef<'_>) -> String {
    element.text().collect::<String>().split_whitespace().collect::<Vec<_>>().join(" ")
}

pub(super) fn read(report: &BurnReport) -> Html {
    Html::parse_document(&page(report, &shop::heads()))
}

/// Metres with two decimals from whole hundredths: integers, unlike what is tested.
fn metres(mm: f64) -> String {
    let hundredths = format!("{:.0}", (mm / 10.0).round()).parse::<i64>().expect("whole");
    let mut whole = (hundredths / 100).to_string();
    for place in (1..).map(|n| n * 4 - 1).take_while(|place| *place < 40) {
        if whole.len() > place {
            whole.insert(whole.len() - place, ',');
        }
    }
    format!("{whole}.{:02}", hundredths % 100)
}

/// Every kind of report that a page is made of.
fn kinds() -> Vec<(&'static str, BurnReport)> {
    let mut one = shop::usual();
    one.fabrics.truncate(1);
    let mut nothing = shop::usual();
    nothing.fabrics = vec![shop::fabric(&shop::SKETCHES[2])];
    let no_detail = BurnReport {
        fabrics: vec![BurnFabric { code: "kelp".into(), ..Default::default() }],
        ..BurnReport::default()
    };
    vec![
        ("usual", shop::usual()),
        ("first week", shop::first_week()),
        ("no fabric", shop::bare()),
        ("one", one),
        ("all zero", nothing),
        ("hostile", hostile()),
        ("huge", huge()),
        ("no detail", no_detail),
        ("empty message", BurnReport::default()),
        ("many", shop::many(120)),
    ]
}

const NAMES: [&str; 4] = [
    "<script>alert(1)</script>",
    "\"Kelp\" onmouseover='x' & <b>bold</b>",
    "left\u{202e}thgir\u{2066}\u{0}\u{1b}[2J\u{feff}",
    "\u{5e06}\u{5e03}\u{5e06}\u{5e03}\u{5e06}\u{5e03}\u{5e06}\u{5e03}\u{5e06}\u{5e03}\u{5e06}\u{5e03}\u{5e06}\u{5e03}\u{5e06}\u{5e03}\u{5e06}\u{5e03}\u{5e06}\u{5e03}\u{5e06}\u{5e03}\u{5e06}\u{5e03}\u{5e06}\u{5e03}\u{5e06}\u{5e03}\u{5e06}\u{5e03}\u{5e06}\u{5e03}\u{5e06}\u{5e03}\u{5e06}\u{5e03}\u{5e06}\u{5e03}\u{5e06}\u{5e03}",
];

/// Texts that would change the page if they were more than text, in every place that has one.
pub fn hostile() -> BurnReport {
    let mut report = shop::usual();
    for (place, fabric) in report.fabrics.iter_mut().enumerate() {
        let name = NAMES[place % NAMES.len()];
        (fabric.name, fabric.code, fabric.sentence) = (name.into(), name.into(), name.into());
        let detail = fabric.detail.as_mut().expect("a detail");
        detail.method = name.into();
        detail.value_class = name.into();
        detail.notes = vec![BurnNote { code: name.into(), message: name.into() }];
        detail.scores[0].method = name.into();
        detail.lots[0].lot = name.into();
        for order in &mut detail.orders {
            (order.order_id, order.supplier, order.expected_date) = (name.into(), name.into(), name.into());
        }
        let buying = detail.buying.as_mut().expect("a way to buy");
        (buying.supplier, buying.supplier_reference) = (name.into(), name.into());
        buying.service_kind = name.into();
        if let Some(cost) = &mut buying.proposal_cost {
            cost.currency_code = name.into();
        }
    }
    let name = NAMES[0];
    report.notes = vec![BurnNote { code: name.into(), message: name.into() }];
    (report.zone, report.catalogue_revision, report.as_of) = (name.into(), name.into(), name.into());
    report.through_date = name.into();
    report.back_test.as_mut().expect("a test").rows[0].method = name.into();
    report
}

/// Figures far beyond any shop's.
fn huge() -> BurnReport {
    let mut report = shop::usual();
    for fabric in &mut report.fabrics {
        (fabric.free_mm, fabric.used_mm) = (1e15, 123_456_789_012.0);
        fabric.detail.as_mut().expect("a detail").past[59].used_mm = 1e18;
    }
    report.fabrics[0].usual_mm = Some(f64::NAN);
    report.fabrics[0].detail.as_mut().expect("a detail").shelf_line[3].free_mm = f64::INFINITY;
    report
}

#[test]
fn a_parser_finds_no_fault_in_any_page() {
    for (kind, report) in kinds() {
        if let Some(folder) = std::env::var_os("PENNANTRY_LOOK") {
            let file = std::path::Path::new(&folder).join(kind.replace(' ', "-")).with_extension("html");
            std::fs::write(file, page(&report, &shop::heads())).expect("the page is written");
        }
        let html = read(&report);
        assert_eq!(html.errors, Vec::<String>::new(), "{kind}");
        assert_eq!(all(&html, "html[lang=en-GB] > head > title").len(), 1, "{kind}");
        assert_eq!((all(&html, "h1").len(), all(&html, "main").len()), (1, 1), "{kind}");
    }
}

#[test]
fn a_page_asks_nobody_and_runs_nothing() {
    for (kind, report) in kinds() {
        let html = read(&report);
        let runs = "script, iframe, object, embed, img, image, form, base, [src], [style], [srcdoc]";
        assert_eq!(all(&html, runs).len(), 0, "{kind}");
        for element in html.tree.nodes().filter_map(|node| node.value().as_element()) {
            for (name, value) in element.attrs() {
                assert!(!name.starts_with("on"), "{kind}: {name}");
                if name == "href" {
                    assert!(
                        ["#", "?date=", "data:,"].iter().any(|start| value.starts_with(start)),
                        "{kind}: {value}"
                    );
                }
            }
        }
        assert!(!STYLE.contains("http") && !STYLE.contains("@import"));
        assert!(STYLE.match_indices("url(").all(|(at, _)| STYLE[at..].starts_with("url(#")));
    }
}

#[test]
fn what_is_pointed_at_is_there_once() {
    for (kind, report) in kinds() {
        let html = read(&report);
        let ids: Vec<&str> = all(&html, "[id]").iter().filter_map(|element| element.attr("id")).collect();
        let mut once = ids.clone();
        once.sort_unstable();
        once.dedup();
        assert_eq!(once.len(), ids.len(), "{kind}: an id is there twice");
        for element in all(&html, "[href^='#'], [aria-labelledby]") {
            let link = element.attr("href").map(|link| &link[1..]);
            for name in link.or(element.attr("aria-labelledby")).unwrap_or_default().split(' ') {
                assert!(once.contains(&name), "{kind}: {name} is nowhere");
            }
        }
    }
}

#[test]
fn tables_and_drawings_are_told_to_those_who_do_not_see_them() {
    for (kind, report) in kinds() {
        let html = read(&report);
        for table in all(&html, "table") {
            assert_eq!(table.select(&Selector::parse("caption").expect("css")).count(), 1, "{kind}");
        }
        let unscoped = "th:not([scope=col]):not([scope=row]):not([scope=rowgroup])";
        assert_eq!(all(&html, unscoped).len(), 0, "{kind}");
        for svg in all(&html, "svg") {
            let told = svg.attr("role") == Some("img")
                && svg
                    .select(&Selector::parse("title, desc").expect("css"))
                    .all(|part| !words(part).is_empty());
            assert!(told || svg.attr("aria-hidden") == Some("true"), "{kind}");
        }
        let drawings = all(&html, "svg[role=img]").len();
        assert!(drawings == 0 || all(&html, "table.last").len() * 2 >= drawings, "{kind}");
    }
}

#[test]
fn every_row_has_its_seven_figures_and_what_needs_doing() {
    for report in [shop::usual(), shop::many(120)] {
        let html = read(&report);
        let rows = all(&html, "table.first tbody tr:not(.say)");
        assert_eq!(rows.len(), report.fabrics.len());
        for (row, fabric) in rows.iter().zip(&report.fabrics) {
            let cells: Vec<String> = row.select(&Selector::parse("td").expect("css")).map(words).collect();
            let name = words(row.select(&Selector::parse("th a").expect("css")).next().expect("a name"));
            assert_eq!(name, fabric.name);
            let length = |mm: Option<f64>, none: &str| mm.map_or(String::from(none), metres);
            assert_eq!(cells[0], metres(fabric.free_mm));
            assert_eq!(cells[1], metres(fabric.used_mm));
            assert_eq!(cells[2], length(fabric.usual_mm, "too early"));
            assert_eq!(cells[3], metres(fabric.on_order_mm));
            let weeks =
                fabric.weeks_left.map_or(String::from("nothing is used"), |weeks| format!("{weeks:.1}"));
            assert_eq!(cells[4], weeks);
            let dead = fabric.weeks_left.is_none();
            let day =
                fabric.order_by_date.as_ref().map(|iso| iso.parse::<jiff::civil::Date>().expect("a day"));
            let day = day.map(|day| day.strftime("%a %-d %b %Y").to_string());
            assert_eq!(cells[5], day.unwrap_or(String::from(if dead { "not used" } else { "none needed" })));
            assert_eq!(cells[6], length(fabric.proposal_mm, if dead { "not used" } else { "nothing" }));
        }
    }
    let html = read(&shop::usual());
    let said: Vec<String> = all(&html, "tr.say").into_iter().map(words).collect();
    let sentences = shop::SKETCHES.iter().take(3).map(|sketch| sketch.sentence);
    let expected: Vec<String> = ["Today", "Soon", "Look"]
        .iter()
        .zip(sentences)
        .map(|(word, told)| format!("{word} {told}"))
        .collect();
    assert_eq!(said, expected);
}

#[test]
fn every_day_has_its_date_for_machines() {
    let html = read(&shop::usual());
    let times = all(&html, "time");
    assert!(times.len() > 100, "{} days", times.len());
    for time in times {
        let machine = time.attr("datetime").expect("a date");
        let Ok(day) = machine.parse::<jiff::civil::Date>() else {
            assert!(machine.parse::<jiff::Timestamp>().is_ok(), "{machine}");
            continue;
        };
        let long = day.strftime("%a %-d %b %Y").to_string();
        let short = day.strftime("%-d %b").to_string();
        assert!([long, short].contains(&words(time)), "{machine}: {}", words(time));
    }
}

#[test]
fn hostile_text_stays_text() {
    let html = read(&hostile());
    let names: Vec<String> = all(&html, "table.first th a").into_iter().map(words).collect();
    let shown = "left[U+202E]thgir[U+2066][U+0000][U+001B][2J[U+FEFF]";
    assert_eq!(names[..4], [NAMES[0], NAMES[1], shown, NAMES[3]]);
    assert_eq!(all(&html, "b:not(.word):not(dd b)").len(), 0, "a name makes no element");
    let page = page(&hostile(), &[]);
    assert!(!page.contains(['\u{202e}', '\u{2066}', '\u{0}', '\u{1b}', '\u{feff}']));
}

#[test]
fn what_is_absent_is_said_in_words() {
    for (kind, report) in kinds() {
        let html = read(&report);
        for cell in all(&html, "table.first td, dd") {
            let told = words(cell);
            assert!(told.contains(char::is_alphanumeric), "{kind}: {told:?}");
        }
    }
    let html = read(&shop::first_week());
    let cells: Vec<String> = all(&html, "table.first td").into_iter().map(words).take(7).collect();
    let unknown = "not known yet";
    assert_eq!(cells, ["18.25", "1.20", "too early", "0.00", unknown, unknown, unknown]);
    let why = words(all(&html, "p.why")[0]);
    assert!(
        why.contains("\u{201c}not known yet\u{201d}: a forecast takes 8 weeks since the first use"),
        "{why}"
    );
    assert!(
        why.contains("\u{201c}too early\u{201d}: what is usual takes 8 whole weeks before the last four"),
        "{why}"
    );
    assert!(words(all(&html, "p.lede")[0]).starts_with("Nobody can say yet what has to be ordered"));
    let told = words(all(&read(&shop::bare()), "p.lede")[0]);
    assert!(told.starts_with("There is no fabric to tell of"), "{told}");
}

#[test]
fn a_fabric_that_nobody_judged_is_no_all_clear() {
    let mut report = shop::usual();
    report.fabrics.drain(..3);
    let mut unknown = shop::first_week().fabrics.remove(0);
    unknown.name = "Loft Lights".into();
    report.fabrics.push(unknown);
    let told = words(all(&read(&report), "p.lede")[0]);
    assert_eq!(
        told,
        "Of what can be judged, nothing has to be done today. Nothing for 4 of 5 fabrics. Nobody can say yet for 1: too \
         little is known of their use."
    );
}

#[test]
fn orders_are_told_by_supplier_with_their_sum() {
    let html = read(&shop::usual());
    let rows: Vec<String> = all(&html, "#order tbody tr").into_iter().map(words).collect();
    // 2 x 1,234.56 by hand
    assert_eq!(
        rows,
        [
            "Harbour Mills",
            "Kelp kelpHM 2210/14Mon 7 Dec 202670.0031,234.56 GBP",
            "Chandler's Rope chandlers-ropeHM 2210/14Wed 16 Dec 202660.0031,234.56 GBP",
            "Together130.002,469.12 GBP"
        ]
    );
    assert_eq!(words(all(&html, "#dead tbody tr")[0]), "Bell Buoy bell-buoy19.75Fri 13 Feb 2026");
}

#[test]
fn other_mornings_are_links_where_they_are_done() {
    let html = read(&shop::usual());
    let links: Vec<&str> = all(&html, "#mornings a").iter().filter_map(|link| link.attr("href")).collect();
    assert_eq!(links, ["?date=2026-12-06", "?date=2026-12-04"]);
    assert!(words(all(&html, "#mornings")[0]).contains("5 Dec: failed, the stock could not be read"));
}

#[test]
fn four_hundred_fabrics_stay_small() {
    let size = page(&shop::many(400), &[]).len();
    assert!(size < 2_700_000, "{size} bytes");
}

/// Relative luminance and contrast as the Web Content Accessibility Guidelines 2.2 define them.
fn contrast(one: &str, other: &str) -> f64 {
    let luminance = |hex: &str| {
        let part = |at: usize| f64::from(u8::from_str_radix(&hex[at..at + 2], 16).expect("hex")) / 255.0;
        let linear = |c: f64| if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) };
        0.2126 * linear(part(1)) + 0.7152 * linear(part(3)) + 0.0722 * linear(part(5))
    };
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

#[test]
fn text_and_lines_stand_out_in_light_and_dark() {
    assert!((contrast("#000000", "#ffffff") - 21.0).abs() < 1e-9, "black on white is 21");
    let light = STYLE.find(":root{").expect("colours");
    let dark = STYLE.find("prefers-color-scheme:dark").expect("colours of the dark");
    for from in [light, dark] {
        let colour = |name: &str| {
            let name = format!("--{name}:");
            let at = from + STYLE[from..].find(&name).expect("a colour") + name.len();
            &STYLE[at..at + 7]
        };
        for ground in ["ground", "paper"] {
            for text in ["ink", "soft", "link"] {
                let found = contrast(colour(text), colour(ground));
                assert!(found >= 4.5, "{text} on {ground}: {found}");
            }
            assert!(contrast(colour("thread"), colour(ground)) >= 3.0, "thread on {ground}");
        }
        assert!(contrast(colour("chalk"), colour("cloth")) >= 4.5);
        assert!(contrast(colour("ink"), colour("paper")) >= 4.5, "the word of today is paper on ink");
    }
}

/// Halves of a centimetre, as far as a bolt goes and where thousands begin.
#[test]
fn half_a_centimetre_rounds_away_from_nought_everywhere() {
    for centimetres in (0_i32..12_000).chain(99_990..100_010) {
        let mm = f64::from(centimetres).mul_add(10.0, 5.0);
        let expected = metres(f64::from(centimetres + 1) * 10.0);
        assert_eq!(crate::report::figures::metres(mm), expected, "{mm} mm");
    }
}
