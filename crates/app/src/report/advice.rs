//! What needs doing about a fabric: in one sentence, and how pressing it is.
//!
//! | what is so | pressing |
//! |---|---|
//! | an order is proposed, and should be placed today, or something promised is not there | today |
//! | an order is proposed, by a later day | soon |
//! | something promised is not there | today |
//! | the last of it: the form must stop offering it now | today |
//! | the last of it: it must within four weeks; later | soon; look |
//! | an order is late, and what is available is at or below the reorder point, nothing is free, or without it one has to be placed today | today |
//! | an order is late, and without it one has to be placed within two weeks | soon |
//! | an order is late otherwise | look |
//! | nothing is free of what is used, and nothing is on order; of what the catalogue has not | today; look |
//! | nothing is free of what is used, something is on order | look |
//! | it runs out before what is on order comes; an order of today would come sooner | look; today |
//! | nothing is proposed yet, and the last day to order is within two weeks; it is today | soon; today |
//! | it lies there and the catalogue has it not; or nothing is used of it | look |
//!
//! The sentence is that of the most pressing, of equals that which stands first; the others are
//! notes. Every figure in a sentence stands in the row or in its details.

use pennantry_forecast::supply::project::{OrderBy, When};
use pennantry_forecast::supply::propose::{Answer, Offer, Order as Proposed, Proposal};
use pennantry_measure::Length;

use super::told::{Note, Order, Pressing};
use super::words::{Said, lies, metres, several};

/// Days within which the end of the last of it is soon.
const SOON: i32 = 28;
/// Days within which a day to order by is soon, though nothing is proposed yet.
pub(super) const ORDER_SOON: i32 = 14;

/// What is said of a fabric.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Advice {
    pub sentence: String,
    pub pressing: Pressing,
    /// What else needs doing.
    pub others: Vec<Note>,
}

/// What advice is made of.
#[expect(clippy::struct_excessive_bools, reason = "each is a fact of its own about the fabric")]
pub(super) struct Of<'a> {
    pub today: i32,
    pub name: &'a str,
    pub free: Length,
    /// What of it lies in pieces of less than the full width.
    pub narrow: Length,
    /// What of it an order can use, in full width.
    pub usable: Length,
    pub on_hand: Length,
    pub on_order: Length,
    pub short: Length,
    /// Where it could be worked.
    pub proposal: Option<&'a Proposal>,
    pub order_by: Option<i32>,
    pub orders: &'a [Order],
    /// Less than this usable is nothing.
    pub least: Length,
    /// The most that one open day used, where most of the reorder point is for such jobs.
    pub one_day: Option<Length>,
    /// Whether any use is expected.
    pub in_use: bool,
    pub in_catalogue: bool,
    /// Why no amount can be proposed, where none can.
    pub unproposed: &'static str,
    /// Whether any of it was ever there.
    pub ever: bool,
    pub dead: bool,
    pub last_used: Option<i32>,
}

type Need = (Pressing, &'static str, String);

/// What needs doing about a fabric.
pub(super) fn advice(of: &Of<'_>) -> Advice {
    let answer = of.proposal.map(|proposal| &proposal.answer);
    let order = match answer {
        Some(Answer::Order(order)) => Some(of.order(order)),
        _ => None,
    };
    let offer = match answer {
        Some(Answer::LastOfIt(offer)) => of.offer(*offer),
        _ => None,
    };
    let proposed = order.is_some();
    let short = if proposed { None } else { of.short() };
    let told = proposed || short.is_some() || matches!(answer, Some(Answer::LastOfIt(_)));
    let late = of.late();
    let is_late = late.is_some();
    let mut needs: Vec<Need> = [order, short, offer, late].into_iter().flatten().collect();
    if !told {
        needs.extend(of.out().or_else(|| of.runs_out()).or_else(|| if is_late { None } else { of.due() }));
    }
    needs.extend(of.unknown().or_else(|| of.dead()));
    // the first of the greatest
    let first = needs.iter().enumerate().rev().max_by_key(|(_, need)| need.0).map(|(at, _)| at);
    let Some(first) = first else { return Advice::default() };
    let (pressing, _, sentence) = needs.remove(first);
    let others = needs.into_iter().map(|(_, code, message)| Note { code, message }).collect();
    Advice { sentence, pressing, others }
}

/// When it runs out and when an order of today would come, where it runs out before more comes
/// and an order of today comes before that.
pub(super) fn sooner(proposal: &Proposal) -> Option<(i32, i32)> {
    let (Some(When::On(out)), Some(OrderBy::TooLate { arrives, .. })) =
        (proposal.runs_out, proposal.order_by)
    else {
        return None;
    };
    let back = matches!(proposal.back, Some(When::On(back)) if back <= arrives);
    (!back).then_some((out.0, arrives.0))
}

impl Of<'_> {
    fn said(&self, day: i32) -> Said {
        Said { day, today: self.today }
    }

    /// " today", or " by" a later day.
    fn by(&self, day: i32) -> String {
        if day <= self.today { " today".to_owned() } else { format!(" by {}", self.said(day)) }
    }

    /// What is free, on order and promised, against the reorder point.
    fn clauses(&self) -> String {
        let mut clauses = vec![format!("{} free", lies(self.free))];
        if self.narrow > Length::ZERO {
            clauses.push(format!("{} of that in narrow pieces", metres(self.narrow)));
        }
        if self.on_order > Length::ZERO {
            clauses.push(format!("{} is on order", metres(self.on_order)));
        }
        if self.short > Length::ZERO {
            clauses.push(format!("{} is promised and not there", metres(self.short)));
        }
        let level = self.proposal.and_then(|proposal| proposal.levels);
        let level = level.map_or(Length::ZERO, |levels| Length::from_um(levels.reorder_point));
        format!("{} and {} is the reorder point", clauses.join(", "), metres(level))
    }

    fn order(&self, order: &Proposed) -> Need {
        let amount = metres(Length::from_um(order.amount));
        let when = self.order_by.map(|day| self.by(day)).unwrap_or_default();
        let one_day = self.one_day.map(|most| {
            format!(", most of that kept for large jobs, one of which used {} in a day", metres(most))
        });
        let sentence = format!(
            "Order {amount} of {}{when}: {}{}{}.",
            self.name,
            self.clauses(),
            one_day.unwrap_or_default(),
            self.without().unwrap_or_default()
        );
        let now = self.order_by.is_some_and(|day| day <= self.today) || self.short > Length::ZERO;
        (if now { Pressing::Today } else { Pressing::Soon }, "ORDER", sentence)
    }

    /// For how long there is none of it though an order is placed today.
    fn without(&self) -> Option<String> {
        let (out, arrives) = sooner(self.proposal?)?;
        (out < arrives && !self.is_out()).then(|| {
            let (out, arrives) = (self.said(out), self.said(arrives));
            format!("; it is expected to run out on {out}, and an order of today comes on {arrives}")
        })
    }

    /// Nothing is proposed, and yet there is a day by which to order.
    fn due(&self) -> Option<Need> {
        let day = self.order_by.filter(|day| *day <= self.today.saturating_add(ORDER_SOON))?;
        let sentence = format!(
            "Order {}{}: no amount is proposed yet, for {}.",
            self.name,
            self.by(day),
            self.clauses()
        );
        Some((if day <= self.today { Pressing::Today } else { Pressing::Soon }, "ORDER_BY", sentence))
    }

    fn next_order(&self) -> String {
        let next = self.orders.iter().find(|order| order.late_days == 0);
        match next.or(self.orders.first()) {
            Some(order) if order.late_days > 0 => format!(
                "{} of order {} is {} late",
                metres(order.outstanding),
                order.order_id,
                several(order.late_days.into(), "day")
            ),
            Some(order) => format!(
                "{} of order {} is expected on {}",
                metres(order.outstanding),
                order.order_id,
                self.said(order.expected)
            ),
            None => "nothing is on order".to_owned(),
        }
    }

    fn short(&self) -> Option<Need> {
        let missing = (self.short > Length::ZERO).then(|| metres(self.short))?;
        let sentence =
            format!("{missing} of {} is promised and not there: {}.", self.name, self.next_order());
        Some((Pressing::Today, "SHORT", sentence))
    }

    fn offer(&self, offer: Offer) -> Option<Need> {
        let (name, free) = (self.name, lies(self.free));
        match offer {
            Offer::Stop if self.ever => {
                let narrow = if self.narrow > Length::ZERO { ", narrow pieces among them" } else { "" };
                let least = metres(self.least);
                let sentence = format!(
                    "Stop offering {name} today: {free} free{narrow}, it is the last of it, and an order takes {least} at the least."
                );
                Some((Pressing::Today, "LAST_OF_IT", sentence))
            }
            Offer::Until(day) => {
                let sentence = format!(
                    "Stop offering {name} after {}: {free} free, and it is the last of it.",
                    self.said(day.0)
                );
                let soon = day.0 <= self.today.saturating_add(SOON);
                Some((if soon { Pressing::Soon } else { Pressing::Look }, "LAST_OF_IT", sentence))
            }
            Offer::Stop | Offer::NotBy(_) | Offer::Unknown => None,
        }
    }

    fn late(&self) -> Option<Need> {
        let late: Vec<&Order> = self.orders.iter().filter(|order| order.late_days > 0).collect();
        let first = late.first()?;
        let (more, it) = match late.len() {
            1 => (String::new(), "it does"),
            2 => (", and another order is late too".to_owned(), "they do"),
            all => (format!(", and {} more orders are late too", all - 1), "they do"),
        };
        let from =
            if first.supplier.is_empty() { String::new() } else { format!(" from {}", first.supplier) };
        let again = self.without_late();
        let said = again.map(|day| format!(": if {it} not come, order again{}{}", self.by(day), self.end()));
        let sentence = format!(
            "{} of {}{from}, order {}, is {} late{more}{}.",
            metres(first.outstanding),
            self.name,
            first.order_id,
            several(first.late_days.into(), "day"),
            said.unwrap_or_default()
        );
        let low = self.proposal.is_some_and(|proposal| {
            let level = proposal.levels.map(|levels| levels.reorder_point);
            level.is_some_and(|level| proposal.position.available <= level)
        });
        let within = |days: i32| again.is_some_and(|day| day <= self.today.saturating_add(days));
        let pressing = if low || self.is_out() || within(0) {
            Pressing::Today
        } else if within(ORDER_SOON) {
            Pressing::Soon
        } else {
            Pressing::Look
        };
        Some((pressing, "LATE", sentence))
    }

    /// By when to order where what is late does not come, though nothing is proposed.
    fn without_late(&self) -> Option<i32> {
        let answer = self.proposal.map(|proposal| proposal.answer)?;
        self.order_by.filter(|_| matches!(answer, Answer::Enough | Answer::Covered))
    }

    /// When it runs out, what is late left out.
    fn end(&self) -> String {
        match self.proposal.and_then(|proposal| proposal.runs_out) {
            Some(When::On(out)) if !self.is_out() => {
                format!(", for it is expected to run out on {}", self.said(out.0))
            }
            _ => String::new(),
        }
    }

    /// Whether it is used and nothing is free that an order could use.
    fn is_out(&self) -> bool {
        self.in_use && self.usable < self.least.max(Length::from_um(1))
    }

    fn out(&self) -> Option<Need> {
        if !self.is_out() {
            return None;
        }
        let mut free = lies(self.free);
        free.push_str(" free");
        if self.free > Length::ZERO {
            let least = metres(self.least);
            free = format!("{free}, an order takes {least} at the least");
        }
        if !self.orders.is_empty() {
            let sentence = format!("Of {}, {free}: {}.", self.name, self.next_order());
            return Some((Pressing::Look, "OUT", sentence));
        }
        if !self.in_catalogue {
            let sentence =
                format!("Of {}, {free}, nothing is on order, and the catalogue has it not.", self.name);
            return Some((Pressing::Look, "OUT", sentence));
        }
        let sentence = format!(
            "Order {} today, or take it off the form: {free} and nothing is on order; no amount is proposed, for {}.",
            self.name, self.unproposed
        );
        Some((Pressing::Today, "OUT", sentence))
    }

    fn runs_out(&self) -> Option<Need> {
        let proposal = self.proposal?;
        if let Some((out, arrives)) = sooner(proposal)
            && matches!(proposal.answer, Answer::Covered)
            && self.orders.iter().all(|order| order.late_days == 0)
        {
            let sentence = format!(
                "Ask for what is on order of {} to come sooner, or order more today: it is expected to run out on {}, {}, and an order of today comes on {}.",
                self.name,
                self.said(out),
                self.next_order(),
                self.said(arrives)
            );
            return Some((Pressing::Today, "RUNS_OUT", sentence));
        }
        match (proposal.runs_out, proposal.back, proposal.order_by) {
            (Some(When::On(out)), Some(When::On(back)), Some(OrderBy::TooLate { arrives, .. }))
                if back <= arrives =>
            {
                let sentence = format!(
                    "{} is expected to run out on {}, and there is more on {}.",
                    self.name,
                    self.said(out.0),
                    self.said(back.0)
                );
                Some((Pressing::Look, "RUNS_OUT", sentence))
            }
            _ => None,
        }
    }

    fn unknown(&self) -> Option<Need> {
        let there = !self.in_catalogue && self.on_hand > Length::ZERO;
        let sentence =
            format!("{} of {} is there, and the catalogue has it not.", metres(self.on_hand), self.name);
        there.then_some((Pressing::Look, "NOT_IN_CATALOGUE", sentence))
    }

    fn dead(&self) -> Option<Need> {
        let since = match self.last_used {
            Some(day) => format!("since {}", self.said(day)),
            None => "ever".to_owned(),
        };
        let sentence =
            format!("{} of {} is there, and none was used {since}.", metres(self.on_hand), self.name);
        self.dead.then_some((Pressing::Look, "DEAD", sentence))
    }
}
