//! Starting a server inside this process, and stopping it.

use std::fmt;
use std::fs::DirBuilder;
use std::io;
use std::net::{Ipv4Addr, SocketAddr};
use std::os::unix::fs::DirBuilderExt;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, Instant};

use pennantry_app::Catalogue;
use pennantry_app::stock::Holds;
use tokio::net::TcpListener;
use tokio::sync::mpsc;
use tokio::task::JoinHandle;
use tokio::time::{sleep, timeout};
use tonic_health::ServingStatus;
use tonic_health::server::HealthReporter;

use crate::admin::{self, Admin};
use crate::catalogue::{self, LoadError};
use crate::clock::Clock;
use crate::docs;
use crate::doors::route::Counted;
use crate::doors::{Calls, cors, gateway, grpc, key, stack, twin};
use crate::folder::Folder;
use crate::form;
use crate::listen::{self, Limits, Stop, Stopper, http1, private};
use crate::metrics::Metrics;
use crate::service::{Door, Service};
use crate::stock::keep::{self, Keeper};
use crate::stock::{self, Opened, Stock, backups};
use crate::ticket::{self, Keys};

/// Everything a server is told.
#[derive(Debug, Clone)]
pub struct Config {
    /// Where storefronts and buyers ask; port 0 takes a free one, here and below.
    pub public: SocketAddr,
    /// Where the shop's own tools ask.
    pub private: SocketAddr,
    /// Where health and metrics are.
    pub admin: SocketAddr,
    /// The folder for what is kept, made if it is not there; none keeps nothing.
    pub data: Option<PathBuf>,
    /// Where the stock is kept.
    pub stock: Stock,
    /// The catalogue to begin with.
    pub catalogue: Catalogue,
    /// Where the time of a request comes from.
    pub clock: Clock,
    /// Time and room for callers.
    pub limits: Limits,
    /// Whether gRPC tells its contract to whoever asks.
    pub reflection: bool,
}

impl Config {
    /// A server on free ports of this machine, for one's own use: with a stock, as everything
    /// that it keeps, only as long as it runs.
    pub fn local(catalogue: Catalogue, clock: Clock) -> Config {
        let free = SocketAddr::from((Ipv4Addr::LOCALHOST, 0));
        let limits = Limits::default();
        Config {
            public: free,
            private: free,
            admin: free,
            data: None,
            stock: Stock::Embedded,
            catalogue,
            clock,
            limits,
            reflection: false,
        }
    }
}

/// Why a server does not start: everything that is in the way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StartError {
    /// Each in words for the operator.
    pub faults: Vec<String>,
}

impl fmt::Display for StartError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.faults.join("\n"))
    }
}

impl std::error::Error for StartError {}

/// A running server. Dropping it stops it too, without waiting for anything.
#[derive(Debug)]
pub struct Running {
    addresses: [SocketAddr; 3],
    data: Option<PathBuf>,
    service: Arc<Service>,
    metrics: Arc<Metrics>,
    health: HealthReporter,
    leaver: Stopper,
    stopper: Stopper,
    cutter: Stopper,
    admin_stopper: Stopper,
    tasks: [JoinHandle<()>; 3],
    admin_task: JoinHandle<()>,
    kept: Vec<JoinHandle<()>>,
    /// Goes when all else has gone.
    folder: Option<Folder>,
}

/// Starts a server: when this returns, it answers.
///
/// # Errors
/// The data folder and every address that cannot be had, all at once.
pub async fn start(config: Config) -> Result<Running, StartError> {
    let mut faults = Vec::new();
    if let Some(data) = &config.data
        && let Err(cause) = make_private(data)
    {
        faults.push(format!(
            "--data {}: {cause}: name a folder that this program may write to",
            data.display()
        ));
    }
    let keys = if faults.is_empty() {
        keys(&config).map_err(|fault| faults.push(format!("--data {fault}"))).ok()
    } else {
        None
    };
    let opened = if faults.is_empty() {
        stock::open(&config.stock, config.data.as_deref()).await.map_err(|fault| faults.push(fault)).ok()
    } else {
        None
    };
    if config.stock != Stock::None && !config.private.ip().to_canonical().is_loopback() {
        faults.push(format!(
            "--private {}: the private side asks nobody who they are yet, and whoever reaches it can change the \
             stock: give an address of this machine alone, such as 127.0.0.1:50051, and let others in by a tunnel \
             or a web server that asks",
            config.private
        ));
    }
    let public = bind("--public", config.public, &mut faults).await;
    let private = bind("--private", config.private, &mut faults).await;
    let admin = bind("--admin", config.admin, &mut faults).await;
    match (keys, opened, public, private, admin) {
        (Some(keys), Some(opened), Some(public), Some(private), Some(admin)) if faults.is_empty() => {
            Ok(spawn(config, keys, opened, [public, private, admin]).await)
        }
        _ => Err(StartError { faults }),
    }
}

/// The keys of tickets: those of the data folder, or where nothing is kept, one that goes
/// with the server.
fn keys(config: &Config) -> Result<Keys, String> {
    match &config.data {
        Some(data) => ticket::load_or_make(data, config.catalogue.order_day(config.clock.now())),
        None => Keys::fresh().map_err(|fault| fault.to_string()),
    }
}

/// Makes a folder that only its owner may enter, unless it is there.
pub(crate) fn make_private(folder: &Path) -> io::Result<()> {
    DirBuilder::new().recursive(true).mode(0o700).create(folder)
}

async fn bind(
    flag: &str,
    address: SocketAddr,
    faults: &mut Vec<String>,
) -> Option<(TcpListener, SocketAddr)> {
    let bound = async {
        let listener = TcpListener::bind(address).await?;
        let address = listener.local_addr()?;
        Ok::<_, io::Error>((listener, address))
    };
    let cause = match bound.await {
        Ok(bound) => return Some(bound),
        Err(cause) => cause,
    };
    let next = match cause.kind() {
        io::ErrorKind::AddrInUse => {
            "another program listens there: stop it, or give another port (0 takes a free one)"
        }
        io::ErrorKind::AddrNotAvailable => "this machine has no such address: give one of its own",
        io::ErrorKind::PermissionDenied => "this user may not listen there: give a port from 1024 up",
        _ => "give another address",
    };
    faults.push(format!("{flag} {address}: {cause}: {next}"));
    None
}

async fn spawn(
    config: Config,
    keys: Keys,
    opened: Opened,
    listeners: [(TcpListener, SocketAddr); 3],
) -> Running {
    let [(public, public_at), (private, private_at), (admin, admin_at)] = listeners;
    let service = Arc::new(Service::new(config.catalogue.clone(), config.clock, keys));
    let Opened { ledger, folder } = opened;
    if let Some(ledger) = ledger {
        service.open_stock(pennantry_app::stock::Stock::new(ledger, Holds::default()));
    }
    let metrics = Arc::new(Metrics::new(service.clone()));
    let limits = Arc::new(config.limits.clone());
    let (leaver, leaving) = listen::stop();
    let (stopper, stop) = listen::stop();
    let (cutter, cut) = listen::stop();
    let (admin_stopper, admin_stop) = listen::stop();
    let health = HealthReporter::new();
    grpc::report(&health, ServingStatus::Serving).await;
    let ready = match service.stock() {
        Ok(stock) => keep::begin(stock, &service.catalogue(), config.clock.now()).await,
        Err(_) => false,
    };
    let of_stock = if ready { ServingStatus::Serving } else { ServingStatus::NotServing };
    grpc::report_stock(&health, of_stock).await;
    metrics.stock_ready(ready);
    let kept = look_after(&config, &service, &metrics, &health, &[&stop, &leaving]);

    let calls = |door| Calls {
        service: service.clone(),
        door,
        limits: limits.clone(),
        metrics: metrics.clone(),
        running: key::Running::default(),
        stop: stop.clone(),
    };
    let pictures = form::Pictures { service: service.clone(), data: config.data.clone() };
    let public_routes = gateway::router(calls(Door::Public)).merge(form::router(pictures));
    let public_routes = public_routes.merge(docs::router(Door::Public));
    let gateway = cors::any_origin(stack(public_routes, Counted::PUBLIC, metrics.clone()));
    let twin = stack(twin::router(calls(Door::Private)), Counted::PRIVATE, metrics.clone());
    let look = Admin { service: service.clone(), metrics: metrics.clone(), leaving };
    let look = stack(admin::router(look), Counted::ADMIN, metrics.clone());

    let (to_grpc, incoming) = mpsc::channel(1);
    let calls_over_grpc = grpc::serve(
        service.clone(),
        incoming,
        health.clone(),
        config.reflection,
        metrics.clone(),
        limits.clone(),
        stop.clone(),
    );
    let tasks = [
        tokio::spawn(http1::serve(public, gateway, limits.clone(), stop.clone())),
        tokio::spawn(private::serve(private, twin, to_grpc, limits.clone(), stop, cut)),
        tokio::spawn(async {
            if let Err(cause) = calls_over_grpc.await {
                tracing::error!(%cause, "gRPC is not served");
            }
        }),
    ];
    let admin_task = tokio::spawn(http1::serve(admin, look, limits, admin_stop));
    let addresses = [public_at, private_at, admin_at];
    let data = config.data;
    Running {
        addresses,
        data,
        service,
        metrics,
        health,
        leaver,
        stopper,
        cutter,
        admin_stopper,
        tasks,
        admin_task,
        kept,
        folder,
    }
}

/// What runs beside the doors until the stop.
fn look_after(
    config: &Config,
    service: &Arc<Service>,
    metrics: &Arc<Metrics>,
    health: &HealthReporter,
    [stop, leaving]: &[&Stop; 2],
) -> Vec<JoinHandle<()>> {
    let database = match &config.stock {
        Stock::None => return Vec::new(),
        Stock::Embedded => None,
        Stock::Postgres(database) => Some(database.clone()),
    };
    let mut tasks = Vec::new();
    if let (Stock::Embedded, Some(data), Clock::System) = (&config.stock, &config.data, config.clock) {
        let folder = data.join(backups::FOLDER);
        let (service, metrics) = (service.clone(), metrics.clone());
        tasks.push(tokio::spawn(Keeper::back_up(service, metrics, config.clock, folder, Stop::clone(stop))));
    }
    if let (true, Clock::System) = (config.data.is_some(), config.clock) {
        tasks.push(tokio::spawn(Keeper::report(service.clone(), metrics.clone(), Stop::clone(stop))));
    }
    let keeper = Keeper {
        service: service.clone(),
        metrics: metrics.clone(),
        health: health.clone(),
        clock: config.clock,
        database,
        stop: Stop::clone(stop),
        leaving: Stop::clone(leaving),
    };
    tasks.push(tokio::spawn(keeper.run()));
    tasks
}

impl Running {
    /// Where storefronts and buyers ask.
    pub fn public(&self) -> SocketAddr {
        self.addresses[0]
    }

    /// Where the shop's own tools ask.
    pub fn private(&self) -> SocketAddr {
        self.addresses[1]
    }

    /// Where health and metrics are.
    pub fn admin(&self) -> SocketAddr {
        self.addresses[2]
    }

    /// The folder that goes with the server, where it keeps nothing.
    pub fn folder(&self) -> Option<&Path> {
        self.folder.as_ref().map(Folder::path)
    }

    /// The calls that the doors lead to.
    pub fn service(&self) -> &Arc<Service> {
        &self.service
    }

    /// Puts a catalogue file in force and gives its revision.
    ///
    /// # Errors
    /// The file cannot be read or has mistakes; the catalogue in force stays.
    pub fn reload(&self, file: &Path) -> Result<String, LoadError> {
        let loaded = catalogue::load(file);
        self.metrics.reloaded(loaded.is_ok());
        let catalogue = Catalogue::from(loaded?);
        let revision = catalogue.revision.clone();
        self.service.replace_catalogue(catalogue);
        Ok(revision)
    }

    /// Reads the keys of the data folder again and gives how many there are. A server that
    /// keeps nothing keeps its one key.
    ///
    /// # Errors
    /// What is wrong with them, in words for the operator; the keys in force stay.
    pub fn reload_keys(&self) -> Result<usize, String> {
        let Some(data) = &self.data else { return Ok(1) };
        let keys = ticket::load(data)?;
        let count = keys.count();
        self.service.replace_keys(keys);
        Ok(count)
    }

    /// Says that it is about to stop, by its health and `/readyz`, and goes on as before: whoever shares
    /// requests out among servers has so long to hear of it and to send new ones elsewhere.
    pub async fn leave(&self, delay: Duration) {
        self.leaver.give();
        grpc::report(&self.health, ServingStatus::NotServing).await;
        grpc::report_stock(&self.health, ServingStatus::NotServing).await;
        sleep(delay).await;
    }

    /// Stops: says so at once, accepts nothing more, finishes what is in flight, lets go
    /// of all else, and is done by the deadline. Whether nothing had to be broken off.
    pub async fn stop(mut self, deadline: Duration) -> bool {
        let begun = Instant::now();
        self.leave(Duration::ZERO).await;
        self.stopper.give();
        let [public, private, grpc] = &mut self.tasks;
        let drained = async {
            let _ = tokio::join!(public, private, drain(grpc, &self.metrics, &self.cutter));
            for task in &mut self.kept {
                let _ = task.await;
            }
        };
        let finished = timeout(deadline, drained).await.is_ok();
        self.cutter.give();
        for task in self.tasks.iter().chain(&self.kept) {
            task.abort();
        }
        if let Ok(stock) = self.service.stock() {
            // what is begun is finished whether or not this is waited for
            let left = deadline.saturating_sub(begun.elapsed()).max(Duration::from_secs(1));
            if timeout(left, stock.ledger.close()).await.is_err() {
                tracing::warn!("the stock was not let go of in time");
            }
        }
        self.admin_stopper.give();
        let left = deadline.saturating_sub(begun.elapsed()).min(Duration::from_secs(1));
        let _ = timeout(left, &mut self.admin_task).await;
        self.admin_task.abort();
        finished
    }
}

/// Waits for the gRPC connections. Those on which nothing is asked, but which do not close
/// either (a health watch, a caller who has gone silent), are cut when all is quiet.
async fn drain(grpc: &mut JoinHandle<()>, metrics: &Metrics, cutter: &Stopper) {
    const LOOK: Duration = Duration::from_millis(100);
    const QUIET_LOOKS: u32 = 5;
    let mut quiet = 0_u32;
    loop {
        tokio::select! {
            _ = &mut *grpc => return,
            () = sleep(LOOK) => {}
        }
        quiet = if metrics.in_flight() == 0 { quiet.saturating_add(1) } else { 0 };
        if quiet == QUIET_LOOKS {
            cutter.give();
        }
    }
}
