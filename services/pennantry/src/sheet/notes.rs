//! Notices, and on demand the leaflet and the workings.

use pennantry_contract::v1;

use super::Style;
use super::page::Page;
use crate::flags;

/// The sections.
pub fn write(page: &mut Page, quote: &v1::Quote, style: Style) {
    // what stands under PAPERWORK already
    let scope = quote.paperwork.as_ref().map_or("", |paperwork| paperwork.scope.as_str());
    let notices: Vec<_> =
        quote.notices.iter().filter(|notice| notice.code != "PAPERWORK" || notice.message != scope).collect();
    if !notices.is_empty() {
        page.heading("NOTICES");
    }
    for notice in notices {
        let about = match flags::of(&notice.field) {
            Some(flag) => format!(" {flag}"),
            None if notice.field.is_empty() => String::new(),
            None => format!(" {}", notice.field),
        };
        page.line(&format!("{}{about}: {}", notice.code, flags::in_words(&notice.message)));
    }
    if style.leaflet {
        page.heading("LEAFLET");
        if quote.leaflet.is_empty() {
            page.line("no leaflet in this answer");
        }
        for line in &quote.leaflet {
            page.line(line);
        }
    }
    if style.workings {
        page.heading("WORKINGS");
        if quote.workings.is_empty() {
            page.line("no workings in this answer");
        }
        for working in &quote.workings {
            page.line(&told(working));
        }
    }
    if let Some(token) = &quote.token {
        page.heading("TICKET");
        let size = token.chars().count();
        page.line(&format!(
            "{size} characters, given with --json; it may hold a lettering: keep it out of logs"
        ));
    }
}

/// Name, value and unit, formula, rounding, source.
fn told(working: &v1::Working) -> String {
    let unit = if working.unit.is_empty() { String::new() } else { format!(" {}", working.unit) };
    let formula = if working.formula.is_empty() { "given" } else { &working.formula };
    format!(
        "{} = {}{unit} | {formula} | {} | {}",
        working.name, working.value, working.rounding, working.source
    )
}
