//! Workings of the layout: see `pennantry_calc::layout` for the formulas.

use pennantry_calc::order::{AskedLength, Order};
use pennantry_calc::shop::{Grain, Shape, Shop, SizeAt};
use pennantry_contract::v1;

use super::formula::{Fraction, Mode};
use super::sheet::{Sheet, THOUSANDTH, exactly, nearest};
use super::{decimal, percent};

const ROW: &str = "identity of a row of equal pieces (derived)";
const ASKED: &str = "as asked, or what stood in";

pub(super) fn write(sheet: &mut Sheet, shop: &Shop, order: &Order, answer: &v1::Quote) {
    sheet.constant(
        "shop.turnUnderMm",
        decimal(shop.bench.turn_under.um()),
        "mm",
        "catalogue, bench.turn_under_mm",
    );
    edges(sheet, shop, order);
    lengths(sheet, shop, order);
    told(sheet, shop, order);
    marks(sheet, shop);
    for place in 0..answer.layout.as_ref().map_or(0, |layout| layout.alternatives.len()) {
        alternative(sheet, order, place);
    }
    hang(sheet);
}

/// The pennant at its two edges.
fn edges(sheet: &mut Sheet, shop: &Shop, order: &Order) {
    sheet.given("binding.widthMm", "mm", "catalogue, width of the binding");
    let half = ("binding.widthMm / 2".to_owned(), Mode::Down, THOUSANDTH);
    sheet.figure("binding.insertionMm", "mm", "tops sit up to the fold, half the flat width deep", &[half]);
    let leaning = match order.shape {
        Shape::Triangle => "understood.pennant.widthMm",
        Shape::Blunt => "understood.pennant.widthMm - understood.pennant.footMm",
        Shape::Swallowtail | Shape::Shield | Shape::Scallop | Shape::Rectangle => "0",
    };
    sheet.via("via.leaningMm", leaning, "mm", "how much of the width leans away on the way down");
    let hidden = "via.leaningMm * binding.insertionMm / understood.pennant.dropMm";
    sheet.via("via.hiddenMm", hidden, "mm", "similar triangles");
    let at_top = order.size_at == SizeAt::TopEdge;
    let (widening, deeper) = if at_top { ("0", "0") } else { ("via.hiddenMm", "binding.insertionMm") };
    sheet.via(
        "via.wideningMm",
        widening,
        "mm",
        "how much wider it is at the top edge than where the size is taken",
    );
    sheet.via("via.topWidthMm", "understood.pennant.widthMm + via.wideningMm", "mm", ROW);
    sheet.figure("layout.topWidthMm", "mm", ROW, &[nearest("via.topWidthMm")]);
    let drop = format!("understood.pennant.dropMm + {deeper}");
    sheet.figure("layout.topDropMm", "mm", ROW, &[exactly(&drop)]);
    sheet.figure("layout.visibleWidthMm", "mm", ROW, &[nearest("via.topWidthMm - via.hiddenMm")]);
    sheet.figure("layout.visibleDropMm", "mm", ROW, &[exactly("layout.topDropMm - binding.insertionMm")]);
    if let Some(design) = shop.designs.get(order.design) {
        sheet.constant("shop.gapMm", decimal(design.gap.um()), "mm", "catalogue, the design's usual gap");
    }
}

/// The exact room, pitch and lengths.
fn lengths(sheet: &mut Sheet, shop: &Shop, order: &Order) {
    let mut tail = "understood.tailMm";
    if let Some(length) = order.length {
        let asked = match length {
            AskedLength::Flagged(_) => {
                sheet.via("via.tailMm", tail, "mm", ASKED);
                "understood.flaggedMm + via.wideningMm + 2 * via.tailMm"
            }
            AskedLength::Overall(_) => {
                sheet.via("via.tailMm", tail, "mm", ASKED);
                "understood.overallMm"
            }
            AskedLength::Binding(_) => {
                sheet.via("via.tailMm", tail, "mm", ASKED);
                "understood.bindingMm - 2 * shop.turnUnderMm"
            }
            AskedLength::Hang(_) => {
                sheet.constant(
                    "shop.knotMm",
                    decimal(shop.bench.knot.um()),
                    "mm",
                    "catalogue, bench.knot_mm",
                );
                if order.tail < shop.bench.knot {
                    tail = "shop.knotMm";
                }
                sheet.via("via.tailMm", tail, "mm", "the greater of the least tail and a knot");
                let source = "length of a catenary of that span and dip, times the swags; worked in doubles";
                sheet.given("layout.hang.curveMm", "mm", source);
                "layout.hang.curveMm + 2 * shop.knotMm"
            }
        };
        sheet.via("via.overallMm", asked, "mm", "the length asked, as an overall length");
        let room = "via.overallMm - via.wideningMm - 2 * via.tailMm";
        sheet.via(
            "via.roomMm",
            room,
            "mm",
            "what the asked length leaves for the flags where the size is taken",
        );
    }
    let gaps = ["understood.gapMm", "shop.gapMm", "understood.fit.maxGapMm", "understood.fit.minGapMm"];
    let mut pitches: Vec<String> =
        gaps.iter().map(|gap| format!("understood.pennant.widthMm + {gap}")).collect();
    pitches.push("(via.roomMm - understood.pennant.widthMm) / (layout.pennantCount - 1)".to_owned());
    let told = sheet.exact("layout.positions.pitchMm");
    let step = Fraction::decimal(THOUSANDTH);
    let fitting = pitches.iter().find(|pitch| {
        let exact = sheet.exact(pitch);
        let rounded = exact.and_then(|exact| exact.rounded(Mode::HalfUp, step?));
        rounded.is_some() && rounded == told && fills(sheet, pitch)
    });
    if let Some(pitch) = fitting {
        sheet.via("via.pitchMm", pitch, "mm", "from one left edge to the next");
    }
    let flagged = "(layout.pennantCount - 1) * via.pitchMm + via.topWidthMm";
    sheet.via("via.flaggedMm", flagged, "mm", ROW);
    if order.length.is_none() {
        sheet.via("via.tailMm", tail, "mm", ASKED);
        sheet.via("via.overallMm", "via.flaggedMm + 2 * via.tailMm", "mm", ROW);
    }
}

/// Whether the flags of a pitch come to the flagged length that is told.
fn fills(sheet: &Sheet, pitch: &str) -> bool {
    let flagged = format!("(layout.pennantCount - 1) * ({pitch}) + via.topWidthMm");
    let step = Fraction::decimal(THOUSANDTH);
    let exact = sheet.exact(&flagged).and_then(|exact| exact.rounded(Mode::HalfUp, step?));
    exact.is_some() && exact == sheet.exact("layout.flaggedMm")
}

/// The figures that are told.
fn told(sheet: &mut Sheet, shop: &Shop, order: &Order) {
    let fit = "floor((via.roomMm + understood.gapMm) / (understood.pennant.widthMm + understood.gapMm))";
    let characters = order.letters.len().to_string();
    sheet.constant("via.letteringCount", characters, "", "letters and spaces of the lettering");
    let fewer = format!("{fit} - 1");
    let count = ["understood.pennantCount", fit, &fewer, "via.letteringCount"].map(exactly);
    let source = "as asked; or the most that fit, one fewer where an odd or even count is asked; or as the lettering is long";
    sheet.figure("layout.pennantCount", "", source, &count);
    sheet.figure("layout.gapMm", "mm", ROW, &[nearest("via.pitchMm - via.topWidthMm")]);
    sheet.figure("layout.flaggedMm", "mm", ROW, &[nearest("via.flaggedMm")]);
    sheet.figure("layout.overallMm", "mm", ROW, &[nearest("via.overallMm")]);
    sheet.figure("layout.tailMm", "mm", ROW, &[nearest("(via.overallMm - via.flaggedMm) / 2")]);
    sheet.figure("layout.bindingCutMm", "mm", ROW, &[exactly("layout.overallMm + 2 * shop.turnUnderMm")]);
    let gap = "via.pitchMm - via.topWidthMm + via.hiddenMm";
    sheet.figure("layout.visibleGapMm", "mm", ROW, &[nearest(gap)]);
    sheet.figure("layout.visibleFlaggedMm", "mm", ROW, &[nearest("via.flaggedMm - via.hiddenMm")]);
    let source = "the larger of the shop's least tolerance and its share of the flagged length";
    let share = "layout.flaggedMm * shop.tolerancePercent / 100";
    sheet.constant(
        "shop.toleranceMm",
        decimal(shop.bench.tolerance.um()),
        "mm",
        "catalogue, bench.tolerance_mm",
    );
    sheet.constant(
        "shop.tolerancePercent",
        percent(shop.bench.tolerance_share),
        "%",
        "catalogue, bench.tolerance_percent",
    );
    sheet.via(
        "via.toleranceMoreMm",
        &format!("{share} - shop.toleranceMm"),
        "mm",
        "the share less the least",
    );
    sheet.figure("layout.toleranceMm", "mm", source, &[nearest(share), exactly("shop.toleranceMm")]);
}

/// The marks, by one rule for all of them.
fn marks(sheet: &mut Sheet, shop: &Shop) {
    let (grain, rounding) = match shop.bench.grain {
        Grain::Millimetre => ("1", "half-up 1"),
        Grain::SixteenthInch => ("25.4 / 16", "half-up 25.4/16, half-up 0.001"),
    };
    let source = "catalogue, bench.grain; an inch is 25.4 mm (international yard and pound agreement, 1959)";
    sheet.figure("layout.positions.grainMm", "mm", source, &[nearest(grain)]);
    sheet.figure("layout.positions.pitchMm", "mm", ROW, &[nearest("via.pitchMm")]);
    let source = "the middle of the flags is the middle of the binding; each mark is rounded by itself";
    let edges = [
        ("leftMm", ""),
        ("rightMm", " + via.topWidthMm"),
        ("leftFromEndMm", " + layout.bindingCutMm / 2"),
        ("rightFromEndMm", " + via.topWidthMm + layout.bindingCutMm / 2"),
    ];
    let places = [("first", "0"), ("last", "(layout.pennantCount - 1)"), ("marks[i]", "i")];
    for (mark, place) in places {
        for (edge, more) in edges {
            let name = format!("layout.positions.{mark}.{edge}");
            let formula = format!("{place} * via.pitchMm - via.flaggedMm / 2{more}");
            if place == "i" {
                sheet.rule(&name, &formula, "mm", rounding, source);
            } else {
                sheet.ruled(&name, &formula, "mm", rounding, source);
            }
        }
    }
}

/// One pennant fewer or more.
fn alternative(sheet: &mut Sheet, order: &Order, place: usize) {
    let path = format!("layout.alternatives[{place}]");
    let source = "the same string with one pennant fewer or more";
    let fewer_or_more = [
        "layout.pennantCount - 1",
        "layout.pennantCount + 1",
        "layout.pennantCount - 2",
        "layout.pennantCount + 2",
    ];
    sheet.figure(&format!("{path}.pennantCount"), "", source, &fewer_or_more.map(exactly));
    let gaps = [
        format!(
            "(via.roomMm - {path}.pennantCount * understood.pennant.widthMm) / ({path}.pennantCount - 1)"
        ),
        "understood.gapMm".to_owned(),
        "shop.gapMm".to_owned(),
        "understood.fit.maxGapMm".to_owned(),
        "understood.fit.minGapMm".to_owned(),
        "via.pitchMm - understood.pennant.widthMm".to_owned(),
    ];
    let step = Fraction::decimal(THOUSANDTH);
    let told = sheet.exact(&format!("{path}.gapMm"));
    let fitting = gaps.iter().find(|gap| {
        let exact = sheet.exact(&format!("{gap} - via.wideningMm"));
        let rounded = exact.and_then(|exact| exact.rounded(Mode::HalfUp, step?));
        rounded.is_some() && rounded == told
    });
    let Some(gap) = fitting else { return };
    let via = format!("via.alternatives[{place}].gapMm");
    sheet.via(&via, &format!("{gap} - via.wideningMm"), "mm", "the gap that goes with it, at the top edge");
    sheet.figure(&format!("{path}.gapMm"), "mm", source, &[nearest(&via)]);
    let flagged = format!("{path}.pennantCount * via.topWidthMm + ({path}.pennantCount - 1) * {via}");
    sheet.figure(&format!("{path}.flaggedMm"), "mm", ROW, &[nearest(&flagged)]);
    let tail = format!("(via.overallMm - ({flagged})) / 2");
    // one more may be longer than what was asked: it then has the least tails
    let ways = [nearest(&tail), exactly("via.tailMm")];
    let ways = if order.length.is_some() { &ways[..] } else { ways.get(1..).unwrap_or_default() };
    sheet.figure(&format!("{path}.tailMm"), "mm", ROW, ways);
}

/// The hang.
fn hang(sheet: &mut Sheet) {
    sheet.figure("layout.hang.knotMm", "mm", "catalogue, bench.knot_mm", &[exactly("shop.knotMm")]);
    let lowest = exactly("understood.hang.dipMm + layout.topDropMm");
    sheet.figure("layout.hang.lowestTipMm", "mm", "as if a pennant hung at the lowest point", &[lowest]);
    for hook in 0..sheet.count("layout.hang.hooks") {
        let path = format!("layout.hang.hooks[{hook}]");
        let source = "the gap nearest to the equal division of the curve";
        sheet.given(&format!("{path}.atMm"), "mm", source);
        let division =
            format!("{path}.atMm - ({} / understood.hang.swagCount - 1 / 2) * layout.hang.curveMm", hook + 1);
        sheet.figure(&format!("{path}.shiftMm"), "mm", source, &[nearest(&division)]);
    }
}
