//! What a shape has beside width and drop: the foot of a blunt pennant, the notch of a
//! swallowtail, the straight sides of a shield, the rise of a scallop.

use pennantry_measure::Length;

use super::{Asked, Field, Reason, Violation};
use crate::shop::{Design, Shape};

/// A shape and the size it is asked in.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sized {
    /// The shape.
    pub shape: Shape,
    /// Width at the size basis.
    pub width: Length,
    /// Drop at the size basis.
    pub drop: Length,
    /// How much of the drop the binding hides.
    pub hidden: Length,
}

/// The detail of the shape: as asked, or the design's where the shape is the design's.
/// What is `unreadable` counts as said.
pub(super) fn check(
    asked: &Asked,
    design: &Design,
    Sized { shape, width, drop, hidden }: Sized,
    unreadable: &[Field],
    found: &mut Vec<Violation>,
) -> Length {
    let said = [
        (Field::Foot, asked.foot, Shape::Blunt),
        (Field::Notch, asked.notch, Shape::Swallowtail),
        (Field::Shoulder, asked.shoulder, Shape::Shield),
        (Field::Rise, asked.rise, Shape::Scallop),
    ];
    for (field, _, of) in said.into_iter().filter(|(_, value, of)| value.is_some() && *of != shape) {
        let message = format!(
            "{} is a measure of a {} pennant, and this is a {} one: leave it out, or ask for that shape",
            measure_name(of),
            shape_name(of),
            shape_name(shape)
        );
        found.push(Violation::new(field, Reason::Contradiction, message));
    }
    let Some((field, value, _)) = said.into_iter().find(|(_, _, of)| *of == shape) else {
        return Length::ZERO;
    };
    let (least, most) = limits(shape, width, drop, hidden);
    let own = (design.shape == shape).then_some(design.detail);
    if unreadable.contains(&field) {
        return Length::ZERO;
    }
    let Some(detail) = value.or(own) else {
        let message = format!(
            "a {} pennant needs {}, which the design \"{}\" does not have: give {least} to {most}",
            shape_name(shape),
            measure_name(shape),
            design.code
        );
        found.push(Violation::new(field, Reason::Missing, message));
        return Length::ZERO;
    };
    if detail < least || detail > most {
        let message = format!(
            "{} of {detail} does not go with a {} pennant {width} wide and {drop} deep: give {least} to {most}",
            measure_name(shape),
            shape_name(shape)
        );
        found.push(Violation::new(field, Reason::DoesNotFit, message));
    }
    detail
}

/// The least and the most of a detail, for a width and a drop of which so much is hidden.
/// What is cut off a shape, or left of it, is at least a millimetre of what is seen; an arc
/// rises by half the width at most, where it is a half circle.
pub fn limits(shape: Shape, width: Length, drop: Length, hidden: Length) -> (Length, Length) {
    let millimetre = Length::from_mm(1);
    let below = |length: Length| (length - millimetre).max(millimetre);
    match shape {
        Shape::Triangle | Shape::Rectangle => (Length::ZERO, Length::ZERO),
        Shape::Blunt => (millimetre, below(width)),
        Shape::Swallowtail => (millimetre, below(drop - hidden)),
        Shape::Shield => (hidden + millimetre, below(drop).max(hidden + millimetre)),
        Shape::Scallop => {
            (millimetre, Length::from_um(width.um() / 2).min(below(drop - hidden)).max(millimetre))
        }
    }
}

/// How a shape is spoken of.
pub fn shape_name(shape: Shape) -> &'static str {
    match shape {
        Shape::Triangle => "triangular",
        Shape::Blunt => "blunt",
        Shape::Swallowtail => "swallowtail",
        Shape::Shield => "shield",
        Shape::Scallop => "scallop",
        Shape::Rectangle => "rectangular",
    }
}

fn measure_name(shape: Shape) -> &'static str {
    match shape {
        Shape::Triangle | Shape::Rectangle => "no measure",
        Shape::Blunt => "the width of the foot",
        Shape::Swallowtail => "the depth of the notch",
        Shape::Shield => "the length of the straight sides",
        Shape::Scallop => "the rise of the arc",
    }
}
