//! Sheets of many orders, in every unit.

use pennantry::length::Unit;
use pennantry::sheet::page::WIDTH;
use pennantry::sheet::{Style, render};
use pennantry_contract::v1;
use pennantryd::catalogue::{SALTMERE_LOFT, open};
use pennantryd::clock::Clock;
use pennantryd::service::{Door, Service};
use pennantryd::ticket::Keys;

use super::dice::{Dice, Stock, order};
use super::process::NOW;

fn service() -> Service {
    Service::new(
        open(SALTMERE_LOFT).unwrap().into(),
        Clock::Fixed(NOW.parse().unwrap()),
        Keys::fresh().unwrap(),
    )
}

fn stock(service: &Service) -> Stock {
    let given = service.get_catalogue(Door::Private, &v1::GetCatalogueRequest {}).unwrap();
    let catalogue = given.catalogue.unwrap();
    Stock {
        designs: catalogue.designs.into_iter().map(|design| design.code).collect(),
        fabrics: catalogue.fabrics.into_iter().map(|fabric| fabric.code).collect(),
        bindings: catalogue.bindings.into_iter().map(|binding| binding.code).collect(),
        trimmings: catalogue.trimmings.into_iter().map(|trimming| trimming.code).collect(),
        services: catalogue.services.into_iter().map(|service| service.code).collect(),
    }
}

/// Columns, counted without the library that the sheet uses: nothing of the demo shop is wide,
/// and the only mark that joins another letter is the one below.
fn columns(line: &str) -> usize {
    line.chars().filter(|c| *c != '\u{308}').count()
}

/// 500 answers; in each unit no line is wider than the page, every one is drawn, and the count, the
/// total and each cloth stand on the sheet.
#[test]
fn five_hundred_sheets_fit_the_page_in_every_unit() {
    let service = service();
    let stock = stock(&service);
    let mut dice = Dice::new(4);
    let (mut answered, mut broken) = (0, 0);
    while answered < 500 {
        let mut enquiry: v1::Enquiry = serde_json::from_value(order(&mut dice, &stock)).unwrap();
        enquiry.set_view(v1::View::Shop);
        let request = v1::CalculateQuoteRequest { enquiry: Some(enquiry) };
        let Ok(answer) = service.calculate_quote(Door::Private, &request) else { continue };
        answered += 1;
        let quote = answer.quote.unwrap();
        for unit in [Unit::Mm, Unit::Cm, Unit::M, Unit::In, Unit::Ft, Unit::Yd] {
            let marks = unit == Unit::Ft;
            let sheet = render(&quote, Style { unit, marks, plain: unit == Unit::Yd, ..Style::default() });
            for line in sheet.lines() {
                assert!(columns(line) <= WIDTH, "{} columns: {line}\n{sheet}", columns(line));
            }
            assert!(!sheet.contains("not drawn"), "{sheet}");
        }
        let sheet = render(&quote, Style::default());
        broken += usize::from(sheet.contains(" more ~"));
        let layout = quote.layout.as_ref().unwrap();
        assert!(sheet.starts_with(&format!("{} pennant", layout.pennant_count)), "{sheet}");
        let total = quote.price.as_ref().unwrap().total.as_ref().unwrap().minor_units;
        assert!(sheet.contains(&format!("total GBP {}.{:02}\n", total / 100, total % 100)), "{sheet}");
        for used in &quote.fabrics {
            assert!(sheet.contains(&used.fabric_code), "{sheet}");
        }
    }
    assert!((100..490).contains(&broken), "{broken} drawings are broken: both kinds are wanted");
}
