//! One fabric: its drawings with their figures beside them, and what is one click deeper.

use pennantry_contract::v1::{BurnDetail, BurnFabric, BurnReport, Buying};

use super::absent::{COLUMNS, Told, seven, unknown};
use super::csv::longest;
use super::drawing::{Drawn, many};
use super::figures::{fixed, metres, moment, money, time};
use super::first::{figure, sentence};
use super::words::{Esc, class, pressing, put, service, stitch};
use super::workings;

/// Most fabrics of which the quiet ones are open as well.
const OPEN: usize = 40;

/// Everything about a fabric.
pub(super) fn article(report: &BurnReport, place: usize, fabric: &BurnFabric) -> String {
    let word = pressing(fabric.pressing);
    let mut out = format!(
        "<article class=\"fabric {}\" id=f{place}><h3><bdi>{}</bdi> <small class=code><bdi>{}</bdi></small></h3>",
        stitch(fabric.pressing),
        Esc(if fabric.name.is_empty() { &fabric.code } else { &fabric.name }),
        Esc(&fabric.code)
    );
    if word.is_some() || !fabric.sentence.is_empty() {
        let word = word.map(|word| format!("<b class=word>{word}</b> ")).unwrap_or_default();
        put!(out, "<p class=say>{word}{}</p>", sentence(fabric));
    }
    let Some(detail) = &fabric.detail else {
        out.push_str("<p>How its figures came about is not in this report.</p></article>");
        return out;
    };
    for note in detail.notes.iter().filter(|note| !workings::DEEPER.contains(&note.code.as_str())) {
        put!(out, "<p class=note><bdi>{}</bdi></p>", Esc(&note.message));
    }
    let open = word.is_some() || report.fabrics.len() <= OPEN;
    if !open {
        out.push_str("<details><summary>Drawings and figures</summary>");
    }
    out.push_str("<div class=swatch><div class=drawings>");
    let drawn = Drawn::new(report, place, fabric);
    match &drawn {
        Some(drawn) => out.push_str(&drawn.both()),
        None => out.push_str("<p class=none>No drawing: the report has no day.</p>"),
    }
    out.push_str("</div>");
    list(&mut out, "main", &main_facts(report, fabric, detail));
    out.push_str("</div>");
    if word.is_none() && many(report.fabrics.len()) {
        out.push_str(&in_short(fabric, detail));
    } else {
        list(&mut out, "rest", &other_facts(report, fabric, detail));
    }
    if let Some(drawn) = &drawn {
        out.push_str(&workings::drawn(drawn));
    }
    if word.is_some() || !many(report.fabrics.len()) {
        out.push_str(&workings::lots_and_orders(detail));
        out.push_str(&workings::methods(detail));
    }
    if !open {
        out.push_str("</details>");
    }
    out.push_str("</article>");
    out
}

fn m(mm: f64) -> String {
    format!("{} m", metres(mm))
}

/// What is left of the other figures where there are very many fabrics.
fn in_short(fabric: &BurnFabric, detail: &BurnDetail) -> String {
    let (kind, _) = class(detail.demand_class);
    let mut told = format!("<p>Demand: {kind}");
    if !detail.method.is_empty() {
        put!(told, ", by <bdi>{}</bdi>", Esc(&detail.method));
    }
    let point = detail.buying.as_ref().and_then(|buying| buying.reorder_point_mm);
    let point = point.map_or_else(|| figure(&unknown(fabric)), m);
    put!(told, ". Reorder point: {point}. The rest is in the JSON.</p>");
    told
}

type Fact = (&'static str, String);

fn list(out: &mut String, class: &str, facts: &[Fact]) {
    put!(out, "<dl class={class}>");
    for (name, value) in facts {
        put!(out, "<div><dt>{name}<dd>{value}</div>");
    }
    out.push_str("</dl>");
}

/// The figures beside the drawings: name and value.
fn main_facts(report: &BurnReport, fabric: &BurnFabric, detail: &BurnDetail) -> Vec<Fact> {
    let mut facts = Vec::new();
    for ((name, unit), told) in COLUMNS.iter().zip(seven(report, fabric)) {
        let words = matches!(told, Told::Words(..) | Told::Day(_) | Told::Far(_));
        let unit = if words { String::new() } else { format!(" {unit}") };
        facts.push((*name, format!("<b>{}</b>{unit}", figure(&told))));
        if *name == "Weeks left" {
            facts.push(("Runs out", format!("<b>{}</b>", runs_out(fabric, detail))));
        }
    }
    let single = longest(&detail.lots).map_or_else(|| String::from("none on the shelf"), m);
    facts.push(("Longest single length", single));
    facts
}

/// The other figures.
fn other_facts(report: &BurnReport, fabric: &BurnFabric, detail: &BurnDetail) -> Vec<Fact> {
    let (held, confirmed) = (m(detail.held_mm), m(detail.confirmed_mm));
    let mut facts =
        vec![("On hand", format!("{}; held {held}, confirmed {confirmed}", m(detail.on_hand_mm)))];
    if detail.short_mm > 0.0 {
        facts.push(("Promised and not there", m(detail.short_mm)));
    }
    facts.push(("In full width and coming, less promises", m(detail.position_mm)));
    let rate = detail.rate_mm.map_or_else(|| figure(&unknown(fabric)), m);
    facts.push(("Expected use of an open day", rate));
    if let Some(offer) = detail.offer_until_date.as_deref() {
        facts.push(("The form may offer it until", time(offer)));
    }
    buying(&mut facts, fabric, detail.buying.as_ref());
    let last =
        detail.last_used_date.as_deref().map_or_else(|| String::from("never, as far as is known"), time);
    facts.push(("Last used", last));
    if detail.dead {
        facts.push(("Dead", String::from("it lies there and nothing is used of it")));
    }
    facts.push(("Wasted in thirteen weeks", wasted(detail)));
    let (kind, _) = class(detail.demand_class);
    let value = match detail.value_class.as_str() {
        "" => String::from("no share in the use of a year"),
        class => format!("class {} by value", Esc(class)),
    };
    facts.push(("Kind of demand", format!("{kind}; {value}")));
    if !detail.as_of.is_empty() && detail.as_of != report.as_of {
        facts.push(("Shelf as of", moment(&detail.as_of, &report.zone)));
    }
    facts
}

fn runs_out(fabric: &BurnFabric, detail: &BurnDetail) -> String {
    match (detail.runs_out_date.as_deref(), detail.shelf_line.last()) {
        (Some(day), _) => time(day),
        (None, Some(last)) => format!("not by {}", time(&last.date)),
        (None, None) if fabric.weeks_left.is_none() && !super::absent::early(fabric) => {
            String::from("nothing is used")
        }
        (None, None) => String::from("not known yet"),
    }
}

fn buying(facts: &mut Vec<Fact>, fabric: &BurnFabric, buying: Option<&Buying>) {
    let Some(buying) = buying else {
        facts.push(("Bought", String::from(super::absent::bought(fabric))));
        return;
    };
    let supplier = if buying.supplier.is_empty() { "a supplier who is not named" } else { &buying.supplier };
    let mut from = format!("<bdi>{}</bdi>", Esc(supplier));
    if !buying.supplier_reference.is_empty() {
        put!(from, ", as <bdi>{}</bdi>", Esc(&buying.supplier_reference));
    }
    facts.push(("Bought from", from));
    if buying.last_of_it {
        facts.push(("To be had again", String::from("no: this is the last of it")));
        return;
    }
    let point = buying.reorder_point_mm.map_or_else(|| figure(&unknown(fabric)), m);
    facts.push(("Reorder point", point));
    let mut terms = format!("{} days to the shelf; bolts of {}", buying.lead_days, m(buying.bolt_mm));
    if buying.least_mm > 0.0 {
        put!(terms, "; at least {}", m(buying.least_mm));
    }
    facts.push(("Terms", terms));
    if let (Some(safety), Some(up_to)) = (buying.safety_mm, buying.order_up_to_mm) {
        facts.push(("Kept in reserve", m(safety)));
        facts.push(("Ordered up to", m(up_to)));
    }
    if !buying.service_kind.is_empty() {
        let level = fixed(buying.service_percent, 1);
        facts.push(("Aim", format!("{level} % {}", Esc(service(&buying.service_kind)))));
    }
    if let Some(bolts) = buying.proposal_bolts {
        let cost = buying.proposal_cost.as_ref().map_or_else(|| String::from("not known"), money);
        facts.push(("Proposal in bolts", format!("{bolts}, cost {} before tax", Esc(&cost))));
    }
}

/// What was wasted and why, in a line.
fn wasted(detail: &BurnDetail) -> String {
    let Some(wastage) = &detail.wastage else { return String::from("not known yet") };
    let mut told = format!(
        "of {} taken: end bits {}, spoiled {}, flaws {}",
        m(wastage.taken_mm),
        m(wastage.ends_mm),
        m(wastage.spoiled_mm),
        m(wastage.flawed_mm)
    );
    match wastage.layout_percent {
        Some(share) => put!(told, "; layout {} % of the area used", fixed(share, 1)),
        None => told.push_str("; layout not known, for the area of the shapes is not"),
    }
    if let Some(share) = wastage.all_percent {
        put!(told, "; all of it {} % of the area taken", fixed(share, 1));
    }
    told
}
