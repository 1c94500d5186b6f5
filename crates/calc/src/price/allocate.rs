//! Sharing an amount out so that the shares sum to it: largest remainder.
//!
//! With weights `w` that sum to `W`, a share is `⌊T · w / W⌋`, and the units that are left
//! over go one each to the largest remainders, of equal ones to the earliest. No share is a
//! whole unit off `T · w / W`, and one of no weight is nought. A refund mirrors its
//! charge: the sign is taken off first and put back last. The method is Hamilton's, known
//! from seats in parliaments (common practice, no source).
//!
//! Where a weight is added, a share may go up that should go down (the Alabama paradox,
//! from memory): always share the whole out anew, never go on from shares that are there.

use pennantry_measure::Money;

/// There is an amount, and nothing to share it by: the weights sum to nought.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("the weights sum to nought: there is nothing to share an amount by")]
pub struct NoWeight;

/// Shares an amount out by weights.
///
/// A weight below nought, such as a discount among lines, has a share below nought. Where
/// the amount is nought all shares are.
///
/// # Errors
/// [`NoWeight`] where the weights sum to nought and the amount is not nought.
///
/// ```
/// use pennantry_calc::price::allocate;
/// use pennantry_measure::Money;
/// let shares = |total: i64, weights: &[i64]| {
///     allocate(Money::from_minor(total), weights).map(|all| all.into_iter().map(Money::minor).collect::<Vec<_>>())
/// };
/// assert_eq!(shares(1_000, &[1, 1, 1])?, [334, 333, 333]);
/// assert_eq!(shares(-1_000, &[1, 1, 1])?, [-334, -333, -333]);
/// assert_eq!(shares(5, &[3, 7])?, [2, 3]); // 1.5 and 3.5
/// # Ok::<(), pennantry_calc::price::NoWeight>(())
/// ```
pub fn allocate(total: Money, weights: &[i64]) -> Result<Vec<Money>, NoWeight> {
    let whole: i128 = weights.iter().copied().map(i128::from).sum();
    let amount = i128::from(total.minor());
    if amount == 0 {
        return Ok(vec![Money::ZERO; weights.len()]);
    }
    if whole == 0 {
        return Err(NoWeight);
    }
    if weights.len() == 1 {
        return Ok(vec![total]);
    }
    let (turned, sign) = (whole.signum(), amount.signum());
    let exact = |(place, weight): (usize, &i64)| {
        let product = amount * sign * i128::from(*weight) * turned;
        (place, product.div_euclid(whole * turned), product.rem_euclid(whole * turned))
    };
    let mut shares: Vec<(usize, i128, i128)> = weights.iter().enumerate().map(exact).collect();
    let mut left = amount * sign - shares.iter().map(|(_, share, _)| share).sum::<i128>();
    // stable: of equal remainders the earliest
    shares.sort_by_key(|(_, _, rest)| std::cmp::Reverse(*rest));
    for (_, share, _) in &mut shares {
        if left == 0 {
            break;
        }
        *share += 1;
        left -= 1;
    }
    shares.sort_by_key(|(place, _, _)| *place);
    let money = |share: i128| Money::from_minor(i64::try_from(share * sign).unwrap_or(i64::MAX));
    Ok(shares.into_iter().map(|(_, share, _)| money(share)).collect())
}
