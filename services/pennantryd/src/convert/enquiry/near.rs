//! Reading who is near, and where it hangs.

use pennantry_calc::order::{Field, Jurisdiction, Near, NearPart};
use pennantry_contract::reasons::ViolationReason as Why;
use pennantry_contract::v1;
use pennantry_measure::Length;
use pennantry_measure::bounds::{self, Bound};

use super::super::{fields, words};
use super::{Named, Reader};

impl Reader {
    pub(super) fn near(&mut self, wire: Option<&v1::Near>) -> Near {
        let Some(near) = wire else { return Near::default() };
        Near {
            who: self.near_value(NearPart::Who, near.who).and_then(words::read_who),
            youngest_months: self.near_count(NearPart::Months, near.youngest_months, bounds::MONTHS),
            place: self.near_value(NearPart::Place, near.place).and_then(words::read_place),
            fixing_height: self.near_length(
                NearPart::FixingHeight,
                near.fixing_height_mm,
                bounds::FIXING_HEIGHT,
            ),
            fixings: self.near_count(NearPart::Fixings, near.fixings, bounds::FIXINGS),
            span: self.near_length(NearPart::Span, near.span_mm, bounds::LENGTH),
            cot_distance: self.near_length(NearPart::CotDistance, near.cot_distance_mm, bounds::COT_DISTANCE),
            jurisdictions: self.jurisdictions(&near.jurisdictions),
            wall_width: self.near_length(NearPart::WallWidth, near.wall_width_mm, bounds::WALL_WIDTH),
            wall_height: self.near_length(NearPart::WallHeight, near.wall_height_mm, bounds::WALL_HEIGHT),
        }
    }

    fn near_length(&mut self, part: NearPart, mm: Option<f64>, bound: Bound<Length>) -> Option<Length> {
        self.length(Field::Near(part), mm, bound)
    }

    fn near_count(&mut self, part: NearPart, count: Option<u32>, bound: Bound<u32>) -> Option<u32> {
        let field = Field::Near(part);
        self.count(Some(field), &fields::path(field), count, bound)
    }

    fn near_value<E: Named>(&mut self, part: NearPart, number: Option<i32>) -> Option<E> {
        let field = Field::Near(part);
        self.value_at(Some(field), &fields::path(field), number)
    }

    /// Each once; one that is not said is none.
    fn jurisdictions(&mut self, numbers: &[i32]) -> Vec<Jurisdiction> {
        let most = bounds::JURISDICTIONS.most;
        let count = u32::try_from(numbers.len()).unwrap_or(u32::MAX);
        if count > most {
            let field = Field::Near(NearPart::Jurisdictions);
            self.refuse(
                Some(field),
                &fields::path(field),
                Why::TooLong,
                format!("{count} jurisdictions are too many: give up to {most}, each once"),
            );
        }
        let mut read = Vec::new();
        for ((earlier, number), place) in
            numbers.iter().enumerate().take(usize::try_from(most).unwrap_or(usize::MAX)).zip(0..)
        {
            let part = NearPart::Jurisdiction(place);
            read.extend(self.near_value(part, Some(*number)).and_then(words::read_jurisdiction));
            if numbers.iter().take(earlier).any(|before| before == number) {
                let field = Field::Near(part);
                self.refuse(
                    Some(field),
                    &fields::path(field),
                    Why::Repeated,
                    String::from("this jurisdiction is listed already: list each once"),
                );
            }
        }
        read
    }
}
