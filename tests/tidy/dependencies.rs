//! Who may import whom, over what cargo says of the workspace.

use std::process::Command;

use serde_json::Value;

/// What a package may import: packages of the house, then packages from outside.
struct Row {
    package: &'static str,
    house: &'static [&'static str],
    outside: &'static [&'static str],
}

/// The table. A package that is not built yet keeps its row; a package without a
/// row has no place in the house.
const TABLE: &[Row] = &[
    Row { package: "pennantry-measure", house: &[], outside: &[] },
    Row { package: "pennantry-calc", house: &["pennantry-measure"], outside: &["libm", "thiserror"] },
    Row { package: "pennantry-forecast", house: &["pennantry-measure"], outside: &["libm", "statrs"] },
    Row {
        package: "pennantry-ledger",
        house: &["pennantry-measure"],
        outside: &[
            "rusqlite",
            "sha2",
            "tokio-postgres",
            "deadpool-postgres",
            "tokio",
            "thiserror",
            "tracing",
        ],
    },
    Row {
        package: "pennantry-contract",
        house: &[],
        outside: &["prost", "tonic", "tonic-prost", "serde", "pbjson"],
    },
    Row {
        package: "pennantry-app",
        house: &["pennantry-measure", "pennantry-calc", "pennantry-forecast", "pennantry-ledger"],
        outside: &["jiff", "thiserror", "tracing"],
    },
    Row {
        package: "pennantryd",
        house: &[
            "pennantry-measure",
            "pennantry-calc",
            "pennantry-forecast",
            "pennantry-ledger",
            "pennantry-contract",
            "pennantry-app",
        ],
        outside: &[
            "axum",
            "base64",
            "bytes",
            "clap",
            "csv",
            "getrandom",
            "hmac",
            "http",
            "http-body-util",
            "hyper",
            "hyper-util",
            "jiff",
            "prometheus-client",
            "prost",
            "serde",
            "serde_json",
            "sha2",
            "thiserror",
            "tokio",
            "tokio-stream",
            "toml",
            "tonic",
            "tonic-health",
            "tonic-reflection",
            "tonic-types",
            "tower",
            "tower-http",
            "tracing",
            "tracing-subscriber",
            "unicode-segmentation",
            "unicode-width",
            "uuid",
        ],
    },
    Row {
        package: "pennantry",
        house: &["pennantry-measure", "pennantry-contract"],
        // a stock-take is read as spreadsheets write it; a request's identity is random
        outside: &[
            "clap",
            "csv",
            "getrandom",
            "serde_json",
            "tokio",
            "tonic",
            "tonic-types",
            "unicode-width",
        ],
    },
    // what its library and the benchmark may import; test libraries are dev-dependencies
    Row {
        package: "pennantry-tests",
        house: &["pennantry", "pennantry-measure", "pennantry-contract", "pennantryd"],
        outside: &[
            "axum",
            "base64",
            "bytes",
            "hmac",
            "http",
            "jiff",
            "prost",
            "rusqlite",
            "serde_json",
            "sha2",
            "tokio",
            "tokio-stream",
            "tonic",
            "tonic-health",
            "tower",
        ],
    },
];

/// What cargo says of the workspace.
fn metadata() -> Value {
    let cargo = std::env::var("CARGO").expect("cargo runs the tests and says where it is");
    let told = Command::new(cargo)
        .args(["metadata", "--format-version", "1", "--no-deps", "--locked", "--offline"])
        .current_dir(super::top())
        .output()
        .expect("cargo metadata runs");
    assert!(told.status.success(), "cargo metadata: {}", String::from_utf8_lossy(&told.stderr));
    serde_json::from_slice(&told.stdout).expect("cargo metadata is JSON")
}

fn packages(metadata: &Value) -> &[Value] {
    metadata["packages"].as_array().expect("packages").as_slice()
}

fn name(of: &Value) -> &str {
    of["name"].as_str().expect("a name")
}

/// Everything in the metadata that the table does not allow.
fn complaints(metadata: &Value) -> Vec<String> {
    let mut found = Vec::new();
    for package in packages(metadata) {
        let Some(row) = TABLE.iter().find(|row| row.package == name(package)) else {
            found.push(format!("{} has no row in the dependency table", name(package)));
            continue;
        };
        for dependency in package["dependencies"].as_array().expect("dependencies") {
            let of_house = !dependency["path"].is_null();
            let allowed = if of_house { row.house } else { row.outside };
            match dependency["kind"].as_str() {
                Some("dev") => {}
                Some(kind) => {
                    found.push(format!("{}: {kind} dependency {}", row.package, name(dependency)));
                }
                None if allowed.contains(&name(dependency)) => {}
                None => found.push(format!("{} may not import {}", row.package, name(dependency))),
            }
        }
    }
    found
}

#[test]
fn each_package_imports_only_what_its_row_allows() {
    let metadata = metadata();
    assert!(packages(&metadata).len() >= 6, "cargo names too few packages");
    super::none("forbidden imports", &complaints(&metadata));
}

#[test]
fn an_import_outside_the_row_is_found() {
    let wrong = serde_json::json!({"packages": [
        {"name": "pennantry-calc", "dependencies": [
            {"name": "pennantry-contract", "kind": null, "path": "crates/contract"},
            {"name": "tokio", "kind": null},
            {"name": "cc", "kind": "build"},
            {"name": "geo", "kind": "dev"},
            {"name": "libm", "kind": null},
        ]},
        {"name": "pennantry-extra", "dependencies": []},
    ]});
    assert_eq!(
        complaints(&wrong),
        [
            "pennantry-calc may not import pennantry-contract",
            "pennantry-calc may not import tokio",
            "pennantry-calc: build dependency cc",
            "pennantry-extra has no row in the dependency table",
        ]
    );
}

#[test]
fn no_package_has_a_build_script_and_each_has_a_description() {
    let mut found = Vec::new();
    for package in packages(&metadata()) {
        let scripted = package["targets"]
            .as_array()
            .expect("targets")
            .iter()
            .flat_map(|target| target["kind"].as_array().expect("kinds"))
            .any(|kind| kind == "custom-build");
        if scripted {
            found.push(format!("{} has a build script", name(package)));
        }
        if package["description"].as_str().is_none_or(|words| words.trim().is_empty()) {
            found.push(format!("{} has no description", name(package)));
        }
    }
    super::none("packages", &found);
}
