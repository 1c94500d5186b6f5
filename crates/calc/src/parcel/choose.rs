//! Which service, format and way to fold take the strings; or why none does.

use pennantry_measure::{Length, Mass, Rounding, divide};

use super::fold::Stack;
use super::{Amount, Fold, Limit, NoService, Parcel, Rule, band as band_of, counted, fits, limits};
use crate::layout::Layout;
use crate::mass::Masses;
use crate::order::{Field, Order};
use crate::shop::{Band, Format, FormatKind, Service, Shop};

/// No stack is folded more often than this, whatever the shop says.
const MOST_PANELS: u32 = 64;

/// No stack is laid in more columns than this.
const MOST_COLUMNS: u32 = 6;

/// The strings that are to be sent.
struct Strings<'a> {
    shop: &'a Shop,
    order: &'a Order,
    layout: &'a Layout,
    masses: &'a Masses,
}

/// A band of postage of a service, and the format it takes.
struct Postage<'a> {
    place: usize,
    service: &'a Service,
    number: usize,
    band: &'a Band,
    format: &'a Format,
}

/// The way to send something that misses by the least.
struct Nearest<'a> {
    limit: Limit,
    service: &'a Service,
    format: &'a Format,
    /// What it weighs, where its size makes it count for more.
    bulky: Option<Mass>,
}

pub(super) fn parcel(
    shop: &Shop,
    order: &Order,
    layout: &Layout,
    masses: &Masses,
) -> Result<Parcel, NoService> {
    let reach = |place: &usize| {
        shop.services.get(*place).is_some_and(|service| service.countries.contains(&order.country))
    };
    let reaching: Vec<usize> = (0..shop.services.len()).filter(reach).collect();
    if reaching.is_empty() {
        return Err(no_country(shop, &order.country));
    }
    if masses.packed <= Mass::ZERO {
        let message = String::from(
            "what the strings weigh is not known: state the masses of cloth and binding in the catalogue",
        );
        return Err(NoService { field: None, message, nearest: None, strings: 0 });
    }
    let strings = Strings { shop, order, layout, masses };
    let Some(asked) = order.service else {
        return strings.send(order.quantity, &reaching).map_err(|near| strings.told(near, &reaching, None));
    };
    if !reaching.contains(&asked) {
        return Err(not_there(shop, asked, &order.country, &reaching));
    }
    let only = [asked];
    strings.send(order.quantity, &only).map_err(|near| {
        let other = strings.send(order.quantity, &reaching).ok();
        strings.told(near, &only, other.and_then(|parcel| shop.services.get(parcel.service)))
    })
}

impl<'a> Strings<'a> {
    /// So many of the strings as one parcel by the first of the services that takes them:
    /// its cheapest band, of equal ones the earliest, and the first way to pack that fits.
    fn send(&self, strings: u32, services: &[usize]) -> Result<Parcel, Option<Nearest<'a>>> {
        let stack = Stack::new(self.shop, self.order, self.layout, strings);
        let ways = self.ways(&stack);
        let packed = self.packed(strings);
        let bands = || services.iter().flat_map(|place| self.bands(*place));
        let taken = bands().find_map(|band| self.first(packed, &ways, &band));
        // what is missed is only asked where nothing takes it
        taken.ok_or_else(|| {
            let missed =
                bands().flat_map(|band| ways.iter().filter_map(move |way| self.miss(packed, *way, &band)));
            missed
                .reduce(|nearest, next| if nearest.limit.is_worse_than(&next.limit) { next } else { nearest })
        })
    }

    /// The bands of a service, the cheapest first, of equal ones the earliest.
    fn bands(&self, place: usize) -> impl Iterator<Item = Postage<'a>> {
        let shop = self.shop;
        let service = shop.services.get(place);
        let mut bands: Vec<usize> = (0..service.map_or(0, |service| service.bands.len())).collect();
        bands.sort_by_key(|band| {
            (service.and_then(|service| service.bands.get(*band)).map(|b| b.price), *band)
        });
        bands.into_iter().filter_map(move |number| {
            let service = service?;
            let band = service.bands.get(number)?;
            Some(Postage { place, service, number, band, format: shop.formats.get(band.format)? })
        })
    }

    /// All ways to pack so many strings, the fewest columns first, then the fewest panels,
    /// and rolled up last.
    fn ways(&self, stack: &Stack) -> Vec<Fold> {
        let panels = self.shop.folding.most_panels.clamp(1, MOST_PANELS);
        let columns = stack.pennants.clamp(1, MOST_COLUMNS);
        let in_columns = |columns| (1..=panels).map(move |panels| stack.folded(panels, columns));
        (1..=columns).flat_map(in_columns).chain(std::iter::once(stack.rolled())).collect()
    }

    /// One way to pack in one band: its size and what it counts for. Nothing where the way
    /// is not one for the band's format.
    fn wrap(&self, packed: Mass, way: Fold, band: &Postage<'a>) -> Option<([Length; 3], Mass)> {
        if (band.format.kind == FormatKind::Roll) != way.rolled {
            return None;
        }
        let size = limits::enlarged(band.format, way.wrapped(&self.shop.folding));
        Some((size, counted(packed, band.service.volumetric.as_ref(), size)))
    }

    /// The first way to pack in one band that breaks no limit.
    fn first(&self, packed: Mass, ways: &[Fold], band: &Postage<'a>) -> Option<Parcel> {
        let real = Mass::from_grams(packed.grams_up());
        if real > band.band.most || band.format.most_mass.is_some_and(|most| real > most) {
            return None;
        }
        ways.iter().find_map(|way| self.take(packed, *way, band))
    }

    /// One way to pack in one band whose masses are kept, where it breaks no other limit.
    fn take(&self, packed: Mass, way: Fold, band: &Postage<'a>) -> Option<Parcel> {
        let (real, taken) = (Mass::from_grams(packed.grams_up()), band.band);
        let by_format = band.format.most_mass;
        let (size, counted) = self.wrap(packed, way, band)?;
        if counted > taken.most || !limits::holds(band.format, size) {
            return None;
        }
        // by the band what the size counts for, by the format what it weighs
        let by_format = by_format.map(|most| (most - real, most));
        let by_band = (taken.most - counted, taken.most);
        let (to_edge, edge) = by_format.map_or(by_band, |by_format| by_band.min(by_format));
        Some(Parcel {
            fold: way,
            size,
            service: band.place,
            band: band.number,
            format: taken.format,
            counted,
            edge,
            to_edge,
            postage: taken.price,
        })
    }

    /// One way to pack in one band, and the limit that it breaks the worst.
    fn miss(&self, packed: Mass, way: Fold, band: &Postage<'a>) -> Option<Nearest<'a>> {
        let real = Mass::from_grams(packed.grams_up());
        let (size, counted) = self.wrap(packed, way, band)?;
        let (format, taken) = (band.format, band.band);
        let heavy = |rule, mass, most| Limit { rule, value: Amount::Mass(mass), limit: Amount::Mass(most) };
        let by_format = format.most_mass.filter(|most| real > *most);
        let by_format = by_format.map(|most| heavy(Rule::FormatMass, real, most));
        let by_band = band_of(std::slice::from_ref(taken), counted).is_err();
        let by_band = by_band.then(|| heavy(Rule::BandMass, counted, taken.most));
        let broken = fits(format, size).err().into_iter().chain(by_format).chain(by_band);
        let limit = broken.reduce(|worst, next| if next.is_worse_than(&worst) { next } else { worst })?;
        Some(Nearest { limit, service: band.service, format, bulky: (counted > real).then_some(real) })
    }

    /// What so many of the strings weigh, packing and all: their share of the strings, up.
    fn packed(&self, strings: u32) -> Mass {
        let (net, all) = (i128::from(self.masses.net.mg()), i128::from(self.order.quantity));
        if strings == self.order.quantity {
            return self.masses.packed;
        }
        let share = divide(net * i128::from(strings), all, Rounding::Up);
        Mass::from_mg(i64::try_from(share).unwrap_or(i64::MAX)) + self.masses.packing
    }

    /// Most strings, fewer than all of them, that go as one parcel: by halving the range.
    fn most(&self, services: &[usize]) -> u32 {
        let (mut fit, mut too_many) = (0, self.order.quantity.max(1));
        while too_many - fit > 1 {
            let half = fit + (too_many - fit) / 2;
            if self.send(half, services).is_ok() {
                fit = half;
            } else {
                too_many = half;
            }
        }
        fit
    }

    /// The nearest limit in words, and what would mend it.
    fn told(&self, nearest: Option<Nearest<'a>>, services: &[usize], other: Option<&Service>) -> NoService {
        let strings = self.most(services);
        let quantity = self.order.quantity;
        let mut ways = Vec::new();
        if strings > 0 {
            ways.push(format!("send at most {strings} of the {quantity} strings in one parcel"));
        }
        if let Some(other) = other {
            ways.push(format!("ask for the service \"{}\"", other.code));
        }
        let field = match (other, strings) {
            (Some(_), _) => Some(Field::Service),
            (None, 1..) => Some(Field::Quantity),
            (None, 0) => None,
        };
        if ways.is_empty() {
            ways.push(String::from("ask for a shorter string, or have it sent another way"));
        }
        let mend = ways.join(", or ");
        let Some(near) = nearest else {
            let message = format!("{} has no band of postage that goes there: {mend}", self.names(services));
            return NoService { field, message, nearest: None, strings };
        };
        let bulky = match (near.limit.rule, near.bulky) {
            (Rule::BandMass, Some(real)) => {
                format!(", as its size counts for more than the {real} it weighs")
            }
            _ => String::new(),
        };
        let message = format!(
            "no service takes it as one parcel: {} of \"{}\" by \"{}\"{bulky}: {mend}",
            near.limit, near.format.name, near.service.name
        );
        NoService { field, message, nearest: Some(near.limit), strings }
    }

    fn names(&self, services: &[usize]) -> String {
        let names = services.iter().filter_map(|place| self.shop.services.get(*place));
        names.map(|service| format!("\"{}\"", service.name)).collect::<Vec<_>>().join(", ")
    }
}

fn no_country(shop: &Shop, country: &str) -> NoService {
    let mut reached: Vec<&str> =
        shop.services.iter().flat_map(|service| service.countries.iter().map(String::as_str)).collect();
    reached.sort_unstable();
    reached.dedup();
    let reached = if reached.is_empty() { String::from("no country") } else { reached.join(", ") };
    let message = format!("{} sends nothing to \"{country}\": it sends to {reached}", shop.name);
    NoService { field: Some(Field::Country), message, nearest: None, strings: 0 }
}

fn not_there(shop: &Shop, asked: usize, country: &str, reaching: &[usize]) -> NoService {
    let code = |place: usize| shop.services.get(place).map_or("", |service| service.code.as_str());
    let others: Vec<&str> = reaching.iter().map(|place| code(*place)).collect();
    let message = format!(
        "the service \"{}\" does not go to \"{country}\": choose {}, or leave it out",
        code(asked),
        others.join(", ")
    );
    NoService { field: Some(Field::Service), message, nearest: None, strings: 0 }
}
