//! How the ends of a string are finished.

use pennantry_measure::{Force, Length};

use super::check::look_up;
use super::{Asked, EndPart, Field, Reason, Violation};
use crate::shop::Shop;

/// How an end of the binding is finished.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum EndStyle {
    /// Turned under and stitched.
    #[default]
    Plain,
    /// A sewn loop.
    Loop,
    /// Left to be tied.
    Tie,
}

/// An end as asked, within the bounds but not yet checked against a shop.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct AskedEnd {
    /// How it is finished; plain unless said.
    pub style: Option<EndStyle>,
    /// Perimeter of a loop.
    pub perimeter: Option<Length>,
    /// Whether the loop can run smaller.
    pub slips: Option<bool>,
    /// Force at which the loop parts by design.
    pub breakaway: Option<Force>,
    /// Length of the free end that is to be tied.
    pub tie: Option<Length>,
    /// Length of a second free end at the same end of the string.
    pub second_tie: Option<Length>,
    /// Distance between the roots of the two.
    pub ties_apart: Option<Length>,
    /// Code of a trimming that hangs from it.
    pub trimming: Option<String>,
}

/// A checked end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct End {
    /// How it is finished.
    pub style: EndStyle,
    /// Perimeter of a loop, if told.
    pub perimeter: Option<Length>,
    /// Whether the loop can run smaller, if told.
    pub slips: Option<bool>,
    /// Force at which the loop parts by design, if it does.
    pub breakaway: Option<Force>,
    /// Length of the free end that is to be tied; the whole tail unless told.
    pub tie: Option<Length>,
    /// Length of a second free end at the same end of the string, if there is one.
    pub second_tie: Option<Length>,
    /// Distance between the roots of the two.
    pub ties_apart: Length,
    /// Place of a trimming that hangs from it.
    pub trimming: Option<usize>,
}

/// Both ends, from the left: plain ones where none is said, the same one twice where one is.
pub(super) fn check(
    shop: &Shop,
    asked: &Asked,
    unreadable: &[Field],
    found: &mut Vec<Violation>,
) -> [End; 2] {
    let mut ends =
        asked.ends.iter().zip(0..).map(|(end, place)| checked(shop, end, place, unreadable, found));
    let Some(left) = ends.next() else { return [End::default(); 2] };
    let right = ends.next().unwrap_or(left);
    [left, right]
}

fn checked(
    shop: &Shop,
    asked: &AskedEnd,
    place: u32,
    unreadable: &[Field],
    found: &mut Vec<Violation>,
) -> End {
    let field = |part: EndPart| Field::End(place, part);
    let style = asked.style.unwrap_or_default();
    // an end whose style cannot be read is told about that, and about nothing that hangs on it
    if !unreadable.contains(&field(EndPart::Style)) {
        misplaced(asked, style, place, found);
    }
    let codes = shop.trimmings.iter().map(|trimming| trimming.code.as_str());
    let at = field(EndPart::Trimming);
    End {
        style,
        perimeter: asked.perimeter,
        slips: asked.slips,
        breakaway: asked.breakaway,
        tie: asked.tie,
        second_tie: asked.second_tie,
        ties_apart: asked.ties_apart.unwrap_or(Length::ZERO),
        trimming: look_up(asked.trimming.as_deref(), codes, at, "trimming", found),
    }
}

/// What is said of an end that is finished in another way.
fn misplaced(asked: &AskedEnd, style: EndStyle, place: u32, found: &mut Vec<Violation>) {
    let said = [
        (EndPart::Perimeter, asked.perimeter.is_some(), EndStyle::Loop, "the perimeter"),
        (EndPart::Slips, asked.slips.is_some(), EndStyle::Loop, "whether it slips"),
        (EndPart::Breakaway, asked.breakaway.is_some(), EndStyle::Loop, "the force at which it parts"),
        (EndPart::Tie, asked.tie.is_some(), EndStyle::Tie, "the length"),
        (EndPart::SecondTie, asked.second_tie.is_some(), EndStyle::Tie, "the length of a second end"),
        (EndPart::TiesApart, asked.ties_apart.is_some(), EndStyle::Tie, "the distance to a second end"),
    ];
    for (part, _, of, what) in said.into_iter().filter(|(_, said, of, _)| *said && *of != style) {
        let (this, wire) = match of {
            EndStyle::Plain => ("a plain end", "END_STYLE_PLAIN"),
            EndStyle::Loop => ("a loop", "END_STYLE_LOOP"),
            EndStyle::Tie => ("a tie", "END_STYLE_TIE"),
        };
        let message = format!(
            "{what} is of {this}, and this end is {}: ask for {wire}, or leave it out",
            style_name(style)
        );
        found.push(Violation::new(Field::End(place, part), Reason::Contradiction, message));
    }
    if style == EndStyle::Tie && asked.ties_apart.is_some() && asked.second_tie.is_none() {
        let message = "the distance to a second end is said, and no second end is: give its length, or leave the \
                       distance out";
        found.push(Violation::new(Field::End(place, EndPart::TiesApart), Reason::Contradiction, message));
    }
}

fn style_name(style: EndStyle) -> &'static str {
    match style {
        EndStyle::Plain => "plain",
        EndStyle::Loop => "a loop",
        EndStyle::Tie => "left to be tied",
    }
}
