//! Formulas of a cut outline and of its area: see `pennantry_calc::outline`.

use pennantry_calc::outline::Outline;
use pennantry_calc::shop::Shape;

use super::formula::Mode;
use super::sheet::{THOUSANDTH, Way, exactly};

/// Formulas of one outline's figures.
pub(super) struct Formulas {
    pub width: Way,
    pub drop: Way,
    pub detail: Option<Way>,
    pub flat: Option<Way>,
}

/// The outline of a whole pennant. Its finished size is `layout.topWidthMm`,
/// `layout.topDropMm` and `via.detailMm`, the seam `shop.seamMm`.
pub(super) fn pennant(finished: Shape, outline: &Outline) -> Formulas {
    let (w, h, s, d) = ("layout.topWidthMm", "layout.topDropMm", "shop.seamMm", "via.detailMm");
    let up = |formula: String| (formula, Mode::Up, THOUSANDTH);
    let straight = exactly(&format!("{w} + 2 * {s}"));
    let square = exactly(&format!("{h} + {s}"));
    let clipped = outline.flat.um() > 0;
    match (finished, outline.shape) {
        (Shape::Triangle, Shape::Triangle) => {
            let root = format!("sqrt({w} * {w} + 4 * {h} * {h})");
            Formulas {
                width: up(format!("{w} + {s} * {root} / {h}")),
                drop: up(format!("{h} + {s} * {root} / {w}")),
                detail: None,
                flat: None,
            }
        }
        (Shape::Triangle | Shape::Blunt, _) => {
            let root = format!("sqrt(({w} - {d}) * ({w} - {d}) + 4 * {h} * {h})");
            Formulas {
                width: up(format!("{w} + {s} * {root} / {h}")),
                drop: square,
                detail: Some(up(format!("{d} + {s} * ({root} - ({w} - {d})) / {h}"))),
                flat: None,
            }
        }
        (Shape::Swallowtail, Shape::Rectangle) => {
            Formulas { width: straight, drop: square, detail: None, flat: None }
        }
        (Shape::Swallowtail, _) => {
            let root = format!("sqrt({w} * {w} + 4 * {d} * {d})");
            let end = format!("({h} - {d} + ceil(1000 * {s} * {root} / {w}) / 1000)");
            let point = up(format!("{h} + {s} * ({root} + 2 * {d}) / {w}"));
            let detail = if clipped {
                exactly(&format!("{h} + {s} - {end}"))
            } else {
                exactly(&format!("{h} + ceil(1000 * {s} * ({root} + 2 * {d}) / {w}) / 1000 - {end}"))
            };
            Formulas {
                width: straight,
                drop: if clipped { square } else { point },
                detail: Some(detail),
                flat: clipped.then(|| up(format!("{s} * ({root} + 2 * {d} - {w}) / (2 * {d})"))),
            }
        }
        (Shape::Shield, _) => {
            let q = format!("({h} - {d})");
            let root = format!("sqrt({w} * {w} + 4 * {q} * {q})");
            Formulas {
                width: straight,
                drop: if clipped { square } else { up(format!("{h} + {s} * {root} / {w}")) },
                detail: Some(up(format!("{d} + {s} * ({root} - 2 * {q}) / {w}"))),
                flat: clipped.then(|| up(format!("{s} * ({root} - {w}) / {q}"))),
            }
        }
        (Shape::Scallop, _) => {
            let root = format!("sqrt(({w} + 2 * {d}) * ({w} + 2 * {d}) + 16 * {d} * {s})");
            let rise = format!(
                "({w} * {w} + 4 * {d} * {d} + 8 * {d} * {s} - abs({w} - 2 * {d}) * {root}) / (8 * {d})"
            );
            Formulas {
                width: straight,
                drop: square,
                detail: Some((rise, Mode::Down, THOUSANDTH)),
                flat: None,
            }
        }
        (Shape::Rectangle, _) => Formulas { width: straight, drop: square, detail: None, flat: None },
    }
}

/// The piece that a letter is cut from.
pub(super) fn letter() -> Formulas {
    let up = |formula: &str| (formula.to_owned(), Mode::Up, THOUSANDTH);
    Formulas {
        width: up("layout.topWidthMm * shop.letterWidthPercent / 100"),
        drop: up("layout.topDropMm * shop.letterHeightPercent / 100"),
        detail: None,
        flat: None,
    }
}

/// The area of one piece of a fabric's entry in the answer; none for a scallop, whose
/// foot is a segment of a circle.
pub(super) fn area(path: &str, shape: Shape) -> Option<String> {
    let [w, h, d, f] =
        ["cutWidthMm", "cutDropMm", "cutDetailMm", "cutFlatMm"].map(|name| format!("{path}.{name}"));
    match shape {
        Shape::Triangle => Some(format!("{w} * {h} / 2")),
        Shape::Blunt => Some(format!("({w} + {d}) * {h} / 2")),
        Shape::Swallowtail => Some(format!("({w} * {h} - ({w} - 2 * {f}) * {d} / 2)")),
        Shape::Shield => Some(format!("({w} * {d} + ({w} + {f}) * ({h} - {d}) / 2)")),
        Shape::Scallop => None,
        Shape::Rectangle => Some(format!("{w} * {h}")),
    }
}
