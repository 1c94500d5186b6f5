//! Loads the server processes and prints the table.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Command, ExitCode, Stdio};
use std::time::{Duration, Instant};

use crate::shared::{ended, median, program};
use crate::work::Bench;

/// Connections kept open, and requests on each in one round.
const CONNECTIONS: usize = 4;
const REQUESTS: usize = 6_000;
/// What they ask for.
const QUOTES: &str = "/v1/quotes";
/// Rounds of all four, in turn; the median of each is told.
const ROUNDS: usize = 9;

/// Measures everything and prints it.
pub fn table() -> ExitCode {
    ended(measure())
}

fn measure() -> Result<(), String> {
    let bench = Bench::new(10_000).ok_or("the question has no answer")?;
    println!("question {} bytes, answer {} bytes", bench.question().len(), bench.reply().len());
    // kept until the end: see the head of this program
    let (idle, waits) = std::sync::mpsc::channel::<()>();
    let second = std::thread::spawn(move || waits.recv());
    let servers = ["floor", "calc", "convert", "door"].map(Server::start);
    let [floor, calc, convert, door] = servers;
    let (floor, calc, convert, door) = (floor?, calc?, convert?, door?);
    if floor.ask(bench.question())?.len() != door.ask(bench.question())?.len() {
        return Err(String::from("the floor and the door answer with different sizes"));
    }
    let mut rounds = [const { Vec::new() }; 6];
    for _ in 0..ROUNDS {
        rounds[0].push(own_time(40_000, || bench.calculate())?);
        rounds[1].push(own_time(20_000, || bench.convert())?);
        rounds[2].push(floor.load(bench.question())?);
        rounds[3].push(calc.load(bench.question())?);
        rounds[4].push(convert.load(bench.question())?);
        rounds[5].push(door.load(bench.question())?);
    }
    let [warm_c, warm_k, f, with_c, with_k, d] = rounds.map(median);
    let (c, k) = (with_c - f, with_k - f);
    println!("processor microseconds a request, median of {ROUNDS} rounds:");
    println!("                                                      behind sockets   in a loop");
    println!("  F the floor: same stack, same reading, canned answer     {f:6.1}");
    println!("  C the calculation alone                                  {c:6.1}      {warm_c:6.1}");
    println!("  K reading, converting and writing alone                  {k:6.1}      {warm_k:6.1}");
    println!("  D the public door                                        {d:6.1}");
    println!(
        "  (D - F) / (C + K)                                        {:6.2}      {:6.2}",
        (d - f) / (c + k),
        (d - f) / (warm_c + warm_k)
    );
    println!("C by length, four fabrics:");
    for (mm, times) in [(500, 100_000), (10_000, 20_000), (100_000, 2_000), (1_000_000, 500)] {
        let Some(bench) = Bench::new(mm) else { continue };
        println!("  {:>7} mm {:8.1} microseconds", mm, own_time(times, || bench.calculate())?);
    }
    drop(idle);
    let _ = second.join();
    start()
}

/// Processor time of this process for one call, in microseconds.
fn own_time<T>(times: u32, mut work: impl FnMut() -> T) -> Result<f64, String> {
    let before = processor_time(Path::new("/proc/self/stat"))?;
    for _ in 0..times {
        std::hint::black_box(work());
    }
    let spent = processor_time(Path::new("/proc/self/stat"))? - before;
    Ok(spent * 1e6 / f64::from(times))
}

/// User and system seconds of a process (proc(5): fields 14 and 15, in hundredths).
fn processor_time(stat: &Path) -> Result<f64, String> {
    let text = std::fs::read_to_string(stat).map_err(|fault| fault.to_string())?;
    let after = text.rsplit_once(')').ok_or("no process name")?.1;
    let fields: Vec<&str> = after.split_whitespace().collect();
    let ticks = |place: usize| fields.get(place).and_then(|n| n.parse::<f64>().ok()).ok_or("no ticks");
    Ok((ticks(11)? + ticks(12)?) / 100.0)
}

struct Server {
    child: Child,
    port: u16,
}

impl Drop for Server {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

impl Server {
    fn start(what: &str) -> Result<Server, String> {
        let program = std::env::current_exe().map_err(|fault| fault.to_string())?;
        let mut child = Command::new(program)
            .args(["serve", what])
            .stdout(Stdio::piped())
            .spawn()
            .map_err(|fault| fault.to_string())?;
        let line = first_line(&mut child)?;
        let port = line.trim().parse().map_err(|_| format!("no port: {line}"))?;
        Ok(Server { child, port })
    }

    fn ask(&self, question: &[u8]) -> Result<Vec<u8>, String> {
        let mut stream = connect(self.port)?;
        exchange(&mut stream, QUOTES, question)
    }

    /// Processor microseconds of the server for each request of one round.
    fn load(&self, question: &[u8]) -> Result<f64, String> {
        let stat = format!("/proc/{}/stat", self.child.id());
        let before = processor_time(Path::new(&stat))?;
        std::thread::scope(|scope| {
            let clients: Vec<_> = (0..CONNECTIONS)
                .map(|_| {
                    scope.spawn(|| {
                        let mut stream = connect(self.port)?;
                        for _ in 0..REQUESTS {
                            exchange(&mut stream, QUOTES, question)?;
                        }
                        Ok::<(), String>(())
                    })
                })
                .collect();
            for client in clients {
                client.join().map_err(|_| String::from("a client panicked"))??;
            }
            Ok::<(), String>(())
        })?;
        let spent = processor_time(Path::new(&stat))? - before;
        Ok(spent * 1e6 / f64::from(u32::try_from(CONNECTIONS * REQUESTS).unwrap_or(u32::MAX)))
    }
}

fn first_line(child: &mut Child) -> Result<String, String> {
    let mut line = String::new();
    let out = child.stdout.as_mut().ok_or("no output")?;
    BufReader::new(out).read_line(&mut line).map_err(|fault| fault.to_string())?;
    Ok(line)
}

/// A connection to a server of this machine.
pub fn connect(port: u16) -> Result<TcpStream, String> {
    let stream = TcpStream::connect(("127.0.0.1", port)).map_err(|fault| fault.to_string())?;
    stream.set_nodelay(true).map_err(|fault| fault.to_string())?;
    Ok(stream)
}

/// One request on a connection that stays open.
pub fn exchange(stream: &mut TcpStream, path: &str, question: &[u8]) -> Result<Vec<u8>, String> {
    let head = format!(
        "POST {path} HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: {}\r\n\r\n",
        question.len()
    );
    let mut request = head.into_bytes();
    request.extend_from_slice(question);
    stream.write_all(&request).map_err(|fault| fault.to_string())?;
    let mut got = Vec::new();
    let mut part = vec![0_u8; 64 * 1024];
    loop {
        let count = stream.read(&mut part).map_err(|fault| fault.to_string())?;
        if count == 0 {
            return Err(String::from("the server closed the connection"));
        }
        got.extend_from_slice(part.get(..count).unwrap_or_default());
        let Some(end) = got.windows(4).position(|w| w == b"\r\n\r\n") else { continue };
        let head = String::from_utf8_lossy(got.get(..end).unwrap_or_default()).to_ascii_lowercase();
        if !head.starts_with("http/1.1 200") {
            return Err(format!("not answered: {head}"));
        }
        let length: usize = head
            .lines()
            .find_map(|line| line.strip_prefix("content-length: "))
            .and_then(|n| n.parse().ok())
            .ok_or("no content length")?;
        if got.len() >= end + 4 + length {
            return Ok(got.split_off(end + 4));
        }
    }
}

/// Time from start to the first answer, and memory when idle, of the program itself.
fn start() -> Result<(), String> {
    let program = program()?;
    let data = std::env::temp_dir().join(format!("pennantry-bench-{}", std::process::id()));
    let question = br#"{"flaggedMm":6200}"#;
    let mut least = Duration::MAX;
    let mut memory = String::new();
    for _ in 0..5 {
        let begun = Instant::now();
        let mut child = Command::new(&program)
            .args(["serve", "--public", "127.0.0.1:0", "--private", "127.0.0.1:0", "--admin", "127.0.0.1:0"])
            .arg("--data")
            .arg(&data)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|fault| fault.to_string())?;
        let line = first_line(&mut child)?;
        let port = line.split("127.0.0.1:").nth(1).and_then(|rest| rest.split('"').next());
        let port = port.and_then(|n| n.parse().ok()).ok_or("no address")?;
        let answered = connect(port).and_then(|mut stream| exchange(&mut stream, QUOTES, question));
        least = least.min(begun.elapsed());
        std::thread::sleep(Duration::from_millis(500));
        let status = std::fs::read_to_string(format!("/proc/{}/status", child.id())).unwrap_or_default();
        status.lines().find(|line| line.starts_with("VmRSS")).unwrap_or("VmRSS: ?").clone_into(&mut memory);
        let _ = child.kill();
        let _ = child.wait();
        answered?;
    }
    let _ = std::fs::remove_dir_all(&data);
    println!("start to first answer, least of 5: {:.1} ms", least.as_secs_f64() * 1e3);
    println!("memory when idle: {}", memory.trim_start_matches("VmRSS:").trim());
    Ok(())
}
