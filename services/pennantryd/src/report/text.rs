//! The short text: a heading, what needs doing, then totals. For a timer's standard output.
//!
//! No line is wider than 80 columns, by the widths of Unicode's annex 11; a word that is
//! wider is broken.

use pennantry_contract::v1::{BurnFabric, BurnReport};
use unicode_width::UnicodeWidthChar;

use super::figures::{date, metres, sums, told_sums};
use super::words::{counted, pressing, put, shown};

/// Most columns of a line.
const COLUMNS: usize = 80;
/// Columns of the word in front.
const WORD: usize = 7;

/// The report in short.
pub fn text(report: &BurnReport) -> String {
    let mut out = String::new();
    let heading = format!("Burn rate on {}, use up to {}", date(&report.date), date(&report.through_date));
    wrapped(&mut out, "", &heading, 0);
    for fabric in &report.fabrics {
        if let Some(word) = pressing(fabric.pressing) {
            wrapped(&mut out, word, &said(fabric), WORD);
        }
    }
    for line in totals(report) {
        wrapped(&mut out, "", &line, 0);
    }
    for note in &report.notes {
        wrapped(&mut out, "Note", &shown(&note.message), WORD);
    }
    out
}

fn said(fabric: &BurnFabric) -> String {
    let name = shown(if fabric.name.is_empty() { &fabric.code } else { &fabric.name });
    match fabric.sentence.as_str() {
        "" => format!("{name}: the report does not say what; look at its detail"),
        sentence => {
            let sentence = shown(sentence);
            if sentence.contains(&name) { sentence } else { format!("{name}: {sentence}") }
        }
    }
}

fn totals(report: &BurnReport) -> Vec<String> {
    if report.fabrics.is_empty() {
        return vec![String::from("No fabric is in the catalogue or on the shelf.")];
    }
    let all = report.fabrics.iter();
    let mut lines = vec![shown(&super::first::lede(report))];

    let used: f64 = all.clone().map(|fabric| fabric.used_mm).sum();
    let free: f64 = all.clone().map(|fabric| fabric.free_mm).sum();
    let coming: f64 = all.clone().map(|fabric| fabric.on_order_mm).sum();
    let used = match report.from_date {
        Some(_) => format!("{} m used in four weeks", metres(used)),
        None => String::from("nothing known of any use yet"),
    };
    lines.push(format!("{} m free, {used}, {} m on order.", metres(free), metres(coming)));

    let proposals = super::csv::proposals(report, None);
    lines.push(if proposals.is_empty() {
        String::from("Nothing is proposed.")
    } else {
        let mm: f64 = proposals.iter().map(|proposal| proposal.mm).sum();
        let mut line = format!("Proposed: {}, {} m", counted(proposals.len(), "order", "orders"), metres(mm));
        let cost = sums(proposals.iter().filter_map(super::csv::Proposal::cost));
        if let Some(cost) = told_sums(&cost) {
            put!(line, ", {cost} before tax");
        }
        let unknown = proposals.iter().filter(|proposal| proposal.cost().is_none()).count();
        if unknown > 0 {
            put!(line, ", the cost of {unknown} not known");
        }
        line.push('.');
        line
    });

    let details = || report.fabrics.iter().filter_map(|fabric| fabric.detail.as_ref());
    let dead = details().filter(|detail| detail.dead).count();
    if dead > 0 {
        let mm: f64 = details().filter(|detail| detail.dead).map(|detail| detail.on_hand_mm).sum();
        lines.push(format!("Dead on the shelf: {}, {} m.", counted(dead, "fabric", "fabrics"), metres(mm)));
    }
    let wasted: Vec<_> = details().filter_map(|detail| detail.wastage.as_ref()).collect();
    if !wasted.is_empty() {
        lines.push(format!(
            "Wasted in thirteen weeks: {} m of end bits, {} m spoiled, {} m of flaws.",
            metres(wasted.iter().map(|wastage| wastage.ends_mm).sum()),
            metres(wasted.iter().map(|wastage| wastage.spoiled_mm).sum()),
            metres(wasted.iter().map(|wastage| wastage.flawed_mm).sum())
        ));
    }
    lines
}

/// Columns that a text takes.
fn width(text: &str) -> usize {
    text.chars().map(|c| c.width().unwrap_or(0)).sum()
}

/// Writes words in lines, behind a word of its own in a margin.
fn wrapped(out: &mut String, word: &str, text: &str, margin: usize) {
    let room = COLUMNS - margin;
    let mut lines = vec![String::new()];
    let mut taken = 0;
    for piece in text.split_whitespace().flat_map(|piece| broken(piece, room)) {
        let wide = width(&piece);
        let gap = usize::from(taken > 0);
        if taken + gap + wide > room {
            lines.push(String::new());
            taken = 0;
        }
        if let Some(line) = lines.last_mut() {
            if taken > 0 {
                line.push(' ');
                taken += 1;
            }
            line.push_str(&piece);
            taken += wide;
        }
    }
    for (place, line) in lines.iter().enumerate() {
        let word = if place == 0 { word } else { "" };
        put!(out, "{word:<margin$}{line}\n");
    }
}

/// A word in parts that fit into a line.
fn broken(word: &str, room: usize) -> Vec<String> {
    let mut parts = vec![String::new()];
    let mut taken = 0;
    for c in word.chars() {
        let wide = c.width().unwrap_or(0);
        if taken + wide > room {
            parts.push(String::new());
            taken = 0;
        }
        if let Some(part) = parts.last_mut() {
            part.push(c);
        }
        taken += wide;
    }
    parts
}
