//! Workings of binding, thread and what is used up by the piece: see
//! `pennantry_calc::binding`, `thread` and `sundries` for the formulas.

use pennantry_calc::binding::Supply;
use pennantry_calc::cutting::Role;
use pennantry_calc::order::Order;
use pennantry_calc::quote::Worked;
use pennantry_calc::shop::{Binding, Construction, Driver, EndCut, Letters, Shape, Shop};
use pennantry_calc::sundries::UsedKind;
use pennantry_calc::thread::SeamKind;

use super::formula::Mode;
use super::sheet::{Sheet, THOUSANDTH, Way, exactly, up};
use super::{decimal, percent};

pub(super) fn write(sheet: &mut Sheet, shop: &Shop, order: &Order, worked: &Worked) {
    if let Some(binding) = shop.bindings.get(order.binding) {
        self::binding(sheet, shop, binding, &worked.binding.supply);
    }
    thread(sheet, shop, order, worked);
    sundries(sheet, shop, order, worked);
}

fn binding(sheet: &mut Sheet, shop: &Shop, binding: &Binding, supply: &Supply) {
    sheet.constant("shop.bindingShrinkPercent", percent(binding.shrink), "%", "catalogue, the binding");
    let each = if binding.shrink.milli() == 0 {
        "layout.bindingCutMm".to_owned()
    } else {
        "ceil(layout.bindingCutMm * 100000 / (100 - shop.bindingShrinkPercent)) / 1000".to_owned()
    };
    sheet.via("via.bindingEachMm", &each, "mm", "cut for one string, before the wash");
    let all = exactly("via.bindingEachMm * understood.quantity");
    sheet.figure("binding.cutMm", "mm", "cut for all strings", &[all]);
    let seam = decimal(shop.bench.join.seam.um());
    sheet.constant("shop.joinSeamMm", seam, "mm", "catalogue, bench.join_seam_mm");
    let raw = match supply {
        Supply::Bought { .. } => "2 * binding.widthMm",
        Supply::Straight { .. } => "binding.straight.rawMm",
        Supply::Bias { .. } => "binding.bias.rawMm",
    };
    let (loss, source) = match (shop.bench.join.ends, supply) {
        (EndCut::Slanted, _) | (_, Supply::Bias { .. }) => {
            ("shop.joinSeamMm * sqrt(8)", "slanted ends: two seams at 45 degrees (derived)")
        }
        (EndCut::Straight, _) => ("2 * shop.joinSeamMm", "straight ends: two seams"),
        (EndCut::Mitred, _) => {
            (raw, "a mitred join of square ends loses one strip width: common practice, no source")
        }
    };
    let ways = [up(loss), up("2 * shop.joinSeamMm"), exactly(raw)];
    sheet.figure("binding.joinLossMm", "mm", source, &ways);
    sheet.given(
        "binding.joinCount",
        "",
        "joins where one piece does not reach, by the search for their places",
    );
    let joins = "binding.joinCount * binding.joinLossMm";
    let taken = [
        exactly(&format!("binding.cutMm + {joins}")),
        exactly(&format!(
            "binding.cutMm + ceil({joins} * 100000 / (100 - shop.bindingShrinkPercent)) / 1000"
        )),
        exactly("binding.cutMm + (binding.bias.squareCount - 1) * binding.joinLossMm"),
    ];
    sheet.figure("binding.takenMm", "mm", "cut, and what joins lose", &taken);
    if let Supply::Bias { .. } = supply {
        bias(sheet);
    }
}

fn bias(sheet: &mut Sheet) {
    let clear = "(binding.bias.sideMm - 2 * shop.joinSeamMm)";
    let turns = format!("floor({clear} / (sqrt(2) * binding.bias.rawMm))");
    let source = "whole turns round a square, its seams off (derived)";
    sheet.figure("binding.bias.turnCount", "", source, &[exactly(&turns)]);
    let bound = format!("{clear} * {clear} / binding.bias.rawMm");
    let down = (bound, Mode::Down, THOUSANDTH);
    sheet.figure("binding.bias.boundMm", "mm", "the area of the squares, seams off", &[down]);
    let gives = format!("sqrt(2) * binding.bias.turnCount * {clear}");
    sheet.figure("binding.bias.yieldMm", "mm", source, &[(gives, Mode::Down, THOUSANDTH)]);
}

fn thread(sheet: &mut Sheet, shop: &Shop, order: &Order, worked: &Worked) {
    let thread = &shop.bench.thread;
    let constants = [
        ("shop.stitchMm", decimal(thread.stitch.um()), "mm", "catalogue, thread.stitch_mm"),
        ("shop.threadWastePercent", percent(thread.waste), "%", "catalogue, thread.waste_percent"),
        ("shop.seamRows", thread.rows.to_string(), "", "catalogue, thread.rows"),
        ("shop.threadTailMm", decimal(thread.tail.um()), "mm", "catalogue, thread.tail_mm"),
    ];
    for (name, value, unit, source) in constants {
        sheet.constant(name, value, unit, source);
    }
    layers(sheet, shop, order, worked);
    for (place, seam) in worked.thread.seams.iter().enumerate() {
        self::seam(sheet, place, seam.kind, order, shop.letters);
    }
    let has = |kind| worked.thread.seams.iter().any(|seam| seam.kind == kind);
    let mut ends = "understood.quantity * shop.seamRows".to_owned();
    if has(SeamKind::Sides) {
        ends.push_str(" + layout.pennantCount * understood.quantity");
    }
    if has(SeamKind::Letters) {
        ends.push_str(" + via.letterCount * understood.quantity");
    }
    sheet.via("via.threadEnds", &format!("2 * ({ends})"), "", "two ends of whatever is sewn in one go");
    let sewn = "sum(thread.seams[*].threadMm)";
    let formula = format!(
        "ceil({sewn} * (100 + shop.threadWastePercent) * 10) / 1000 + via.threadEnds * shop.threadTailMm"
    );
    sheet.figure("thread.lengthMm", "mm", "what is sewn in, waste, and ends", &[exactly(&formula)]);
}

/// How thick what is sewn is.
fn layers(sheet: &mut Sheet, shop: &Shop, order: &Order, worked: &Worked) {
    let of = |place: usize| shop.fabrics.get(place).map_or(0, |fabric| fabric.thickness.um());
    let hung = worked.cloth.iter().filter(|used| used.role == Role::Pennants);
    let thickest = hung.map(|used| of(used.fabric)).max().unwrap_or(0);
    let ply = shop.bindings.get(order.binding).map_or(0, |binding| binding.thickness.um());
    let fused = order.construction == Construction::DoubleFused;
    let web = shop.method(order.construction).and_then(|method| method.web).filter(|_| fused).map_or(0, of);
    let letter = shop.letters.map_or(0, |letters| of(letters.fabric) + letters.web.map_or(0, of));
    let constants = [
        ("shop.bindingPlyMm", decimal(ply), "mm", "catalogue, thickness of the binding's cloth"),
        ("shop.thickestClothMm", decimal(thickest), "mm", "catalogue, the thickest cloth that hangs"),
        ("shop.webMm", decimal(web), "mm", "catalogue, thickness of the web that fuses"),
        ("shop.letterMm", decimal(letter), "mm", "catalogue, thickness of a letter and its web"),
    ];
    for (name, value, unit, source) in constants {
        sheet.constant(name, value, unit, source);
    }
    let pennant = format!("{} * shop.thickestClothMm + shop.webMm", order.construction.layers());
    sheet.via("via.pennantMm", &pennant, "mm", "thickness of a pennant");
    let letters = order.letters.iter().flatten().count();
    sheet.constant("via.letterCount", letters.to_string(), "", "letters of one string, without spaces");
}

fn seam(sheet: &mut Sheet, place: usize, kind: SeamKind, order: &Order, letters: Option<Letters>) {
    let path = format!("thread.seams[{place}]");
    let rows = "understood.quantity * shop.seamRows";
    let all = "understood.quantity * layout.pennantCount";
    let over = ["layout.pennantCount * layout.topWidthMm", "layout.flaggedMm", "layout.overallMm"];
    let (ways, thickness): (Vec<Way>, &str) = match kind {
        SeamKind::BindingAlone => {
            let alone = over.map(|over| exactly(&format!("{rows} * (layout.overallMm - {over})")));
            (alone.to_vec(), "4 * shop.bindingPlyMm")
        }
        SeamKind::BindingOverPennants => {
            let over = over.map(|over| exactly(&format!("{rows} * {over}")));
            (over.to_vec(), "4 * shop.bindingPlyMm + via.pennantMm")
        }
        SeamKind::Sides => {
            let below = below_top(order.shape).map(|below| exactly(&format!("{all} * {below}")));
            (below.into_iter().collect(), "2 * shop.thickestClothMm")
        }
        SeamKind::Letters => {
            if let Some(letters) = letters {
                sheet.constant(
                    "shop.letterStitchingPercent",
                    percent(letters.stitching),
                    "%",
                    "catalogue, letters.stitching_percent",
                );
            }
            let round =
                "ceil(layout.topDropMm * shop.letterHeightPercent * shop.letterStitchingPercent / 10) / 1000";
            (
                vec![exactly(&format!("understood.quantity * via.letterCount * {round}"))],
                "via.pennantMm + shop.letterMm",
            )
        }
    };
    sheet.figure(&format!("{path}.seamMm"), "mm", "length of seam, all strings", &ways);
    sheet.figure(&format!("{path}.thicknessMm"), "mm", "what the seam holds", &[exactly(thickness)]);
    let thread = format!("{path}.seamMm * 2 * (shop.stitchMm + {path}.thicknessMm) / shop.stitchMm");
    let source = "lockstitch, needle and bobbin half and half (A. K. Das, 2015; M. Islam, 2015)";
    sheet.figure(&format!("{path}.threadMm"), "mm", source, &[up(&thread)]);
    let stitches = format!("ceil({path}.seamMm / shop.stitchMm)");
    sheet.figure(&format!("{path}.stitchCount"), "", "seam over stitch", &[exactly(&stitches)]);
}

/// All edges of a pennant but the top; none for a scallop, whose foot is an arc.
fn below_top(shape: Shape) -> Option<String> {
    let (w, h, d) = ("layout.topWidthMm", "layout.topDropMm", "via.detailMm");
    let both = |across: &str, along: &str| {
        format!("ceil(1000 * sqrt(({across}) * ({across}) + 4 * ({along}) * ({along}))) / 1000")
    };
    match shape {
        Shape::Triangle => Some(both(w, h)),
        Shape::Blunt => Some(format!("({d} + {})", both(&format!("{w} - {d}"), h))),
        Shape::Swallowtail => Some(format!("(2 * {h} + {})", both(w, d))),
        Shape::Shield => Some(format!("(2 * {d} + {})", both(w, &format!("{h} - {d}")))),
        Shape::Scallop => None,
        Shape::Rectangle => Some(format!("(2 * {h} + {w})")),
    }
}

fn sundries(sheet: &mut Sheet, shop: &Shop, order: &Order, worked: &Worked) {
    let strings = "understood.quantity";
    for (place, used) in worked.used.iter().enumerate() {
        let formula = match used.kind {
            UsedKind::Sundry(at) => match shop.sundries.get(at).map(|sundry| sundry.driver) {
                Some(Driver::String) => strings.to_owned(),
                Some(Driver::Pennant) => format!("layout.pennantCount * {strings}"),
                Some(Driver::End) => format!("2 * {strings}"),
                Some(Driver::Letter) => format!("via.letterCount * {strings}"),
                _ => "1".to_owned(),
            },
            UsedKind::Trimming(at) => {
                let each: u32 = order
                    .trimmings
                    .iter()
                    .filter(|(trimming, _)| *trimming == at)
                    .map(|(_, each)| *each)
                    .sum();
                format!("{each} * layout.pennantCount * {strings}")
            }
        };
        let source = "counted by what it is used for";
        sheet.figure(&format!("sundries[{place}].count"), "", source, &[exactly(&formula)]);
    }
}
