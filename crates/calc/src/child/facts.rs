//! What the rules look at, taken from an order once.

use pennantry_measure::{Length, bounds};

use super::hung::Hung;
use super::rules::{Ages, Amount, Looks, RULES, Rule, Whose};
use crate::layout::Layout;
use crate::order::{AskedLength, End, EndStyle, Jurisdiction, Near, Order, Place, Who};
use crate::shop::{Cord, Design, Filling, Part, Shop};

/// What the rules look at.
#[derive(Debug)]
pub(super) struct Facts<'a> {
    /// What was told.
    pub(super) near: &'a Near,
    /// What has to be told, each with what is not.
    pub(super) questions: Vec<Question>,
    /// Whether anything at all was told.
    pub(super) told: bool,
    /// Age of the youngest child; none where no child is to be near.
    pub(super) months: Option<u32>,
    /// Whose rules are looked at.
    pub(super) looked: Vec<Whose>,
    /// How it hangs.
    pub(super) hung: Hung,
    /// Whether it is ordered from hook to hook, so that its fixings are those of its swags.
    pub(super) is_hang: bool,
    /// The shortest whole string that is made with such ends and pennants.
    pub(super) shortest: Length,
    /// The longest loose end.
    pub(super) tail: Length,
    /// The ends, with the loose length of each.
    pub(super) ends: [(End, Length); 2],
    /// What the binding is as a cord.
    pub(super) cord: Cord,
    /// The trimmings on pennants and at ends, each with how far it hangs.
    pub(super) parts: Vec<Hanging<'a>>,
    /// How the pennants are filled, if they are.
    pub(super) filling: Option<Filling>,
    /// Whether a child would play with it.
    pub(super) is_toy: bool,
}

/// A trimming where it hangs.
#[derive(Debug, Clone, Copy)]
pub(super) struct Hanging<'a> {
    pub(super) name: &'a str,
    pub(super) part: &'a Part,
    /// Cord and part together.
    pub(super) hangs: Length,
    /// Whether it is at an end of the string.
    pub(super) at_end: bool,
}

/// What has to be told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Question {
    /// Nothing at all was.
    Anything,
    /// Who is near.
    Who,
    /// How old the youngest is.
    Age,
    /// No child is to be near, and yet an age is told.
    ChildOrNot,
    /// No child is to be near a place that is for children.
    NoChildThere,
    /// No child is to be near, and yet a distance to where one sleeps or plays is told.
    NoChildByCot,
    /// The span is longer than the string.
    Span,
    /// Rules of the place that it goes to are not known here.
    Rules,
}

impl<'a> Facts<'a> {
    pub(super) fn of(shop: &'a Shop, order: &'a Order, layout: &Layout) -> Facts<'a> {
        let near = &order.near;
        let design = shop.designs.get(order.design);
        let ends = order.ends.map(|end| (end, loose(&end, layout.tail)));
        let hung = hung(order, layout, &ends);
        let by_one = hung.fixings < 2;
        let longest = ends.iter().map(|(_, loose)| *loose).max().unwrap_or(Length::ZERO);
        let tail = if by_one { layout.overall } else { longest };
        let parts = parts(shop, order, &ends);
        let is_toy = design.is_some_and(|design| design.play) || parts.iter().any(|hung| hung.part.play);
        let (mut questions, months) = child(near);
        let told = is_told(order);
        if !told {
            questions = vec![Question::Anything];
        }
        let known = !near.jurisdictions.is_empty();
        let is_hang = matches!(order.length, Some(AskedLength::Hang(_)));
        let mut facts = Facts {
            near,
            questions,
            told,
            months,
            looked: near.jurisdictions.iter().copied().map(Whose::Of).collect(),
            hung,
            is_hang,
            shortest: shop.least.max(layout.tail * 2 + layout.top_width),
            tail,
            ends,
            cord: shop.bindings.get(order.binding).map_or(Cord::Tape, |binding| binding.cord),
            parts,
            filling: design.and_then(|design: &Design| design.filling),
            is_toy,
        };
        // rules that are named are looked at beside those of the place, known or not
        if !known || Jurisdiction::of_country(&order.country).is_none() {
            facts.looked.push(Whose::Elsewhere);
        }
        if told && months.is_some() {
            // a span that does not fit is one that is not known
            if near.span.is_some() && hung.level.is_none() && !by_one {
                facts.questions.push(Question::Span);
            }
            if !known {
                facts.questions.push(Question::Rules);
            }
        }
        facts
    }

    /// Whether a rule of somebody's is for whoever is near. One for everywhere is where it is
    /// by any of the rules that are looked at.
    pub(super) fn is_of_age(&self, ages: Ages, whose: Whose) -> bool {
        match whose {
            Whose::Everywhere => self.looked.iter().any(|whose| ages.holds(*whose, self.months)),
            _ => ages.holds(whose, self.months),
        }
    }

    /// From which height on it is out of reach.
    pub(super) fn out_of_reach(&self, whose: Whose) -> Length {
        match whose {
            Whose::Everywhere => self.looked.iter().map(|whose| reach(*whose)).max().unwrap_or(Length::ZERO),
            _ => reach(whose),
        }
    }

    /// Whether it is within reach: by a cot, at a height that was not told, or too low.
    pub(super) fn is_reachable(&self, whose: Whose) -> bool {
        let low = self.hung.lowest().is_none_or(|lowest| lowest < self.out_of_reach(whose));
        self.is_at_cot() || low
    }

    /// Whether it hangs in or on a cot or the like, where no height puts it out of reach.
    pub(super) fn is_at_cot(&self) -> bool {
        self.near.place == Some(Place::Cot)
    }
}

/// The height that rules have for the lowest point.
fn reach(whose: Whose) -> Length {
    let has = |rule: &&Rule| rule.looks_at == Looks::Lowest && rule.whose.contains(&whose);
    let limit = RULES.iter().copied().flatten().find(has).and_then(|rule| rule.limit);
    match limit.map(|limit| limit.amount) {
        Some(Amount::Length(length)) => length,
        _ => bounds::FIXING_HEIGHT.most,
    }
}

/// Whether anything was told about who is near; the hooks of a hang say nothing of that.
fn is_told(order: &Order) -> bool {
    let near = &order.near;
    let fixings = !matches!(order.length, Some(AskedLength::Hang(_)))
        && (near.fixings.is_some() || near.span.is_some());
    near.who.is_some()
        || near.youngest_months.is_some()
        || near.place.is_some()
        || near.fixing_height.is_some()
        || near.cot_distance.is_some()
        || fixings
}

/// What has to be told about a child, and the age to go by: that of a child not yet born
/// where a child may be near and no age is told.
fn child(near: &Near) -> (Vec<Question>, Option<u32>) {
    let youngest = near.youngest_months.unwrap_or(0);
    match near.who {
        Some(Who::Child) if near.youngest_months.is_some() => (Vec::new(), Some(youngest)),
        Some(Who::Child) => (vec![Question::Age], Some(youngest)),
        None => (vec![Question::Who], Some(youngest)),
        Some(Who::NoChild) if near.youngest_months.is_some() => (vec![Question::ChildOrNot], Some(youngest)),
        // by a cot no answer would change anything
        Some(Who::NoChild) if matches!(near.place, Some(Place::ChildRoom | Place::Childcare)) => {
            (vec![Question::NoChildThere], Some(youngest))
        }
        Some(Who::NoChild) if near.cot_distance.is_some() && near.place != Some(Place::Cot) => {
            (vec![Question::NoChildByCot], Some(youngest))
        }
        Some(Who::NoChild) => (Vec::new(), None),
    }
}

/// The loose length of an end: its tail where it is plain, its longer tie where it is tied, and
/// none where a loop holds it.
fn loose(end: &End, tail: Length) -> Length {
    match end.style {
        EndStyle::Plain => tail,
        EndStyle::Loop => Length::ZERO,
        EndStyle::Tie => end.tie.unwrap_or(tail).max(end.second_tie.unwrap_or(Length::ZERO)),
    }
}

/// A string between fixings at its flags, or further out where a loop or a shorter tie holds it.
fn hung(order: &Order, layout: &Layout, ends: &[(End, Length); 2]) -> Hung {
    let held = |(end, loose): &(End, Length)| match end.style {
        EndStyle::Plain => Length::ZERO,
        EndStyle::Loop | EndStyle::Tie => (layout.tail - *loose).max(Length::ZERO),
    };
    let string = match &layout.hang {
        Some(hang) => hang.curve,
        None => ends.iter().map(held).fold(layout.overall - layout.tail * 2, |sum, held| sum + held),
    };
    // a loop that hangs down is half as long as it is round; not told, it is as large as may be
    let hangs = |(end, loose): &(End, Length)| match end.style {
        EndStyle::Loop => {
            let round = end.perimeter.unwrap_or(bounds::LOOP.most).um();
            Length::from_um(round / 2 + round % 2)
        }
        EndStyle::Plain | EndStyle::Tie => *loose,
    };
    Hung {
        height: order.near.fixing_height,
        string,
        level: order.near.span.filter(|level| *level <= string),
        fixings: order.near.fixings.unwrap_or(2),
        overall: layout.overall,
        drop: layout.visible_drop,
        loose: ends.iter().map(hangs).max().unwrap_or(Length::ZERO),
    }
}

/// The trimmings on pennants, then those at ends, which hang by the loose length of the end too.
fn parts<'a>(shop: &'a Shop, order: &Order, ends: &[(End, Length); 2]) -> Vec<Hanging<'a>> {
    let hanging = |place: usize, more: Length, at_end: bool| {
        let trimming = shop.trimmings.get(place)?;
        let hangs = trimming.part.hangs + more;
        Some(Hanging { name: trimming.name.as_str(), part: &trimming.part, hangs, at_end })
    };
    let sewn_on = order.trimmings.iter().filter_map(|(place, _)| hanging(*place, Length::ZERO, false));
    let mut parts: Vec<Hanging<'a>> = sewn_on.collect();
    for (end, loose) in ends {
        let at_end = end.trimming.and_then(|place| hanging(place, *loose, true));
        let listed = |part: &Hanging<'_>| {
            parts.iter().any(|other| other.at_end && other.name == part.name && other.hangs == part.hangs)
        };
        if let Some(part) = at_end.filter(|part| !listed(part)) {
            parts.push(part);
        }
    }
    parts
}
