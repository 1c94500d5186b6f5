//! One fabric on a morning: everything that its row says, and how it came about.
//!
//! | figure | formula |
//! |---|---|
//! | free | on hand - held - confirmed, as the ledger has it |
//! | usable | free, in metres of the full width ([`usable`](super::usable)): what a new order can use |
//! | position | usable - short + on order: on hand - held - confirmed where nothing lies in narrow pieces; short is whatever is promised and not there, by holds too |
//! | on order | of each order what is ordered less what came, never below nought |
//! | late | today - the expected day, while something is to come; such an order stays in the position, and is not counted on for any day |
//! | idle | days since the last use, or since it first came, less the open days since on which there was nothing to use: at least 180, and at least six mean intervals, counted from the first week with use to the last. What is idle is foretold as unused, and not ordered; where some lies there it is dead |
//! | order by | the day of [`propose`]; where it is too late, the first open day; while an order is late, that without it; today, where an order of today comes before what is on order and it runs out before that |
//!
//! [`propose`]: pennantry_forecast::supply::propose

use pennantry_forecast::demand::class::Class;
use pennantry_forecast::demand::days::Weekly;
use pennantry_forecast::demand::kpi::{Moving, moving};
use pennantry_forecast::supply::Error;
use pennantry_forecast::supply::day::{Day, OpenDays};
use pennantry_forecast::supply::lot::Lot as SupplierLot;
use pennantry_forecast::supply::position::{OrderLine, Shelf};
use pennantry_forecast::supply::project::{Line, OrderBy, Outlook, When};
use pennantry_forecast::supply::propose::{Answer, Fabric, Offer, Proposal, propose};
use pennantry_ledger::rules::Amount;
use pennantry_ledger::stand::{OpenLine, Standing};
use pennantry_measure::{Length, Rounding};

use super::advice::{self, advice, sooner};
use super::foresee::{Foreseen, usual};
use super::history::THIRTEEN_WEEKS;
use super::levels::{self, Found};
use super::notes::Notes;
use super::number::{count, nearest_mm, quotient};
use super::score::{name_of, scores};
use super::survey::{Known, Survey, cloth};
use super::told::{Buying, Detail, FabricReport, Lot, Order, ShelfDay};
use super::usable::{Narrow, narrow};
use super::wastage::wastage;
use super::{BuyingTerms, FabricTerms, Morning};

/// Weeks ahead of a fabric of which no lead time is known.
const HORIZON: usize = 4;

/// The report of one fabric. Whatever is wrong with what is given, there is one; what nobody can
/// say is absent from it, and a note says why.
pub fn fabric(morning: &Morning<'_>, survey: &Survey, code: &str) -> FabricReport {
    let none = (Standing::default(), Known::default());
    let part = Part {
        morning,
        survey,
        code,
        standing: morning.stand.materials.get(&cloth(code)).unwrap_or(&none.0),
        known: survey.known.get(code).unwrap_or(&none.1),
        terms: morning.fabrics.iter().find(|fabric| fabric.code == code),
        narrow: Narrow::default(),
    };
    Part { narrow: narrow(part.standing, part.terms), ..part }.told()
}

struct Part<'a> {
    morning: &'a Morning<'a>,
    survey: &'a Survey,
    code: &'a str,
    standing: &'a Standing,
    known: &'a Known,
    terms: Option<&'a FabricTerms>,
    narrow: Narrow,
}

/// What was worked out of a fabric.
struct Worked {
    orders: Vec<Order>,
    idle: bool,
    foreseen: Option<Foreseen>,
    outlook: Option<Outlook>,
    levels: Option<Found>,
    proposal: Option<Proposal>,
}

impl Part<'_> {
    fn today(&self) -> i32 {
        self.survey.almanac.today
    }

    fn buying(&self) -> Option<&BuyingTerms> {
        self.terms?.buying.as_ref()
    }

    fn short(&self) -> Amount {
        self.standing.short + self.standing.held_short
    }

    /// What is free and an order can use, in full width.
    fn usable(&self) -> Length {
        (self.standing.free - self.narrow.lost).length()
    }

    /// What of it every string takes at the least.
    fn least(&self) -> Length {
        self.terms.and_then(|terms| terms.least).map_or(Length::ZERO, |least| least.length)
    }

    /// Whether any of it was ever there, or is to come.
    fn ever(&self) -> bool {
        let there = self.standing.on_hand.is_some() || !self.standing.open.is_empty();
        there || self.known.history.first.is_some()
    }

    fn told(&self) -> FabricReport {
        let mut notes = Notes::of(&self.known.history);
        let worked = self.work(&mut notes);
        let standing = self.standing;
        let on_order: Amount = worked.orders.iter().map(|order| Amount::of_length(order.outstanding)).sum();
        let name = self.terms.map_or(self.code, |terms| terms.name.as_str());
        let in_use = worked.foreseen.as_ref().filter(|_| !worked.idle);
        let order_by = order_by(worked.proposal.as_ref());
        let dead = worked.idle && standing.on_hand.is_some();
        let advice = advice(&advice::Of {
            today: self.today(),
            name,
            free: standing.free.length(),
            narrow: self.narrow.free.length(),
            usable: self.usable(),
            on_hand: standing.on_hand.length(),
            on_order: on_order.length(),
            short: self.short().length(),
            proposal: worked.proposal.as_ref(),
            order_by,
            orders: &worked.orders,
            least: self.least(),
            one_day: worked.levels.as_ref().and_then(Found::one_day),
            in_use: in_use.is_some_and(|foreseen| foreseen.days.iter().any(|(_, used)| *used > 0.0)),
            in_catalogue: self.terms.is_some(),
            unproposed: self.unproposed(),
            ever: self.ever(),
            dead,
            last_used: self.known.history.last_used,
        });
        let proposed = match worked.proposal.as_ref().map(|proposal| proposal.answer) {
            Some(Answer::Order(order)) => Some(Length::from_um(order.amount)),
            _ => None,
        };
        let seasonal = worked.foreseen.as_ref().is_some_and(Foreseen::seasonal);
        let usual = usual(&self.known.history, self.survey, seasonal);
        if usual.is_none() {
            notes.no_usual();
        }
        notes.narrow(&self.narrow, self.usable());
        notes.extend(advice.others);
        FabricReport {
            code: self.code.to_owned(),
            name: name.to_owned(),
            free: standing.free.length(),
            used: self.known.history.used.length(),
            usual,
            on_order: on_order.length(),
            weeks_left: in_use.and_then(|foreseen| foreseen.weeks_left(self.usable(), &self.survey.almanac)),
            order_by,
            proposal: proposed,
            sentence: advice.sentence,
            pressing: advice.pressing,
            detail: self.detail(worked, proposed, on_order, dead, notes),
        }
    }

    fn detail(
        &self,
        worked: Worked,
        proposed: Option<Length>,
        on_order: Amount,
        dead: bool,
        mut notes: Notes,
    ) -> Detail {
        let standing = self.standing;
        let history = &self.known.history;
        let promised = standing.held + standing.confirmed + self.short();
        let in_use = worked.foreseen.as_ref().filter(|_| !worked.idle);
        let weekly = history.weekly.as_ref();
        let shape = worked.foreseen.as_ref().map(|foreseen| foreseen.choice.shape);
        let forecast = worked.foreseen.as_ref().and_then(Foreseen::forecast);
        let width = self.terms.and_then(|terms| terms.width);
        let (wastage, note) = wastage(&history.quarter, self.today(), width, standing);
        notes.extend(note);
        Detail {
            as_of: self.morning.stand.at,
            on_hand: standing.on_hand.length(),
            held: standing.held.length(),
            confirmed: standing.confirmed.length(),
            short: self.short().length(),
            position: (standing.on_hand - self.narrow.lost - promised + on_order).length(),
            demand_class: shape.map_or(Class::Insufficient, |shape| shape.class),
            interval: shape.filter(|shape| shape.demands > 1).and_then(|shape| shape.interval),
            size_variation: shape.and_then(|shape| shape.variation),
            method: forecast.map(|forecast| name_of(&forecast.chosen.method)).unwrap_or_default(),
            seasonal: worked.foreseen.as_ref().is_some_and(Foreseen::seasonal),
            scores: forecast.map(scores).unwrap_or_default(),
            rate: in_use.and_then(|foreseen| nearest_mm(foreseen.rate(&self.survey.almanac)?)),
            past: history.past.clone(),
            coming: in_use
                .zip(weekly)
                .map(|(foreseen, weekly)| foreseen.coming(weekly, self.survey))
                .unwrap_or_default(),
            shelf_line: shelf_line(&worked),
            runs_out: worked.proposal.as_ref().and_then(|proposal| on(proposal.runs_out)),
            offer_until: worked.proposal.as_ref().and_then(|proposal| self.offer_until(proposal)),
            buying: self.buying_told(&worked, proposed),
            orders: worked.orders,
            lots: lots(standing),
            wastage,
            dead,
            last_used: history.last_used,
            value_class: self.known.value_class,
            notes: notes.all,
        }
    }

    fn work(&self, notes: &mut Notes) -> Worked {
        let history = &self.known.history;
        let orders: Vec<Order> = self.standing.open.iter().filter_map(|line| self.order(line)).collect();
        let foreseen = self.foresee(notes);
        let idle = self.idle();
        if idle {
            notes.idle(self.today(), history.last_used);
        }
        let in_use = foreseen.as_ref().filter(|foreseen| !idle && !foreseen.days.is_empty());
        let outlook = in_use.and_then(|foreseen| notes.worked("Days to come", self.outlook(foreseen)));
        let levels = in_use.and_then(|foreseen| notes.worked("Levels", self.levels(foreseen)?)).flatten();
        notes.levels(levels.as_ref(), self.today(), self.code);
        self.unsaid(in_use.is_some(), levels.is_some(), notes);
        self.estimated(notes);
        let proposal = self.propose(&orders, outlook.as_ref(), levels.as_ref());
        let proposal = notes.worked("What to order", proposal);
        Worked { orders, idle, foreseen, outlook, levels, proposal }
    }

    fn order(&self, line: &OpenLine) -> Option<Order> {
        let outstanding = (line.ordered - line.received).or_none();
        let late = i64::from(self.today()) - i64::from(line.expected_day);
        outstanding.is_some().then(|| Order {
            order_id: line.order.to_string(),
            supplier: line.supplier.clone(),
            expected: line.expected_day,
            outstanding: outstanding.length(),
            late_days: u32::try_from(late.max(0)).unwrap_or(u32::MAX),
        })
    }

    fn foresee(&self, notes: &mut Notes) -> Option<Foreseen> {
        let history = &self.known.history;
        let Some(weekly) = &history.weekly else {
            notes.no_week(history, self.survey);
            return None;
        };
        let days =
            self.buying().map(|buying| buying.lead_days.saturating_add(self.morning.terms.review_days));
        let weeks = days.and_then(|days| usize::try_from(days.div_ceil(7)).ok());
        let horizon = weeks.map_or(HORIZON, |weeks| weeks.clamp(1, 26));
        let quantile = self.morning.terms.service.share();
        let foreseen = Foreseen::of(weekly, self.survey, horizon, quantile);
        let foreseen = notes.worked("The forecast", foreseen)?;
        notes.foreseen(&foreseen, history, weekly, self.usable(), self.survey);
        Some(foreseen)
    }

    fn idle(&self) -> bool {
        let history = &self.known.history;
        let Some(since) = history.last_used.or(history.first) else { return false };
        let days = u32::try_from(i64::from(self.today()) - i64::from(since)).unwrap_or(0);
        let days = days.saturating_sub(history.out_since);
        // whether anything lies there is another question
        moving(1, days, history.weekly.as_ref().and_then(between_uses)) == Moving::Dead
    }

    fn outlook(&self, foreseen: &Foreseen) -> Result<Outlook, Error> {
        let open = OpenDays::new(foreseen.days.iter().map(|(day, _)| Day(*day)).collect())?;
        let uses: Vec<f64> = foreseen.days.iter().map(|(_, used)| *used).collect();
        Outlook::new(Day(self.today()), &open, &uses)
    }

    fn levels(&self, foreseen: &Foreseen) -> Option<Result<Option<Found>, Error>> {
        let fabric = self.terms?;
        let buying = fabric.buying.as_ref().filter(|buying| !buying.last_of_it)?;
        Some(levels::levels(&levels::Of {
            code: self.code,
            terms: self.morning.terms,
            fabric,
            buying,
            history: &self.known.history,
            foreseen,
            survey: self.survey,
        }))
    }

    fn propose(
        &self,
        orders: &[Order],
        outlook: Option<&Outlook>,
        levels: Option<&Found>,
    ) -> Result<Proposal, Error> {
        let lines: Vec<OrderLine> = orders
            .iter()
            .map(|order| OrderLine {
                expected: Some(Day(order.expected)),
                ordered: order.outstanding.um(),
                received: 0,
                cancelled: 0,
            })
            .collect();
        let buying = self.buying();
        let lot = buying.map(|buying| SupplierLot::new(buying.bolt.um(), buying.least.um())).transpose();
        let least = self.least().um().max(1);
        let fabric = Fabric {
            shelf: Shelf {
                on_hand: (self.standing.on_hand - self.narrow.lost).0,
                held: self.standing.held.0,
                confirmed: self.standing.confirmed.0,
                short: self.short().0,
            },
            lines: &lines,
            last_of_it: buying.filter(|buying| buying.last_of_it).map(|_| least),
            outlook,
            levels: levels.map(|levels| levels.levels),
            lead: buying.map(|buying| buying.lead_days),
            lot: lot?,
        };
        propose(Day(self.today()), &fabric)
    }

    fn offer_until(&self, proposal: &Proposal) -> Option<i32> {
        match proposal.answer {
            Answer::LastOfIt(Offer::Stop) if self.ever() => Some(self.today().saturating_sub(1)),
            Answer::LastOfIt(Offer::Until(day)) => Some(day.0),
            _ => None,
        }
    }

    fn buying_told(&self, worked: &Worked, proposed: Option<Length>) -> Option<Buying> {
        let buying = self.buying()?;
        let levels = worked.levels.as_ref().map(|levels| levels.levels);
        let bolts = match worked.proposal.as_ref().map(|proposal| proposal.answer) {
            Some(Answer::Order(order)) => u32::try_from(order.bolts).ok(),
            _ => None,
        };
        let price = self.terms.and_then(|terms| terms.price_per_metre);
        Some(Buying {
            supplier: buying.supplier.clone(),
            supplier_reference: buying.supplier_reference.clone(),
            lead_days: buying.lead_days,
            bolt: buying.bolt,
            least: buying.least,
            last_of_it: buying.last_of_it,
            reorder_point: levels.map(|levels| Length::from_um(levels.reorder_point)),
            safety: levels.map(|levels| Length::from_um(levels.safety)),
            order_up_to: levels.map(|levels| Length::from_um(levels.order_up_to)),
            service: self.morning.terms.service,
            proposal_bolts: bolts,
            proposal_cost: proposed
                .zip(price)
                .map(|(amount, price)| price.per_metre(amount, Rounding::HalfUp)),
        })
    }

    /// Why no amount is proposed, where none can be.
    fn unproposed(&self) -> &'static str {
        match self.buying() {
            _ if !self.morning.terms.said => "the catalogue has no [ordering] table",
            None => "the catalogue has no [[supplies]] entry for it",
            Some(_) => "there is no reorder point",
        }
    }

    /// Says what the catalogue does not, and where there is a forecast and no level.
    fn unsaid(&self, in_use: bool, levels: bool, notes: &mut Notes) {
        let Some(terms) = self.terms else { return };
        if !self.morning.terms.said {
            notes.no_ordering();
        } else if terms.buying.is_none() {
            notes.not_said_how_bought();
        }
        if terms.price_per_metre.is_none() && self.known.history.year.is_some() {
            notes.no_price();
        }
        let bought = terms.buying.as_ref().is_some_and(|buying| !buying.last_of_it);
        if in_use && bought && !levels {
            notes.no_levels();
        }
    }

    /// Says where the window of an order goes beyond the days off that are known.
    fn estimated(&self, notes: &mut Notes) {
        let days = self.buying().map_or(0, |buying| buying.lead_days);
        let ends = self.today().saturating_add_unsigned(days.saturating_add(self.morning.terms.review_days));
        if let Some(known) = self.morning.known_to.filter(|known| *known < ends) {
            notes.estimated(self.today(), known);
        }
    }
}

/// Days on average between weeks with use, from the first of them to the last: what came after
/// that is what is judged.
fn between_uses(weekly: &Weekly) -> Option<f64> {
    let used = weekly.series.used().iter().enumerate().filter(|(_, used)| **used > 0.0);
    let (first, last) = (used.clone().next()?.0, used.clone().next_back()?.0);
    let steps = used.count().checked_sub(1)?;
    quotient(7.0 * count(last.saturating_sub(first)), count(steps))
}

fn on(when: Option<When>) -> Option<i32> {
    match when {
        Some(When::On(day)) => Some(day.0),
        _ => None,
    }
}

fn order_by(proposal: Option<&Proposal>) -> Option<i32> {
    let proposal = proposal?;
    let late = !proposal.position.overdue.is_empty();
    match (proposal.answer, proposal.order_by?) {
        (Answer::Order(_), OrderBy::By(day) | OrderBy::TooLate { ordered: day, .. })
        | (Answer::Enough | Answer::Covered, OrderBy::By(day)) => Some(day.0),
        // nothing is on its way that could be counted on, or it comes later than an order of today
        (Answer::Enough | Answer::Covered, OrderBy::TooLate { ordered, .. })
            if late || sooner(proposal).is_some() =>
        {
            Some(ordered.0)
        }
        _ => None,
    }
}

/// Thirteen weeks of what is free, on open days.
fn shelf_line(worked: &Worked) -> Vec<ShelfDay> {
    let Some((proposal, outlook)) = worked.proposal.as_ref().zip(worked.outlook.as_ref()) else {
        return Vec::new();
    };
    let line = Line::project(&proposal.position, outlook);
    let ends = outlook.today().plus(THIRTEEN_WEEKS.unsigned_abs());
    let mut coming = proposal.position.coming.iter().peekable();
    let mut told = Vec::new();
    for point in line.points.iter().take_while(|point| point.day < ends) {
        let mut delivery = 0_i64;
        while let Some(came) = coming.next_if(|delivery| delivery.day <= point.day) {
            delivery = delivery.saturating_add(came.amount);
        }
        let Some(free) = nearest_mm(point.closing) else { break };
        told.push(ShelfDay { date: point.day.0, free, delivery: Length::from_um(delivery) });
    }
    told
}

fn lots(standing: &Standing) -> Vec<Lot> {
    let mut lots: Vec<Lot> = standing
        .lots
        .iter()
        .map(|lot| Lot {
            lot: lot.lot.clone(),
            on_hand: lot.pieces.iter().map(|piece| piece.left).sum::<Amount>().length(),
            longest: lot.longest.length(),
            pieces: super::number::number(lot.pieces.len()),
        })
        .collect();
    lots.sort_by(|one, other| (other.longest, &one.lot).cmp(&(one.longest, &other.lot)));
    lots
}
