//! What is left after a crash: of the server, of its database, of a caller.
//!
//! | module | what breaks |
//! |---|---|
//! | `kill` | the server is killed (SIGKILL) while many change the stock, again and again |
//! | `database` | PostgreSQL is killed under a server that goes on |
//! | `disk` | the disk under the embedded stock fails for a while |
//! | `hang_up` | callers close their sockets in the middle of a change |
//! | `last_metre` | nothing, but a hundred want the last ten metres at once |
//!
//! A killed process leaves what it has handed to the system, so these runs find answers given
//! before a commit, halves of changes and starts that need a hand. What a power cut leaves is
//! another matter: for that nothing can be tried here but that commits wait for the disk, as
//! tests of the engines do.
//!
//! Lengths of the runs: `CRASH_ROUNDS` (20) kills for each engine, from `CRASH_SEED` (1).

mod database;
mod disk;
mod hang_up;
mod kill;
mod last_metre;
#[path = "../../../../tests/postgres.rs"]
mod postgres;
mod wire;
mod work;

use std::process::Command;

use serde_json::{Value, json};

use self::postgres::Database;
use self::wire::{Call, Caller};
use super::process::{Server, program, run};

/// A number from the environment.
fn from_environment(name: &str, otherwise: u64) -> u64 {
    std::env::var(name).map_or(otherwise, |text| text.parse().expect("a number"))
}

/// A shop's stock, whether or not a server has it open.
struct Shop {
    data: tempfile::TempDir,
    database: Option<Database>,
}

impl Shop {
    /// In a file of a data folder.
    fn embedded() -> Shop {
        Shop { data: tempfile::tempdir().unwrap(), database: None }
    }

    /// In a database of its own.
    fn shared(database: Database) -> Shop {
        let (code, _, err) = run(&mut program(&["migrate", "--database", &database.url()]));
        assert_eq!(code, 0, "{err}");
        Shop { data: tempfile::tempdir().unwrap(), database: Some(database) }
    }

    /// Starts a server, which needs no hand to come up.
    fn serve(&self) -> Server {
        let server = Server::spawn(&mut self.flags(program(&[])));
        assert!(!server.first_line.is_empty(), "it does not start: {}", server.log_says(&[]));
        server
    }

    /// What it is served with.
    fn flags(&self, mut command: Command) -> Command {
        let free = "127.0.0.1:0";
        command.args([
            "serve",
            "--public",
            free,
            "--private",
            free,
            "--admin",
            free,
            "--log",
            "warn",
            "--data",
        ]);
        command.arg(self.data.path());
        if let Some(database) = &self.database {
            command.args(["--database", &database.url()]);
        }
        command
    }

    /// Every balance agrees with its movements, nothing is without its other end.
    fn agrees(&self) {
        let mut command = program(&["verify"]);
        match &self.database {
            Some(database) => command.args(["--database", &database.url()]),
            None => command.arg("--data").arg(self.data.path()),
        };
        let (code, out, err) = run(&mut command);
        assert_eq!((code, err.as_str()), (0, ""), "{out}");
        assert!(out.starts_with("all agrees: "), "{out}");
    }
}

/// The ticket of a string that is cut from 0.30 m of one cloth: two pennants of 210 mm in a
/// row, squared, charged in steps of 100 mm (the rules of the demo shop's cloth), and sewn to
/// 1.12 m of binding.
fn ticket(server: &Server) -> String {
    let quote = server.post(
        "public",
        "/v1/quotes",
        &json!({"flaggedMm": 500, "colourOrder": {"rule": "RULE_REPEAT", "fabricCodes": ["kelp"]}}),
    );
    assert_eq!(quote["fabrics"][0]["chargedMm"], 300.0, "{quote}");
    quote["token"].as_str().unwrap().to_owned()
}

/// A hold by a ticket; what it asks about children is acknowledged.
fn hold(token: &str) -> Value {
    json!({"token": token, "acknowledgedRuleIds": ["R00"], "seconds": 1_800})
}

/// Puts cloth and binding for many strings on the shelf.
fn deliver(caller: &mut Caller, label: &str, cloth_mm: u32, binding_mm: u32) {
    let pieces = json!([
        {"pieceId": format!("{label}-cloth"), "code": "kelp", "quantity": {"lengthMm": cloth_mm}},
        {"pieceId": format!("{label}-binding"), "code": "bosun-25", "quantity": {"lengthMm": binding_mm}},
    ]);
    caller.done(Call::ReceiveStock, &json!({"requestId": format!("{label}-delivery"), "pieces": pieces}));
}
