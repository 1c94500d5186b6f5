//! What is printed on the leaflet in every parcel.
//!
//! Heights and distances are the shop's own: 1.6 m is the height at which Australia's
//! rule for window cords begins (Competition and Consumer (Corded Internal Window Coverings)
//! Safety Standard 2014), 1 m a round figure for the three feet that are advised for cords
//! near a cot (remembered). The rest is common practice, no source.

use crate::shop::Maker;

/// The lines, before that of the maker.
const LINES: [&str; 10] = [
    "This is a decoration and not a toy: do not let children play with it.",
    "An adult hangs it and takes it down.",
    "String, loops and loose ends can strangle. Hang all of it out of children's reach: higher than 1.6 m above \
     whatever a child can stand or climb on, and at least 1 m away from any cot, bed, pram or playpen.",
    "Never hang it in, on or across a cot, pram or playpen.",
    "Take it down and put it away when it is not in use, and never leave it hanging by one end.",
    "Look it over each time. Take it away at the first loose seam, knot or part: small parts can choke.",
    "Cloth burns. Keep it away from flames, heaters, lamps and anything else that is hot.",
    "Check every fixing before you trust it, and hang it from a stable ladder on level ground, with somebody beside \
     you: a fall can kill.",
    "Keep the bag that it came in away from babies and small children: it can suffocate.",
    "Local rules come first. About children, fire and heights, local rules and competent people decide, and nothing \
     here stands in for them.",
];

/// The leaflet, a line each; the last one says who made it.
///
/// ```
/// use pennantry_calc::paper::leaflet;
/// use pennantry_calc::shop::Maker;
/// let maker = Maker { name: Some(String::from("Ada Marsh")), ..Maker::default() };
/// let lines = leaflet(&maker);
/// assert_eq!(lines.last().unwrap(), "Made by Ada Marsh; postal and electronic address not stated.");
/// ```
pub fn leaflet(maker: &Maker) -> Vec<String> {
    LINES.iter().map(|line| (*line).to_owned()).chain([made_by(maker)]).collect()
}

fn made_by(maker: &Maker) -> String {
    let name = maker.name.as_deref().unwrap_or("a maker whose name is not stated");
    let addresses = match (maker.postal_address.as_deref(), maker.electronic_address.as_deref()) {
        (Some(postal), Some(electronic)) => format!("{postal}; {electronic}"),
        (Some(postal), None) => format!("{postal}; electronic address not stated"),
        (None, Some(electronic)) => format!("postal address not stated; {electronic}"),
        (None, None) => String::from("postal and electronic address not stated"),
    };
    let responsible = match &maker.responsible_person {
        Some(person) => format!("; responsible in the European Union: {person}"),
        None => String::new(),
    };
    format!("Made by {name}; {addresses}{responsible}.")
}
