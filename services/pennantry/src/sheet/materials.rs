//! Binding with its joins, thread, and what goes by the piece.

use pennantry_contract::table;
use pennantry_contract::v1::{self, binding_use::Supply};

use super::page::Page;
use super::{Style, counted};
use crate::words;

/// Joins that are listed one by one.
const JOINS: usize = 20;

/// The sections.
pub fn write(page: &mut Page, quote: &v1::Quote, style: Style) {
    if let Some(binding) = &quote.binding {
        page.heading("BINDING, for all strings");
        write_binding(page, binding, style);
    }
    if quote.thread.is_some() || !quote.sundries.is_empty() {
        page.heading("THREAD AND SUNDRIES, for all strings");
    }
    if let Some(thread) = &quote.thread {
        write_thread(page, thread, style);
    }
    for sundry in &quote.sundries {
        let packing = if sundry.packing { ", packing" } else { "" };
        page.line(&format!("{} × {} ({}){packing}", sundry.count, sundry.name, sundry.code));
    }
}

fn write_binding(page: &mut Page, binding: &v1::BindingUse, style: Style) {
    let mm = |mm| style.unit.shown(mm);
    page.line(&format!(
        "{}, {} fold to fold, tops {} deep in it",
        binding.binding_code,
        mm(binding.width_mm),
        mm(binding.insertion_mm)
    ));
    let joins = match binding.join_count {
        0 => "no joins".to_owned(),
        count => format!("{}, each loses {}", counted(count, "join", "joins"), mm(binding.join_loss_mm)),
    };
    page.line(&format!("cut {}, taken {}; {joins}", mm(binding.cut_mm), mm(binding.taken_mm)));
    match &binding.supply {
        Some(Supply::Bought(bought)) => write_bought(page, bought, style),
        Some(Supply::Straight(straight)) => page.line(&format!(
            "{} of {}, {} wide before folding; cloth charged {}",
            counted(straight.strip_count, "strip straight across", "strips straight across"),
            straight.fabric_code,
            mm(straight.raw_mm),
            mm(straight.charged_mm)
        )),
        Some(Supply::Bias(bias)) => write_bias(page, bias, style),
        None => {}
    }
    for join in binding.joins.iter().take(JOINS) {
        let place = match join.behind_pennant {
            Some(number) => format!("behind pennant {number}"),
            None => "it shows".to_owned(),
        };
        page.below(&format!(
            "join in string {}: {} from its left cut end, {place}",
            join.string_number,
            mm(join.at_mm)
        ));
    }
    let more = binding.joins.len().saturating_sub(JOINS);
    if more > 0 {
        page.below(&format!("and {more} more joins, listed with --json"));
    }
}

fn write_bought(page: &mut Page, bought: &v1::BoughtBinding, style: Style) {
    let mm = |mm| style.unit.shown(mm);
    let how = if bought.whole_rolls { "whole rolls bought" } else { "cut off" };
    page.line(&format!(
        "{} opened, {how}; paid for {}",
        counted(bought.roll_count, "new roll", "new rolls"),
        mm(bought.paid_mm)
    ));
    if !bought.offcut_mm.is_empty() {
        let offcuts: Vec<String> = bought.offcut_mm.iter().map(|offcut| mm(*offcut)).collect();
        page.line(&format!("offcuts used up: {}", offcuts.join(", ")));
    }
    if let Some(from) = bought.break_even_mm {
        page.line(&format!("a whole roll is the cheaper from {}", mm(from)));
    }
}

fn write_bias(page: &mut Page, bias: &v1::BiasBinding, style: Style) {
    let mm = |mm| style.unit.shown(mm);
    page.line(&format!(
        "bias of {}: {} of {}, {} round each, {} wide before folding",
        bias.fabric_code,
        counted(bias.square_count, "square", "squares"),
        mm(bias.side_mm),
        counted(bias.turn_count, "turn", "turns"),
        mm(bias.raw_mm)
    ));
    if let (Some(side), Some(turns)) = (bias.last_side_mm, bias.last_turn_count) {
        page.below(&format!("the last square is {}, {} round it", mm(side), counted(turns, "turn", "turns")));
    }
    page.below(&format!(
        "gives {}, {} at the most; cloth charged {}",
        mm(bias.yield_mm),
        mm(bias.bound_mm),
        mm(bias.charged_mm)
    ));
}

fn write_thread(page: &mut Page, thread: &v1::ThreadUse, style: Style) {
    let mm = |mm| style.unit.shown(mm);
    page.line(&format!("thread {}, waste in it", mm(thread.length_mm)));
    for seam in &thread.seams {
        let what = words::told(&table::SEAM_KIND, seam.kind).unwrap_or_else(|| "seam".to_owned());
        page.below(&format!(
            "{what}: seam {}, {} thick, {}, thread {}",
            mm(seam.seam_mm),
            mm(seam.thickness_mm),
            plural(seam.stitch_count, "stitch", "stitches"),
            mm(seam.thread_mm)
        ));
    }
}

fn plural(count: i64, one: &str, many: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {many}") }
}
