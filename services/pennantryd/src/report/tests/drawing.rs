//! The drawings, measured: ticks give the scale, and what is drawn is scaled back to the message's figures.

use pennantry_contract::v1::BurnReport;
use scraper::{ElementRef, Html, Selector};

use super::shop;
use crate::report::page;

fn select<'a>(inside: ElementRef<'a>, css: &str) -> Vec<ElementRef<'a>> {
    inside.select(&Selector::parse(css).expect("a selector")).collect()
}

/// A drawing with its scales, read from two ticks of each axis.
struct Measured<'a> {
    svg: ElementRef<'a>,
    up: (f64, f64),
    along: (f64, f64),
}

fn number(text: &str) -> f64 {
    text.replace(',', "")
        .replace('\u{2212}', "-")
        .replace('+', "")
        .replace("now", "0")
        .parse()
        .expect("a figure")
}

fn attribute(element: ElementRef<'_>, name: &str) -> f64 {
    number(element.attr(name).expect("a place"))
}

/// Offset and slope from the first and the last but one of some ticks: the last may be moved inside.
fn scale(ticks: &[(f64, f64)]) -> (f64, f64) {
    let ((from, at), (to, there)) = (ticks[0], ticks[ticks.len() - 2]);
    let slope = (to - from) / (there - at);
    (from - at * slope, slope)
}

impl<'a> Measured<'a> {
    fn new(html: &'a Html, title: &str) -> Self {
        let all = select(html.root_element(), "svg[role=img]");
        let named = |svg: &ElementRef<'_>| select(*svg, "title")[0].text().collect::<String>() == title;
        let svg = all.into_iter().find(named).expect("a drawing");
        let text = |tick: ElementRef<'_>| number(&tick.text().collect::<String>());
        // a tick's words stand 4 below its place
        let ups: Vec<_> =
            select(svg, "g.end text").iter().map(|t| (text(*t), attribute(*t, "y") - 4.0)).collect();
        let weeks = select(svg, "g.mid text");
        let weeks = &weeks[..weeks.len() - 1];
        let alongs: Vec<_> = weeks.iter().map(|t| (text(*t), attribute(*t, "x"))).collect();
        Self { svg, up: scale(&ups), along: scale(&alongs) }
    }

    fn metres(&self, y: f64) -> f64 {
        self.up.0 + self.up.1 * y
    }

    fn weeks(&self, x: f64) -> f64 {
        self.along.0 + self.along.1 * x
    }

    /// What a tenth of a unit of the drawing is worth, twice over: ticks are rounded as well.
    fn slack(&self) -> f64 {
        self.up.1.abs() * 0.2
    }

    /// Corners of a path of M, L, H, V and h, each as it is reached.
    fn corners(&self, css: &str) -> Vec<(f64, f64)> {
        let Some(path) = select(self.svg, css).first().copied() else { return Vec::new() };
        let text = path.attr("d").expect("a path");
        let mut corners: Vec<(f64, f64)> = Vec::new();
        let mut rest = text;
        while let Some(letter) = rest.chars().next() {
            let end = rest[1..].find(char::is_alphabetic).map_or(rest.len(), |at| at + 1);
            let given: Vec<f64> = rest[1..end].split_whitespace().map(number).collect();
            let (x, y) = corners.last().copied().unwrap_or_default();
            match letter {
                'M' | 'L' => corners.push((given[0], given[1])),
                'H' => corners.push((given[0], y)),
                'h' => corners.push((x + given[0], y)),
                'V' => corners.push((x, given[0])),
                'z' => {}
                other => panic!("{other} in {text}"),
            }
            rest = &rest[end..];
        }
        corners
    }

    /// Weeks and metres of bars: their left edges and tops.
    fn bars(&self, css: &str) -> Vec<(f64, f64)> {
        self.corners(css).chunks(4).map(|bar| (self.weeks(bar[1].0), self.metres(bar[1].1))).collect()
    }

    /// Level of a stepped line in the middle of a week.
    fn level(&self, corners: &[(f64, f64)], week: f64) -> f64 {
        let within = corners.windows(2).find(|two| {
            two[0].1.to_bits() == two[1].1.to_bits()
                && self.weeks(two[0].0) < week
                && week < self.weeks(two[1].0)
        });
        self.metres(within.expect("a level").height())
    }
}

/// The height of a level.
trait Level {
    fn height(&self) -> f64;
}

impl Level for [(f64, f64)] {
    fn height(&self) -> f64 {
        self[0].1
    }
}

fn read(report: &BurnReport) -> Html {
    Html::parse_document(&page(report, &[]))
}

/// Weeks from the morning of the report.
fn weeks(iso: &str) -> f64 {
    f64::from((iso.parse::<jiff::civil::Date>().expect("a day") - shop::TODAY).get_days()) / 7.0
}

#[test]
fn bars_are_the_weeks_of_the_past() {
    let report = shop::usual();
    let html = read(&report);
    for fabric in report.fabrics.iter().filter(|fabric| fabric.usual_mm.is_some()) {
        let drawing = Measured::new(&html, &format!("Use of {} by the week", fabric.name));
        let past = &fabric.detail.as_ref().expect("a detail").past;
        let last = &past[past.len() - 52..];
        for (css, out) in [("path.use", false), ("path.least", true)] {
            let bars = drawing.bars(css);
            let expected = last.iter().filter(|week| (week.out_days > 0) == out && week.used_mm > 0.0);
            let expected: Vec<_> =
                expected.map(|week| (weeks(&week.monday), week.used_mm / 1000.0)).collect();
            assert_eq!(bars.len(), expected.len(), "{}", fabric.name);
            for (bar, week) in bars.iter().zip(&expected) {
                assert!((bar.1 - week.1).abs() < drawing.slack(), "{}: {bar:?} {week:?}", fabric.name);
                assert!(bar.0 > week.0 - 0.05 && bar.0 < week.0 + 0.3, "{}: {bar:?} {week:?}", fabric.name);
            }
        }
        let rings = select(drawing.svg, "path.ring")[0].attr("d").expect("rings").matches('M').count();
        assert_eq!(rings, last.iter().filter(|week| week.restated).count());
    }
}

#[test]
fn the_band_and_its_middle_are_what_is_expected() {
    let report = shop::usual();
    let html = read(&report);
    for fabric in report.fabrics.iter().filter(|fabric| fabric.usual_mm.is_some()) {
        let drawing = Measured::new(&html, &format!("Use of {} by the week", fabric.name));
        let coming = &fabric.detail.as_ref().expect("a detail").coming;
        let middle = drawing.corners("path.middle");
        let band = drawing.corners("path.band");
        let turn = band.iter().map(|corner| corner.0).fold(0.0, f64::max);
        let turn = band.iter().position(|corner| corner.0 >= turn).expect("an end");
        let over = &band[..=turn];
        let under: Vec<_> = band[turn + 1..].iter().rev().copied().collect();
        for week in coming.iter().take(26) {
            let at = weeks(&week.monday) + 0.5;
            for (line, mm) in
                [(&middle[..], week.expected_mm), (over, week.high_mm), (&under[..], week.low_mm)]
            {
                let found = drawing.level(line, at);
                assert!((found - mm / 1000.0).abs() < drawing.slack(), "{} {at}: {found} {mm}", fabric.name);
            }
        }
    }
}

#[test]
fn the_line_of_the_shelf_goes_through_every_evening() {
    for report in [shop::usual(), shop::many(120)] {
        let html = read(&report);
        for fabric in report.fabrics.iter().filter(|fabric| fabric.usual_mm.is_some()) {
            let drawing = Measured::new(&html, &format!("What is free of {}, to come", fabric.name));
            let detail = fabric.detail.as_ref().expect("a detail");
            let line = drawing.corners("path.free");
            assert!((drawing.metres(line[0].1) - fabric.free_mm / 1000.0).abs() < drawing.slack());
            // every corner but the start of a fall is an evening of the message
            let mut met = 0;
            for day in &detail.shelf_line {
                let at = weeks(&day.date) + 1.0 / 7.0;
                let corner = line.iter().rfind(|corner| (drawing.weeks(corner.0) - at).abs() < 0.02);
                if let Some(corner) = corner.filter(|corner| corner.0 < 371.0) {
                    met += 1;
                    let found = drawing.metres(corner.1);
                    assert!(
                        (found - day.free_mm / 1000.0).abs() < drawing.slack(),
                        "{}: {found} {day:?}",
                        fabric.name
                    );
                }
                if day.delivery_mm > 0.0 && at < drawing.weeks(371.0) {
                    assert!(corner.is_some(), "{}: a delivery is a corner: {day:?}", fabric.name);
                }
            }
            assert!(met > 3, "{}: {met} evenings", fabric.name);
        }
    }
}

#[test]
fn the_day_of_zero_deliveries_and_the_reorder_point_are_marked_and_named() {
    let html = read(&shop::usual());
    let report = shop::usual();
    let rope = &report.fabrics[1];
    let detail = rope.detail.as_ref().expect("a detail");
    let drawing = Measured::new(&html, "What is free of Chandler's Rope, to come");
    let out = detail.runs_out_date.as_deref().expect("it runs out");
    let zero = drawing.corners("path.zero");
    assert!((drawing.weeks(zero[0].0) - weeks(out) - 1.0 / 7.0).abs() < 0.1);
    assert!(drawing.metres(zero[1].1).abs() < drawing.slack());
    let words: Vec<String> = select(drawing.svg, "text.halo").iter().map(|t| t.text().collect()).collect();
    let day = out.parse::<jiff::civil::Date>().expect("a day").strftime("%a %-d %b %Y");
    // 2.8 weeks of 6 m
    let expected = [
        "reorder point 16.80".to_owned(),
        format!("runs out {day}"),
        "+50.00 on 16 Dec".to_owned(),
        "+25.00 on 6 Jan".to_owned(),
    ];
    assert_eq!(words, expected);
    let reorder = drawing.corners("path.reorder");
    assert!((drawing.metres(reorder[0].1) - 16.8).abs() < drawing.slack());
}

#[test]
fn weeks_of_which_some_was_out_are_named() {
    let html = read(&shop::usual());
    let drawing = Measured::new(&html, "Use of Kelp by the week");
    let words: Vec<String> = select(drawing.svg, "text.halo").iter().map(|t| t.text().collect()).collect();
    assert_eq!(words, ["at least"]);
    let told: String = select(drawing.svg, "desc")[0].text().collect();
    assert!(told.contains("At least so much, as it was out: 3 weeks."), "{told}");
}
