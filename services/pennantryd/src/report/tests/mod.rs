//! What the report looks like, read back.

mod drawing;
mod page;
mod shop;
mod tables;

/// Writes every kind of page into a folder, where one is named: to be looked at.
#[test]
fn pages_can_be_looked_at() {
    let Some(folder) = std::env::var_os("PENNANTRY_LOOK") else { return };
    let folder = std::path::PathBuf::from(folder);
    for (name, report) in [
        ("usual", shop::usual()),
        ("first", shop::first_week()),
        ("bare", shop::bare()),
        ("many", shop::many(400)),
    ] {
        let page = super::page(&report, &shop::heads());
        std::fs::write(folder.join(format!("{name}.html")), page).expect("the page is written");
        std::fs::write(folder.join(format!("{name}.txt")), super::text(&report))
            .expect("the text is written");
        std::fs::write(folder.join(format!("{name}.csv")), super::csv(&report).expect("a table"))
            .expect("the table is written");
    }
}
