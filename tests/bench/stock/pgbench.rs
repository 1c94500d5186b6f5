//! The statements that a hold and its end really run, as a script of `pgbench`.
//!
//! They are taken from the server's own log of one of each, made with names that are found
//! again in the values: those become each client's own, everything else stays as it was.
//!
//! The log says in which order the statements came and not for which of them the engine waited:
//! it sends those together that need nothing of each other's answers. So there are two scripts of
//! the same statements. One waits for every message, as a client does that sends one at a time; the
//! other sends a whole change at once, from `BEGIN` to `COMMIT`, and waits once. The engine cannot:
//! it decides by what it reads, and commits after it has seen that all is written.

use std::fmt::Write as _;
use std::time::Duration;

use pennantryd::ledger::postgres::{Options, Store};

use super::goods::{hold, label, let_go};
use super::server::{Database, tool};
use super::told;

/// The number of the bolt, the reservation and the changes that are looked for. Their digits
/// come from nowhere else.
const BOLT: u64 = 81_357;
const RESERVATION: u64 = 918_273_645_546_372;
const HOLD: [u8; 16] = [0x91, 0x73, 0x55, 0x19, 0x37, 0x91, 0x82, 0x46, 0, 0, 0, 0, 0, 0, 0, 1];
const LET_GO: [u8; 16] = [0x82, 0x64, 0x28, 0x46, 0x64, 0x82, 0x91, 0x37, 0, 0, 0, 0, 0, 0, 0, 1];

/// Where each of those is in a text, and what stands there for a client.
const NAMES: [(&str, &str); 4] = [
    ("91357", ":bolt"),
    ("918273645546372", ":reservation"),
    ("9173551937918246", ":hold"),
    ("8264284664829137", ":release"),
];

/// Scripts of a hold and its end.
#[derive(Default)]
pub struct Scripts {
    /// Waits for each message.
    pub waiting: String,
    /// Waits for each change.
    pub together: String,
    pub statements: usize,
    /// How often the first one waits.
    pub messages: usize,
}

/// What stands before the statements.
const NUMBERS: &str = "\\set bolt 10000 + :client_id\n\
    \\set reservation random(200000000000000, 899999999999999)\n\
    \\set hold random(1000000000000000, 8999999999999999)\n\
    \\set release random(1000000000000000, 8999999999999999)\n";

impl Scripts {
    /// Has the engine make a hold and end it, and reads what the server logged.
    pub async fn of_the_engine(database: &Database) -> Result<Scripts, String> {
        database.ask(&format!(
            "INSERT INTO piece SELECT 'B-91357', kind, class, code, lot, width, received, left_over, held, confirmed, \
             flaws, parent, cut, location, cost_minor, supplier, supplier_reference, certificates, purchase, at \
             FROM piece WHERE id = '{}'",
            label(0)
        ));
        let folder = database.ask("SHOW data_directory");
        let log =
            folder.strip_suffix("data").map(|folder| format!("{folder}log")).ok_or("no log is known")?;
        database.ask("DO $$ BEGIN EXECUTE format('ALTER DATABASE %I SET log_statement = ''all''', current_database()); END $$");
        let options = Options { connections: 1, ..Options::default() };
        let store = Store::open(&database.url(), options).await.map_err(told)?;
        let before = std::fs::metadata(&log).map_err(told)?.len();
        store.apply(hold(HOLD, RESERVATION, label(BOLT)), None).await.map_err(told)?;
        store.apply(let_go(LET_GO, RESERVATION), None).await.map_err(told)?;
        store.close().await;
        let text = std::fs::read(&log).map_err(told)?;
        let skip = usize::try_from(before).unwrap_or(0);
        let text = String::from_utf8_lossy(text.get(skip..).unwrap_or_default()).into_owned();
        database.ask(
            "DO $$ BEGIN EXECUTE format('ALTER DATABASE %I RESET log_statement', current_database()); END $$",
        );
        database.ask(
            "DELETE FROM line WHERE piece = 'B-91357'; DELETE FROM movement WHERE piece = 'B-91357'; \
             DELETE FROM event WHERE reservation LIKE '%918273645546372'; DELETE FROM request WHERE key LIKE \
             '%918273645546372'; DELETE FROM reservation WHERE id LIKE '%918273645546372'; \
             DELETE FROM piece WHERE id = 'B-91357'",
        );
        write(&statements(&text))
    }
}

/// A statement, and its values in the order of their numbers.
struct Statement {
    text: String,
    values: Vec<Option<String>>,
}

/// What was logged, in order.
fn statements(log: &str) -> Vec<Statement> {
    let mut found: Vec<Statement> = Vec::new();
    for line in log.lines() {
        if let Some((_, rest)) = line.split_once("LOG:  execute ") {
            let text = rest.split_once(": ").map_or(rest, |(_, text)| text).to_owned();
            found.push(Statement { text, values: Vec::new() });
        } else if let Some((_, text)) = line.split_once("LOG:  statement: ") {
            found.push(Statement { text: text.to_owned(), values: Vec::new() });
        } else if let Some((_, rest)) = line.split_once("arameters: ")
            && let Some(last) = found.last_mut()
        {
            last.values = values(rest);
        }
    }
    found
}

/// Reads `$1 = 'a', $2 = NULL`.
fn values(text: &str) -> Vec<Option<String>> {
    let mut values = Vec::new();
    let mut rest = text;
    while let Some((_, after)) = rest.split_once(" = ") {
        let Some(quoted) = after.strip_prefix('\'') else {
            values.push(None);
            rest = after;
            continue;
        };
        let (mut value, mut letters) = (String::new(), quoted.char_indices().peekable());
        rest = "";
        while let Some((place, letter)) = letters.next() {
            if letter != '\'' {
                value.push(letter);
            } else if letters.next_if(|(_, next)| *next == '\'').is_some() {
                value.push('\'');
            } else {
                rest = quoted.get(place + 1..).unwrap_or_default();
                break;
            }
        }
        values.push(Some(value));
    }
    values
}

/// Makes scripts: each change from its `BEGIN` to its `COMMIT`, without the looks.
fn write(logged: &[Statement]) -> Result<Scripts, String> {
    let mut scripts =
        Scripts { waiting: NUMBERS.to_owned(), together: NUMBERS.to_owned(), ..Scripts::default() };
    let (mut within, mut commits) = (false, 0);
    for statement in logged {
        let begins = statement.text.starts_with("BEGIN ISOLATION LEVEL READ COMMITTED");
        within |= begins;
        if !within {
            continue;
        }
        let parts: Vec<&str> = if statement.values.is_empty() {
            statement.text.split(';').map(str::trim).filter(|part| !part.is_empty()).collect()
        } else {
            vec![&statement.text]
        };
        scripts.messages += 1;
        scripts.statements += parts.len();
        let mut lines = String::new();
        for part in &parts {
            writeln!(lines, "{};", filled(part, &statement.values)).map_err(told)?;
        }
        let commits_now = statement.text.starts_with("COMMIT");
        // what goes in one message goes in one here, too
        scripts.waiting.push_str(&piped(&lines, parts.len() > 1, parts.len() > 1));
        scripts.together.push_str(&piped(&lines, begins, commits_now));
        if commits_now {
            within = false;
            commits += 1;
        }
    }
    if commits == 2 { Ok(scripts) } else { Err(format!("{commits} changes are in the log, and not two")) }
}

/// Lines at the begin or the end of those that are sent together.
fn piped(lines: &str, begins: bool, ends: bool) -> String {
    let (begin, end) =
        (if begins { "\\startpipeline\n" } else { "" }, if ends { "\\endpipeline\n" } else { "" });
    format!("{begin}{lines}{end}")
}

/// A statement with its values in it.
fn filled(statement: &str, values: &[Option<String>]) -> String {
    let mut text = statement.to_owned();
    // from the last one, since $1 is the beginning of $10
    for (place, value) in values.iter().enumerate().rev() {
        let name = format!("${}", place + 1);
        let value = value.as_deref().map_or_else(|| "NULL".to_owned(), literal);
        let of_list = format!("ANY({name})");
        text = text.replace(&of_list, &format!("ANY(CAST({value} AS text[]))")).replace(&name, &value);
    }
    text
}

/// A value as it is written in a statement: names that are looked for give way to a client's.
fn literal(value: &str) -> String {
    let mut text = format!("'{}'", value.replace('\'', "''"));
    let mut joined = false;
    // the longest first: one is within another
    for (name, variable) in NAMES.iter().rev() {
        joined |= text.contains(name);
        text = text.replace(name, &format!("' || {variable} || '"));
    }
    if joined { format!("({text})") } else { text }
}

/// Runs a script by so many clients; how often a second.
pub fn run(database: &Database, script: &str, clients: u64, time: Duration) -> Result<f64, String> {
    let file = std::env::temp_dir().join(format!("pennantry-bench-{}.sql", std::process::id()));
    std::fs::write(&file, script).map_err(told)?;
    let name = database.ask("SELECT current_database()");
    let mut command = tool("pgbench", database.port(), &["--no-vacuum", "--protocol=prepared", "--jobs=2"]);
    command.arg(format!("--client={clients}")).arg(format!("--time={}", time.as_secs()));
    let done = command.arg("--file").arg(&file).arg(name).output().map_err(told)?;
    let (out, err) = (String::from_utf8_lossy(&done.stdout), String::from_utf8_lossy(&done.stderr));
    if !done.status.success() || err.contains("ERROR") {
        return Err(format!("pgbench: {err}"));
    }
    std::fs::remove_file(&file).map_err(told)?;
    let rate =
        out.lines().find_map(|line| line.strip_prefix("tps = ")).and_then(|rest| rest.split(' ').next());
    rate.and_then(|rate| rate.parse().ok()).ok_or_else(|| format!("pgbench: {out}"))
}
