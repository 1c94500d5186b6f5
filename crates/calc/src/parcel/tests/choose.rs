//! Which service, band and way to fold; refusals.

use proptest::prelude::*;

use super::*;
use crate::fixture::um;
use crate::shop::{SideRounding, Volumetric};

fn refused(shop: &Shop, order: &Order, grams: i64) -> NoService {
    sent(shop, order, grams).expect_err("no service")
}

fn bulky() -> Volumetric {
    Volumetric {
        divisor: 5_000,
        sides: SideRounding::Exact,
        step: Mass::from_grams(500),
        threshold: 0,
        step_real: false,
    }
}

/// Derived by hand: 44.745 mm with its wrapping is no letter of 25, and 129.917 g counts
/// as 130 of 2 000.
#[test]
fn the_story_goes_as_a_parcel() {
    let (shop, order) = (shop(), story());
    let layout = layout(&shop, &order);
    let masses = weighed(&shop, &order, &layout);
    let got = parcel(&shop, &order, &layout, &masses).expect("a parcel");
    assert_eq!(got.fold, fold(&shop, &order, &layout, 1, 1, 1));
    assert_eq!(got.size, [um(234_643), mm(230), um(44_745)]);
    assert_eq!((got.service, got.band, got.format), (0, 1, 1));
    assert_eq!((got.counted, got.to_edge), (Mass::from_grams(130), Mass::from_grams(1_870)));
    assert_eq!(got.postage, Money::from_minor(420));
    assert_eq!(told(&shop, &masses, &Ok(got)), []);
}

#[test]
fn a_mass_belongs_to_the_band_that_it_meets_exactly() {
    let shop = thin_shop();
    let mut few = counted_order(5);
    few.country = String::from("GB");
    let band = |grams| sent(&shop, &few, grams).map(|parcel| (parcel.band, parcel.to_edge));
    assert_eq!(band(500), Ok((0, Mass::ZERO)));
    assert_eq!(band(501), Ok((1, Mass::from_grams(1_499))));
    assert_eq!(band(2_000), Ok((1, Mass::ZERO)));
    let over = refused(&shop, &few, 2_001);
    assert!(over.message.contains("2001 g is over the 2000 g of \"parcel\" by \"Second\""), "{over}");
}

/// A large letter of up to 750 g beside a small parcel: above, the format changes.
#[test]
fn the_format_changes_with_the_mass() {
    let mut shop = thin_shop();
    shop.formats[0].most_mass = Some(Mass::from_grams(750));
    shop.services[0].bands = vec![band_of(0, 1_000, 250), band_of(1, 1_000, 420), band_of(1, 2_000, 500)];
    let of = |grams| sent(&shop, &counted_order(5), grams).map(|parcel| (parcel.format, parcel.band));
    assert_eq!(of(750), Ok((0, 0)));
    assert_eq!(of(751), Ok((1, 1)));
    assert_eq!(of(1_001), Ok((1, 2)));
}

#[test]
fn the_cheapest_band_of_the_first_service_that_takes_it_is_chosen() {
    let mut shop = thin_shop();
    let of = |shop: &Shop| {
        let parcel = sent(shop, &counted_order(5), 100).expect("a parcel");
        (parcel.service, parcel.band, parcel.postage.minor(), parcel.fold.panels)
    };
    // a dearer band before a cheaper one, and two alike
    shop.services[0].bands = vec![band_of(1, 500, 300), band_of(1, 500, 200), band_of(1, 900, 200)];
    assert_eq!(of(&shop), (0, 1, 200, 1));
    // a cheaper service stays second; it is first where the other does not take it
    let mut cheap = Service { code: String::from("cheap"), ..shop.services[0].clone() };
    cheap.bands = vec![band_of(1, 500, 1)];
    shop.services.push(cheap);
    assert_eq!(of(&shop), (0, 1, 200, 1));
    shop.services[0].bands.iter_mut().for_each(|band| band.most = Mass::from_grams(99));
    assert_eq!(of(&shop), (1, 0, 1, 1));
    // or where only it goes there, or it is asked for
    shop.services[0].bands[0].most = Mass::from_grams(100);
    assert_eq!(of(&shop), (0, 0, 300, 1));
    let mut asked = counted_order(5);
    asked.service = Some(1);
    assert_eq!(sent(&shop, &asked, 100).map(|parcel| parcel.service), Ok(1));
    shop.services[0].countries = vec![String::from("IE")];
    assert_eq!(of(&shop), (1, 0, 1, 1));
}

#[test]
fn more_panels_are_taken_only_where_they_make_it_cheaper() {
    let mut shop = thin_shop();
    shop.folding.most_panels = 3;
    // 210 × 210 unfolded, 210 × 105 in two panels, 210 × 70 in three
    shop.formats[0].most = [mm(210), mm(105), mm(50)];
    let panels = |shop: &Shop| sent(shop, &counted_order(5), 100).map(|parcel| parcel.fold.panels);
    assert_eq!(panels(&shop), Ok(2));
    shop.formats[0].most = [mm(210), um(104_999), mm(50)];
    assert_eq!(panels(&shop), Ok(3));
    shop.services[0].bands[0].price = Money::from_minor(420);
    assert_eq!(panels(&shop), Ok(3), "the earlier band of the same price");
    shop.services[0].bands[0].price = Money::from_minor(421);
    assert_eq!(panels(&shop), Ok(1));
    shop.folding.most_panels = 0;
    assert_eq!(panels(&shop), Ok(1));
}

#[test]
fn a_roll_goes_only_by_a_format_for_rolls() {
    let mut shop = shop();
    shop.formats[0] = Format {
        kind: FormatKind::Roll,
        most: [mm(900); 3],
        least: [mm(100), mm(0), mm(0)],
        most_sum: Some(mm(1_040)),
        least_sum: Some(mm(170)),
        ..shop.formats[0].clone()
    };
    let roll = sent(&shop, &story(), 130).expect("a roll");
    assert!(roll.fold.rolled && roll.format == 0, "{roll:?}");
    assert_eq!(roll.size, roll.fold.wrapped(&shop.folding));
    assert_eq!(roll.size[1], roll.size[2]);
    // a sum that the roll breaks: length and twice the diameter, 234.6 and twice 109.15
    shop.formats[0].most_sum = Some(mm(450));
    let parcel = sent(&shop, &story(), 130).expect("a parcel");
    assert_eq!((parcel.fold.rolled, parcel.format), (false, 1));
    // a short thin roll is put in a longer tube: 2.6 · 10.5 mm of section, 6 mm across
    let mut thin = thin_shop();
    thin.formats[0] = Format { least_sum: Some(mm(400)), most_sum: None, ..shop.formats[0].clone() };
    let tube = sent(&thin, &counted_order(5), 100).expect("a tube");
    assert_eq!(tube.size[0] + tube.size[1] * 2, mm(400));
    assert_eq!(tube.fold.width, mm(210));
}

#[test]
fn a_larger_envelope_is_taken_where_a_format_has_a_least_size() {
    let mut shop = thin_shop();
    shop.formats[0].least = [mm(230), mm(220), mm(0)];
    let got = sent(&shop, &counted_order(5), 100).expect("a letter");
    assert_eq!((got.format, got.size[0], got.size[1]), (0, mm(230), mm(220)));
    assert_eq!((got.fold.width, got.fold.length), (mm(210), mm(210)));
    // 210 × 210 is not 1.4 times as long as wide; 294 is
    shop.formats[0].least = [mm(0); 3];
    shop.formats[0].least_ratio = Some(Percent::from_milli(140_000));
    let got = sent(&shop, &counted_order(5), 100).expect("a letter");
    assert_eq!((got.format, got.size[0], got.size[1]), (0, mm(294), mm(210)));
    // in two panels 210 × 105 is long enough as it is
    shop.formats[0].most[0] = mm(293);
    let got = sent(&shop, &counted_order(5), 100).expect("a letter");
    assert_eq!((got.format, got.fold.panels, got.size[0]), (0, 2, mm(210)));
}

/// 234.643 × 230 × 44.745 mm are 2 414.8 cm³: over 5 000 0.483 kg, up to 0.5; with every
/// side up to whole centimetres 24 · 23 · 5 = 2 760, 0.552 kg. By a step of 50 g they
/// differ: 500 and 600 g.
#[test]
fn size_counts_where_the_carrier_counts_it() {
    let mut shop = shop();
    shop.services[0].volumetric = Some(bulky());
    let of = |shop: &Shop, grams| sent(shop, &story(), grams).map(|parcel| parcel.counted.grams_up());
    assert_eq!(of(&shop, 130), Ok(500));
    assert_eq!(of(&shop, 1_201), Ok(1_201));
    let small = |sides| Some(Volumetric { sides, step: Mass::from_grams(50), ..bulky() });
    shop.services[0].volumetric = small(SideRounding::Exact);
    assert_eq!(of(&shop, 130), Ok(500));
    shop.services[0].volumetric = small(SideRounding::Up);
    assert_eq!(of(&shop, 130), Ok(600));
    // 23 · 23 · 4 = 2 116 to the nearest, and a threshold that this is not over
    shop.services[0].volumetric = small(SideRounding::Nearest);
    assert_eq!(of(&shop, 130), Ok(450));
    shop.services[0].volumetric = Some(Volumetric {
        threshold: 2_116,
        step_real: true,
        ..small(SideRounding::Nearest).expect("knobs")
    });
    assert_eq!(of(&shop, 130), Ok(150));
    // a divisor of nought counts no size
    shop.services[0].volumetric = Some(Volumetric { divisor: 0, ..bulky() });
    assert_eq!(of(&shop, 130), Ok(130));
}

#[test]
fn a_bulky_parcel_is_refused_with_what_it_weighs_and_what_it_counts_for() {
    let mut shop = shop();
    shop.services[0].volumetric = Some(Volumetric { divisor: 1_000, ..bulky() });
    let none = refused(&shop, &story(), 130);
    let limit = none.nearest.expect("a limit");
    assert_eq!(limit.rule, Rule::BandMass);
    assert!(
        none.message.contains(
            "a counted mass of 2500 g is over the 2000 g of \"parcel\" by \"Second\", as its size counts for \
             more than the 130 g it weighs: ask for a shorter string"
        ),
        "{none}"
    );
    assert_eq!((none.field, none.strings), (None, 0));
}

#[test]
fn what_fits_nowhere_names_the_nearest_limit_and_how_many_strings_would_fit() {
    let shop = shop();
    let mut order = story();
    order.quantity = 40;
    // 40 strings of 130 g are 5 200; seven in two columns, 2 · 214.643 + 20 = 449.286 wide,
    // stand 7 · 43.745 / 2 + 1 = 154.108 mm high; eight 175.98, and in two panels 350.96
    let none = refused(&shop, &order, 5_200);
    assert_eq!((none.field, none.strings), (Some(Field::Quantity), 7));
    // the mass is over by 2.6 times, in three columns the second side by 1.7 times: the worse
    // of both is told
    let limit = none.nearest.expect("a limit");
    assert_eq!((limit.rule, limit.limit), (Rule::FormatMass, Amount::Mass(Mass::from_grams(2_000))));
    assert!(none.message.contains("5200 g is over the 2000 g of \"parcel\" by \"Second\""), "{none}");
    assert!(none.message.ends_with("send at most 7 of the 40 strings in one parcel"), "{none}");
    order.quantity = 7;
    let seven = sent(&shop, &order, 910).expect("a parcel");
    assert_eq!((seven.size, seven.fold.columns), ([um(449_286), mm(230), um(154_108)], 2));
    order.quantity = 8;
    let none = refused(&shop, &order, 1_040);
    // 350.96 of 350 in two columns of two panels are nearer than anything else
    assert!(none.message.contains("350.96 mm is over the 350 mm"), "{none}");
    assert_eq!(none.strings, 7);
    // thin and heavy strings: mass is what is left; packing goes with every parcel
    let thin = thin_shop();
    order.quantity = 10;
    let masses = weighing(Mass::from_grams(5_000), Mass::from_grams(100));
    let none = parcel(&thin, &order, &layout(&thin, &order), &masses).expect_err("too heavy");
    assert_eq!(none.nearest.map(|limit| limit.rule), Some(Rule::FormatMass));
    assert!(none.message.contains("5100 g is over the 2000 g"), "{none}");
    assert_eq!(none.strings, 3, "four are 2 100 g");
}

#[test]
fn another_service_is_named_where_it_takes_it() {
    let mut shop = thin_shop();
    let mut van =
        Service { code: String::from("van"), name: String::from("Van"), ..shop.services[0].clone() };
    shop.formats.push(Format { name: String::from("crate"), most_mass: None, ..shop.formats[1].clone() });
    van.bands = vec![band_of(2, 30_000, 900)];
    shop.services.push(van);
    let mut order = counted_order(5);
    order.service = Some(0);
    let none = refused(&shop, &order, 2_500);
    assert_eq!(none.field, Some(Field::Service));
    assert!(none.message.contains("2500 g is over the 2000 g of \"parcel\" by \"Second\""), "{none}");
    assert!(none.message.ends_with("ask for the service \"van\""), "{none}");
    order.quantity = 5;
    let none = refused(&shop, &order, 2_500);
    assert!(
        none.message
            .ends_with("send at most 4 of the 5 strings in one parcel, or ask for the service \"van\""),
        "{none}"
    );
    order.service = None;
    assert_eq!(sent(&shop, &order, 2_500).map(|parcel| parcel.service), Ok(1));
}

#[test]
fn countries_that_nothing_goes_to_are_told_apart() {
    let mut shop = thin_shop();
    shop.services.push(Service {
        code: String::from("abroad"),
        countries: vec![String::from("IE"), String::from("FR")],
        ..shop.services[0].clone()
    });
    let mut order = counted_order(5);
    order.country = String::from("XX");
    let none = refused(&shop, &order, 100);
    assert_eq!((none.field, none.nearest, none.strings), (Some(Field::Country), None, 0));
    assert_eq!(none.message, "Saltmere Loft sends nothing to \"XX\": it sends to FR, GB, IE");
    order.country = String::from("FR");
    order.service = Some(0);
    let none = refused(&shop, &order, 100);
    assert_eq!(none.field, Some(Field::Service));
    assert_eq!(none.message, "the service \"second\" does not go to \"FR\": choose abroad, or leave it out");
    order.service = Some(9);
    assert_eq!(refused(&shop, &order, 100).field, Some(Field::Service));
    shop.services.clear();
    assert!(refused(&shop, &order, 100).message.ends_with("it sends to no country"));
}

#[test]
fn a_service_without_bands_and_a_parcel_without_mass_are_refused() {
    let mut shop = thin_shop();
    for grams in [0, -5] {
        let none = refused(&shop, &counted_order(5), grams);
        assert!(none.message.contains("state the masses"), "{none}");
    }
    shop.services[0].bands.clear();
    let none = refused(&shop, &counted_order(5), 100);
    assert!(none.message.contains("\"Second\" has no band"), "{none}");
    assert_eq!(none.nearest, None);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(500))]

    #[test]
    fn a_parcel_keeps_every_limit_and_nothing_cheaper_does(
        count in 1_u32..60,
        quantity in 1_u32..6,
        grams in 1_i64..2_500,
        bands in prop::collection::vec((0_usize..3, 1_i64..2_500, 1_i64..6), 1..6),
        most in (100_i64..500, 60_i64..400, 5_i64..300),
        panels in 1_u32..5,
        divisor in prop::option::of(500_u32..8_000),
    ) {
        let mut shop = shop();
        shop.folding.most_panels = panels;
        shop.formats.push(Format { most: [mm(most.0), mm(most.1), mm(most.2)], ..shop.formats[0].clone() });
        shop.services[0].bands = bands.into_iter().map(|(format, most, price)| band_of(format, most, price)).collect();
        shop.services[0].volumetric = divisor.map(|divisor| Volumetric { divisor, ..bulky() });
        let mut order = counted_order(count);
        order.quantity = quantity;
        let layout = layout(&shop, &order);
        let masses = weighing(Mass::from_grams(grams), Mass::ZERO);
        // every band and way that holds, found by trying all
        let knobs = shop.services[0].volumetric.as_ref();
        let mut holding = Vec::new();
        for (place, band) in shop.services[0].bands.iter().enumerate() {
            for (columns, panels) in (1..=6.min(count * quantity)).flat_map(|m| (1..=panels).map(move |k| (m, k))) {
                let format = &shop.formats[band.format];
                let size = fold(&shop, &order, &layout, panels, columns, quantity).wrapped(&shop.folding);
                let light = format.most_mass.is_none_or(|most| masses.packed <= most);
                let mass = counted(masses.packed, knobs, size);
                if fits(format, size).is_ok() && light && mass <= band.most {
                    holding.push((band.price, place, columns, panels, mass));
                }
            }
        }
        match parcel(&shop, &order, &layout, &masses) {
            Ok(got) => {
                let best = holding.iter().min().expect("one that holds");
                prop_assert_eq!((got.postage, got.band, got.fold.columns, got.fold.panels, got.counted), *best);
                let most = shop.services[0].bands[got.band].most;
                prop_assert!(got.counted + got.to_edge <= most && got.edge <= most);
                prop_assert!(got.to_edge >= Mass::ZERO);
            }
            Err(none) => {
                prop_assert_eq!(holding.len(), 0);
                let limit = none.nearest.expect("a limit");
                prop_assert!(none.message.contains(&limit.to_string()));
                prop_assert!(none.strings < quantity);
                // so many strings do go, at their share of the mass
                if none.strings > 0 {
                    let mut fewer = order.clone();
                    fewer.quantity = none.strings;
                    let share = grams * i64::from(none.strings) * 1_000;
                    let share = (share + i64::from(quantity) - 1) / i64::from(quantity);
                    let masses = weighing(Mass::from_mg(share), Mass::ZERO);
                    prop_assert!(parcel(&shop, &fewer, &layout, &masses).is_ok());
                }
            }
        }
    }

    #[test]
    fn a_size_counts_for_the_same_in_any_order_of_its_sides(
        size in [1_i64..2_000_000, 1_i64..2_000_000, 1_i64..2_000_000],
        divisor in 1_u32..10_000,
        sides in prop_oneof![Just(SideRounding::Exact), Just(SideRounding::Nearest), Just(SideRounding::Up)],
        step in 0_i64..2_000_000,
        threshold in 0_u32..200_000,
        real in 1_i64..30_000_000,
        step_real in any::<bool>(),
    ) {
        let knobs = Volumetric { divisor, sides, step: Mass::from_mg(step), threshold, step_real };
        let [a, b, c] = size.map(um);
        let mass = volumetric(&knobs, [a, b, c]);
        prop_assert_eq!(mass, volumetric(&knobs, [c, a, b]));
        prop_assert_eq!(mass, volumetric(&knobs, [b, a, c]));
        let real = Mass::from_mg(real);
        let counts = counted(real, Some(&knobs), [a, b, c]);
        prop_assert!(counts >= real && counts >= mass);
        prop_assert!(counts == mass || counts.mg() - real.mg() < step.max(1_000));
        // more never counts for less
        prop_assert!(volumetric(&knobs, [a + um(1), b, c]) >= mass);
        // any order for the formats too
        let format = &shop().formats[1];
        prop_assert_eq!(fits(format, [a, b, c]), fits(format, [c, b, a]));
    }
}
