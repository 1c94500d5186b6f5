//! Reading the ends of a string.

use pennantry_calc::order::{AskedEnd, EndPart, Field};
use pennantry_contract::reasons::ViolationReason as Why;
use pennantry_contract::v1;
use pennantry_measure::bounds;

use super::super::length::Fault;
use super::super::{fields, force, words};
use super::Reader;

impl Reader {
    pub(super) fn ends(&mut self, wire: Option<&v1::Finish>) -> Vec<AskedEnd> {
        let Some(finish) = wire else { return Vec::new() };
        if finish.ends.len() > 2 {
            self.refuse(
                None,
                "finish.ends",
                Why::TooLong,
                format!("{} ends are too many: a string has 2", finish.ends.len()),
            );
        }
        finish.ends.iter().take(2).zip(0..).map(|(end, place)| self.end(end, place)).collect()
    }

    fn end(&mut self, end: &v1::End, place: u32) -> AskedEnd {
        let at = |part: EndPart| Field::End(place, part);
        let (style, trimming) = (at(EndPart::Style), at(EndPart::Trimming));
        AskedEnd {
            style: self
                .value_at(Some(style), &fields::path(style), end.style)
                .and_then(words::read_end_style),
            perimeter: self.length(at(EndPart::Perimeter), end.loop_mm, bounds::LOOP),
            slips: end.slips,
            breakaway: self.breakaway(at(EndPart::Breakaway), end.breakaway_n),
            tie: self.length(at(EndPart::Tie), end.tie_mm, bounds::TIE),
            second_tie: self.length(at(EndPart::SecondTie), end.second_tie_mm, bounds::TIE),
            ties_apart: self.length(at(EndPart::TiesApart), end.ties_apart_mm, bounds::TIES_APART),
            trimming: self.code(Some(trimming), &fields::path(trimming), end.trimming_code.as_deref()),
        }
    }

    fn breakaway(&mut self, field: Field, newtons: Option<f64>) -> Option<pennantry_measure::Force> {
        let newtons = newtons?;
        let bound = bounds::BREAKAWAY;
        let range = format!("give {} to {}", bound.least, bound.most);
        let spoken = super::length::spoken(newtons);
        let (reason, message) = match force::read(newtons) {
            Ok(force) if bound.holds(force) => return Some(force),
            Ok(_) | Err(Fault::TooLarge) => (Why::OutOfRange, format!("{spoken} N is out of range: {range}")),
            Err(Fault::NotFinite) => (Why::NotFinite, format!("{spoken} is not a force: {range}")),
            Err(Fault::TooFine) => {
                let message = format!(
                    "{spoken} N is finer than a tenth of a newton: {range}, with one decimal at most"
                );
                (Why::OutOfRange, message)
            }
        };
        self.refuse(Some(field), &fields::path(field), reason, message);
        None
    }
}
