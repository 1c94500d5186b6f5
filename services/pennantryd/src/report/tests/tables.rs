//! The tables, read back, and the short text.

use csv::StringRecord;
use pennantry_contract::v1::BurnReport;
use unicode_width::UnicodeWidthStr;

use super::page::hostile;
use super::shop;
use crate::report::{csv as fabrics, proposals_csv, text};

fn read(table: &str) -> (StringRecord, Vec<StringRecord>) {
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    let headers = reader.headers().expect("headers").clone();
    (headers, reader.records().map(|row| row.expect("a row")).collect())
}

/// Takes away the apostrophe that keeps a spreadsheet from working a cell out.
fn plain(cell: &str) -> &str {
    let inside = cell.trim_start_matches(['\'', ' ']);
    let guarded = cell.starts_with('\'') && inside.starts_with(['=', '+', '-', '@', '\t', '\r', '\n']);
    if guarded { &cell[1..] } else { cell }
}

#[test]
fn the_table_of_fabrics_reads_back() {
    for report in [shop::usual(), shop::first_week(), hostile(), shop::bare()] {
        let (headers, rows) = read(&fabrics(&report).expect("a table"));
        assert_eq!(rows.len(), report.fabrics.len());
        for (row, fabric) in rows.iter().zip(&report.fabrics) {
            let cell = |name: &str| {
                let at = headers.iter().position(|header| header == name).expect("a header");
                plain(&row[at]).to_owned()
            };
            let figure = |name: &str| cell(name).parse::<f64>().ok();
            let same = |name: &str, mm: Option<f64>| {
                let found = figure(name).map(|metres| (metres * 1e6).round());
                assert_eq!(found, mm.map(|mm| (mm * 1000.0).round()), "{name}");
            };
            assert_eq!((cell("code"), cell("name")), (fabric.code.clone(), fabric.name.clone()));
            assert_eq!(cell("sentence"), fabric.sentence);
            same("free_m", Some(fabric.free_mm));
            same("used_in_four_weeks_m", Some(fabric.used_mm));
            same("usual_for_these_weeks_m", fabric.usual_mm);
            same("on_order_m", Some(fabric.on_order_mm));
            assert_eq!(figure("weeks_left"), fabric.weeks_left);
            assert_eq!(cell("order_by_date"), fabric.order_by_date.clone().unwrap_or_default());
            same("proposal_m", fabric.proposal_mm);
            let detail = fabric.detail.as_ref().expect("a detail");
            same("on_hand_m", Some(detail.on_hand_mm));
            same("position_m", Some(detail.position_mm));
            same("longest_single_length_m", detail.lots.iter().map(|lot| lot.longest_mm).reduce(f64::max));
            same("wastage_ends_m", detail.wastage.as_ref().map(|wastage| wastage.ends_mm));
        }
    }
    let (headers, rows) = read(&fabrics(&shop::first_week()).expect("a table"));
    let at = headers.iter().position(|header| header == "not_said").expect("a header");
    assert!(
        rows[0][at].contains("Weeks left: not known yet (a forecast takes 8 weeks since the first use"),
        "{}",
        &rows[0][at]
    );
}

/// RFC 4180: lines end with CRLF, and a quote inside quotes is doubled.
#[test]
fn tables_are_as_rfc_4180_has_them() {
    let mut report = shop::usual();
    report.fabrics.truncate(1);
    report.fabrics[0].name = "Kelp, \"green\"".into();
    let table = fabrics(&report).expect("a table");
    assert_eq!(table.matches("\r\n").count(), 2);
    assert_eq!(table.matches('\n').count(), 2);
    assert!(table.contains(",\"Kelp, \"\"green\"\"\","), "{table}");
}

/// Beginnings by OWASP's page "CSV Injection".
#[test]
fn no_cell_is_worked_out_by_a_spreadsheet() {
    let mut report = shop::usual();
    let beginnings = ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", " =1", "'=1", "\u{ff1d}1"];
    for beginning in beginnings {
        for fabric in &mut report.fabrics {
            fabric.name = beginning.into();
            fabric.detail.as_mut().expect("a detail").buying.as_mut().expect("bought").supplier =
                beginning.into();
        }
        for table in [fabrics(&report), proposals_csv(&report, None)] {
            let (headers, rows) = read(&table.expect("a table"));
            let at = headers.iter().position(|header| header == "name").expect("a header");
            let expected = format!("'{beginning}");
            assert!(!rows.is_empty() && rows.iter().all(|row| row[at] == expected), "{beginning:?}");
        }
    }
    // a figure below nought stays a figure, and an apostrophe of a name its own
    report.fabrics[0].name = "'Tis Kelp".into();
    report.fabrics[0].detail.as_mut().expect("a detail").position_mm = -1_500.0;
    let table = fabrics(&report).expect("a table");
    assert!(table.contains(",-1.5,") && table.contains(",'Tis Kelp,"), "{table}");
}

fn supplied(report: &mut BurnReport, place: usize, supplier: &str) {
    let detail = report.fabrics[place].detail.as_mut().expect("a detail");
    detail.buying.as_mut().expect("bought").supplier = supplier.into();
}

#[test]
fn proposals_stand_by_supplier() {
    let mut report = shop::usual();
    supplied(&mut report, 0, "Tern & Daughters");
    let (headers, rows) = read(&proposals_csv(&report, None).expect("a table"));
    let names = "supplier their_reference code name metres bolts order_by_date cost currency";
    assert_eq!(headers.iter().collect::<Vec<_>>().join(" "), names);
    let rows: Vec<String> = rows.iter().map(|row| row.iter().collect::<Vec<_>>().join("|")).collect();
    assert_eq!(
        rows,
        [
            "Harbour Mills|HM 2210/14|chandlers-rope|Chandler's Rope|60.0005|3|2026-12-16|1234.56|GBP",
            "Tern & Daughters|HM 2210/14|kelp|Kelp|70.0005|3|2026-12-07|1234.56|GBP",
        ]
    );
    let (_, one) = read(&proposals_csv(&report, Some("Harbour Mills")).expect("a table"));
    assert_eq!(one.len(), 1);
    let (_, none) = read(&proposals_csv(&report, Some("harbour")).expect("a table"));
    assert_eq!(none.len(), 0);
}

#[test]
fn the_text_fits_eighty_columns_and_steers_no_terminal() {
    for report in [shop::usual(), shop::first_week(), shop::bare(), hostile(), BurnReport::default()] {
        let told = text(&report);
        for line in told.lines() {
            assert!(line.width() <= 80, "{}: {line}", line.width());
            assert!(!line.contains(char::is_control) && !line.contains('\u{202e}'), "{line:?}");
        }
    }
}

#[test]
fn the_text_says_what_needs_doing_then_totals() {
    let told = text(&shop::usual());
    let lines: Vec<&str> = told.lines().collect();
    assert_eq!(lines[0], "Burn rate on Mon 7 Dec 2026, use up to Sun 6 Dec 2026");
    assert!(lines[1].starts_with("Today  Kelp: Order 70.00 m today"), "{told}");
    assert!(
        told.contains("\nSoon   Chandler's Rope: Order 60.00 m by") && told.contains("\nLook   Bell Buoy: ")
    );
    // 18 + 31 + 12 + 96 + 44 + 52 + 204 and seven times 0.25; 75 + 25 + 25; 2 x 1,234.56, by hand
    assert!(told.contains("\n458.75 m free, ") && told.contains(" 125.00 m on order."), "{told}");
    assert!(told.contains("\nProposed: 2 orders, 130.00 m, 2,469.12 GBP before tax.\n"), "{told}");
    assert!(told.contains("\nDead on the shelf: one fabric, 19.75 m.\n"), "{told}");
    assert!(text(&shop::first_week()).contains("Nobody can say yet what has to be ordered"));
}
