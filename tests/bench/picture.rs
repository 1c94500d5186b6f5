//! The picture: what a request is made of at either door, and how the work grows with the length.
//! Readable in black and white, light and dark.

use std::fmt::Write as _;

use crate::growth::Size;
use crate::load::Door;

const WIDTH: f64 = 960.0;
const HEIGHT: f64 = 330.0;
const STYLE: &str = "<style>svg{--ink:#2b2621;--paper:#fbf8f2;--faint:#b9ad9c;--a:#d8cbb5;--b:#9b4a2f;--c:#a9bacb}\
@media (prefers-color-scheme:dark){svg{--ink:#efe7da;--paper:#211d1a;--faint:#6b6156;--a:#4d443a;--b:#d98a6c;--c:#c9d6e2}}\
text{font:13px system-ui,sans-serif;fill:var(--ink)}.small{font-size:11px}.end{text-anchor:end}.mid{text-anchor:middle}\
line,polyline{fill:none;stroke:var(--ink)}.grid{stroke:var(--faint);stroke-width:.5}\
rect{stroke:var(--ink);stroke-width:1}.f{fill:var(--a)}.c{fill:var(--b)}.k{fill:var(--c)}.d{fill:var(--paper);stroke-dasharray:3 2}</style>";

/// Draws both.
pub fn draw(doors: &[Door; 2], by_length: &[Size]) -> String {
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {HEIGHT}\" role=\"img\" aria-label=\"What a \
         request takes at either door, and how the work grows with the length; the figures stand in the tables\">\
         {STYLE}<rect class=\"p\" width=\"{WIDTH}\" height=\"{HEIGHT}\" style=\"fill:var(--paper);stroke:none\"/>"
    );
    bars(&mut svg, doors);
    lines(&mut svg, by_length);
    svg.push_str("</svg>\n");
    svg
}

fn text(svg: &mut String, (x, y): (f64, f64), class: &str, words: &str) {
    let _ = write!(svg, "<text x=\"{x:.1}\" y=\"{y:.1}\" class=\"{class}\">{words}</text>");
}

fn line(svg: &mut String, (x, y): (f64, f64), (to_x, to_y): (f64, f64), class: &str) {
    let _ = write!(
        svg,
        "<line x1=\"{x:.1}\" y1=\"{y:.1}\" x2=\"{to_x:.1}\" y2=\"{to_y:.1}\" class=\"{class}\"/>"
    );
}

/// A bar a door: floor, calculation, conversion, and what the door takes beyond.
fn bars(svg: &mut String, doors: &[Door; 2]) {
    const LEFT: f64 = 70.0;
    const ROOM: f64 = 360.0;
    let most = doors.iter().map(|door| door.whole).fold(0.0, f64::max);
    let step = nice(most / 4.0);
    let scale = ROOM / (step * (most / step).ceil());
    text(svg, (20.0, 28.0), "", "A request of ten metres in four fabrics, processor µs");
    let mut mark = 0.0;
    while mark * scale <= ROOM + 0.5 {
        let x = LEFT + mark * scale;
        line(svg, (x, 56.0), (x, 220.0), "grid");
        text(svg, (x, 236.0), "small mid", &format!("{mark:.0}"));
        mark += step;
    }
    for (place, (door, name)) in doors.iter().zip(["JSON", "gRPC"]).enumerate() {
        let y = if place == 0 { 70.0 } else { 150.0 };
        text(svg, (LEFT - 10.0, y + 31.0), "end", name);
        let (c, k) = (door.calculate[0], door.convert[0]);
        let beyond = (door.whole - door.floor - c - k).max(0.0);
        let mut x = LEFT;
        for (share, class) in [(door.floor, "f"), (c, "c"), (k, "k"), (beyond, "d")] {
            let width = share * scale;
            let _ = write!(
                svg,
                "<rect x=\"{x:.1}\" y=\"{y:.1}\" width=\"{width:.1}\" height=\"52\" class=\"{class}\"/>"
            );
            x += width;
        }
        text(svg, (x + 6.0, y + 31.0), "", &format!("{:.0}", door.whole));
    }
    let words = ["F the floor", "C the calculation", "K converting", "beyond"];
    for ((class, words), x) in ["f", "c", "k", "d"].into_iter().zip(words).zip([20.0, 130.0, 270.0, 385.0]) {
        let _ = write!(svg, "<rect x=\"{x}\" y=\"266\" width=\"14\" height=\"14\" class=\"{class}\"/>");
        text(svg, (x + 20.0, 278.0), "small", words);
    }
}

/// One, two or five times a power of ten, not less than what is given.
fn nice(least: f64) -> f64 {
    let ten = 10_f64.powf(least.log10().floor());
    [1.0, 2.0, 5.0, 10.0].into_iter().map(|times| times * ten).find(|step| *step >= least).unwrap_or(ten)
}

/// Both axes by powers of ten.
fn lines(svg: &mut String, sizes: &[Size]) {
    const LEFT: f64 = 560.0;
    const ROOM: f64 = 330.0;
    const FOOT: f64 = 270.0;
    const TALL: f64 = 214.0;
    text(svg, (520.0, 28.0), "", "By length, µs in a loop");
    let values = sizes.iter().flat_map(|size| [size.calculate, size.convert]);
    let (low, high) = values.fold((f64::MAX, 0_f64), |(low, high), value| (low.min(value), high.max(value)));
    let (low, high) = (low.log10().floor(), high.log10().ceil());
    let metres = |size: &Size| f64::from(size.of) / 1_000.0;
    let ends =
        sizes.first().zip(sizes.last()).map(|(first, last)| (metres(first).log10(), metres(last).log10()));
    let Some((short, long)) = ends else { return };
    let x = |metres: f64| LEFT + ROOM * (metres.log10() - short) / (long - short);
    let y = |micros: f64| FOOT - TALL * (micros.log10() - low) / (high - low);
    let mut power = low;
    while power <= high {
        let value = 10_f64.powf(power);
        line(svg, (LEFT, y(value)), (LEFT + ROOM, y(value)), "grid");
        text(svg, (LEFT - 8.0, y(value) + 4.0), "small end", &format!("{value:.0}"));
        power += 1.0;
    }
    for (metres, words) in
        [(0.1, "10 cm"), (1.0, "1 m"), (10.0, "10 m"), (100.0, "100 m"), (1_000.0, "1 km"), (2_000.0, "2 km")]
    {
        line(svg, (x(metres), FOOT - TALL), (x(metres), FOOT), "grid");
        let row = if metres > 1_500.0 { FOOT + 32.0 } else { FOOT + 16.0 };
        text(svg, (x(metres), row), "small mid", words);
    }
    let of: [fn(&Size) -> f64; 2] = [|size| size.calculate, |size| size.convert];
    for (of, (name, dashes)) in of.into_iter().zip([("C", ""), ("K", "6 4")]) {
        let points: Vec<String> =
            sizes.iter().map(|size| format!("{:.1},{:.1}", x(metres(size)), y(of(size)))).collect();
        let _ = write!(
            svg,
            "<polyline points=\"{}\" stroke-width=\"2\" stroke-dasharray=\"{dashes}\"/>",
            points.join(" ")
        );
        if let Some(last) = sizes.last() {
            text(svg, (LEFT + ROOM + 8.0, y(of(last)) + 4.0), "", name);
        }
    }
}
