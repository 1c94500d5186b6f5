//! s
fn main() {}
