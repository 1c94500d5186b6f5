//! Designs: a pennant, and how it is usually set.

use pennantry_calc::order::detail_limits;
use pennantry_calc::shop::{Construction, Design, FabricRole, Offer, Shape, SizeAt};
use pennantry_measure::Length;
use pennantry_measure::bounds::{self, Bound};

use super::bench::{CONSTRUCTIONS, EACH_CONSTRUCTION};
use super::codes::{Codes, Fabrics, code, name};
use super::goods::Bindings;
use super::node::{Key, Table, key};
use super::parts::play_and_filling;

/// What designs refer to.
#[derive(Debug, Clone, Copy)]
pub(super) struct Known<'k> {
    pub(super) made: &'k Codes,
    pub(super) fabrics: &'k Fabrics,
    pub(super) bindings: &'k Bindings,
}

const STOCK: Bound<usize> = Bound { least: 0, most: 50 };

/// A measure that one shape has and no other.
struct Detail {
    key: Key,
    of: Shape,
    /// What it is held within where the pennant's size is not known.
    bound: Bound<Length>,
}

const DETAILS: [Detail; 4] = [
    Detail { key: key("foot_mm", "width of a blunt pennant's foot"), of: Shape::Blunt, bound: bounds::FOOT },
    Detail {
        key: key("notch_mm", "depth of a swallowtail's notch"),
        of: Shape::Swallowtail,
        bound: bounds::NOTCH,
    },
    Detail {
        key: key("shoulder_mm", "length of a shield's straight sides"),
        of: Shape::Shield,
        bound: bounds::SHOULDER,
    },
    Detail { key: key("rise_mm", "rise of a scallop's arc"), of: Shape::Scallop, bound: bounds::RISE },
];

const SHAPES: [(&str, Shape); 6] = [
    ("triangle", Shape::Triangle),
    ("blunt", Shape::Blunt),
    ("swallowtail", Shape::Swallowtail),
    ("shield", Shape::Shield),
    ("scallop", Shape::Scallop),
    ("rectangle", Shape::Rectangle),
];

fn word(shape: Shape) -> &'static str {
    SHAPES.iter().find(|(_, value)| *value == shape).map_or("shape", |(word, _)| word)
}

pub(super) fn design(
    table: &mut Table<'_, '_, '_>,
    codes: &mut Codes,
    known: Known<'_>,
    lengths: Bound<Length>,
) -> Option<Design> {
    let code = code(table, codes);
    let name = name(table);
    let shape = table.choice(key("shape", "the shape of the pennant"), &SHAPES);
    let width = table.length(key("width_mm", "width of the pennant"), bounds::WIDTH);
    let drop = table.length(key("drop_mm", "drop of the pennant"), bounds::DROP);
    let sizes = [("top-edge", SizeAt::TopEdge), ("binding-edge", SizeAt::BindingEdge)];
    let size_at = table.choice(key("size_at", "where width, drop and gap are taken"), &sizes);
    let gap = table.length(key("gap_mm", "the usual gap"), bounds::GAP);
    let tail = table.length(key("tail_mm", "the least tail"), bounds::TAIL);
    let construction = table.choice(key("construction", "the usual construction"), &CONSTRUCTIONS);
    let constructions = constructions(table, known.made);
    let binding = known.bindings.codes.named(
        table,
        key("binding", "the usual binding"),
        "the code of a binding in quotes",
    );
    let fabrics = fabrics_of(table, known.fabrics, width);
    let usual =
        table.length(key("usual_mm", "the usual flagged length, within what the shop makes"), lengths);
    let pictured = flag_or_no(table, key("pictured", "whether the offer shows a picture of it"));
    let for_children = flag_or_no(table, key("for_children", "whether it is offered for children"));
    let file = key("us_children_file", "whether its file for children's products in the US is complete");
    let us_children_file = flag_or_no(table, file);
    let played = play_and_filling(table);
    let stock = key("stock_lengths_mm", "flagged lengths that it is offered in to everybody");
    let form = "lengths in square brackets, such as [3000, 5000]";
    let stock = table.or(stock, Vec::new(), |table, key| table.lengths(key, form, STOCK, lengths));
    let hidden = match size_at {
        Some(SizeAt::TopEdge) => binding
            .and_then(|place| known.bindings.widths.get(place).copied().flatten())
            .map(|width| Length::from_um(width.um() / 2)),
        Some(SizeAt::BindingEdge) => Some(Length::ZERO),
        None => None,
    };
    let detail = detail(table, shape, width, drop, hidden);

    if let (Some(width), Some(gap)) = (width, gap)
        && width + gap <= Length::ZERO
        && let Some(node) = table.optional("gap_mm")
    {
        table.note_found(
            &node,
            &format!("hangs pennants {width} wide on top of each other: write more than {}", -width),
        );
    }
    if let (Some(usual), Some(offered)) = (construction, &constructions)
        && !offered.contains(&usual)
        && let Some(node) = table.optional("construction")
    {
        table.note_found(
            &node,
            "is not among the constructions of this design: add it there, or choose one of them",
        );
    }
    let (play, filling) = played?;
    Some(Design {
        code: code?,
        name: name?,
        shape: shape?,
        width: width?,
        drop: drop?,
        detail: detail?,
        size_at: size_at?,
        gap: gap?,
        tail: tail?,
        construction: construction?,
        constructions: constructions?,
        binding: binding?,
        fabrics: fabrics?,
        usual: usual?,
        offer: Offer {
            pictured: pictured?,
            for_children: for_children?,
            us_children_file: us_children_file?,
        },
        play,
        filling,
        stock: stock?,
    })
}

/// A yes or no that may be left out: no where it is.
fn flag_or_no(table: &mut Table<'_, '_, '_>, key: Key) -> Option<bool> {
    table.or(key, false, Table::flag)
}

/// The measure that the shape has beside width and drop; a mistake about each that it has
/// not.
fn detail(
    table: &mut Table<'_, '_, '_>,
    shape: Option<Shape>,
    width: Option<Length>,
    drop: Option<Length>,
    hidden: Option<Length>,
) -> Option<Length> {
    let mut own = Length::ZERO;
    let mut read = shape.is_some();
    for Detail { key, of, bound } in &DETAILS {
        match shape {
            Some(shape) if shape == *of => {
                let limits = match (width, drop, hidden) {
                    (Some(width), Some(drop), Some(hidden)) => {
                        let (least, most) = detail_limits(shape, width, drop, hidden);
                        Bound { least, most }
                    }
                    _ => *bound,
                };
                match table.length(*key, limits) {
                    Some(length) => own = length,
                    None => read = false,
                }
            }
            Some(shape) => {
                let (own, other) = (word(shape), word(*of));
                let fault = format!(
                    "is a measure of the shape \"{other}\", and this one is \"{own}\": leave it out, or \
                     write shape = \"{other}\""
                );
                table.strangers(&[key.name], &fault);
            }
            None => {
                table.maybe(*key, |table, key| table.length(key, *bound));
            }
        }
    }
    read.then_some(own)
}

fn constructions(table: &mut Table<'_, '_, '_>, made: &Codes) -> Option<Vec<Construction>> {
    let key = key("constructions", "every construction it can be had in");
    let form = "a list of names in square brackets, such as [\"single-pinked\", \"double-turned\"]";
    table.texts(key, form, EACH_CONSTRUCTION, |table, node, text| {
        let construction = table.choice_of(node, key, &CONSTRUCTIONS)?;
        made.find(table, node, text)?;
        Some(construction)
    })
}

fn fabrics_of(table: &mut Table<'_, '_, '_>, fabrics: &Fabrics, width: Option<Length>) -> Option<Vec<usize>> {
    let key = key("fabrics", "the usual fabrics in the order in which they take turns");
    let form = "a list of codes in square brackets, such as [\"kelp\", \"gorse\"]";
    table.texts(key, form, Bound { least: 1, most: 26 }, |table, node, text| {
        let place = fabrics.find(table, node, text, FabricRole::Cloth)?;
        if let (Some(pennant), Some(usable)) = (width, fabrics.width(place))
            && pennant > usable
        {
            let fault =
                format!("can be used {usable} wide and the pennant takes {pennant}: choose a wider fabric");
            table.note_found(node, &fault);
        }
        Some(place)
    })
}
