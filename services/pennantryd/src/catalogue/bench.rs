//! The bench: its section, thread, letters, methods and operations.

use pennantry_calc::shop::{
    Allowance, Bench, Construction, Driver, EndCut, FabricRole, Grain, Join, Lay, Learning, Letters, Method,
    Operation, Thread,
};
use pennantry_measure::bounds::Bound;

use super::codes::{Codes, Fabrics, code, name};
use super::field::{Digits, mm, um, within};
use super::node::{Table, key};

/// The words for the constructions.
pub(super) const CONSTRUCTIONS: [(&str, Construction); 5] = [
    ("single-pinked", Construction::SinglePinked),
    ("single-plain", Construction::SinglePlain),
    ("double-turned", Construction::DoubleTurned),
    ("double-pinked", Construction::DoublePinked),
    ("double-fused", Construction::DoubleFused),
];
/// Each construction once at most.
pub(super) const EACH_CONSTRUCTION: Bound<usize> = Bound { least: 1, most: 5 };
const DRIVERS: [(&str, Driver); 11] = [
    ("order", Driver::Order),
    ("string", Driver::String),
    ("pennant", Driver::Pennant),
    ("piece", Driver::Piece),
    ("outline", Driver::Outline),
    ("layer", Driver::Layer),
    ("metre", Driver::Metre),
    ("end", Driver::End),
    ("join", Driver::Join),
    ("letter", Driver::Letter),
    ("trimming", Driver::Trimming),
];
const LAYS: Bound<usize> = Bound { least: 1, most: 22 };
/// Lengths of cloth in a stack.
const STACK: Bound<u32> = Bound { least: 2, most: 20 };
const LAY_FORM: &str = "\"flat\", \"folded-across\", \"folded-along\" or \"stacked-2\" to \"stacked-20\"";
/// A share that each doubling leaves: above half, in thousandths of a percent.
const LEARNING: Bound<i64> = within(50_001, 100_000);
const LEARNING_KEYS: [&str; 2] = ["learning_percent", "learning_floor_percent"];

/// The bench without its operations and its thread, which are told elsewhere.
pub(super) fn bench(
    table: &mut Table<'_, '_, '_>,
    digits: Digits,
) -> Option<impl FnOnce(Vec<Operation>, Thread) -> Bench + use<>> {
    let wage = table.rate(key("wage_per_hour", "what an hour at the bench costs"), digits, within(0, 10_000));
    let of_shift = table
        .choice(key("allowance_of", "what the allowance is a share of"), &[("work", false), ("shift", true)]);
    let allowance = table.percent(
        key("allowance_percent", "time for rest and interruptions, on top of the operations"),
        within(0, 60),
    );
    let learning = table.flag(key("learning", "whether operations get faster with practice"));
    let grains = [("1 mm", Grain::Millimetre), ("1/16 in", Grain::SixteenthInch)];
    let grain = table.choice(key("grain", "what marks are rounded to"), &grains);
    let turn_under = table.length(key("turn_under_mm", "binding turned under at each end"), mm(0, 500));
    let knot = table.length(key("knot_mm", "binding that a knot takes at each end of a hang"), mm(0, 2_000));
    let tolerance = table.length(key("tolerance_mm", "least tolerance of a length"), mm(0, 1_000));
    let tolerance_share =
        table.percent(key("tolerance_percent", "tolerance as a share of the length"), within(0, 50));
    let cuts = [("straight", EndCut::Straight), ("mitred", EndCut::Mitred), ("slanted", EndCut::Slanted)];
    let ends = table.choice(key("join_ends", "how two ends of binding meet in a join"), &cuts);
    let seam = table.length(key("join_seam_mm", "seam of a join"), mm(0, 100));
    let least_piece =
        table.length(key("least_piece_mm", "least piece of binding in a string"), mm(0, 10_000));
    let off_middle =
        table.length(key("join_off_middle_mm", "least distance of a join from the middle"), mm(0, 10_000));
    let join = Join { ends: ends?, seam: seam?, least_piece: least_piece?, off_middle: off_middle? };
    let kind = if of_shift? { Allowance::OfShift } else { Allowance::OfWork };
    let allowance = kind(allowance?);
    let (wage, grain, turn_under, knot) = (wage?, grain?, turn_under?, knot?);
    let (tolerance, tolerance_share, learning) = (tolerance?, tolerance_share?, learning?);
    Some(move |operations, thread| Bench {
        wage,
        grain,
        turn_under,
        knot,
        tolerance,
        tolerance_share,
        allowance,
        learning,
        operations,
        join,
        thread,
    })
}

pub(super) fn thread(table: &mut Table<'_, '_, '_>, digits: Digits) -> Option<Thread> {
    let stitch = table.length(key("stitch_mm", "length of a stitch"), um(500, 10_000));
    let mass = table.tex(key("tex", "what a kilometre of one thread weighs in grams"), within(5, 500));
    let waste = table.percent(key("waste_percent", "waste, as a share of what is sewn in"), within(0, 200));
    let rows = table.count(key("rows", "rows of stitching along the binding"), within(1, 5));
    let tail = table.length(key("tail_mm", "thread left at each end of a row"), mm(0, 1_000));
    let price = table.rate(key("price_per_metre", "price of a metre before tax"), digits, within(0, 1_000));
    Some(Thread { stitch: stitch?, mass: mass?, waste: waste?, rows: rows?, tail: tail?, price: price? })
}

pub(super) fn letters(table: &mut Table<'_, '_, '_>, fabrics: &Fabrics) -> Option<Letters> {
    let width = table.percent(key("width_percent", "share of the pennant's width"), within(1, 100));
    let height = table.percent(key("height_percent", "share of the pennant's drop"), within(1, 100));
    let fabric = fabrics.named(table, key("fabric", "the cloth of the letters"), FabricRole::Cloth);
    let web = table.maybe(key("web", "the web that holds them"), |table, key| {
        fabrics.named(table, key, FabricRole::Web)
    });
    let stitching =
        table.percent(key("stitching_percent", "stitching round one, in heights of it"), within(0, 2_000));
    Some(Letters { width: width?, height: height?, fabric: fabric?, web: web?, stitching: stitching? })
}

pub(super) fn method(table: &mut Table<'_, '_, '_>, made: &mut Codes, fabrics: &Fabrics) -> Option<Method> {
    let construction = table.choice(key("construction", "which construction this is"), &CONSTRUCTIONS);
    made.keep(table);
    let seam = table.length(key("seam_mm", "seam beyond the finished sides"), mm(0, 100));
    let clip_tips = table.flag(key("clip_tips", "whether sharp points are cut off square"));
    let clearance = table.length(key("clearance_mm", "cloth between neighbours in a row"), mm(0, 100));
    let row_gap = table.length(key("row_gap_mm", "cloth between rows"), mm(0, 500));
    let lays = lays(table);
    let web = table.maybe(key("web", "the web that fuses the layers"), |table, key| {
        fabrics.named(table, key, FabricRole::Web)
    });
    if construction.is_some_and(|construction| construction.layers() == 1)
        && let Some(node) = table.optional("web")
    {
        let fault = "fuses two layers, and this construction has one: leave it out";
        table.note_found(&node, fault);
    }
    Some(Method {
        construction: construction?,
        seam: seam?,
        clip_tips: clip_tips?,
        clearance: clearance?,
        row_gap: row_gap?,
        lays: lays?,
        web: web?,
    })
}

fn lays(table: &mut Table<'_, '_, '_>) -> Option<Vec<Lay>> {
    let key = key("lays", "how cloth may lie when it is cut");
    let form = "a list of names in square brackets, such as [\"flat\", \"folded-across\", \"stacked-4\"]";
    table.texts(key, form, LAYS, |table, node, text| {
        table.accept(node, key, LAY_FORM, lay(text), "is not known")
    })
}

fn lay(text: &str) -> Option<Lay> {
    match text {
        "flat" => Some(Lay::Flat),
        "folded-across" => Some(Lay::FoldedAcross),
        "folded-along" => Some(Lay::FoldedAlong),
        _ => {
            let layers = text.strip_prefix("stacked-")?.parse::<u32>().ok()?;
            (STACK.holds(layers) && text == format!("stacked-{layers}")).then_some(Lay::Stacked(layers))
        }
    }
}

pub(super) fn operation(table: &mut Table<'_, '_, '_>, codes: &mut Codes) -> Option<Operation> {
    let code = code(table, codes);
    let name = name(table);
    let driver = table.choice(key("driver", "what it is counted by"), &DRIVERS);
    let time = table.minutes(key("minutes", "for one of them, before the allowance"), within(0, 1_440));
    let form = "a list of names in square brackets, such as [\"single-pinked\", \"double-turned\"]";
    let constructions =
        table.or(key("constructions", "the constructions it is done for"), Vec::new(), |table, key| {
            table.choices(key, form, EACH_CONSTRUCTION, &CONSTRUCTIONS)
        });
    let learning = if table.has_any(&LEARNING_KEYS) { learning(table).map(Some) } else { Some(None) };
    // both are known here, whether they are given or not
    for name in LEARNING_KEYS {
        table.optional(name);
    }
    Some(Operation {
        code: code?,
        name: name?,
        constructions: constructions?,
        driver: driver?,
        time: time?,
        learning: learning?,
    })
}

/// How it gets faster: both keys have to be there.
fn learning(table: &mut Table<'_, '_, '_>) -> Option<Learning> {
    let rate = table.percent_above(
        key("learning_percent", "share of the time that a doubling leaves; goes with learning_floor_percent"),
        LEARNING,
    );
    let floor = table.percent(
        key("learning_floor_percent", "least share of the first one's time; goes with learning_percent"),
        within(20, 100),
    );
    Some(Learning { rate: rate?, floor: floor? })
}
