//! The first screen: one row a fabric, seven columns, a sentence where something needs doing.

use pennantry_contract::v1::{BurnFabric, BurnReport};

use super::absent::{COLUMNS, FAR, Judged, Told, early, from_day, judged, seven};
use super::figures::{fixed, metres, short_time, time};
use super::words::{Esc, counted, pressing, put, stitch};

/// What is to be done, in a sentence or two: "Three things need doing ...".
pub(super) fn lede(report: &BurnReport) -> String {
    if report.fabrics.is_empty() {
        return String::from(
            "There is no fabric to tell of: neither the catalogue nor the shelf has one. Put fabrics into \
             the catalogue, receive cloth, and the next morning tells of it.",
        );
    }
    let count = |word: Option<&str>| report.fabrics.iter().filter(|f| pressing(f.pressing) == word).count();
    let (today, soon, look) = (count(Some("Today")), count(Some("Soon")), count(Some("Look")));
    let all = report.fabrics.len();
    let of = counted(all, "fabric", "fabrics");
    let unjudged = report.fabrics.iter().filter(|fabric| judged(fabric) != Judged::Yes).count();
    let mut told = match today {
        0 if unjudged == all => format!("Nobody can say yet what has to be ordered, of {of}."),
        0 if unjudged > 0 => String::from("Of what can be judged, nothing has to be done today."),
        0 => String::from("Nothing has to be done today."),
        1 => String::from("One fabric needs something done today."),
        n => format!("{n} fabrics need something done today."),
    };
    for (count, when) in [(soon, "In the next weeks"), (look, "To be looked at")] {
        if count > 0 {
            put!(told, " {when}: {count}.");
        }
    }
    let quiet = count(None).saturating_sub(unjudged);
    if quiet > 0 {
        put!(told, " Nothing for {quiet} of {of}.");
    }
    let empty = report.fabrics.iter().filter(|fabric| fabric.free_mm <= 0.0).count();
    if empty > 0 {
        put!(told, " Of {} nothing is free.", counted(empty, "fabric", "fabrics"));
    }
    put!(told, "{}", unsaid(report));
    told
}

/// Fabrics that are named in a sentence at most.
const NAMED: usize = 6;

/// For which fabrics nobody can say what has to be ordered, and what would help.
fn unsaid(report: &BurnReport) -> String {
    let of = |wanted: Judged| report.fabrics.iter().filter(move |fabric| judged(fabric) == wanted);
    let mut told = String::new();
    let waits = of(Judged::Waits).count();
    if waits > 0 {
        put!(told, " Nobody can say yet for {waits}: too little is known of their use.");
    }
    let without: Vec<&str> = of(Judged::NoSupplies).map(|fabric| fabric.code.as_str()).collect();
    if !without.is_empty() {
        let named = without.iter().take(NAMED).copied().collect::<Vec<_>>().join(", ");
        let more = without.len().saturating_sub(NAMED);
        let more = if more > 0 { format!(" and {more} more") } else { String::new() };
        put!(
            told,
            " Nobody can say for {} until the catalogue has a [[supplies]] entry for each: {named}{more}.",
            without.len()
        );
    }
    let unordered = of(Judged::NoOrdering).count();
    if unordered > 0 {
        put!(told, " Nobody can say for {unordered} until the catalogue has an [ordering] table.");
    }
    told
}

/// The table, and below it why words stand where a figure would.
pub(super) fn table(report: &BurnReport) -> String {
    if report.fabrics.is_empty() {
        return String::new();
    }
    let mut out = String::from(
        "<table class=first><caption>Every fabric, the most pressing first; lengths in metres</caption>\
         <thead><tr><th scope=col>Fabric",
    );
    for (name, unit) in COLUMNS {
        let unit = if unit == "m" { "\u{a0}<small>m</small>" } else { "" };
        put!(out, "<th scope=col>{name}{unit}");
    }
    out.push_str("</thead>");
    let mut resting = false;
    for (place, fabric) in (1_usize..).zip(&report.fabrics) {
        let says = pressing(fabric.pressing).is_some() || !fabric.sentence.is_empty();
        if says || !resting {
            put!(out, "<tbody class={}>", if says { stitch(fabric.pressing) } else { "quiet" });
        }
        resting = !says;
        row(&mut out, report, place, fabric, says);
    }
    out.push_str("</table>");
    why(&mut out, report);
    out
}

fn row(out: &mut String, report: &BurnReport, place: usize, fabric: &BurnFabric, says: bool) {
    let scope = if says { "rowgroup rowspan=2" } else { "row" };
    put!(out, "<tr><th scope={scope}>{}", name(place, fabric));
    for told in seven(report, fabric) {
        match told {
            Told::Words(..) | Told::Far(_) => put!(out, "<td class=w>{}", figure(&told)),
            told => put!(out, "<td>{}", figure(&told)),
        }
    }
    if says {
        let word = pressing(fabric.pressing).map(|word| format!("<b class=word>{word}</b> "));
        put!(out, "<tr class=say><td colspan=7>{}{}", word.unwrap_or_default(), sentence(fabric));
    }
}

/// The name of a fabric as a way to its detail, and its code.
pub(super) fn name(place: usize, fabric: &BurnFabric) -> String {
    let name = if fabric.name.is_empty() { &fabric.code } else { &fabric.name };
    let (name, code) = (Esc(name), Esc(&fabric.code));
    format!("<a href=\"#f{place}\"><bdi>{name}</bdi></a> <small class=code><bdi>{code}</bdi></small>")
}

/// What needs doing; where nobody has said it, that.
pub(super) fn sentence(fabric: &BurnFabric) -> String {
    if fabric.sentence.is_empty() {
        return String::from("The report does not say what: look at its detail.");
    }
    format!("<bdi>{}</bdi>", Esc(&fabric.sentence))
}

/// One of the seven, as HTML.
pub(super) fn figure(told: &Told) -> String {
    match told {
        Told::Length(mm) => metres(*mm),
        Told::Weeks(weeks) => fixed(*weeks, 1),
        Told::Day(iso) => time(iso),
        Told::Far(_) => String::from(FAR.0),
        Told::Words(words, _) => String::from(*words),
    }
}

/// Below the table: what is in four weeks that are not over, and why words stand for figures.
fn why(out: &mut String, report: &BurnReport) {
    let mut reasons: Vec<(&str, &str)> = Vec::new();
    for fabric in &report.fabrics {
        for told in seven(report, fabric) {
            let reason = match told {
                Told::Words(words, why) => Some((words, why)),
                Told::Far(_) => Some(FAR),
                _ => None,
            };
            if let Some((words, why)) = reason
                && !why.is_empty()
                && !reasons.contains(&(words, why))
            {
                reasons.push((words, why));
            }
        }
    }
    out.push_str("<p class=why>");
    match report.from_date.as_deref() {
        Some(from) => put!(out, "Use is known from {} on. ", time(from)),
        None => out.push_str("Nothing is known of any use yet. "),
    }
    for (words, why) in &reasons {
        put!(out, "\u{201c}{words}\u{201d}: {why}. ");
    }
    out.push_str("Weeks left leave deliveries out; the drawings have them.</p>");
    if report.fabrics.iter().all(early) {
        let first = report.fabrics.iter().filter_map(|fabric| from_day(report, fabric)).min();
        let used = |fabric: &BurnFabric| {
            fabric.detail.as_ref().is_some_and(|detail| detail.last_used_date.is_some())
        };
        let none = if report.fabrics.iter().any(used) {
            "none was used in a second week yet"
        } else {
            "none was used yet"
        };
        let first = first.map_or_else(
            || String::from(none),
            |day| format!("the first is there from {} on at the earliest", time(&day.to_string())),
        );
        put!(
            out,
            "<p class=early>These are early days. What lies there, what was used and what is on order is \
             told from the first movement on. Weeks left and proposals come by themselves, fabric by fabric, 8 weeks after \
             each was first used, if it was used in 2 of them: {first}. What is usual takes 12 weeks. Until then order as you \
             always did.</p>",
        );
    }
}

/// What to order, by supplier; nothing where nothing is proposed.
pub(super) fn orders(report: &BurnReport) -> String {
    let proposals = super::csv::proposals(report, None);
    let mut out = String::new();
    if proposals.is_empty() {
        put!(out, "<p>Nothing is proposed this morning.{}</p>", Esc(&unsaid(report)));
        return out;
    }
    out.push_str(
        "<div class=wide tabindex=0 role=region aria-label=\"Proposals\"><table class=plain><caption>Proposals by supplier; lengths in metres, cost before tax</caption><thead>\
         <tr><th scope=col>Fabric<th scope=col class=t>Their reference<th scope=col>Order by\
         <th scope=col>Length <small>m</small><th scope=col>Bolts<th scope=col>Cost</thead>",
    );
    for group in proposals.chunk_by(|one, other| one.supplier() == other.supplier()) {
        let supplier = group.first().map_or("", |proposal| proposal.supplier());
        let unnamed = "Supplier not known: the catalogue does not say who sells it";
        let supplier = if supplier.is_empty() { unnamed } else { supplier };
        put!(out, "<tbody><tr><th scope=rowgroup colspan=6><bdi>{}</bdi>", Esc(supplier));
        for proposal in group {
            let buying = proposal.buying;
            let reference = buying.map(|buying| buying.supplier_reference.as_str()).unwrap_or_default();
            let reference = if reference.is_empty() { "none known" } else { reference };
            put!(out, "<tr><th scope=row>{}", name(proposal.place, proposal.fabric));
            let by = proposal.fabric.order_by_date.as_deref().map_or(String::from("not said"), time);
            put!(out, "<td class=t><bdi>{}</bdi><td>{by}", Esc(reference));
            let bolts = buying.and_then(|buying| buying.proposal_bolts);
            let bolts = bolts.map_or_else(|| String::from("not said"), |bolts| bolts.to_string());
            let cost = proposal.cost().map_or_else(|| String::from("not known"), super::figures::money);
            put!(out, "<td>{}<td>{bolts}<td>{}", metres(proposal.mm), Esc(&cost));
        }
        if group.len() > 1 {
            let all: f64 = group.iter().map(|proposal| proposal.mm).sum();
            let sums = super::figures::sums(group.iter().filter_map(super::csv::Proposal::cost));
            let unknown = group.iter().filter(|proposal| proposal.cost().is_none()).count();
            let mut cost = super::figures::told_sums(&sums).unwrap_or_else(|| String::from("not known"));
            if unknown > 0 && !sums.is_empty() {
                put!(cost, " and what {} cost", counted(unknown, "more", "more"));
            }
            put!(
                out,
                "<tr class=sum><th scope=row>Together<td><td><td>{}<td><td>{}",
                metres(all),
                Esc(&cost)
            );
        }
    }
    out.push_str("</table></div>");
    out
}

/// What lies there and is not used.
pub(super) fn dead(report: &BurnReport) -> String {
    let lies = (1_usize..).zip(&report.fabrics);
    let lies = lies.filter_map(|(place, fabric)| Some((place, fabric, fabric.detail.as_ref()?)));
    let lies: Vec<_> = lies.filter(|(_, _, detail)| detail.dead).collect();
    if lies.is_empty() {
        let early = report.fabrics.iter().filter(|fabric| early(fabric)).count();
        return match early {
            0 => String::from("<p>Nothing lies there that is not used.</p>"),
            n => format!(
                "<p>None is known. Of {} too little is known yet.</p>",
                counted(n, "fabric", "fabrics")
            ),
        };
    }
    let mut out = String::from(
        "<div class=wide tabindex=0 role=region aria-label=\"Dead cloth\"><table class=plain><caption>Cloth that lies there and is not used; lengths in metres</caption>\
         <thead><tr><th scope=col>Fabric<th scope=col>On hand <small>m</small><th scope=col>Last used</thead><tbody>",
    );
    for (place, fabric, detail) in lies {
        put!(out, "<tr><th scope=row>{}<td>{}", name(place, fabric), metres(detail.on_hand_mm));
        match detail.last_used_date.as_deref() {
            Some(last) => put!(out, "<td>{}", time(last)),
            None => out.push_str("<td class=w>never, as far as is known"),
        }
    }
    out.push_str("</table></div>");
    out
}

/// What was wasted in the last thirteen weeks, and why.
pub(super) fn wasted(report: &BurnReport) -> String {
    let rows = (1_usize..).zip(&report.fabrics);
    let rows =
        rows.filter_map(|(place, fabric)| Some((place, fabric, fabric.detail.as_ref()?.wastage.as_ref()?)));
    let rows: Vec<_> = rows.collect();
    let cut: Vec<_> = rows.iter().filter(|(_, _, wastage)| wastage_is_some(wastage)).collect();
    let Some((_, _, first)) = rows.first() else {
        return String::from("<p>Nothing is known of any wastage yet.</p>");
    };
    let (from, to) = (time(&first.from_date), time(&first.to_date));
    if cut.is_empty() {
        return format!("<p>Nothing was taken and nothing was wasted from {from} to {to}.</p>");
    }
    let mut out = format!(
        "<div class=wide tabindex=0 role=region aria-label=\"Wastage\"><table class=plain><caption>From {from} to {to}; lengths in metres, shares of the area</caption><thead>\
         <tr><th scope=col>Fabric<th scope=col>Taken <small>m</small><th scope=col>End bits <small>m</small>\
         <th scope=col>Spoiled <small>m</small><th scope=col>Flaws <small>m</small>\
         <th scope=col>Layout <small>%</small><th scope=col>All <small>%</small></thead><tbody>"
    );
    let percent = |share: Option<f64>| match share {
        Some(share) => format!("<td>{}", fixed(share, 1)),
        None => String::from("<td class=w>not known"),
    };
    for (place, fabric, wastage) in &cut {
        put!(out, "<tr><th scope=row>{}", name(*place, fabric));
        for mm in [wastage.taken_mm, wastage.ends_mm, wastage.spoiled_mm, wastage.flawed_mm] {
            put!(out, "<td>{}", metres(mm));
        }
        put!(out, "{}{}", percent(wastage.layout_percent), percent(wastage.all_percent));
    }
    if cut.len() > 1 {
        let sum = |of: fn(&pennantry_contract::v1::Wastage) -> f64| -> String {
            metres(cut.iter().map(|(_, _, wastage)| of(wastage)).sum())
        };
        put!(
            out,
            "<tr class=sum><th scope=row>Together<td>{}<td>{}",
            sum(|w| w.taken_mm),
            sum(|w| w.ends_mm)
        );
        put!(out, "<td>{}<td>{}<td><td>", sum(|w| w.spoiled_mm), sum(|w| w.flawed_mm));
    }
    out.push_str("</table></div>");
    out.push_str(
        "<p class=why>End bits are ends too short to keep, and what was cut to make them straight. Layout is \
         cloth between the shapes, as a share of the area used for them. All is layout, end bits, spoiled and flaws \
         together, as a share of the area of all that was taken. \u{201c}Not known\u{201d}: the area of some shapes, or \
         the width of the cloth, is not known.</p>",
    );
    out
}

fn wastage_is_some(wastage: &pennantry_contract::v1::Wastage) -> bool {
    [wastage.taken_mm, wastage.ends_mm, wastage.spoiled_mm, wastage.flawed_mm].iter().any(|mm| *mm > 0.0)
}

/// Links to other mornings, the latest first; where another is not done, how it stands.
pub(super) fn mornings(report: &BurnReport, heads: &[pennantry_contract::v1::BurnReportHead]) -> String {
    let others: Vec<_> = heads.iter().filter(|head| head.date != report.date).collect();
    if others.is_empty() {
        return String::from("<p>There is no report of another morning.</p>");
    }
    let mut out = String::from("<ul class=mornings>");
    for head in others {
        let done = head.state == i32::from(pennantry_contract::v1::BurnReportState::Done);
        let day = short_time(&head.date);
        if done && super::figures::day(&head.date).is_some() {
            put!(out, "<li><a href=\"?date={}\">{}</a>", Esc(&head.date), time(&head.date));
        } else {
            put!(out, "<li>{day}: {}", super::words::state(head.state));
            if !head.note.is_empty() {
                put!(out, ", <bdi>{}</bdi>", Esc(&head.note));
            }
        }
    }
    out.push_str("</ul>");
    out
}
