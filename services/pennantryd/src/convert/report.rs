//! The nightly report, from what was worked out to the contract, and what of a kept part is
//! wanted for the whole.

use pennantry_app::report::{
    BackTest, Buying, ComingWeek, Detail, FabricReport, Gist, Lot, MethodScore, NOT_USED, Note, Order,
    PastWeek, Pressing, ShelfDay, Wastage, Whole,
};
use pennantry_contract::v1;
use pennantry_forecast::demand::class::Class;
use pennantry_forecast::demand::kpi::Abc;
use pennantry_forecast::supply::service::Kind;
use pennantry_ledger::report::{ReportHead, ReportState};
use pennantry_measure::Money;

use super::length::write as mm;
use super::stock::write::{date, numbered, time};

/// A figure to so many decimals; none where it is no figure.
fn to(decimals: i32, figure: f64) -> Option<f64> {
    let by = (0..decimals).fold(1.0, |power, _| power * 10.0);
    figure.is_finite().then(|| (figure * by).round() / by)
}

fn thousandths(figure: Option<f64>) -> Option<f64> {
    figure.and_then(|figure| to(3, figure))
}

fn tenths(figure: Option<f64>) -> Option<f64> {
    figure.and_then(|figure| to(1, figure))
}

/// Where a report stands.
pub fn head(head: &ReportHead) -> v1::BurnReportHead {
    let state = match head.state {
        ReportState::Running => v1::BurnReportState::Running,
        ReportState::Done => v1::BurnReportState::Done,
        ReportState::Failed => v1::BurnReportState::Failed,
        ReportState::Cancelled => v1::BurnReportState::Cancelled,
    };
    v1::BurnReportHead {
        date: date(head.day),
        state: state.into(),
        done: head.done,
        of: head.of,
        start_time: time(head.started),
        end_time: head.finished.map(time),
        runner: head.runner.clone(),
        note: head.note.clone(),
    }
}

/// A fabric.
pub fn fabric(report: &FabricReport, money: &dyn Fn(Money) -> v1::Money) -> v1::BurnFabric {
    v1::BurnFabric {
        code: report.code.clone(),
        name: report.name.clone(),
        free_mm: mm(report.free),
        used_mm: mm(report.used),
        usual_mm: report.usual.map(mm),
        on_order_mm: mm(report.on_order),
        weeks_left: tenths(report.weeks_left),
        order_by_date: report.order_by.map(date),
        proposal_mm: report.proposal.map(mm),
        sentence: report.sentence.clone(),
        pressing: pressing(report.pressing).into(),
        detail: Some(detail(&report.detail, money)),
    }
}

const fn pressing(pressing: Pressing) -> v1::Pressing {
    match pressing {
        Pressing::Nothing => v1::Pressing::Nothing,
        Pressing::Look => v1::Pressing::Look,
        Pressing::Soon => v1::Pressing::Soon,
        Pressing::Today => v1::Pressing::Today,
    }
}

fn detail(detail: &Detail, money: &dyn Fn(Money) -> v1::Money) -> v1::BurnDetail {
    let class = match detail.demand_class {
        Class::Insufficient => v1::DemandClass::Insufficient,
        Class::Smooth => v1::DemandClass::Smooth,
        Class::Erratic => v1::DemandClass::Erratic,
        Class::Intermittent => v1::DemandClass::Intermittent,
        Class::Lumpy => v1::DemandClass::Lumpy,
    };
    let value_class = match detail.value_class {
        Some(Abc::A) => "A",
        Some(Abc::B) => "B",
        Some(Abc::C) => "C",
        None => "",
    };
    v1::BurnDetail {
        as_of: time(detail.as_of),
        on_hand_mm: mm(detail.on_hand),
        held_mm: mm(detail.held),
        confirmed_mm: mm(detail.confirmed),
        short_mm: mm(detail.short),
        position_mm: mm(detail.position),
        demand_class: class.into(),
        interval: thousandths(detail.interval),
        size_variation: thousandths(detail.size_variation),
        method: detail.method.clone(),
        seasonal: detail.seasonal,
        scores: detail.scores.iter().map(score).collect(),
        rate_mm: detail.rate.map(mm),
        past: detail.past.iter().map(past).collect(),
        coming: detail.coming.iter().map(coming).collect(),
        shelf_line: detail.shelf_line.iter().map(shelf_day).collect(),
        runs_out_date: detail.runs_out.map(date),
        offer_until_date: detail.offer_until.map(date),
        buying: detail.buying.as_ref().map(|bought| buying(bought, money)),
        orders: detail.orders.iter().map(order).collect(),
        lots: detail.lots.iter().map(lot).collect(),
        wastage: Some(wastage(&detail.wastage)),
        dead: detail.dead,
        last_used_date: detail.last_used.map(date),
        value_class: value_class.to_owned(),
        notes: detail.notes.iter().map(note).collect(),
    }
}

fn score(score: &MethodScore) -> v1::MethodScore {
    v1::MethodScore {
        method: score.method.clone(),
        seasonal: score.seasonal,
        rmsse: thousandths(score.rmsse),
        pinball: thousandths(score.pinball),
        bias: thousandths(score.bias),
        score: thousandths(score.score),
        weeks: score.weeks,
    }
}

fn past(week: &PastWeek) -> v1::PastWeek {
    v1::PastWeek {
        monday: date(week.monday),
        used_mm: mm(week.used),
        open_days: week.open_days,
        out_days: week.out_days,
        restated: week.restated,
    }
}

fn coming(week: &ComingWeek) -> v1::ComingWeek {
    v1::ComingWeek {
        monday: date(week.monday),
        expected_mm: mm(week.expected),
        low_mm: mm(week.low),
        high_mm: mm(week.high),
        open_days: week.open_days,
    }
}

fn shelf_day(day: &ShelfDay) -> v1::ShelfDay {
    v1::ShelfDay { date: date(day.date), free_mm: mm(day.free), delivery_mm: mm(day.delivery) }
}

fn buying(bought: &Buying, money: &dyn Fn(Money) -> v1::Money) -> v1::Buying {
    let kind = match bought.service.kind() {
        Kind::Cycle => "cycle service",
        Kind::Fill => "fill rate",
    };
    v1::Buying {
        supplier: bought.supplier.clone(),
        supplier_reference: bought.supplier_reference.clone(),
        lead_days: bought.lead_days,
        bolt_mm: mm(bought.bolt),
        least_mm: mm(bought.least),
        last_of_it: bought.last_of_it,
        reorder_point_mm: bought.reorder_point.map(mm),
        safety_mm: bought.safety.map(mm),
        order_up_to_mm: bought.order_up_to.map(mm),
        service_kind: kind.to_owned(),
        service_percent: to(3, bought.service.share() * 100.0).unwrap_or_default(),
        proposal_bolts: bought.proposal_bolts,
        proposal_cost: bought.proposal_cost.map(money),
    }
}

fn order(order: &Order) -> v1::BurnOrder {
    v1::BurnOrder {
        order_id: order.order_id.clone(),
        supplier: order.supplier.clone(),
        expected_date: date(order.expected),
        outstanding_mm: mm(order.outstanding),
        late_days: order.late_days,
    }
}

fn lot(lot: &Lot) -> v1::BurnLot {
    v1::BurnLot {
        lot: lot.lot.clone(),
        on_hand_mm: mm(lot.on_hand),
        longest_mm: mm(lot.longest),
        pieces: lot.pieces,
    }
}

fn wastage(wasted: &Wastage) -> v1::Wastage {
    v1::Wastage {
        from_date: date(wasted.from),
        to_date: date(wasted.to),
        taken_mm: mm(wasted.taken),
        ends_mm: mm(wasted.ends),
        spoiled_mm: mm(wasted.spoiled),
        flawed_mm: mm(wasted.flawed),
        layout_percent: tenths(wasted.layout_percent),
        all_percent: tenths(wasted.all_percent),
    }
}

fn note(note: &Note) -> v1::BurnNote {
    v1::BurnNote { code: note.code.to_owned(), message: note.message.clone() }
}

fn back_test(test: &BackTest) -> v1::BackTest {
    let rows = test.rows.iter().map(|row| v1::BackTestRow {
        method: row.method.clone(),
        tried: row.tried,
        chosen: row.chosen,
        rmsse: thousandths(row.rmsse),
        pinball: thousandths(row.pinball),
        bias: thousandths(row.bias),
    });
    v1::BackTest { fabrics: test.fabrics, weeks: test.weeks, rows: rows.collect() }
}

/// The whole report, its fabrics given in any order; `more` is what else should be said of it.
pub fn whole(whole: &Whole, fabrics: &[v1::BurnFabric], more: &[v1::BurnNote]) -> v1::BurnReport {
    let season = whole
        .season
        .iter()
        .map(|week| v1::SeasonWeek { week: u32::from(week.week), index: to(3, week.index).unwrap_or(1.0) });
    v1::BurnReport {
        date: date(whole.date),
        through_date: date(whole.through),
        from_date: whole.from.map(date),
        as_of: time(whole.as_of),
        zone: whole.zone.clone(),
        catalogue_revision: whole.catalogue_revision.clone(),
        fabrics: whole.order.iter().filter_map(|at| fabrics.get(*at).cloned()).collect(),
        notes: more.iter().cloned().chain(whole.notes.iter().map(note)).collect(),
        back_test: whole.back_test.as_ref().map(back_test),
        season: season.collect(),
    }
}

/// What of a fabric is wanted for the whole.
pub fn gist(fabric: &v1::BurnFabric) -> Gist {
    let nothing = v1::BurnDetail::default();
    let detail = fabric.detail.as_ref().unwrap_or(&nothing);
    let idle = detail.notes.iter().any(|note| note.code == NOT_USED);
    let scores = detail.scores.iter().filter(|_| !idle).map(|score| MethodScore {
        method: score.method.clone(),
        seasonal: score.seasonal,
        rmsse: score.rmsse,
        pinball: score.pinball,
        bias: score.bias,
        score: score.score,
        weeks: score.weeks,
    });
    Gist {
        code: fabric.code.clone(),
        name: fabric.name.clone(),
        pressing: match fabric.pressing() {
            v1::Pressing::Today => Pressing::Today,
            v1::Pressing::Soon => Pressing::Soon,
            v1::Pressing::Look => Pressing::Look,
            v1::Pressing::Nothing | v1::Pressing::Unspecified => Pressing::Nothing,
        },
        order_by: fabric.order_by_date.as_deref().and_then(numbered),
        method: detail.method.clone(),
        seasonal: detail.seasonal,
        scores: scores.collect(),
    }
}
