//! Loads the servers of one way in and tells what a request of each takes.

use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Instant;

use pennantry_tests::client::{Client, Way};

use crate::floor::servers;
use crate::shared::{median, told};
use crate::work::Bench;

/// Connections kept open, and requests on each in one round.
const CONNECTIONS: usize = 4;
const REQUESTS: usize = 6_000;
/// Seconds of processor time of a loop at least: one hundredth is 2 % of it.
const LOOP: f64 = 0.5;
/// Rounds of all, in turn; the median of each is told.
pub const ROUNDS: usize = 9;

/// Processor microseconds a request, by one way in.
#[derive(Debug)]
pub struct Door {
    /// Of the floor, F.
    pub floor: f64,
    /// Of the calculation behind sockets, and in a loop, C.
    pub calculate: [f64; 2],
    /// Of reading, converting and writing behind sockets, and in a loop, K.
    pub convert: [f64; 2],
    /// Of the real door, D.
    pub whole: f64,
    /// Answers a second by the floor and by the door, on all processors, clients and all.
    pub rates: [f64; 2],
    /// Bytes of the question and of the answer.
    pub bytes: [usize; 2],
}

impl Door {
    /// Measures one way in.
    pub fn measure(way: Way) -> Result<Door, String> {
        let bench = Bench::new(10_000).ok_or("the question has no answer")?;
        let question = bench.asked(way);
        let [floor, calc, convert, door] = servers(way).map(Server::start);
        let servers = [floor?, calc?, convert?, door?];
        let mut sizes = Vec::new();
        for server in &servers {
            sizes.push(Client::connect(way, server.port)?.ask(&question)?.len());
        }
        let [of_floor, .., of_door] = sizes[..] else { return Err(String::from("four servers")) };
        if of_floor != of_door {
            return Err(format!("the floor answers {of_floor} bytes, the door {of_door}"));
        }
        let mut loops = [const { Vec::new() }; 2];
        let (mut spent, mut rates) = ([const { Vec::new() }; 4], [const { Vec::new() }; 4]);
        for _ in 0..ROUNDS {
            loops[0].push(own_time(|| bench.calculate())?);
            loops[1].push(match way {
                Way::Json => own_time(|| bench.convert())?,
                Way::Grpc => own_time(|| bench.convert_message(&question))?,
            });
            for ((server, spent), rates) in servers.iter().zip(&mut spent).zip(&mut rates) {
                let (micros, rate) = server.load(way, &question)?;
                spent.push(micros);
                rates.push(rate);
            }
        }
        let [warm_c, warm_k] = loops.map(median);
        let [floor, with_c, with_k, door] = spent.map(median);
        let [floor_rate, _, _, door_rate] = rates.map(median);
        Ok(Door {
            floor,
            calculate: [with_c - floor, warm_c],
            convert: [with_k - floor, warm_k],
            whole: door,
            rates: [floor_rate, door_rate],
            bytes: [question.len(), of_door],
        })
    }

    /// (D - F) / (C + K), behind sockets and in a loop.
    pub fn ratios(&self) -> [f64; 2] {
        [0, 1].map(|place: usize| {
            let work =
                self.calculate.get(place).zip(self.convert.get(place)).map_or(f64::NAN, |(c, k)| c + k);
            (self.whole - self.floor) / work
        })
    }
}

/// Processor time of this process for one call, in microseconds: over at least [`LOOP`], since the
/// system tells it in hundredths of a second.
pub fn own_time<T>(mut work: impl FnMut() -> T) -> Result<f64, String> {
    let stat = Path::new("/proc/self/stat");
    let before = processor_time(stat)?;
    let (mut times, mut more, mut spent) = (0.0, 16_u32, 0.0);
    while spent < LOOP {
        for _ in 0..more {
            std::hint::black_box(work());
        }
        times += f64::from(more);
        more = more.saturating_mul(2);
        spent = processor_time(stat)? - before;
    }
    Ok(spent * 1e6 / times)
}

/// User and system seconds of a process (proc(5): fields 14 and 15, in hundredths).
fn processor_time(stat: &Path) -> Result<f64, String> {
    let text = std::fs::read_to_string(stat).map_err(told)?;
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
        let program = std::env::current_exe().map_err(told)?;
        let mut child =
            Command::new(program).args(["serve", what]).stdout(Stdio::piped()).spawn().map_err(told)?;
        let line = first_line(&mut child)?;
        let port = line.trim().parse().map_err(|_| format!("no port: {line}"))?;
        Ok(Server { child, port })
    }

    /// Processor microseconds of the server for each request of one round, and answers a second.
    fn load(&self, way: Way, question: &[u8]) -> Result<(f64, f64), String> {
        let stat = format!("/proc/{}/stat", self.child.id());
        let before = processor_time(Path::new(&stat))?;
        let begun = Instant::now();
        std::thread::scope(|scope| {
            let clients: Vec<_> = (0..CONNECTIONS)
                .map(|_| {
                    scope.spawn(|| {
                        let mut client = Client::connect(way, self.port)?;
                        for _ in 0..REQUESTS {
                            client.ask(question)?;
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
        let seconds = begun.elapsed().as_secs_f64();
        let spent = processor_time(Path::new(&stat))? - before;
        let requests = f64::from(u32::try_from(CONNECTIONS * REQUESTS).unwrap_or(u32::MAX));
        Ok((spent * 1e6 / requests, requests / seconds))
    }
}

/// The first line that a program prints.
pub fn first_line(child: &mut Child) -> Result<String, String> {
    let mut line = String::new();
    let out = child.stdout.as_mut().ok_or("no output")?;
    BufReader::new(out).read_line(&mut line).map_err(told)?;
    Ok(line)
}
