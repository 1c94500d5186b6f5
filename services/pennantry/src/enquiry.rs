//! From flags to the enquiry of the contract. What is not typed is absent: the design's
//! own values stand in at the server, and nothing is filled in here but the view.

use pennantry_contract::{table, v1};
use pennantry_measure::Length;

use crate::cli::{Discount, Each, Finish, Near, Pennant, Quote, Setting, Wanted};
use crate::length::{to_wire, typed};
use crate::words;

/// The enquiry that the flags mean.
///
/// `minor_digits` says how many digits of an amount are minor; only an amount to be taken off
/// needs it.
///
/// # Errors
/// The length that stands alone cannot be read, or an amount has more decimals than the
/// currency.
pub fn fill(flags: &Quote, minor_digits: Option<u32>) -> Result<v1::Enquiry, String> {
    let (order, sheet) = (&flags.order, &flags.sheet);
    Ok(v1::Enquiry {
        design_code: flags.setting.design.clone(),
        length: length(&flags.length)?,
        pennant_count: flags.setting.pennants,
        gap_mm: flags.setting.gap.map(to_wire),
        tail_mm: flags.setting.tail.map(to_wire),
        fit: given(fit(&flags.setting)),
        pennant: given(pennant(&flags.pennant)),
        construction: word(&table::CONSTRUCTION, flags.pennant.construction.as_ref()),
        backing: flags.pennant.backing.clone(),
        colour_order: given(v1::ColourOrder {
            rule: word(&table::RULE, flags.pennant.colours.as_ref()),
            fabric_codes: flags.pennant.fabrics.clone(),
        }),
        lettering: flags.pennant.lettering.clone(),
        binding_code: flags.finish.binding_code.clone(),
        finish: given(finish(&flags.finish)),
        quantity: order.quantity,
        near: given(near(&flags.near)),
        destination: order.to.clone().map(|country_code| v1::Destination { country_code }),
        service: order.service.clone(),
        wanted_date: order.by.clone(),
        view: words::value(&table::VIEW, &sheet.view),
        workings: sheet.workings.then_some(true),
        shelf: sheet.shelf.then_some(true),
        discount: match order.discount {
            Some(discount) => Some(v1::Discount {
                off: Some(off(discount, minor_digits)?),
                reason: order.reason.clone().unwrap_or_default(),
            }),
            None => None,
        },
        rush: order.rush.then_some(true),
        as_of_date: order.as_of.clone(),
    })
}

/// Looks through what can be judged before anybody is asked.
///
/// # Errors
/// The length that stands alone cannot be read.
pub fn check(flags: &Quote) -> Result<(), String> {
    length(&flags.length).map(|_| ())
}

/// A message in which anything is said.
fn given<T: Default + PartialEq>(message: T) -> Option<T> {
    (message != T::default()).then_some(message)
}

fn word(of: &'static table::Enumeration, typed: Option<&String>) -> Option<i32> {
    typed.and_then(|typed| words::value(of, typed))
}

fn length(flags: &Wanted) -> Result<Option<v1::enquiry::Length>, String> {
    use v1::enquiry::Length as Said;
    if !flags.length.is_empty() {
        let text = flags.length.join(" ");
        let length = typed(&text).map_err(|fault| format!("the wanted length: {fault}"))?;
        return Ok(Some(Said::FlaggedMm(to_wire(length))));
    }
    let hang = flags.span.map(|span| {
        Said::Hang(v1::Hang {
            span_mm: to_wire(span),
            dip_mm: flags.dip.map(to_wire),
            swag_count: flags.swags,
        })
    });
    let flagged = flags.flagged.map(|l| Said::FlaggedMm(to_wire(l)));
    let overall = flags.overall.map(|l| Said::OverallMm(to_wire(l)));
    let binding = flags.binding.map(|l| Said::BindingMm(to_wire(l)));
    Ok(flagged.or(overall).or(binding).or(hang))
}

fn fit(flags: &Setting) -> v1::Fit {
    v1::Fit {
        leftover: word(&table::LEFTOVER, flags.leftover.as_ref()),
        parity: word(&table::PARITY, flags.parity.as_ref()),
        min_gap_mm: flags.least_gap.map(to_wire),
        max_gap_mm: flags.greatest_gap.map(to_wire),
    }
}

fn pennant(flags: &Pennant) -> v1::Pennant {
    v1::Pennant {
        shape: word(&table::SHAPE, flags.shape.as_ref()),
        width_mm: flags.width.map(to_wire),
        drop_mm: flags.drop.map(to_wire),
        size_at: word(&table::SIZE_AT, flags.size_at.as_ref()),
        foot_mm: flags.foot.map(to_wire),
        notch_mm: flags.notch.map(to_wire),
        shoulder_mm: flags.shoulder.map(to_wire),
        rise_mm: flags.rise.map(to_wire),
    }
}

fn finish(flags: &Finish) -> v1::Finish {
    let trimmings = flags.trimming.iter();
    v1::Finish {
        ends: ends(flags),
        trimmings: trimmings
            .map(|each| v1::Trimming { code: each.code.clone(), per_pennant: each.per_pennant })
            .collect(),
    }
}

/// As many ends as the longest of their flags says; what is said once is for each of them.
fn ends(flags: &Finish) -> Vec<v1::End> {
    let counts = [
        flags.ends.len(),
        flags.loops.len(),
        flags.slips.len(),
        flags.breakaway.len(),
        flags.tie.len(),
        flags.second_tie.len(),
        flags.ties_apart.len(),
        flags.end_trimming.len(),
    ];
    let count = counts.into_iter().max().unwrap_or_default();
    let mm = |said: &[Each<Length>], place| at(said, place).map(to_wire);
    let end = |place| v1::End {
        style: flags.ends.get(place).or(once(&flags.ends)).and_then(|s| words::value(&table::END_STYLE, s)),
        loop_mm: mm(&flags.loops, place),
        slips: at(&flags.slips, place),
        breakaway_n: at(&flags.breakaway, place),
        tie_mm: mm(&flags.tie, place),
        second_tie_mm: mm(&flags.second_tie, place),
        ties_apart_mm: mm(&flags.ties_apart, place),
        trimming_code: at(&flags.end_trimming, place),
    };
    (0..count).map(end).collect()
}

fn at<T: Clone>(said: &[Each<T>], place: usize) -> Option<T> {
    said.get(place).or(once(said)).and_then(|each| each.0.clone())
}

fn once<T>(said: &[T]) -> Option<&T> {
    match said {
        [one] => Some(one),
        _ => None,
    }
}

fn near(flags: &Near) -> v1::Near {
    let whose = flags.rules.iter();
    v1::Near {
        who: word(&table::WHO, flags.who.as_ref()),
        youngest_months: flags.youngest,
        place: word(&table::PLACE, flags.place.as_ref()),
        fixing_height_mm: flags.fixing_height.map(to_wire),
        fixings: flags.fixings,
        span_mm: flags.fixing_span.map(to_wire),
        cot_distance_mm: flags.cot_distance.map(to_wire),
        jurisdictions: whose.filter_map(|word| words::value(&table::JURISDICTION, word)).collect(),
        wall_width_mm: flags.wall_width.map(to_wire),
        wall_height_mm: flags.wall_height.map(to_wire),
    }
}

/// What is taken off; an amount in the currency's own minor units.
fn off(discount: Discount, minor_digits: Option<u32>) -> Result<v1::discount::Off, String> {
    let (digits, decimals) = match discount {
        Discount::Percent(percent) => return Ok(v1::discount::Off::Percent(percent)),
        Discount::Amount { digits, decimals } => (digits, decimals),
    };
    let minor = minor_digits.ok_or("--discount: how many decimals the currency has is not known")?;
    let more = minor.checked_sub(decimals).ok_or_else(|| {
        format!(
            "--discount: {decimals} decimals, but amounts of this shop have {minor}: write at most {minor}"
        )
    })?;
    let whole = 10_i64.checked_pow(more).and_then(|each| digits.checked_mul(each));
    whole.map(v1::discount::Off::MinorUnits).ok_or_else(|| "--discount: out of range: write less".to_owned())
}

#[cfg(test)]
mod tests;
