//! What matters about goods where a small child may be near.

use pennantry_calc::shop::{Cord, Filling, Fixed, Part, PartKind};
use pennantry_measure::bounds::Bound;
use pennantry_measure::{Force, Length};

use super::field::{mm, um, within};
use super::node::{Table, key};

/// Pulls of tests.
const PULL: Bound<Force> = Bound { least: Force::from_newtons(1), most: Force::from_newtons(1_000) };
const CORD: Bound<Length> = um(100, 50_000);

/// What a binding is as a cord.
pub(super) fn cord(table: &mut Table<'_, '_, '_>) -> Option<Cord> {
    let (tape, round, elastic) = ("tape", "round", "elastic");
    let kinds = [(tape, tape), (round, round), (elastic, elastic)];
    let kind = table.choice(key("cord", "what it is as a cord"), &kinds);
    let thick = key("cord_mm", "how thick the cord is");
    let stretch = key("stretch_percent", "how much longer the elastic gets when it is pulled");
    match kind {
        Some(kind) if kind == tape => {
            let fault = "is of a round cord or an elastic, and this is a tape: leave it out";
            table.strangers(&[thick.name, stretch.name], fault);
            Some(Cord::Tape)
        }
        Some(kind) if kind == round => {
            table.strangers(&[stretch.name], "is of an elastic, and this is a round cord: leave it out");
            table.length(thick, CORD).map(|thickness| Cord::Round { thickness })
        }
        Some(_) => {
            let (thickness, stretch) = (table.length(thick, CORD), table.percent(stretch, within(1, 1_000)));
            Some(Cord::Elastic { thickness: thickness?, stretch: stretch? })
        }
        None => {
            table.maybe(thick, |table, key| table.length(key, CORD));
            table.maybe(stretch, |table, key| table.percent(key, within(1, 1_000)));
            None
        }
    }
}

/// What a trimming is, how it is put on, and what was tested.
pub(super) fn part(table: &mut Table<'_, '_, '_>) -> Option<Part> {
    let kinds = [
        ("hard", PartKind::Hard),
        ("textile", PartKind::Textile),
        ("pompom", PartKind::Pompom),
        ("ball", PartKind::Ball),
    ];
    let kind = table.choice(key("part", "what kind of part it is"), &kinds);
    let largest = table.length(key("largest_mm", "its largest size"), um(100, 1_000_000));
    let fits = key("fits_cylinder", "whether it goes into the small-parts cylinder");
    let fits_cylinder = table.maybe(fits, Table::flag);
    let ways = [("loose", Fixed::Loose), ("glued", Fixed::Glued), ("sewn", Fixed::Sewn)];
    let fixed = table.choice(key("fixed", "how it is put on"), &ways);
    let pull = table.maybe(key("pull_newtons", "the pull that it stood in a test"), |table, key| {
        table.newtons(key, PULL)
    });
    let hangs = table.length(key("hangs_mm", "how far it hangs, cord and part together"), mm(0, 1_000));
    let play = table.flag(key("play_value", "whether a child would play with it"));
    Some(Part {
        kind: kind?,
        largest: largest?,
        fits_cylinder: fits_cylinder?,
        fixed: fixed?,
        pull: pull?,
        hangs: hangs?,
        play: play?,
    })
}

/// Whether a child would play with a design, and how its pennants are filled.
pub(super) fn play_and_filling(table: &mut Table<'_, '_, '_>) -> Option<(bool, Option<Filling>)> {
    let play = table.flag(key("play_value", "whether a child would play with it"));
    let filled = table.flag(key("filled", "whether its pennants are filled"));
    let seam = key("seam_newtons", "the pull that the seams of a filled pennant stood in a test");
    if filled == Some(false) {
        let fault =
            "is of a design with filled pennants, and this is none: leave it out, or write filled = true";
        table.strangers(&[seam.name], fault);
        return Some((play?, None));
    }
    let seam = table.maybe(seam, |table, key| table.newtons(key, PULL));
    filled?;
    Some((play?, Some(Filling { seam: seam? })))
}
