//! Which service, format and way to fold take the strings; or why none does.

use pennantry_measure::{Mass, Rounding, divide};

use super::fold::Stack;
use super::{Amount, Fold, Limit, NoService, Parcel, Rule, band as band_of, counted, fits, limits};
use crate::layout::Layout;
use crate::mass::Masses;
use crate::order::{Field, Order};
use crate::shop::{Format, FormatKind, Service, Shop};

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
        let mut nearest: Option<Nearest<'a>> = None;
        for place in services {
            let Some(service) = self.shop.services.get(*place) else { continue };
            let mut bands: Vec<usize> = (0..service.bands.len()).collect();
            bands.sort_by_key(|band| (service.bands.get(*band).map(|band| band.price), *band));
            for band in bands {
                for way in self.ways(&stack) {
                    match self.try_band(strings, way, *place, service, band) {
                        Ok(parcel) => return Ok(parcel),
                        Err(Some(next)) => {
                            if nearest.as_ref().is_none_or(|near| near.limit.is_worse_than(&next.limit)) {
                                nearest = Some(next);
                            }
                        }
                        Err(None) => {}
                    }
                }
            }
        }
        Err(nearest)
    }

    /// All ways to pack so many strings, the fewest columns first, then the fewest panels,
    /// and rolled up last.
    fn ways(&self, stack: &Stack) -> impl Iterator<Item = Fold> {
        let panels = self.shop.folding.most_panels.clamp(1, MOST_PANELS);
        let columns = stack.pennants.clamp(1, MOST_COLUMNS);
        let stack = *stack;
        let in_columns = move |columns| (1..=panels).map(move |panels| stack.folded(panels, columns));
        (1..=columns).flat_map(in_columns).chain(std::iter::once_with(move || stack.rolled()))
    }

    /// One way to pack in one band of one service: the parcel, or the limit that it breaks
    /// the worst. Nothing where the way is not one for the band's format.
    fn try_band(
        &self,
        strings: u32,
        way: Fold,
        place: usize,
        service: &'a Service,
        band: usize,
    ) -> Result<Parcel, Option<Nearest<'a>>> {
        let taken = service.bands.get(band).ok_or(None)?;
        let format = self.shop.formats.get(taken.format).ok_or(None)?;
        if (format.kind == FormatKind::Roll) != way.rolled {
            return Err(None);
        }
        let size = limits::enlarged(format, way.wrapped(&self.shop.folding));
        let real = Mass::from_grams(self.packed(strings).grams_up());
        let counted = counted(self.packed(strings), service.volumetric.as_ref(), size);
        let heavy = |rule, mass, most| Limit { rule, value: Amount::Mass(mass), limit: Amount::Mass(most) };
        let by_format = format.most_mass.filter(|most| real > *most);
        let by_format = by_format.map(|most| heavy(Rule::FormatMass, real, most));
        let by_band = band_of(std::slice::from_ref(taken), counted).is_err();
        let by_band = by_band.then(|| heavy(Rule::BandMass, counted, taken.most));
        let broken = fits(format, size).err().into_iter().chain(by_format).chain(by_band);
        let worst = broken.reduce(|worst, next| if next.is_worse_than(&worst) { next } else { worst });
        if let Some(limit) = worst {
            let bulky = (counted > real).then_some(real);
            return Err(Some(Nearest { limit, service, format, bulky }));
        }
        // by the band what the size counts for, by the format what it weighs
        let by_format = format.most_mass.map(|most| (most - real, most));
        let by_band = (taken.most - counted, taken.most);
        let (to_edge, edge) = by_format.map_or(by_band, |by_format| by_band.min(by_format));
        Ok(Parcel {
            fold: way,
            size,
            service: place,
            band,
            format: taken.format,
            counted,
            edge,
            to_edge,
            postage: taken.price,
        })
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
