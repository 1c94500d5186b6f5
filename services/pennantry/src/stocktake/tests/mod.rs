//! Files that are read, files that are not, and files that are written and read back.

mod bad;
mod good;
mod round_trip;

use super::*;

fn rows(text: &str) -> Vec<Row> {
    match read(text.as_bytes()) {
        Ok(rows) => rows,
        Err(faults) => panic!("{text:?}: {faults:?}"),
    }
}

fn faults(bytes: &[u8]) -> Vec<String> {
    read(bytes).expect_err("a fault").iter().map(ToString::to_string).collect()
}
