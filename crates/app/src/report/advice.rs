//! What needs doing about a fabric: in one sentence, and how pressing it is.
//!
//! | what is so | pressing |
//! |---|---|
//! | an order is proposed, and should be placed today, or something promised is not there | today |
//! | an order is proposed, by a later day | soon |
//! | something promised is not there | today |
//! | the last of it: the form must stop offering it now | today |
//! | the last of it: it must within four weeks; later | soon; look |
//! | an order is late, and what is available is at or below the reorder point, or nothing is free | today |
//! | an order is late otherwise | look |
//! | nothing is free of what is used, and nothing is on order | today |
//! | nothing is free of what is used, something is on order | look |
//! | it runs out before what is on order comes, and no order comes sooner | look |
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

/// What is said of a fabric.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Advice {
    pub sentence: String,
    pub pressing: Pressing,
    /// What else needs doing.
    pub others: Vec<Note>,
}

/// What advice is made of.
pub(super) struct Of<'a> {
    pub today: i32,
    pub name: &'a str,
    pub free: Length,
    pub on_hand: Length,
    pub on_order: Length,
    pub short: Length,
    /// Where it could be worked.
    pub proposal: Option<&'a Proposal>,
    pub order_by: Option<i32>,
    pub orders: &'a [Order],
    /// Less than this free is nothing.
    pub least: Length,
    /// Whether any use is expected.
    pub in_use: bool,
    pub in_catalogue: bool,
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
    let mut needs: Vec<Need> = [order, short, offer].into_iter().flatten().collect();
    needs.extend(of.late());
    if !told {
        needs.extend(of.out().or_else(|| of.runs_out()));
    }
    needs.extend(of.unknown().or_else(|| of.dead()));
    // the first of the greatest
    let first = needs.iter().enumerate().rev().max_by_key(|(_, need)| need.0).map(|(at, _)| at);
    let Some(first) = first else { return Advice::default() };
    let (pressing, _, sentence) = needs.remove(first);
    let others = needs.into_iter().map(|(_, code, message)| Note { code, message }).collect();
    Advice { sentence, pressing, others }
}

impl Of<'_> {
    fn said(&self, day: i32) -> Said {
        Said { day, today: self.today }
    }

    fn order(&self, order: &Proposed) -> Need {
        let amount = metres(Length::from_um(order.amount));
        let when = match self.order_by {
            Some(day) if day <= self.today => " today".to_owned(),
            Some(day) => format!(" by {}", self.said(day)),
            None => String::new(),
        };
        let mut clauses = vec![format!("{} free", lies(self.free))];
        if self.on_order > Length::ZERO {
            clauses.push(format!("{} is on order", metres(self.on_order)));
        }
        if self.short > Length::ZERO {
            clauses.push(format!("{} is promised and not there", metres(self.short)));
        }
        let level = self.proposal.and_then(|proposal| proposal.levels);
        let level = level.map_or(Length::ZERO, |levels| Length::from_um(levels.reorder_point));
        let sentence = format!(
            "Order {amount} of {}{when}: {} and {} is the reorder point{}.",
            self.name,
            clauses.join(", "),
            metres(level),
            self.without().unwrap_or_default()
        );
        let now = self.order_by.is_some_and(|day| day <= self.today) || self.short > Length::ZERO;
        (if now { Pressing::Today } else { Pressing::Soon }, "ORDER", sentence)
    }

    /// For how long there is none of it though an order is placed today.
    fn without(&self) -> Option<String> {
        let proposal = self.proposal?;
        let (Some(When::On(out)), Some(OrderBy::TooLate { arrives, .. })) =
            (proposal.runs_out, proposal.order_by)
        else {
            return None;
        };
        let back = matches!(proposal.back, Some(When::On(back)) if back <= arrives);
        (out < arrives && !back && !self.is_out()).then(|| {
            let (out, arrives) = (self.said(out.0), self.said(arrives.0));
            format!("; it is expected to run out on {out}, and an order of today comes on {arrives}")
        })
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
            Offer::Stop => {
                let least = metres(self.least);
                let sentence = format!(
                    "Stop offering {name} today: {free} free, it is the last of it, and an order takes {least} at the least."
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
            Offer::NotBy(_) | Offer::Unknown => None,
        }
    }

    fn late(&self) -> Option<Need> {
        let late: Vec<&Order> = self.orders.iter().filter(|order| order.late_days > 0).collect();
        let first = late.first()?;
        let more = match late.len() {
            1 => String::new(),
            2 => ", and another order is late too".to_owned(),
            all => format!(", and {} more orders are late too", all - 1),
        };
        let sentence = format!(
            "{} of order {} is {} late{more}.",
            metres(first.outstanding),
            first.order_id,
            several(first.late_days.into(), "day")
        );
        let low = self.proposal.is_some_and(|proposal| {
            let level = proposal.levels.map(|levels| levels.reorder_point);
            level.is_some_and(|level| proposal.position.available <= level)
        });
        let pressing = if low || self.is_out() { Pressing::Today } else { Pressing::Look };
        Some((pressing, "LATE", sentence))
    }

    /// Whether it is used and nothing is free.
    fn is_out(&self) -> bool {
        self.in_use && self.free < self.least.max(Length::from_um(1))
    }

    fn out(&self) -> Option<Need> {
        let free = if self.free > Length::ZERO { lies(self.free) } else { "nothing is".to_owned() };
        let sentence = format!("Of {}, {free} free: {}.", self.name, self.next_order());
        let pressing = if self.orders.is_empty() { Pressing::Today } else { Pressing::Look };
        self.is_out().then_some((pressing, "OUT", sentence))
    }

    fn runs_out(&self) -> Option<Need> {
        let proposal = self.proposal?;
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
