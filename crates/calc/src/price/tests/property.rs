//! What holds of every price.

use pennantry_measure::Rate;
use proptest::prelude::*;

use super::*;
use crate::notice::Code;
use crate::shop::{Day, Point, PointMode, TaxPoint};

/// How a shop prices.
#[derive(Debug, Clone)]
struct Set {
    surplus: Surplus,
    tax: Option<(i64, bool, TaxLevel, Rounding)>,
    fee: (i64, i64),
    overhead: i64,
    minimum: i64,
    floor: Option<i64>,
    off: i64,
    point: Option<(PointMode, Vec<i64>)>,
    digits: u8,
    rates: (i64, i64),
}

/// What is asked.
#[derive(Debug, Clone)]
struct Wanted {
    count: u32,
    quantity: u32,
    rush: bool,
    discount: Option<Off>,
    postage: Option<i64>,
}

fn sets() -> impl Strategy<Value = Set> {
    let surplus = prop_oneof![
        (0_i64..=95_000).prop_map(|milli| Surplus::Margin(percent(milli))),
        (0_i64..=1_000_000).prop_map(|milli| Surplus::Markup(percent(milli))),
    ];
    let level = prop_oneof![Just(TaxLevel::Document), Just(TaxLevel::Line)];
    let rounding = prop_oneof![Just(Rounding::HalfUp), Just(Rounding::HalfEven), Just(Rounding::Down)];
    let tax = proptest::option::of((0_i64..=100_000, any::<bool>(), level, rounding));
    let mode = prop_oneof![Just(PointMode::Up), Just(PointMode::Nearest)];
    let point = proptest::option::of((mode, proptest::collection::btree_set(0_i64..100, 1..4)));
    let point = point.prop_map(|point| point.map(|(mode, ends)| (mode, ends.into_iter().collect())));
    let fee = prop_oneof![Just((0, 0)), (0_i64..=40_000, 0_i64..=100)];
    (
        (surplus, tax, fee, 0_i64..=3_000_000_000),
        (0_i64..=10_000, proptest::option::of(0_i64..=95_000), 0_i64..=90_000, point),
        (prop_oneof![Just(0_u8), Just(2), Just(3), Just(4)], 0_i64..=5_000_000_000, 0_i64..=9_000_000_000),
    )
        .prop_map(
            |((surplus, tax, fee, overhead), (minimum, floor, off, point), (digits, cloth, wage))| Set {
                surplus,
                tax,
                fee,
                overhead,
                minimum,
                floor,
                off,
                point,
                digits,
                rates: (cloth, wage),
            },
        )
}

fn wanted() -> impl Strategy<Value = Wanted> {
    let off = prop_oneof![
        (1_000_i64..=100_000).prop_map(|milli| Off::Share(percent(milli))),
        (1_i64..=100_000_000).prop_map(|amount| Off::Amount(minor(amount))),
    ];
    (1_u32..200, 1_u32..12, any::<bool>(), proptest::option::of(off), proptest::option::of(0_i64..=5_000))
        .prop_map(|(count, quantity, rush, discount, postage)| Wanted {
            count,
            quantity,
            rush,
            discount,
            postage,
        })
}

impl Set {
    fn shop(&self) -> Shop {
        let mut shop = shop();
        shop.minor_digits = self.digits;
        shop.fabrics.iter_mut().for_each(|fabric| fabric.price = Rate::from_micro_minor(self.rates.0));
        shop.bench.wage = Rate::from_micro_minor(self.rates.1);
        let pricing = &mut shop.pricing;
        pricing.basis = Basis::CostPlus(self.surplus);
        pricing.fee = Fee { share: percent(self.fee.0), fixed: minor(self.fee.1) };
        pricing.overhead = Rate::from_micro_minor(self.overhead);
        pricing.minimum = minor(self.minimum);
        pricing.floor = self.floor.map(percent);
        if self.off > 0 {
            pricing.breaks = vec![Break { from: 5, off: percent(self.off) }];
        }
        let point = self.point.clone();
        pricing.point = point.map(|(mode, endings)| Point { mode, step: 100, endings });
        pricing.tax = self.tax.map(|(milli, included, level, rounding)| Tax {
            name: String::from("VAT"),
            registration: None,
            included,
            level,
            rounding,
            point: TaxPoint::Order,
            rates: vec![DatedRate { from: Day(0), share: percent(milli) }],
        });
        shop
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(20_000))]

    /// 20 000 prices in currencies of every number of digits.
    #[test]
    fn invariant_05_lines_sum_to_the_total_and_costs_to_the_net(set in sets(), wanted in wanted()) {
        let shop = set.shop();
        let order = Order {
            count: Some(wanted.count),
            quantity: wanted.quantity,
            rush: wanted.rush,
            discount: wanted.discount.map(discount),
            ..order()
        };
        let pieces = |count: u32| i64::from(count * wanted.quantity);
        let layout = crate::layout::solve(&shop, &order).expect("a count alone is solved for");
        let counts = crate::labour::Counts {
            strings: wanted.quantity,
            pennants: wanted.count * wanted.quantity,
            overall: layout.overall * i64::from(wanted.quantity),
            ..crate::labour::Counts::default()
        };
        let labour = crate::labour::labour(&shop, order.construction, &counts);
        let taken = Taken {
            cloth: &[],
            binding: minor(7 * pieces(wanted.count)),
            thread: minor(pieces(wanted.count) / 3),
            used: &[],
            labour: &labour,
            postage: wanted.postage.map(minor),
        };
        let asked = Asked { shop: &shop, order: &order, layout: &layout, today: WHEN.today, leaves: None };
        let price = price(&asked, &taken, |_| None).expect("no list can refuse it");
        let sum = |lines: &[Line]| lines.iter().map(|line| line.amount).sum::<Money>();
        prop_assert_eq!(sum(&price.lines), price.total);
        let included = price.tax.map_or(Money::ZERO, |tax| tax.included);
        prop_assert_eq!(price.net, price.total - included);
        let of_lines: Money = price.lines.iter().filter_map(|line| line.tax).sum();
        prop_assert_eq!(of_lines, included);
        prop_assert_eq!(set.tax.is_some(), price.tax.is_some());
        prop_assert_eq!(price.cost_lines.iter().map(|line| line.amount).sum::<Money>(), price.net);
        let (last, others) = price.cost_lines.split_last().expect("lines");
        prop_assert_eq!(last.kind, CostKind::Surplus);
        prop_assert_eq!(others.iter().map(|line| line.amount).sum::<Money>(), price.cost);
        prop_assert!(price.total >= Money::ZERO, "{price:?}");
        prop_assert!(order.discount.is_some() || price.total >= shop.pricing.minimum);
        prop_assert_eq!(price.strings.iter().copied().sum::<Money>(), price.total);
        let (least, most) = (price.strings.iter().min(), price.strings.iter().max());
        prop_assert!(most.zip(least).is_some_and(|(most, least)| *most - *least <= minor(1)));
    }

    /// A margin, or a mark-up, that is the floor itself: no order as it is falls below it by more
    /// than rounding takes, and the shop is not told. Every point to which one is moved keeps it.
    #[test]
    fn a_price_that_aims_at_the_floor_is_not_below_it(set in sets(), wanted in wanted()) {
        let (floor, surplus) = match set.surplus {
            Surplus::Margin(margin) => (margin, set.surplus),
            // 25 % on the cost are 20 % of the price
            Surplus::Markup(_) => (percent(20_000), Surplus::Markup(percent(25_000))),
        };
        let set = Set { floor: Some(floor.milli()), surplus, off: 0, ..set };
        let shop = set.shop();
        let order = Order { count: Some(wanted.count), quantity: wanted.quantity, ..order() };
        let layout = crate::layout::solve(&shop, &order).expect("a count alone is solved for");
        let counts = crate::labour::Counts {
            pennants: wanted.count * wanted.quantity,
            ..crate::labour::Counts::default()
        };
        let labour = crate::labour::labour(&shop, order.construction, &counts);
        let taken = Taken {
            cloth: &[],
            binding: minor(i64::from(7 * wanted.count)),
            thread: minor(i64::from(wanted.quantity)),
            used: &[],
            labour: &labour,
            postage: wanted.postage.map(minor),
        };
        let asked = Asked { shop: &shop, order: &order, layout: &layout, today: WHEN.today, leaves: None };
        let price = price(&asked, &taken, |_| None).expect("no list can refuse it");
        prop_assert!(price.notices.iter().all(|n| n.code != Code::BelowFloor), "{price:?}");
        let missed = price.floor.expect("a floor") - price.net;
        let rounds = set.tax.is_some_and(|(_, included, ..)| included);
        prop_assert!(missed <= minor(rounds.into()), "{missed:?} {price:?}");
    }

    /// Whatever an amount and a floor, the price is on a point and not below the floor.
    #[test]
    fn no_price_point_is_below_the_floor(
        amount in 0_i64..=2_000, floor in 0_i64..=2_000, endings in proptest::collection::btree_set(0_i64..100, 1..4),
    ) {
        for mode in [PointMode::Up, PointMode::Nearest] {
            let point = Point { mode, step: 100, endings: endings.iter().copied().collect() };
            let moved = to_point(&point, minor(amount), Some(minor(floor)));
            prop_assert!(moved >= minor(floor), "{moved:?}");
            prop_assert!(moved == minor(0) || endings.contains(&(moved.minor() % 100)), "{moved:?}");
            // no floor is as one of nought
            prop_assert_eq!(to_point(&point, minor(amount), Some(minor(0))), to_point(&point, minor(amount), None));
        }
    }

    /// What is to be kept is kept after fee, tax and postage, and a unit less would not keep it.
    #[test]
    fn a_fee_leaves_what_is_to_be_kept(
        net in 0_i64..=10_000_000, share in 0_i64..=40_000, fixed in 0_i64..=500, rate in 0_i64..=100_000,
        postage in 0_i64..=5_000, included: bool,
    ) {
        let fee = Fee { share: percent(share), fixed: minor(fixed) };
        let upon = Upon { fee, rate: percent(rate), included, postage: minor(postage) };
        if fee == Fee::default() {
            return Ok(());
        }
        let (whole, taxed) = (100_000_i128, 100_000 + i128::from(rate));
        let kept = |goods: i128| {
            // paid, exactly, in the cube of a whole; then what is left of it
            let before_tax = if included {
                // goods / (1 + t) + postage
                goods * whole * whole * whole + i128::from(postage) * whole * whole * taxed
            } else {
                (goods + i128::from(postage)) * whole * whole * taxed
            };
            // all times taxed: before_tax is (net of the whole) x whole^2 x taxed
            let paid = before_tax * taxed / whole;
            before_tax * whole - paid * i128::from(share)
                - (i128::from(fixed) + i128::from(postage)) * whole * whole * whole * taxed
        };
        let goods = i128::from(upon.goods(minor(net)).minor());
        let wanted = i128::from(net) * whole * whole * whole * taxed;
        prop_assert!(kept(goods) >= wanted, "{goods}");
        prop_assert!(kept(goods - 1) < wanted, "{goods}");
    }

    /// Every rounding, function and mode: a refund is its charge with the sign turned.
    #[test]
    fn invariant_05_refunds_mirror(
        amount in 0_i64..=1_000_000_000,
        milli in 0_i64..=100_000,
        weights in proptest::collection::vec(0_i64..=10_000, 1..8),
        endings in proptest::collection::btree_set(0_i64..100, 1..4),
    ) {
        let (charge, share) = (minor(amount), percent(milli));
        for rounding in [Rounding::Up, Rounding::Down, Rounding::HalfUp, Rounding::HalfEven] {
            prop_assert_eq!(included_tax(-charge, share, rounding), -included_tax(charge, share, rounding));
            prop_assert_eq!(added_tax(-charge, share, rounding), -added_tax(charge, share, rounding));
            let scaled = |of: Money| of.scaled(milli.into(), 777, rounding);
            prop_assert_eq!(scaled(-charge), -scaled(charge));
        }
        prop_assert_eq!(less(-charge, share), -less(charge, share));
        for surplus in [Surplus::Margin(share), Surplus::Markup(share)] {
            prop_assert_eq!(net_target(-charge, surplus), -net_target(charge, surplus));
        }
        prop_assert_eq!(a_metre(-charge, Length::from_um(1 + milli)), a_metre(charge, Length::from_um(1 + milli)).map(|a| -a));
        for mode in [PointMode::Up, PointMode::Nearest] {
            let point = Point { mode, step: 100, endings: endings.iter().copied().collect() };
            prop_assert_eq!(to_point(&point, -charge, None), -to_point(&point, charge, None));
        }
        let back: Vec<i64> = weights.iter().map(|weight| -weight).collect();
        match (allocate(charge, &weights), allocate(-charge, &weights), allocate(-charge, &back)) {
            (Ok(there), Ok(refund), Ok(of_refunds)) => {
                let mirrored: Vec<Money> = there.iter().map(|share| -*share).collect();
                prop_assert_eq!(&mirrored, &refund);
                prop_assert_eq!(&mirrored, &of_refunds);
                prop_assert_eq!(there.into_iter().sum::<Money>(), charge);
            }
            (Err(_), Err(_), Err(_)) => {}
            other => prop_assert!(false, "{:?}", other),
        }
    }

    /// Shares are off by less than a unit, and what has no weight has nothing.
    #[test]
    fn a_share_is_less_than_a_unit_off(
        amount in -1_000_000_i64..=1_000_000, weights in proptest::collection::vec(0_i64..=10_000, 1..30),
    ) {
        let whole: i128 = weights.iter().copied().map(i128::from).sum();
        prop_assume!(whole > 0);
        let shares = allocate(minor(amount), &weights).expect("a weight");
        for (share, weight) in shares.into_iter().zip(&weights) {
            let exact = i128::from(amount) * i128::from(*weight);
            let off = i128::from(share.minor()) * whole - exact;
            prop_assert!(off.abs() < whole, "{share:?} of {weight}");
            prop_assert!(*weight > 0 || share == Money::ZERO);
        }
    }
}
