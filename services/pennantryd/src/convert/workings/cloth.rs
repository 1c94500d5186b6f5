//! Workings of the cloth: see `pennantry_calc::cutting` for the formulas.

use pennantry_calc::cutting::{Band, ClothUse, Role, RowKind};
use pennantry_calc::order::Order;
use pennantry_calc::outline::{Finished, cut};
use pennantry_calc::quote::Worked;
use pennantry_calc::shop::{Fabric, Lay, Letters, Method, Shape, Shop, SizeAt, Sold};
use pennantry_measure::Length;

use super::formula::Mode;
use super::outline::{self, Formulas};
use super::sheet::{Sheet, THOUSANDTH, Way, exactly, up};
use super::{decimal, percent};

const GEOMETRY: &str = "plane geometry: edges moved outward by the seam, corners mitred or clipped";
const PLAN: &str = "rows and columns of the plan";

pub(super) fn write(sheet: &mut Sheet, shop: &Shop, order: &Order, worked: &Worked) {
    let Some(method) = shop.method(order.construction) else { return };
    sheet.constant("shop.seamMm", decimal(method.seam.um()), "mm", "catalogue, seam of the method");
    sheet.constant("shop.sparesPercent", percent(shop.cloth.spares), "%", "catalogue, cloth.spares_percent");
    detail(sheet, order);
    if let Some(letters) = shop.letters {
        sheet.constant(
            "shop.letterWidthPercent",
            percent(letters.width),
            "%",
            "catalogue, letters.width_percent",
        );
        sheet.constant(
            "shop.letterHeightPercent",
            percent(letters.height),
            "%",
            "catalogue, letters.height_percent",
        );
    }
    let finished = worked.layout.finished(order.shape);
    for (place, used) in worked.cloth.iter().enumerate() {
        let Some(fabric) = shop.fabrics.get(used.fabric) else { continue };
        let entry = Entry { path: format!("fabrics[{place}]"), used, fabric, method, letters: shop.letters };
        entry.pieces(sheet, order);
        entry.outline(sheet, &finished);
        entry.plan(sheet);
        entry.lengths(sheet);
    }
}

/// What the shape has beside width and drop, at the top edge.
fn detail(sheet: &mut Sheet, order: &Order) {
    let (formula, source) = match order.shape {
        Shape::Triangle | Shape::Rectangle => ("0", "no measure beside width and drop"),
        Shape::Blunt => ("understood.pennant.footMm", "the foot"),
        Shape::Swallowtail => ("understood.pennant.notchMm", "the notch"),
        Shape::Scallop => ("understood.pennant.riseMm", "the rise of the arc"),
        Shape::Shield if order.size_at == SizeAt::BindingEdge => {
            ("understood.pennant.shoulderMm + binding.insertionMm", "the straight sides, up to the top edge")
        }
        Shape::Shield => ("understood.pennant.shoulderMm", "the straight sides"),
    };
    sheet.via("via.detailMm", formula, "mm", source);
}

/// One entry of `fabrics`.
struct Entry<'a> {
    path: String,
    used: &'a ClothUse,
    fabric: &'a Fabric,
    method: &'a Method,
    letters: Option<Letters>,
}

/// What a measure of the cloth comes to once it is washed.
fn washed(of: &str, loss: &str, rounding: &str) -> String {
    format!("{rounding}({of} * (100 - {loss}) * 10) / 1000")
}

impl Entry<'_> {
    fn name(&self, key: &str) -> String {
        format!("{}.{key}", self.path)
    }

    fn shop(&self, key: &str) -> String {
        format!("shop.{}.{key}", self.path)
    }

    fn via(&self, key: &str) -> String {
        format!("via.{}.{key}", self.path)
    }

    fn layers_each(&self) -> u32 {
        if self.used.bought.is_some() { 1 } else { self.used.lay.layers() }
    }

    fn pieces(&self, sheet: &mut Sheet, order: &Order) {
        let each = self.used.pieces / order.quantity.max(1);
        let source = match self.used.role {
            Role::Pennants => "counted along the colour order, times the layers that hang in it",
            Role::Letters => "letters of one string",
            Role::Web => "one for each pennant fused, or letter held",
        };
        sheet.constant(&self.via("piecesPerString"), each.to_string(), "", source);
        let formula = format!("{} * understood.quantity", self.via("piecesPerString"));
        sheet.figure(&self.name("pieceCount"), "", "all strings", &[exactly(&formula)]);
        sheet.constant(&self.via("layersEach"), self.layers_each().to_string(), "", "layers of the lay");
        let wanted = format!("({0} + ceil({0} * shop.sparesPercent / 100))", self.name("pieceCount"));
        sheet.via(&self.via("wanted"), &wanted, "", "pieces needed and the shop's share of spares");
        let outlines = format!("ceil({} / {})", self.via("wanted"), self.via("layersEach"));
        sheet.figure(
            &self.name("lay.outlineCount"),
            "",
            "each through all layers of the lay",
            &[exactly(&outlines)],
        );
        let spares = format!(
            "{} * {} - {}",
            self.name("lay.outlineCount"),
            self.via("layersEach"),
            self.name("pieceCount")
        );
        sheet.figure(
            &self.name("spareCount"),
            "",
            "spares, and what fills the last outline",
            &[exactly(&spares)],
        );
        if self.used.bought.is_some() {
            let source = "most that one bought piece holds, by the same search";
            sheet.given(&self.name("bought.holds"), "", source);
            let count = format!("ceil({} / {})", self.via("wanted"), self.name("bought.holds"));
            sheet.figure(&self.name("bought.count"), "", "bought pieces", &[exactly(&count)]);
        }
        let layers = [exactly(&self.via("layersEach")), exactly(&self.name("bought.count"))];
        let layers = if self.used.bought.is_some() { &layers[1..] } else { &layers[..1] };
        sheet.figure(&self.name("lay.layerCount"), "", "layers spread", layers);
    }

    fn outline(&self, sheet: &mut Sheet, finished: &Finished) {
        let whole = cut(finished, self.method.seam, self.method.clip_tips) == self.used.outline;
        let formulas: Formulas = if whole {
            outline::pennant(finished.shape, &self.used.outline)
        } else if self.letters.is_some() {
            outline::letter()
        } else {
            return;
        };
        sheet.figure(&self.name("cutWidthMm"), "mm", GEOMETRY, &[formulas.width]);
        sheet.figure(&self.name("cutDropMm"), "mm", GEOMETRY, &[formulas.drop]);
        let none = || exactly("0");
        sheet.figure(&self.name("cutDetailMm"), "mm", GEOMETRY, &[formulas.detail.unwrap_or_else(none)]);
        sheet.figure(&self.name("cutFlatMm"), "mm", GEOMETRY, &[formulas.flat.unwrap_or_else(none)]);
    }

    fn plan(&self, sheet: &mut Sheet) {
        let fabric = self.fabric;
        let constants = [
            ("usableWidthMm", decimal(fabric.usable_width.um()), "mm"),
            ("shrinkAcrossPercent", percent(fabric.shrink_across), "%"),
            ("shrinkAlongPercent", percent(fabric.shrink_along), "%"),
            ("repeatAcrossMm", decimal(fabric.repeat.across.um()), "mm"),
            ("repeatAlongMm", decimal(fabric.repeat.along.um()), "mm"),
        ];
        for (key, value, unit) in constants {
            sheet.constant(&self.shop(key), value, unit, "catalogue, the fabric");
        }
        let width = washed(&self.shop("usableWidthMm"), &self.shop("shrinkAcrossPercent"), "floor");
        let start = washed(&self.shop("repeatAcrossMm"), &self.shop("shrinkAcrossPercent"), "ceil");
        let start = if fabric.centred && self.used.role == Role::Pennants { start } else { "0".to_owned() };
        sheet.via(
            &self.via("flatWidthMm"),
            &format!("{width} - {start}"),
            "mm",
            "usable width, washed, from the first middle of a print on",
        );
        let half = format!("floor({} * 500) / 1000", self.via("flatWidthMm"));
        let width = [exactly(&self.via("flatWidthMm")), exactly(&half)];
        sheet.figure(&self.name("plan.clothWidthMm"), "mm", "the width of the lay", &width);
        let along = washed(&self.shop("repeatAlongMm"), &self.shop("shrinkAlongPercent"), "ceil");
        sheet.via(&self.via("repeatAlongMm"), &along, "mm", "the repeat, washed");
        for (place, band) in self.used.plan.bands.iter().enumerate() {
            self.band(sheet, place, band);
        }
        let bands: Vec<String> =
            (0..self.used.plan.bands.len()).map(|place| self.name(&format!("plan.bands[{place}]"))).collect();
        let all = |of: fn(&str) -> String| bands.iter().map(|band| of(band)).collect::<Vec<_>>().join(" + ");
        let held = all(|band| format!("{band}.rowCount * {band}.piecesPerRow"));
        let rows = all(|band| format!("{band}.rowCount"));
        let cut = if self.used.bought.is_some() {
            format!("min({}, {})", self.via("wanted"), self.name("bought.holds"))
        } else {
            self.name("lay.outlineCount")
        };
        let full = format!("({rows}) * {} - {cut}", self.name("plan.bands[0].piecesPerRow"));
        let (cloth, w) = (self.name("plan.clothWidthMm"), self.name("cutWidthMm"));
        let row = format!("(floor(({cloth} - {w}) / {}) + 1)", self.name("plan.bands[0].pitchMm"));
        let rooms = [format!("{held} - {cut}"), full, format!("({rows}) * {row} - {cut}")];
        let ways = rooms.map(|room| exactly(&room));
        sheet.figure(&self.name("plan.roomCount"), "", "what its rows hold, full, less what is cut", &ways);
    }

    fn band(&self, sheet: &mut Sheet, place: usize, band: &Band) {
        let path = self.name(&format!("plan.bands[{place}]"));
        let at = |key: &str| format!("{path}.{key}");
        let (w, h, t) = (self.name("cutWidthMm"), self.name("cutDropMm"), self.name("cutDetailMm"));
        let (c, cloth, gap) =
            (self.name("plan.clearanceMm"), self.name("plan.clothWidthMm"), self.name("plan.rowGapMm"));
        for key in ["rowCount", "piecesPerRow", "leftMm", "shiftMm"] {
            sheet.given(
                &at(key),
                if key.ends_with("Mm") { "mm" } else { "" },
                "chosen by the search for a plan",
            );
        }
        let foot = if self.used.outline.shape == Shape::Blunt { t.as_str() } else { "0" };
        let spread =
            format!("ceil(1000 * {c} * sqrt(({w} - {foot}) * ({w} - {foot}) + 4 * {h} * {h}) / {h}) / 1000");
        let across = washed(&self.shop("repeatAcrossMm"), &self.shop("shrinkAcrossPercent"), "ceil");
        let pitches = [
            exactly(&format!("({w} + {foot} + {spread}) / 2")),
            exactly(&format!("{w} + {c}")),
            exactly(&format!("ceil(({w} + {c}) / ({across})) * ({across})")),
        ];
        let head_to_tail = band.kind != RowKind::PlainOneWay
            && matches!(self.used.outline.shape, Shape::Triangle | Shape::Blunt);
        let pitches = if head_to_tail { &pitches[..] } else { &pitches[1..] };
        sheet.figure(&at("pitchMm"), "mm", "from one piece's left corner to the next one's", pitches);
        let (k, p) = (at("piecesPerRow"), at("pitchMm"));
        let column = up(&format!("{w} + ({k} - 1) * {p}"));
        sheet.figure(&at("rowMm"), "mm", PLAN, &self.row(&path, &column));
        let slacks = [
            format!("{cloth} - {w} - ({k} - 1) * {p}"),
            format!("{cloth} - {} - {w} - ({k} - 1) * {p}", at("leftMm")),
            format!("{cloth} - {} - {w} - (({k} + 1) / 2 - 1) * {p}", at("shiftMm")),
            format!("{cloth} - {} - {w} - ({k} / 2 - 1) * {p}", at("shiftMm")),
            format!("{cloth} - {w} - (({k} + 1) / 2 - 1) * {p}"),
            format!("{cloth} - {0} * {h} - ({0} - 1) * {gap}", at("rowCount")),
        ];
        sheet.figure(&at("slackMm"), "mm", PLAN, &slacks.map(|slack| exactly(&slack)));
        let mut starts = vec![exactly("0")];
        if let Some(before) = place.checked_sub(1) {
            let before = self.name(&format!("plan.bands[{before}]"));
            starts = vec![
                exactly(&format!("{before}.startMm + {before}.rowCount * ({before}.rowMm + {gap})")),
                exactly(&format!("{before}.startMm")),
            ];
        }
        sheet.figure(&at("startMm"), "mm", PLAN, &starts);
    }

    /// Ways to the length of a row: a plain one, a facing pair, a column.
    fn row(&self, band: &str, column: &Way) -> Vec<Way> {
        let (w, h, d, f) = (
            self.name("cutWidthMm"),
            self.name("cutDropMm"),
            self.name("cutDetailMm"),
            self.name("cutFlatMm"),
        );
        let (c, s) = (self.name("plan.clearanceMm"), format!("{band}.shiftMm"));
        let mut ways = vec![exactly(&h)];
        match self.used.outline.shape {
            Shape::Swallowtail => {
                let (rise, run) = (format!("(2 * {d})"), format!("({w} - 2 * {f})"));
                ways.push(up(&format!(
                    "2 * ({h} - {d}) + ({rise} * ({w} - {s} + {c}) + {c} * sqrt({rise} * {rise} + {run} * {run})) / {run}"
                )));
            }
            Shape::Shield => {
                let (rise, run) = (format!("(2 * ({h} - {d}))"), format!("({w} - {f})"));
                ways.push(up(&format!(
                    "2 * {d} + ({rise} * ({w} - {s}) + {c} * sqrt({rise} * {rise} + {run} * {run})) / {run}"
                )));
            }
            Shape::Scallop => {
                let diameter = format!("(({w} * {w} + 4 * {d} * {d}) / (4 * {d}))");
                ways.push(up(&format!(
                    "2 * {h} - {diameter} + sqrt(({diameter} + {c}) * ({diameter} + {c}) - {s} * {s})"
                )));
            }
            Shape::Triangle | Shape::Blunt | Shape::Rectangle => {}
        }
        ways.push(column.clone());
        ways
    }

    fn lengths(&self, sheet: &mut Sheet) {
        self.used(sheet);
        self.bound(sheet);
        let above = format!("100 * ({0} - {1}) / {1}", self.name("usedMm"), self.name("boundMm"));
        sheet.figure(
            &self.name("plan.aboveBoundPercent"),
            "%",
            "how far above the bound",
            &[(above, Mode::HalfUp, "0.1")],
        );
        match self.fabric.sold {
            Sold::Bolt { step } => self.off_a_bolt(sheet, step),
            Sold::Pieces { length } => {
                let bought = self.shop("pieceMm");
                sheet.constant(&bought, decimal(length.um()), "mm", "catalogue, the fabric");
                let formula = format!("{} * {bought}", self.name("bought.count"));
                sheet.figure(&self.name("chargedMm"), "mm", "whole pieces", &[exactly(&formula)]);
            }
        }
        let source = "the same search with one pennant's pieces more, or fewer";
        sheet.given(&self.name("oneMoreMm"), "mm", source);
        sheet.given(&self.name("oneFewerMm"), "mm", source);
    }

    fn used(&self, sheet: &mut Sheet) {
        let (lengths, gap) = (self.lengths_spread(), self.name("plan.rowGapMm"));
        let ends = (0..self.used.plan.bands.len()).rev().flat_map(|place| {
            let band = self.name(&format!("plan.bands[{place}]"));
            [
                format!("{band}.startMm + {band}.rowCount * {band}.rowMm + ({band}.rowCount - 1) * {gap}"),
                format!("{band}.startMm + {band}.rowMm"),
            ]
        });
        let ways = ends.map(|end| exactly(&format!("{lengths} * ({end})")));
        let ways: Vec<Way> = if self.used.bought.is_some() { Vec::new() } else { ways.collect() };
        sheet.figure(&self.name("usedMm"), "mm", "where the last row ends, for every length spread", &ways);
    }

    /// Lengths of the cloth that are spread: a fold across is one length.
    fn lengths_spread(&self) -> String {
        match self.used.lay {
            Lay::Flat | Lay::FoldedAcross => "1".to_owned(),
            Lay::FoldedAlong | Lay::Stacked(_) => self.via("layersEach"),
        }
    }

    fn bound(&self, sheet: &mut Sheet) {
        let (w, h, t) = (self.name("cutWidthMm"), self.name("cutDropMm"), self.name("cutDetailMm"));
        let (n, c, cloth) = (self.via("wanted"), self.name("plan.clearanceMm"), self.via("flatWidthMm"));
        let foot = if self.used.outline.shape == Shape::Blunt { t.as_str() } else { "0" };
        let mut ways = vec![exactly(&h), exactly(&w)];
        if let Some(area) = outline::area(&self.path, self.used.outline.shape) {
            ways.push((format!("{n} * {area} / {cloth}"), Mode::Down, THOUSANDTH));
        }
        let margins =
            format!("{n} * {h} * ({w} + {foot} + 2 * {c}) / (2 * {cloth} - {w} + {foot} + 2 * {c})");
        ways.push((margins, Mode::Down, THOUSANDTH));
        let source = "the greatest of: one drop, the pieces' area over the width, and that with what leans away at both sides";
        sheet.figure(&self.name("boundMm"), "mm", source, &ways);
    }

    fn off_a_bolt(&self, sheet: &mut Sheet, step: Length) {
        sheet.constant(&self.shop("stepMm"), decimal(step.um()), "mm", "catalogue, the fabric");
        sheet.given(&self.name("plan.squaringMm"), "mm", "catalogue, cloth.squaring_mm");
        let (used, lengths, along) = (self.name("usedMm"), self.lengths_spread(), self.via("repeatAlongMm"));
        let needed = if self.fabric.repeat.along.um() > 0 && self.used.role == Role::Pennants {
            format!("ceil({used} / {lengths} / {along}) * {along} * {lengths} + {along}")
        } else {
            used
        };
        let bought = if self.fabric.shrink_along.milli() == 0 {
            needed
        } else {
            format!("ceil(({needed}) * 100000 / (100 - {})) / 1000", self.shop("shrinkAlongPercent"))
        };
        let source = "in whole repeats, before the wash, and squared at its end";
        sheet.via(
            &self.via("neededMm"),
            &format!("{bought} + {}", self.name("plan.squaringMm")),
            "mm",
            source,
        );
        let step = self.shop("stepMm");
        let charged = format!("ceil({} / {step}) * {step}", self.via("neededMm"));
        sheet.figure(
            &self.name("chargedMm"),
            "mm",
            "up to the next step in which it is sold",
            &[exactly(&charged)],
        );
    }
}
