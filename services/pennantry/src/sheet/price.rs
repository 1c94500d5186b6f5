//! What it costs, the amounts one under the other.

use pennantry_contract::table;
use pennantry_contract::v1::{self, surplus::Basis};

use super::page::Page;
use crate::words;

/// The section.
pub fn write(page: &mut Page, quote: &v1::Quote) {
    let Some(price) = &quote.price else { return };
    let digits = price.minor_digits;
    let currency = price.total.as_ref().map_or("", |total| total.currency_code.as_str());
    page.heading(&format!("PRICE in {currency}"));
    lines(page, &price.lines, digits);
    if let Some(total) = &price.total {
        page.amount("TOTAL", &amount(total, digits));
    }
    match &price.tax {
        Some(tax) => write_tax(page, tax, digits),
        None => page.line("no tax line: none is charged"),
    }
    if let Some(basis) = words::told(&table::PRICE_BASIS, price.basis) {
        page.line(&format!("price made by {basis}"));
    }
    if let Some(metre) = &price.per_metre {
        page.amount("to compare by: the goods a metre of overall length", &amount(metre, digits));
    }
    for from in &price.breaks {
        page.line(&format!("from {} strings {} % off the goods", from.quantity, from.off_percent));
    }
    if price.strings.len() > 1 {
        let each: Vec<String> = price.strings.iter().map(|string| amount(string, digits)).collect();
        page.line(&format!("the total shared out over the strings: {}", each.join(", ")));
    }
    if let Some(withdrawal) = &price.withdrawal {
        let right = words::told(&table::WITHDRAWAL_RIGHT, withdrawal.right);
        let right = right.unwrap_or_else(|| "not looked at".to_owned());
        let source =
            if withdrawal.source.is_empty() { String::new() } else { format!(" ({})", withdrawal.source) };
        page.line(&format!("right to withdraw: {right}: {}{source}", withdrawal.reason));
    }
    if let Some(cost) = &price.cost {
        page.heading(&format!("COST in {currency}, for the shop alone"));
        write_cost(page, cost, digits);
    }
}

fn lines(page: &mut Page, all: &[v1::PriceLine], digits: u32) {
    for line in all {
        // a line without its amount says so, and not 0
        let told = line.amount.as_ref().map_or_else(|| "not told".to_owned(), |money| amount(money, digits));
        match &line.tax {
            Some(tax) => page.amount(&format!("{}, {} tax in it", line.text, amount(tax, digits)), &told),
            None => page.amount(&line.text, &told),
        }
    }
}

fn write_tax(page: &mut Page, tax: &v1::Tax, digits: u32) {
    if let Some(included) = &tax.included {
        page.amount(&format!("{} at {} % in it", tax.name, tax.rate_percent), &amount(included, digits));
    }
    if let Some(net) = &tax.net {
        page.amount("without it", &amount(net, digits));
    }
    let mut how = Vec::new();
    how.extend(words::told(&table::TAX_LEVEL, tax.level).map(|level| format!("rounded by {level}")));
    how.extend(words::told(&table::TAX_ROUNDING, tax.rounding));
    if !tax.point_date.is_empty() {
        how.push(format!("rate of {}", tax.point_date));
    }
    if !tax.registration.is_empty() {
        how.push(format!("registered as {}", tax.registration));
    }
    if !how.is_empty() {
        page.line(&how.join(", "));
    }
}

fn write_cost(page: &mut Page, cost: &v1::Cost, digits: u32) {
    lines(page, &cost.lines, digits);
    let surplus = match cost.surplus.and_then(|surplus| surplus.basis) {
        Some(Basis::MarginPercent(share)) => format!(", the surplus {share} % of it"),
        Some(Basis::MarkupPercent(share)) => format!(", the surplus {share} % of the cost"),
        None => String::new(),
    };
    let all = [
        ("cost".to_owned(), &cost.total),
        (format!("price before tax{surplus}"), &cost.net),
        ("goods before they were moved to a price point, tax in them".to_owned(), &cost.before_point),
        ("the shop's floor, before tax".to_owned(), &cost.floor),
    ];
    for (words, money) in all {
        if let Some(money) = money {
            page.amount(&words, &amount(money, digits));
        }
    }
}

/// An amount with as many decimals as its currency has minor digits.
pub fn amount(money: &v1::Money, digits: u32) -> String {
    let sign = if money.minor_units < 0 { "-" } else { "" };
    let all = money.minor_units.unsigned_abs().to_string();
    let Ok(digits @ 1..=18) = usize::try_from(digits) else { return format!("{sign}{all}") };
    let all = format!("{all:0>width$}", width = digits + 1);
    let (whole, minor) = all.split_at(all.len() - digits);
    format!("{sign}{whole}.{minor}")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: yen have 0 digits, pounds 2, dinars of Kuwait 3, UF of Chile 4 (ISO 4217).
    #[test]
    fn amounts_have_the_digits_of_their_currency() {
        let money = |minor_units| v1::Money { currency_code: "XTS".to_owned(), minor_units };
        for (minor, digits, told) in [
            (7_739, 0, "7739"),
            (7_739, 2, "77.39"),
            (7_739, 3, "7.739"),
            (7_739, 4, "0.7739"),
            (5, 2, "0.05"),
            (-5, 2, "-0.05"),
            (-100, 2, "-1.00"),
            (0, 0, "0"),
            (0, 3, "0.000"),
            (i64::MIN, 2, "-92233720368547758.08"),
        ] {
            assert_eq!(amount(&money(minor), digits), told);
        }
    }
}
