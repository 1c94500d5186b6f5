//! Who will be near, where it hangs, and whose rules are looked at.
//!
//! What is not told stays untold: nothing here stands in for it, but for the rules of the
//! country it goes to, and for what a string that is ordered from hook to hook says itself.

use pennantry_measure::Length;

use super::{Asked, AskedLength, Field, NearPart, Reason, Violation};

/// Who will be near.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Who {
    /// No child.
    NoChild,
    /// A child, or one expected.
    Child,
}

/// Where it hangs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// In, on, across or tied to a cot, crib, playpen, pram or the like.
    Cot,
    /// A child's room.
    ChildRoom,
    /// Elsewhere at home.
    Home,
    /// A place where children are looked after.
    Childcare,
    /// A hall or other public room.
    Venue,
    /// In the open.
    Outdoors,
}

impl Place {
    /// Whether it is for children by itself.
    pub fn is_for_children(self) -> bool {
        matches!(self, Place::Cot | Place::ChildRoom | Place::Childcare)
    }

    /// Whether the public, or other people's children, come there.
    pub fn is_public(self) -> bool {
        matches!(self, Place::Childcare | Place::Venue)
    }
}

/// Whose rules.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Jurisdiction {
    /// European Union.
    Eu,
    /// Great Britain.
    Gb,
    /// United States.
    Us,
    /// Canada.
    Ca,
    /// Australia.
    Au,
}

impl Jurisdiction {
    /// All of them, in their order.
    pub const ALL: [Jurisdiction; 5] =
        [Jurisdiction::Eu, Jurisdiction::Gb, Jurisdiction::Us, Jurisdiction::Ca, Jurisdiction::Au];

    /// Whose rules hold in a country, where they are known here.
    ///
    /// The codes are those of ISO 3166-1; the members of the European Union are those of
    /// its treaties as of 2020-02-01, without territories that have a code of their own.
    ///
    /// ```
    /// use pennantry_calc::order::Jurisdiction;
    /// assert_eq!(Jurisdiction::of_country("FR"), Some(Jurisdiction::Eu));
    /// assert_eq!(Jurisdiction::of_country("GB"), Some(Jurisdiction::Gb));
    /// assert_eq!(Jurisdiction::of_country("NZ"), None);
    /// ```
    pub fn of_country(code: &str) -> Option<Jurisdiction> {
        match code {
            "GB" => Some(Jurisdiction::Gb),
            "US" => Some(Jurisdiction::Us),
            "CA" => Some(Jurisdiction::Ca),
            "AU" => Some(Jurisdiction::Au),
            _ if EU_MEMBERS.contains(&code) => Some(Jurisdiction::Eu),
            _ => None,
        }
    }
}

const EU_MEMBERS: [&str; 27] = [
    "AT", "BE", "BG", "CY", "CZ", "DE", "DK", "EE", "ES", "FI", "FR", "GR", "HR", "HU", "IE", "IT", "LT",
    "LU", "LV", "MT", "NL", "PL", "PT", "RO", "SE", "SI", "SK",
];

/// Who will be near, and where it hangs; none where it was not told.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Near {
    /// Who.
    pub who: Option<Who>,
    /// Age of the youngest child; 0 for one not yet born.
    pub youngest_months: Option<u32>,
    /// Where.
    pub place: Option<Place>,
    /// Height of the fixings above whatever a child can stand on.
    pub fixing_height: Option<Length>,
    /// How many fixings hold it.
    pub fixings: Option<u32>,
    /// Level distance from the first fixing to the last.
    pub span: Option<Length>,
    /// Level distance to the nearest cot or other place where a child sleeps or plays.
    pub cot_distance: Option<Length>,
    /// Whose rules to look at, each once. Of a checked order those of the country it goes to,
    /// where they are known here, are among them.
    pub jurisdictions: Vec<Jurisdiction>,
    /// Width of the wall it hangs on.
    pub wall_width: Option<Length>,
    /// Height of the wall it hangs on.
    pub wall_height: Option<Length>,
}

/// What is told, with whose rules are looked at, and the hooks of a hang as the fixings that
/// they are.
pub(super) fn check(asked: &Asked, country: &str, found: &mut Vec<Violation>) -> Near {
    let mut near = asked.near.clone();
    // nobody names the rules of the destination away
    near.jurisdictions.extend(Jurisdiction::of_country(country));
    near.jurisdictions.sort_unstable();
    near.jurisdictions.dedup();
    let Some(AskedLength::Hang(hang)) = asked.length else { return near };
    let hooks = hang.swags.saturating_add(1);
    if let Some(fixings) = near.fixings.filter(|fixings| *fixings != hooks) {
        let message = format!(
            "{fixings} fixings are told, and a hang in {} has {hooks} hooks: give {hooks}, or leave it out",
            if hang.swags == 1 { String::from("one swag") } else { format!("{} swags", hang.swags) }
        );
        found.push(Violation::new(Field::Near(NearPart::Fixings), Reason::Contradiction, message));
    }
    if let Some(span) = near.span.filter(|span| *span != hang.span) {
        let message = format!(
            "{span} from the first fixing to the last is told, and the hang spans {}: give {}, or leave it out",
            hang.span, hang.span
        );
        found.push(Violation::new(Field::Near(NearPart::Span), Reason::Contradiction, message));
    }
    near.fixings = Some(hooks);
    near.span = Some(hang.span);
    near
}
