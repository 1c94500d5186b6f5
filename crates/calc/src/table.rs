//! Reading the tables of check values, in whole millionths: no test rounds by accident.

/// The cells of a table, its first line checked and left out.
pub fn rows<const N: usize>(text: &'static str, columns: [&str; N]) -> Vec<[String; N]> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    assert_eq!(reader.headers().expect("a first line"), &columns[..], "columns");
    let cells = |row: csv::StringRecord| std::array::from_fn(|at| row[at].to_owned());
    reader.records().map(|row| cells(row.expect("the table reads"))).collect()
}

/// A decimal number in millionths.
pub fn millionths(text: &str) -> i64 {
    let (sign, digits) = text.strip_prefix('-').map_or((1, text), |rest| (-1, rest));
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    assert!(part.len() <= 6, "{text} is finer than a millionth");
    let value: i64 = format!("{whole}{part:0<6}").parse().unwrap_or_else(|_| panic!("{text} is no number"));
    sign * value
}

/// A length of a table to the nearest micrometre; the unit is `mm` or `in`, an inch
/// 25.4 mm.
pub fn length_um(text: &str, unit: &str) -> i64 {
    let per_unit = match unit {
        "mm" => 1_000,
        "in" => 25_400,
        other => panic!("no unit {other}"),
    };
    (millionths(text) * per_unit + 500_000).div_euclid(1_000_000)
}

#[test]
fn numbers_of_tables_are_read() {
    assert_eq!(millionths("-12.5"), -12_500_000);
    assert_eq!(millionths("0.000001"), 1);
    assert_eq!(length_um("6.5", "in"), 165_100);
    assert_eq!(length_um("219.5", "mm"), 219_500);
    assert_eq!(length_um("0.001", "in"), 25);
    assert_eq!(length_um("0.00002", "in"), 1);
}
