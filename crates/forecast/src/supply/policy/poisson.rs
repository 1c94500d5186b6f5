//! `(r, Q)` and `(s, S)` for Poisson demand, exactly.
//!
//! Both rest on the cost of a position `y`, with `n` the loss of the demand until an
//! order comes (of one period for `(s, S)`):
//!
//! ```text
//! g(y) = h (y - m + n(y)) + p n(y)
//! cost of (r, Q) = (K D + g(r + 1) + ... + g(r + Q)) / Q
//! cost of (s, S) = (K + sum over j < S - s of m(j) g(S - j)) / M(S - s)
//! m(0) = 1 / (1 - f(0)),  m(j) = m(0) (f(1) m(j - 1) + ... + f(j) m(0)),  M(j) = m(0) + ... + m(j - 1)
//! ```
//!
//! `g` is convex. The best `r` for `Q + 1` is that for `Q` or one less, and the first `Q`
//! whose successor costs more is the best (Federgruen and Zheng, *Operations Research* 40
//! (1992), 808-813). For `(s, S)`, `m` is the renewal density of the demand; `s` is moved
//! towards the least of `g` while that lowers the cost, and `S` is raised while `g(S)` is
//! not above the least cost found (Zheng and Federgruen, *Operations Research* 39 (1991),
//! 654-665). `p` is per unit and time. Capped at [`MOST`] positions.
//!
//! Whole positions, costs `f64` and not rounded. Examples from Snyder and Shen, *Fundamentals
//! of Supply Chain Theory*, 2nd edition: 5.8 (1.5 a period, lead time 2, `h` 20, `p` 150, `K` 100) is
//! order 5 at 3; 4.7 (6 a period, `h` 1, `p` 4, `K` 5) is up to 10 at 4.

use crate::supply::counts::Counts;
use crate::supply::{Error, number};

/// Most positions between the lowest and the highest looked at.
pub const MOST: i64 = 500;

/// What ordering, keeping and wanting cost.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Costs {
    /// An order, whatever its size.
    pub fixed: f64,
    /// Keeping a unit for a period.
    pub holding: f64,
    /// A unit wanting for a period.
    pub wanting: f64,
}

/// A point at or below which to order, and what then.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Found {
    /// The reorder point.
    pub point: i64,
    /// The quantity of `(r, Q)`; the level to order up to of `(s, S)`.
    pub amount: i64,
    /// The cost of a period.
    pub cost: f64,
}

/// The cost of positions.
struct Positions {
    costs: Costs,
    demand: Counts,
}

impl Positions {
    fn new(costs: &Costs, demand: Counts) -> Result<Self, Error> {
        number::positive("cost of an order", costs.fixed)?;
        number::positive("cost of keeping a unit", costs.holding)?;
        number::positive("cost of a unit wanting", costs.wanting)?;
        Ok(Self { costs: *costs, demand })
    }

    fn cost(&self, position: i64) -> f64 {
        let wanting = self.demand.loss(position);
        let kept = number::real(position) - self.demand.mean() + wanting;
        self.costs.holding * kept + self.costs.wanting * wanting
    }

    /// Where it costs least.
    fn best(&self) -> Result<i64, Error> {
        let share = self.costs.wanting / (self.costs.wanting + self.costs.holding);
        self.demand.quantile(share).map(i64::from)
    }
}

fn too_far() -> Error {
    let remedy = "take larger units or a smaller cost of an order: at most 500 positions are looked at";
    Error::NoAnswer { what: "the cheapest policy", remedy }
}

/// The cheapest `(r, Q)` for Poisson demand of mean `rate` a period and a lead time of
/// `lead` periods.
///
/// ```
/// use pennantry_forecast::supply::policy::poisson::{Costs, reorder_and_quantity};
/// let costs = Costs { fixed: 100.0, holding: 20.0, wanting: 150.0 };
/// let found = reorder_and_quantity(&costs, 1.5, 2.0)?;
/// assert_eq!((found.point, found.amount), (3, 5));
/// assert!((found.cost - 107.9235806331).abs() < 1e-9);
/// # Ok::<(), pennantry_forecast::supply::Error>(())
/// ```
pub fn reorder_and_quantity(costs: &Costs, rate: f64, lead: f64) -> Result<Found, Error> {
    let rate = number::positive("demand of a period", rate)?;
    let lead = number::positive("lead time", lead)?;
    let positions = Positions::new(costs, Counts::poisson(rate * lead)?)?;
    let first = positions.best()?;
    let mut point = first - 1;
    let mut sum = costs.fixed * rate + positions.cost(first);
    let mut cheapest = Found { point, amount: 1, cost: sum };
    for amount in 2..=MOST {
        let (below, above) = (positions.cost(point), positions.cost(point + amount));
        if below < above {
            point -= 1;
        }
        sum += below.min(above);
        let cost = sum / number::real(amount);
        if cost > cheapest.cost {
            return Ok(cheapest);
        }
        cheapest = Found { point, amount, cost };
    }
    Err(too_far())
}

/// The cheapest `(s, S)` for Poisson demand of mean `rate` a period; orders come at once.
pub fn point_and_level(costs: &Costs, rate: f64) -> Result<Found, Error> {
    let rate = number::positive("demand of a period", rate)?;
    let demand = Counts::poisson(rate)?;
    let positions = Positions::new(costs, demand)?;
    let mut renewal = Renewal::new(demand)?;
    let best = positions.best()?;
    let mut point = best;
    loop {
        point -= 1;
        if renewal.cost(&positions, point, best)? <= positions.cost(point) {
            break;
        }
    }
    let mut cheapest = Found { point, amount: best, cost: renewal.cost(&positions, point, best)? };
    let mut level = best + 1;
    while positions.cost(level) <= cheapest.cost {
        if renewal.cost(&positions, point, level)? < cheapest.cost {
            // below the level there is always a position that is cheaper than the policy
            while point + 1 < level && renewal.cost(&positions, point, level)? <= positions.cost(point + 1) {
                point += 1;
            }
            cheapest = Found { point, amount: level, cost: renewal.cost(&positions, point, level)? };
        }
        level += 1;
    }
    Ok(cheapest)
}

/// How often each amount below the level is passed in a cycle, as far as it was needed.
struct Renewal {
    /// Shares of demand, from 0.
    demand: Counts,
    shares: Vec<f64>,
    passed: Vec<f64>,
}

impl Renewal {
    fn new(demand: Counts) -> Result<Self, Error> {
        let nothing = demand.share(0);
        if nothing >= 1.0 {
            return Err(too_far());
        }
        Ok(Self { demand, shares: vec![nothing], passed: vec![1.0 / (1.0 - nothing)] })
    }

    /// Goes on to `length` amounts.
    fn reach(&mut self, length: i64) -> Result<(), Error> {
        let length =
            if length <= MOST { usize::try_from(length).unwrap_or(0) } else { return Err(too_far()) };
        while self.passed.len() < length {
            let next = u32::try_from(self.shares.len()).unwrap_or(u32::MAX);
            self.shares.push(self.demand.share(next));
            let sum: f64 = self.shares.iter().skip(1).zip(self.passed.iter().rev()).map(|(f, m)| f * m).sum();
            let first = self.passed.first().copied().unwrap_or(1.0);
            self.passed.push(first * sum);
        }
        Ok(())
    }

    fn cost(&mut self, positions: &Positions, point: i64, level: i64) -> Result<f64, Error> {
        let length = level - point;
        self.reach(length)?;
        let mut cost = positions.costs.fixed;
        let mut periods = 0.0;
        for (passed, position) in self.passed.iter().zip((point + 1..=level).rev()) {
            cost += passed * positions.cost(position);
            periods += passed;
        }
        Ok(cost / periods)
    }
}
