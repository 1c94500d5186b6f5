//! What happens once: see the table of [`story`](super::story).

use pennantry_app::restock::Supply;
use pennantry_ledger::Error;
use pennantry_ledger::rules::{Adjust, Adjustment, Amount, Command, Reason};
use pennantry_measure::Length;

use super::buying::{Comes, free};
use super::sales::Sale;
use super::story::Story;
use super::wishes::Wish;

/// What the festival may take at most and at least, in strings; and the pennants of each.
const FESTIVAL: (u32, u32, u32) = (8, 3, 80);

/// Nobody looks at what is to be ordered on so many days before the last.
const LAST_LOOK: i32 = 24;

/// Does what is due and was not done.
///
/// # Errors
/// The stock cannot be had.
pub(super) async fn once(story: &mut Story<'_>, before_last: i32) -> Result<(), Error> {
    match before_last {
        209..=215 if story.first("festival's cloth") => {
            order(story, "chandlers-rope", 20_000, Comes::OnTheDay).await
        }
        170..=200 if story.is_to_come("festival") => festival(story).await,
        56..=62 if story.first("stripe") => order(story, "ebb-stripe", 15_000, Comes::OnTheDay).await,
        10..=16 if story.first("late") => order(story, "chandlers-rope", 10_000, Comes::Never).await,
        1..=3 if story.first("held") => {
            let wish = Wish { design: "harbour", fabrics: vec!["kelp"], pennants: 24, strings: 2 };
            story.sales.take(&mut story.book, &wish, Some(10)).await.map(drop)
        }
        40..=100 if story.is_to_come("window") => {
            let there = free(&story.book, "lamp-oil");
            if there < Amount::of_length(Length::from_mm(700)) || before_last <= 46 {
                story.first("window");
                return window(story).await;
            }
            Ok(())
        }
        _ => Ok(()),
    }
}

/// Whether the shop does not look at a cloth, since something of it is to come.
pub(super) fn waits(story: &Story<'_>, code: &str, before_last: i32) -> bool {
    match code {
        // nobody looks in the last days, so that there is something to propose
        _ if before_last < LAST_LOOK => true,
        "lamp-oil" => before_last <= 100 && story.is_to_come("window"),
        "ebb-stripe" => story.is_to_come("stripe"),
        _ => false,
    }
}

async fn order(story: &mut Story<'_>, code: &str, mm: i64, comes: Comes) -> Result<(), Error> {
    let Some(supply): Option<Supply> = story.supply(code) else { return Ok(()) };
    story.buying.order(&mut story.book, &supply, Length::from_mm(mm), comes).await
}

async fn festival(story: &mut Story<'_>) -> Result<(), Error> {
    let (most, least, pennants) = FESTIVAL;
    for strings in (least..=most).rev() {
        let wish = Wish { design: "harbour", fabrics: vec!["chandlers-rope"], pennants, strings };
        if let Sale::Confirmed(id, sold) = story.sales.take(&mut story.book, &wish, None).await? {
            story.first("festival");
            story.cut_next(id, sold);
            break;
        }
    }
    Ok(())
}

/// The last of the lamp oil goes into the shop's own window, and more is ordered.
async fn window(story: &mut Story<'_>) -> Result<(), Error> {
    for (piece, _, free) in story.pieces(&|code| code == "lamp-oil") {
        if free.is_some() {
            let what = Adjustment::Gone(free, Reason::OwnUse);
            let note = "the shop's own window".to_owned();
            story.book.write(Command::Adjust(Adjust { piece, what, note })).await?;
        }
    }
    order(story, "lamp-oil", 10_000, Comes::OnTheDay).await
}
