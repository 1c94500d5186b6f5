//! Workings of mass and parcel: see `pennantry_calc::mass` and `parcel` for the formulas.

use pennantry_calc::mass::PartKind;
use pennantry_calc::order::Order;
use pennantry_calc::quote::Worked;
use pennantry_calc::shop::Shop;
use pennantry_calc::sundries::UsedKind;

use super::formula::Mode;
use super::outline::area;
use super::sheet::{Sheet, Way, exactly, nearest};
use super::{decimal, percent};

pub(super) fn write(sheet: &mut Sheet, shop: &Shop, order: &Order, worked: &Worked) {
    parts(sheet, shop, order, worked);
    masses(sheet, shop, worked);
    size(sheet, shop, order, worked);
    counted(sheet);
    sheet.figure("parcel.customs.stringCount", "", "strings", &[exactly("understood.quantity")]);
    sheet.figure("parcel.customs.netGrams", "g", "without packing", &[exactly("parcel.netGrams")]);
    sheet.figure("parcel.customs.grossGrams", "g", "packing and all", &[exactly("parcel.packedGrams")]);
}

/// The parts of the net mass.
fn parts(sheet: &mut Sheet, shop: &Shop, order: &Order, worked: &Worked) {
    for (place, part) in worked.masses.parts.iter().enumerate() {
        let name = format!("parcel.parts[{place}].grams");
        match part.kind {
            PartKind::Cloth(of) => cloth(sheet, shop, worked, &name, place, of),
            PartKind::Binding => {
                let binding = shop.bindings.get(order.binding);
                let mass = binding.map_or(0, |binding| binding.mass.ug_per_m() / 1_000);
                sheet.constant("shop.bindingGramsPerMetre", decimal(mass), "g/m", "catalogue, the binding");
                let formula = "binding.cutMm / 1000 * shop.bindingGramsPerMetre";
                sheet.figure(&name, "g", "mass of a length", &[nearest(formula)]);
            }
            PartKind::Thread => {
                let tex = shop.bench.thread.mass.ug_per_m();
                sheet.constant("shop.threadTex", decimal(tex), "g/km", "catalogue, thread.tex");
                let formula = "sum(thread.seams[*].threadMm) / 1000000 * shop.threadTex";
                sheet.figure(&name, "g", "mass of what is sewn in", &[nearest(formula)]);
            }
            PartKind::Trimming(of) => {
                let mass = shop.trimmings.get(of).map_or(0, |trimming| trimming.mass.mg());
                pieces(sheet, worked, &name, UsedKind::Trimming(of), mass);
            }
            PartKind::Sundry(of) => {
                let mass = shop.sundries.get(of).map_or(0, |sundry| sundry.mass.mg());
                pieces(sheet, worked, &name, UsedKind::Sundry(of), mass);
            }
        }
    }
}

fn cloth(sheet: &mut Sheet, shop: &Shop, worked: &Worked, name: &str, part: usize, of: usize) {
    let Some(fabric) = shop.fabrics.get(of) else { return };
    let mass = format!("shop.parts[{part}].gramsPerM2");
    sheet.constant(&mass, decimal(fabric.mass.mg_per_m2()), "g/m2", "catalogue, the fabric");
    let uses = worked.cloth.iter().enumerate().filter(|(_, used)| used.fabric == of);
    let areas: Option<Vec<String>> = uses
        .map(|(place, used)| {
            let path = format!("fabrics[{place}]");
            area(&path, used.outline.shape).map(|area| format!("{path}.pieceCount * {area}"))
        })
        .collect();
    let Some(areas) = areas else { return };
    let mut formula = format!("({}) / 1000000 * {mass}", areas.join(" + "));
    if fabric.shrink_across.milli() != 0 || fabric.shrink_along.milli() != 0 {
        let (across, along) = (percent(fabric.shrink_across), percent(fabric.shrink_along));
        formula = format!("{formula} * 10000 / ((100 - {across}) * (100 - {along}))");
    }
    sheet.figure(
        name,
        "g",
        "cut outlines that stay in the strings; washed cloth is heavier",
        &[nearest(&formula)],
    );
}

fn pieces(sheet: &mut Sheet, worked: &Worked, name: &str, kind: UsedKind, mg: i64) {
    let Some(place) = worked.used.iter().position(|used| used.kind == kind) else { return };
    let mass = format!("shop.sundries[{place}].grams");
    sheet.constant(&mass, decimal(mg), "g", "catalogue, mass of one");
    sheet.figure(name, "g", "count x mass of one", &[exactly(&format!("sundries[{place}].count * {mass}"))]);
}

fn masses(sheet: &mut Sheet, shop: &Shop, worked: &Worked) {
    sheet.figure("parcel.netGrams", "g", "the sum of its parts", &[exactly("sum(parcel.parts[*].grams)")]);
    let mut packing = vec!["0".to_owned()];
    for (place, used) in worked.used.iter().enumerate().filter(|(_, used)| used.packing) {
        let mass = format!("shop.sundries[{place}].grams");
        let one = used.mass.mg().checked_div(i64::from(used.count)).unwrap_or(0);
        sheet.constant(&mass, decimal(one), "g", "catalogue, mass of one");
        packing.push(format!("sundries[{place}].count * {mass}"));
    }
    sheet.via("via.packingGrams", &packing.join(" + "), "g", "what only packs");
    sheet.figure(
        "parcel.packedGrams",
        "g",
        "net and packing",
        &[exactly("parcel.netGrams + via.packingGrams")],
    );
    let tolerance = percent(shop.folding.mass_tolerance);
    sheet.constant("shop.massTolerancePercent", tolerance, "%", "catalogue, folding.mass_tolerance_percent");
    let materials = worked
        .masses
        .parts
        .iter()
        .enumerate()
        .filter(|(_, part)| matches!(part.kind, PartKind::Cloth(_) | PartKind::Binding));
    let materials: Vec<String> = materials.map(|(place, _)| format!("parcel.parts[{place}].grams")).collect();
    sheet.via(
        "via.materialGrams",
        &materials.join(" + "),
        "g",
        "cloth and binding, which are dealt in with a tolerance",
    );
    for (name, sign) in [("parcel.leastGrams", "-"), ("parcel.mostGrams", "+")] {
        let formula = format!(
            "parcel.packedGrams - via.materialGrams + via.materialGrams * (100 {sign} shop.massTolerancePercent) / 100"
        );
        sheet.figure(name, "g", "by the tolerance of the materials", &[nearest(&formula)]);
    }
}

/// The size as posted. Each side is one of three, whichever is the longest first.
fn size(sheet: &mut Sheet, shop: &Shop, order: &Order, worked: &Worked) {
    let Ok(parcel) = &worked.parcel else { return };
    let constants = [
        ("shop.wrapMm", decimal(shop.folding.wrap.um()), "mm", "catalogue, folding.wrap_mm"),
        (
            "shop.wrapThicknessMm",
            decimal(shop.folding.wrap_thickness.um()),
            "mm",
            "catalogue, folding.wrap_thickness_mm",
        ),
        ("shop.loftPercent", percent(shop.folding.loft), "%", "catalogue, folding.loft_percent"),
    ];
    for (name, value, unit, source) in constants {
        sheet.constant(name, value, unit, source);
    }
    sheet.given("parcel.panelCount", "", "the fewest that fit");
    sheet.given("parcel.columnCount", "", "the fewest that fit");
    stack(sheet, shop, order);
    let width = "parcel.columnCount * (layout.topWidthMm + min(max(layout.gapMm, 0), layout.topWidthMm)) + 2 * shop.wrapMm";
    let length = "ceil(1000 * layout.topDropMm / parcel.panelCount) / 1000 + 2 * shop.wrapMm";
    let panels = "ceil(10 * via.flatMm * parcel.panelCount * (100 + shop.loftPercent)) / 1000";
    let thickness = format!("ceil(1000 * {panels} / parcel.columnCount) / 1000 + shop.wrapThicknessMm");
    let section = "ceil(10 * via.flatMm * (100 + shop.loftPercent)) / 1000";
    let roll =
        format!("ceil(1000 * sqrt({section} * layout.topDropMm * 424 / 333)) / 1000 + shop.wrapThicknessMm");
    let mut ways: Vec<Way> = [width, length, &thickness].map(exactly).to_vec();
    if parcel.fold.rolled {
        ways = vec![exactly(width), exactly(&roll), exactly(&format!("{section} + shop.wrapThicknessMm"))];
    }
    let source =
        "a stack folded in panels and columns, or rolled up, and its wrapping; or the format's least size";
    for side in ["lengthMm", "widthMm", "thicknessMm"] {
        sheet.figure(&format!("parcel.{side}"), "mm", source, &ways);
    }
}

/// The thickness of the stack, pressed flat.
fn stack(sheet: &mut Sheet, shop: &Shop, order: &Order) {
    let of = |place: usize| shop.fabrics.get(place).map_or(0, |fabric| fabric.thickness.um());
    let thickest = order.fabrics.iter().chain(&order.backing).map(|place| of(*place)).max().unwrap_or(0);
    let web = shop.method(order.construction).and_then(|method| method.web).map_or(0, of);
    let trimmings = order.trimmings.iter().filter_map(|(place, _)| shop.trimmings.get(*place));
    let trimming = trimmings.map(|trimming| trimming.thickness.um()).max().unwrap_or(0);
    sheet.constant(
        "shop.stackClothMm",
        decimal(thickest),
        "mm",
        "catalogue, the thickest cloth of the order",
    );
    sheet.constant("shop.stackWebMm", decimal(web), "mm", "catalogue, the method's web");
    sheet.constant("shop.trimmingMm", decimal(trimming), "mm", "catalogue, the thickest trimming");
    let pennant = format!("({} * shop.stackClothMm + shop.stackWebMm)", order.construction.layers());
    let all = "layout.pennantCount * understood.quantity";
    let mut body = format!("{all} * {pennant}");
    if !order.letters.is_empty() {
        body.push_str(" + understood.quantity * via.letterCount * shop.letterMm");
    }
    sheet.via("via.bodyMm", &body, "mm", "the stack's body: every layer of cloth");
    let widths = |of: &str| format!("ceil(max({of}, 0) / layout.topWidthMm)");
    let gaps = format!(
        "understood.quantity * (layout.pennantCount - 1) * {}",
        widths("layout.gapMm - layout.topWidthMm")
    );
    let tails = format!("understood.quantity * 2 * {}", widths("layout.tailMm + shop.turnUnderMm"));
    let top =
        format!("{all} * ({pennant} + 4 * shop.bindingPlyMm) + ({gaps} + {tails}) * 4 * shop.bindingPlyMm");
    sheet.via(
        "via.topMm",
        &top,
        "mm",
        "its top: pennants in four plies of binding, gaps and tails folded back",
    );
    let flat = format!("max(via.bodyMm, via.topMm) + {all} * shop.trimmingMm");
    sheet.via("via.flatMm", &flat, "mm", "pressed flat: the thicker of both, and trimmings");
}

fn counted(sheet: &mut Sheet) {
    let gram = |formula: &str| (formula.to_owned(), Mode::Up, "1");
    let source = "what it weighs, up to the next gram; or what the service counts for its size";
    sheet.figure("parcel.countedGrams", "g", source, &[gram("parcel.packedGrams")]);
    sheet.given("parcel.bandGrams", "g", "catalogue, the greatest mass of the band and its format");
    let ways = [
        exactly("parcel.bandGrams - parcel.countedGrams"),
        exactly("parcel.bandGrams - ceil(parcel.packedGrams)"),
    ];
    sheet.figure("parcel.toEdgeGrams", "g", "what is left to that", &ways);
}
