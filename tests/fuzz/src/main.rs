//! One way in, given whatever the fuzzer thinks of: `PENNANTRY_TARGET` names it.
#![no_main]

use std::sync::LazyLock;

use libfuzzer_sys::{Corpus, fuzz_target};
use pennantry_tests::robust::{Target, seeds, target};

static TARGET: LazyLock<Target> = LazyLock::new(|| {
    let name = std::env::var("PENNANTRY_TARGET").unwrap_or_default();
    target(&name).unwrap_or_else(|| panic!("PENNANTRY_TARGET is {name:?}, which is no way in"))
});

fuzz_target!(
    init: {
        if let Ok(folder) = std::env::var("PENNANTRY_SEEDS") {
            for (number, seed) in seeds(TARGET.name).into_iter().enumerate() {
                std::fs::write(format!("{folder}/seed-{number}"), seed).expect("a folder for seeds");
            }
        }
    },
    |bytes: &[u8]| -> Corpus {
        if bytes.len() > TARGET.most {
            return Corpus::Reject;
        }
        if let Err(fault) = (TARGET.hold)(bytes) {
            panic!("{fault}");
        }
        Corpus::Keep
    }
);
