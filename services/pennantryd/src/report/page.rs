//! The page: one HTML document that asks nobody for anything and needs no script.
//!
//! Its style is [`STYLE`], inline and without a `style` attribute anywhere, so that a policy of content can name
//! its digest. Links to other mornings and files are relative: `?date=2026-12-06` is a page, `&as=csv`,
//! `&as=proposals` and `&as=json` behind it are its files.
//!
//! End tags that HTML lets one leave out (of cells, rows, items) are left out, and of very many fabrics those for
//! which nothing is to be done are told in short: 400 fabrics stay below three megabytes.

use pennantry_contract::v1::{BurnReport, BurnReportHead};

use super::fabric::article;
use super::figures::{date, moment, time};
use super::words::{Esc, put};
use super::{first, workings};

/// The style of the page, as it stands in it.
pub const STYLE: &str = include_str!("style.css");

/// What the drawings share, and the edge of the head.
const SHARED: &str = "<svg width=0 height=0 class=shared aria-hidden=true><defs>\
     <pattern id=hatch width=5 height=5 patternUnits=userSpaceOnUse patternTransform=\"rotate(45)\">\
     <path class=hatched d=\"M0 0V5\"/></pattern>\
     <pattern id=pinked width=16 height=9 patternUnits=userSpaceOnUse>\
     <path class=pink d=\"M0-1H16V0L8 9L0 0z\"/></pattern></defs></svg>";

/// A strip with a pinked edge.
const PINKED: &str = "<svg class=pinked width=\"100%\" height=9 aria-hidden=true><rect width=\"100%\" height=9 fill=\"url(#pinked)\"/></svg>";

/// The report as a page; other mornings that are listed get links.
pub fn page(report: &BurnReport, others: &[BurnReportHead]) -> String {
    let day = date(&report.date);
    let mut out = format!(
        "<!DOCTYPE html><html lang=en-GB><head><meta charset=utf-8><title>Burn rate on {day}</title>\
         <meta name=viewport content=\"width=device-width, initial-scale=1\">\
         <meta name=color-scheme content=\"light dark\"><meta name=referrer content=no-referrer>\
         <meta name=robots content=noindex><link rel=icon href=\"data:,\"><style>{STYLE}</style></head><body>\
         {SHARED}<a class=skip href=\"#first\">To the fabrics</a>",
        day = Esc(&day)
    );
    head(&mut out, report);
    out.push_str("<main>");
    section(&mut out, "first", "This morning", &opening(report));
    if !report.fabrics.is_empty() {
        section(&mut out, "order", "What to order", &first::orders(report));
        section(&mut out, "dead", "What is dead", &first::dead(report));
        section(&mut out, "wasted", "What was wasted, and why", &first::wasted(report));
        let mut all = workings::key(report);
        for (place, fabric) in (1_usize..).zip(&report.fabrics) {
            all.push_str(&article(report, place, fabric));
        }
        section(&mut out, "fabrics", "Fabric by fabric", &all);
        section(&mut out, "methods", "How it is foretold", &workings::whole(report));
    }
    section(&mut out, "mornings", "Other mornings", &first::mornings(report, others));
    out.push_str("</main>");
    foot(&mut out, report);
    out.push_str("</body></html>\n");
    out
}

/// The page that stands where there is no report, and why.
pub fn nothing(why: &str) -> String {
    format!(
        "<!DOCTYPE html><html lang=en-GB><head><meta charset=utf-8><title>No burn-rate report</title>\
         <meta name=viewport content=\"width=device-width, initial-scale=1\">\
         <meta name=color-scheme content=\"light dark\"><link rel=icon href=\"data:,\"><style>{STYLE}</style></head>\
         <body>{SHARED}<header><div class=cloth><p class=house>Pennantry</p><h1>No burn-rate report</h1></div>{PINKED}\
         </header><main><section><p class=lede>{}</p></section></main></body></html>\n",
        Esc(why)
    )
}

fn section(out: &mut String, id: &str, heading: &str, inside: &str) {
    put!(out, "<section id={id} aria-labelledby={id}-h><h2 id={id}-h>{heading}</h2>{inside}</section>");
}

fn head(out: &mut String, report: &BurnReport) {
    put!(
        out,
        "<header><div class=cloth><p class=house>Pennantry</p><h1>Burn rate <span>on {}</span></h1>",
        time(&report.date)
    );
    put!(out, "<p>Use up to the evening of {}", time(&report.through_date));
    if !report.as_of.is_empty() {
        put!(out, ", the shelf as of {}", moment(&report.as_of, &report.zone));
    }
    out.push_str(".</p>");
    if !report.fabrics.is_empty() {
        out.push_str(
            "<nav aria-label=\"On this page\"><a href=\"#order\">Order</a> <a href=\"#dead\">Dead</a> \
             <a href=\"#wasted\">Wasted</a> <a href=\"#fabrics\">Fabric by fabric</a> <a href=\"#methods\">Methods</a> \
             <a href=\"#mornings\">Other mornings</a></nav>",
        );
    }
    put!(out, "</div>{PINKED}</header>");
}

/// What needs doing, notes of the whole, the table.
fn opening(report: &BurnReport) -> String {
    let mut out = format!("<p class=lede>{}</p>", Esc(&first::lede(report)));
    if !report.notes.is_empty() {
        out.push_str("<ul class=notes>");
        for note in &report.notes {
            put!(out, "<li><bdi>{}</bdi>", Esc(&note.message));
        }
        out.push_str("</ul>");
    }
    out.push_str(&first::table(report));
    out
}

fn foot(out: &mut String, report: &BurnReport) {
    let day = Esc(&report.date);
    put!(
        out,
        "<footer><p class=files>The same as files: <a href=\"?date={day}&amp;as=csv\">fabrics (CSV)</a>, \
         <a href=\"?date={day}&amp;as=proposals\">proposals (CSV)</a>, <a href=\"?date={day}&amp;as=json\">everything (JSON)</a>.</p>"
    );
    put!(out, "<p>Days by the clock of {}.", Esc(&report.zone));
    if !report.catalogue_revision.is_empty() {
        put!(out, " Catalogue <span class=code>{}</span>.", Esc(&report.catalogue_revision));
    }
    out.push_str(
        " Lengths are rounded to the nearest centimetre here and complete in the files.</p></footer>",
    );
}
