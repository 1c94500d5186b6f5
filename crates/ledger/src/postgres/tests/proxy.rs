//! A line to the server on which things get lost.

use std::net::Ipv4Addr;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};
use std::time::Duration;

use tokio::io::{AsyncReadExt, AsyncWriteExt};
use tokio::net::{TcpListener, TcpStream};
use tokio::time::timeout;

/// Passes on what it is given, until told otherwise.
pub(super) struct Proxy {
    port: u16,
    state: Arc<State>,
}

#[derive(Default)]
struct State {
    armed: AtomicBool,
    lost: AtomicU32,
    dead: AtomicBool,
    slow: AtomicBool,
    trips: AtomicU32,
}

/// How long a slow line waits for whatever else is said before it passes on any of it.
const SLOW: Duration = Duration::from_millis(25);

impl Proxy {
    pub(super) async fn start(to: u16) -> Proxy {
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).await.expect("a free port");
        let port = listener.local_addr().expect("an address").port();
        let state = Arc::new(State::default());
        let of_lines = Arc::clone(&state);
        tokio::spawn(async move {
            while let Ok((client, _)) = listener.accept().await {
                let state = Arc::clone(&of_lines);
                tokio::spawn(async move {
                    if let Ok(server) = TcpStream::connect((Ipv4Addr::LOCALHOST, to)).await {
                        pass(client, server, &state).await;
                    }
                });
            }
        });
        Proxy { port, state }
    }

    pub(super) fn port(&self) -> u16 {
        self.port
    }

    /// The next commit of a change reaches the server; its answer reaches nobody.
    pub(super) fn lose_the_next_commit(&self) {
        self.state.armed.store(true, Ordering::SeqCst);
    }

    pub(super) fn lost(&self) -> u32 {
        self.state.lost.load(Ordering::SeqCst)
    }

    /// From now on what the client says without waiting for an answer goes to the server as one, and
    /// is counted.
    pub(super) fn count_trips(&self) {
        self.state.slow.store(true, Ordering::SeqCst);
    }

    /// How often something went to the server since the last time this was asked.
    pub(super) fn trips(&self) -> u32 {
        self.state.trips.swap(0, Ordering::SeqCst)
    }

    /// From now on nothing gets through and nothing is closed.
    pub(super) fn fall_silent(&self) {
        self.state.dead.store(true, Ordering::SeqCst);
    }
}

async fn pass(mut client: TcpStream, mut server: TcpStream, state: &State) {
    let (mut from_client, mut from_server) = (vec![0; 65_536], vec![0; 65_536]);
    // a look commits as well, and nobody minds losing that
    let mut writes = false;
    loop {
        tokio::select! {
            read = client.read(&mut from_client) => {
                let Ok(length @ 1..) = read else { return };
                let mut said = from_client[..length].to_vec();
                if state.slow.load(Ordering::SeqCst) {
                    while let Ok(Ok(length @ 1..)) = timeout(SLOW, client.read(&mut from_client)).await {
                        said.extend_from_slice(&from_client[..length]);
                    }
                    state.trips.fetch_add(1, Ordering::SeqCst);
                }
                if state.dead.load(Ordering::SeqCst) {
                    std::future::pending::<()>().await;
                }
                let says = |words: &[u8]| said.windows(words.len()).any(|window| window == words);
                if says(b"BEGIN") {
                    writes = says(b"READ COMMITTED");
                }
                let commits = writes && says(b"COMMIT\0");
                if server.write_all(&said).await.is_err() {
                    return;
                }
                if commits && state.armed.swap(false, Ordering::SeqCst) {
                    // it has answered, so it is done
                    let _ = server.read(&mut from_server).await;
                    state.lost.fetch_add(1, Ordering::SeqCst);
                    return;
                }
            }
            read = server.read(&mut from_server) => {
                let Ok(length @ 1..) = read else { return };
                if state.dead.load(Ordering::SeqCst) {
                    std::future::pending::<()>().await;
                }
                if client.write_all(&from_server[..length]).await.is_err() {
                    return;
                }
            }
        }
    }
}
