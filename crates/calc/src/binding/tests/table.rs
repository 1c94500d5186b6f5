use super::*;
use crate::cutting::charged;
use crate::table::{length_um, millionths, rows};

const TABLE: &str = include_str!("../../../tables/binding.csv");

/// What a row asks, in its unit; lengths to the nearest micrometre.
struct Row<'a> {
    unit: &'a str,
    cells: [&'a str; 3],
}

impl Row<'_> {
    fn length(&self, at: usize) -> Length {
        um(length_um(self.cells[at], self.unit))
    }

    fn count(&self, at: usize) -> u32 {
        self.cells[at].parse().expect("a count")
    }

    /// In millionths of the unit.
    fn told(&self, length: Length) -> i64 {
        let per_unit = if self.unit == "in" { 25_400 } else { 1_000 };
        i64::try_from(divide(length.wide() * 1_000_000, per_unit, Rounding::HalfUp)).expect("a length")
    }

    /// Up to the next whole one of the unit.
    fn whole(&self, length: Length) -> i64 {
        self.told(charged(length, Length::ZERO, um(length_um("1", self.unit))))
    }

    /// One of a length, as a share of another.
    fn share(part: Length, whole: Length) -> i64 {
        i64::try_from(divide(part.wide() * 1_000_000, whole.wide(), Rounding::HalfUp)).expect("a share")
    }

    fn rolls(&self) -> BindingUse {
        let (shop, order) = tape(self.count(1));
        binding(&shop, &order, &string(self.length(0))).expect("a binding")
    }

    fn value(&self, function: &str) -> i64 {
        let length = |at| self.length(at);
        let counted = |count: u32| i64::from(count) * 1_000_000;
        let slanted = |seam| join_loss(EndCut::Slanted, mm(0), seam);
        match function {
            "strips" => counted(strips(length(0), length(1), length(2)).expect("strips")),
            // mitred strips, as wide as a join loses
            "strips_cloth" => {
                let count = strips(length(0), length(1), length(2)).expect("strips");
                self.told(length(2) * i64::from(count))
            }
            "joined_mitred" => {
                let loss = join_loss(EndCut::Mitred, length(2), mm(6));
                self.told(joined(self.count(0), length(1), loss))
            }
            "slanted" => self.told(slanted(length(0))),
            "area_length" => self.told(area_length(length(0), length(1))),
            "square_side" => self.told(square_side(length(0), length(1))),
            "square_side_up" => self.whole(square_side(length(0), length(1))),
            "rectangle_side" => self.told(rectangle_side(length(0), length(1), length(2))),
            "rectangle_side_up" => self.whole(rectangle_side(length(0), length(1), length(2))),
            "rectangle_length" => self.told(rectangle_length(length(0), length(1), length(2))),
            "continuous_length" => self.told(continuous_length(length(0), length(1), length(2))),
            "continuous_side" => self.told(continuous_side(length(0), length(1), length(2))),
            "spiral" => self.told(spiral(length(0), length(1), length(2)).1),
            "turns" => counted(spiral(length(0), length(1), length(2)).0),
            "spiral_side" => self.told(spiral_side(length(0), length(1), length(2))),
            "raw_double_fold" => self.told(raw_double_fold(length(0))),
            "raw_single_fold" => self.told(raw_single_fold(length(0), length(1))),
            // a published length out of a yard of cloth, as a share of its area
            "share_of_area" => Row::share(length(2), rectangle_length(length(0), yard(), length(1))),
            // a square out of a yard of cloth, in whole turns
            "square_share" => {
                let (_, yields) = spiral(length(0).min(yard()), length(1), length(2));
                Row::share(yields, rectangle_length(length(0), yard(), length(1)))
            }
            "yards" => Row::share(length(0), yard()),
            "half_squares" => counted(half_squares(length(0), length(1)).0),
            "half_squares_length" => self.told(half_squares(length(0), length(1)).1),
            "half_squares_joined" => {
                let (count, sum) = half_squares(length(0), length(1));
                self.told(sum - slanted(length(2)) * (i64::from(count) - 1))
            }
            "full_strips" => counted(full_strips(length(0), length(1), length(2)).0),
            "full_strips_length" => self.told(full_strips(length(0), length(1), length(2)).1),
            "full_strips_joined" => {
                let (count, sum) = full_strips(length(0), length(1), length(2));
                self.told(sum - slanted(mm(6)) * (i64::from(count) - 1))
            }
            "strip_mass" | "strip_mass_of" => {
                let cloth = MassPerArea::from_mg_per_m2(millionths(self.cells[0]) / 1_000);
                let mass = strip_mass(cloth, length(1));
                match function {
                    "strip_mass" => mass.ug_per_m(),
                    _ => mass.of(length(2), Rounding::HalfUp).mg() * 1_000,
                }
            }
            "net" => self.told(self.rolls().net),
            "roll_cost" => self.rolls().cost.minor() * 10_000,
            "metre_cost" => {
                let (mut shop, order) = tape(self.count(1));
                rolls_of(&mut shop).price = None;
                binding(&shop, &order, &string(length(0))).expect("a binding").cost.minor() * 10_000
            }
            "break_even" => {
                let price = Rate::from_micro_minor(millionths(self.cells[0]) * 100);
                let roll = Roll {
                    length: length(2),
                    price: Some(Money::from_minor(millionths(self.cells[1]) / 10_000)),
                };
                self.told(break_even(price, roll).expect("a price"))
            }
            other => panic!("no function {other}"),
        }
    }
}

fn yard() -> Length {
    um(914_400)
}

#[test]
fn the_table_of_bindings_is_met() {
    let columns = ["id", "function", "unit", "a", "b", "c", "expected", "tolerance", "source", "grade"];
    let all = rows(TABLE, columns);
    for [id, function, unit, a, b, c, expected, tolerance, source, grade] in &all {
        let got = Row { unit, cells: [a, b, c] }.value(function);
        let off = (got - millionths(expected)).abs();
        // the value is told to the micrometre, half of which is 20 millionths of an inch
        let resolution = match unit.as_str() {
            "in" => 40,
            _ => 1_000,
        };
        let allowed = millionths(tolerance) + resolution;
        assert!(off <= allowed, "{id}: {got} for {expected}");
        assert!(!source.is_empty() && !grade.is_empty(), "{id}: no source");
    }
    assert_eq!(all.len(), 140, "rows of the table");
}
