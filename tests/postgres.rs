//! PostgreSQL for tests: a database of its own for each, or a server of its own that may be
//! killed.
//!
//! A server that listens on 127.0.0.1:5432 and trusts the user `postgres` is used for
//! databases. Where there is none, one is started for the whole run. Every server started here
//! has a guard, a shell that waits for the test to end, however it ends, and then stops the
//! server and removes its folder.
//!
//! Only the standard library is used, and PostgreSQL's own programs, from `PATH` or from
//! `/usr/lib/postgresql`. Any package's tests take it in by `#[path]`.

use std::io::{BufRead, BufReader, Write};
use std::net::{Ipv4Addr, SocketAddr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};
use std::sync::OnceLock;
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::Duration;

/// A database that is dropped with the value.
#[derive(Debug)]
pub struct Database {
    name: String,
    port: u16,
}

impl Database {
    /// A new, empty database.
    pub fn new() -> Database {
        static OWN: OnceLock<Server> = OnceLock::new();
        let usual = SocketAddr::from((Ipv4Addr::LOCALHOST, 5432));
        let port = match TcpStream::connect_timeout(&usual, Duration::from_millis(500)) {
            Ok(_) => usual.port(),
            Err(_) => OWN.get_or_init(Server::start).port,
        };
        Database::on(port)
    }

    /// A new, empty database on a server of this machine.
    pub fn on(port: u16) -> Database {
        let name = format!("pennantry_test_{}", unique());
        run(&mut tool("createdb", port, &["--template=template0", &name]));
        Database { name, port }
    }

    /// Its address.
    pub fn url(&self) -> String {
        self.url_by(self.port)
    }

    /// Its address through something that listens on another port.
    pub fn url_by(&self, port: u16) -> String {
        format!("postgres://postgres@127.0.0.1:{port}/{}", self.name)
    }

    /// The port of its server.
    pub fn port(&self) -> u16 {
        self.port
    }

    /// What a session of its own answers to statements: rows as lines, columns by `|`.
    pub fn ask(&self, statements: &str) -> String {
        let arguments = ["--no-psqlrc", "--tuples-only", "--no-align", "--set=ON_ERROR_STOP=1", "--command"];
        let mut psql = tool("psql", self.port, &arguments);
        psql.arg(statements).arg(&self.name);
        String::from_utf8_lossy(&run(&mut psql).stdout).trim_end().to_owned()
    }

    /// Begins a transaction of a session of its own with a statement, and leaves it open.
    pub fn lock(&self, statement: &str) -> Open {
        let mut psql =
            tool("psql", self.port, &["--no-psqlrc", "--tuples-only", "--quiet", "--set=ON_ERROR_STOP=1"]);
        let mut session =
            psql.arg(&self.name).stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().expect("psql runs");
        let input = session.stdin.as_mut().expect("its input");
        writeln!(input, "BEGIN;\n{statement};\n\\echo begun").expect("it reads");
        let mut told = BufReader::new(session.stdout.take().expect("its output"));
        let mut line = String::new();
        while line.trim_end() != "begun" {
            line.clear();
            assert!(told.read_line(&mut line).expect("it speaks") > 0, "{statement} ends the session");
        }
        Open { session }
    }
}

/// A transaction that is open until this is dropped.
#[derive(Debug)]
pub struct Open {
    session: Child,
}

impl Drop for Open {
    fn drop(&mut self) {
        // psql ends with its input, and the transaction with psql
        drop(self.session.stdin.take());
        let _ = self.session.wait();
    }
}

impl Drop for Database {
    fn drop(&mut self) {
        let _ = tool("dropdb", self.port, &["--if-exists", "--force", &self.name]).output();
    }
}

/// A server that is stopped with the value.
#[derive(Debug)]
pub struct Server {
    folder: PathBuf,
    port: u16,
    guard: Child,
}

impl Server {
    /// A new server on a free port, with nothing in it.
    pub fn start() -> Server {
        let folder = std::env::temp_dir().join(format!("pennantry-postgres-{}", unique()));
        std::fs::create_dir(&folder).expect("a folder for a server");
        if let Some(user) = other_user() {
            run(Command::new("chown").arg(user).arg(&folder));
        }
        let data = folder.join("data");
        run(as_user("initdb")
            .args(["--username=postgres", "--auth=trust", "--encoding=UTF8", "--locale=C", "--no-sync"])
            .arg("--pgdata")
            .arg(&data));
        let mut server = Server { guard: guard(&folder, &data), folder, port: 0 };
        // a port that is free now may be taken before the server has it
        for _ in 0..5 {
            server.port = free_port();
            if server.control(&["start", "-o", &options(server.port)]).status.success() {
                return server;
            }
        }
        panic!("no server could be started in {}", server.folder.display());
    }

    /// The port on which it listens.
    pub fn port(&self) -> u16 {
        self.port
    }

    /// Kills it without giving it time for anything, and starts it again.
    pub fn restart_at_once(&self) {
        self.stop_at_once();
        self.start_again();
    }

    /// Kills it without giving it time for anything.
    pub fn stop_at_once(&self) {
        let done = self.control(&["stop", "-m", "immediate"]);
        assert!(done.status.success(), "the server in {} does not stop", self.folder.display());
    }

    /// Starts it where it was stopped, on the same port.
    pub fn start_again(&self) {
        let done = self.control(&["start", "-o", &options(self.port)]);
        assert!(done.status.success(), "the server in {} does not start again", self.folder.display());
    }

    fn control(&self, arguments: &[&str]) -> Output {
        let mut command = as_user("pg_ctl");
        command.args(arguments).args(["--wait", "--timeout=60", "--silent", "--pgdata"]);
        command.arg(self.folder.join("data")).arg("--log").arg(self.folder.join("log"));
        // the server keeps what it inherits, and whoever read its end would wait for ever
        command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
        command.output().expect("pg_ctl runs")
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        // the guard's input ends, and it does the rest
        drop(self.guard.stdin.take());
        let _ = self.guard.wait();
    }
}

/// A shell that stops the server and removes its folder once its input ends: when it is told
/// to, or when the test is no more.
fn guard(folder: &Path, data: &Path) -> Child {
    let script = "read -r _; \"$1\" stop --silent --mode=immediate --pgdata \"$2\"; rm -rf \"$3\"";
    let mut shell = as_user("sh");
    shell.arg("-c").arg(script).arg("guard").arg(program("pg_ctl")).arg(data).arg(folder);
    shell.stdin(Stdio::piped()).stdout(Stdio::null()).stderr(Stdio::null());
    shell.spawn().expect("a shell to guard a server")
}

fn options(port: u16) -> String {
    // enough for 64 callers of the engine and 64 of a measuring program at once
    format!("-p {port} -c listen_addresses=127.0.0.1 -c unix_socket_directories='' -c max_connections=160")
}

fn free_port() -> u16 {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).expect("a free port");
    listener.local_addr().expect("an address").port()
}

/// Something that no other test of any run uses just now.
fn unique() -> String {
    static COUNT: AtomicU32 = AtomicU32::new(0);
    let now = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).expect("after 1970");
    format!("{}_{}_{}", std::process::id(), now.subsec_nanos(), COUNT.fetch_add(1, Ordering::Relaxed))
}

/// A program of PostgreSQL that asks a server.
pub fn tool(name: &str, port: u16, arguments: &[&str]) -> Command {
    let mut command = Command::new(program(name));
    command.args(["--host=127.0.0.1", "--username=postgres"]);
    // pgbench does not know of passwords that are never asked for; the others do not hang for one
    if name != "pgbench" {
        command.arg("--no-password");
    }
    command.arg(format!("--port={port}")).args(arguments).env("PGOPTIONS", "--client-min-messages=warning");
    command
}

/// A program run as somebody that PostgreSQL runs as: not the superuser of the machine.
fn as_user(name: &str) -> Command {
    let program = program(name);
    match other_user() {
        None => Command::new(program),
        Some(user) => {
            let mut command = Command::new("setpriv");
            command
                .args([format!("--reuid={user}"), format!("--regid={user}")])
                .arg("--clear-groups")
                .arg(program);
            command.current_dir("/");
            command
        }
    }
}

/// As whom servers run, where it is not whoever runs the tests.
fn other_user() -> Option<String> {
    let id = |of: &[&str]| -> Option<String> {
        let told = Command::new("id").args(of).output().ok()?;
        told.status.success().then(|| String::from_utf8_lossy(&told.stdout).trim().to_owned())
    };
    if id(&["-u"])? != "0" {
        return None;
    }
    id(&["-u", "postgres"]).or_else(|| id(&["-u", "nobody"]))
}

/// Where a program is: PostgreSQL's own are often not in `PATH`.
fn program(name: &str) -> PathBuf {
    let mut versions: Vec<PathBuf> = std::fs::read_dir("/usr/lib/postgresql")
        .map(|folders| folders.flatten().map(|folder| folder.path().join("bin").join(name)).collect())
        .unwrap_or_default();
    versions.retain(|program| program.exists());
    versions.sort();
    versions.pop().unwrap_or_else(|| PathBuf::from(name))
}

fn run(command: &mut Command) -> Output {
    let done = command.output().unwrap_or_else(|error| {
        panic!("{}: {error}; tests of the stock need PostgreSQL's programs", command.get_program().display())
    });
    assert!(done.status.success(), "{command:?}: {}", String::from_utf8_lossy(&done.stderr));
    done
}

/// Not every program that takes this in uses all of it.
const _: () = {
    let _ =
        (Database::new, Database::on, Database::url, Database::url_by, Database::port, Database::ask, tool);
    let _ = Database::lock;
    let _ = (Server::start, Server::port, Server::restart_at_once, Server::stop_at_once, Server::start_again);
};
