//! What is said about a binding: joins that show, and bindings that cannot be made.

use pennantry_measure::Length;

use super::joins::{Blemish, MOST_JOINS, Run, Strings, Unfilled};
use crate::notice::{Code, Notice};
use crate::order::{Field, Reason, Violation};
use crate::outline::um;
use crate::shop::{Binding, Join};

/// What pieces come from.
#[derive(Debug, Clone, Copy)]
pub(super) enum Stock<'a> {
    /// Rolls.
    Rolls {
        /// Length of one.
        length: Length,
    },
    /// Strips across a cloth.
    Strips {
        /// Code of the cloth.
        cloth: &'a str,
    },
}

/// Joins that show, are near the middle, or leave a piece that is too short: each kind
/// once, with the first of its joins.
pub(super) fn joins(
    binding: &Binding,
    stock: Stock<'_>,
    run: &Run,
    strings: &Strings,
    join: &Join,
) -> Vec<Notice> {
    let cut = um(strings.cut);
    let longer = match stock {
        Stock::Rolls { .. } => {
            format!("rolls of {} or longer need no join", super::before_wash(cut, binding.shrink))
        }
        Stock::Strips { cloth } => format!(
            "a cloth wider than \"{cloth}\" needs fewer joins, a bought binding of {cut} in one piece none"
        ),
    };
    let notice = |blemish: Blemish, one: &str, several: &str, what: &str, other: &str| {
        let first = blemish.first?;
        let many = match (blemish.count, run.joins) {
            (1, 1) => String::from("the join"),
            (some, all) => format!("{some} of {all} joins"),
        };
        let (does, the_first) = if blemish.count == 1 { (one, "") } else { (several, "the first ") };
        let message = format!(
            "{many} in \"{}\" {does} {what}, {the_first}{} from the left cut end of string {}: {longer}; {other}",
            binding.code,
            first.at,
            first.string + 1,
        );
        Some(Notice::about(Code::JoinShows, Field::Binding, message))
    };
    let other = "another count or gap may bring a pennant there";
    let shows = notice(run.shows, "shows", "show", "beside the pennants", other);
    let what = format!("nearer to the middle than {}", join.off_middle);
    let near = notice(run.near, "lies", "lie", &what, "another length or count may move it away");
    let what = format!("a piece shorter than {}", join.least_piece);
    let short = notice(run.short, "leaves", "leave", &what, "another length may mend it");
    [shows, near, short].into_iter().flatten().collect()
}

/// Why strings cannot be filled from pieces.
pub(super) fn unfilled(
    unfilled: Unfilled,
    binding: &Binding,
    stock: Stock<'_>,
    piece: Length,
    loss: Length,
) -> Vec<Violation> {
    match unfilled {
        Unfilled::TooMany => vec![too_many(binding)],
        Unfilled::NothingLeft => {
            let from = match stock {
                Stock::Rolls { length } => format!("comes in rolls of {length}"),
                Stock::Strips { cloth } => format!("is cut from \"{cloth}\" in strips {piece} long"),
            };
            let message = format!(
                "\"{}\" {from} and each join takes {loss}, so that nothing is left to join: strings cut {piece} long \
                 or shorter need no join; for longer ones choose another binding",
                binding.code
            );
            vec![Violation::new(Field::Binding, Reason::DoesNotFit, message)]
        }
    }
}

/// More joins than one order can take.
pub(super) fn too_many(binding: &Binding) -> Violation {
    let message = format!(
        "\"{}\" would take more than {MOST_JOINS} joins, the most that one order can take: order fewer or shorter \
         strings, or choose a binding in longer pieces",
        binding.code
    );
    Violation::new(Field::Quantity, Reason::OutOfRange, message)
}

/// A binding that the cloth does not give.
pub(super) fn does_not_fit(message: String) -> Vec<Violation> {
    vec![Violation::new(Field::Binding, Reason::DoesNotFit, message)]
}

/// A spiral's seams fall where they fall.
pub(super) fn spiral(binding: &Binding, turns: u32, side: Length, seams: u32) -> Notice {
    let message = format!(
        "\"{}\" is cut as a spiral of {turns} turns round {side}: its seams cross the strip {seams} times, wherever \
         they fall, and cannot be brought behind pennants; look where they come before it is sewn",
        binding.code
    );
    Notice::about(Code::JoinShows, Field::Binding, message)
}
