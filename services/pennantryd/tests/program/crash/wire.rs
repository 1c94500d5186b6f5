//! A caller at the private door, by JSON or by gRPC, whose line may go dead at any time.

use std::io::{self, BufRead, BufReader, Write};
use std::net::TcpStream;

use pennantry_contract::v1;
use pennantry_contract::v1::reservation_service_client::ReservationServiceClient;
use pennantry_contract::v1::stock_service_client::StockServiceClient;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;
use tokio::runtime::Runtime;
use tonic::transport::{Channel, Endpoint};
use tonic::{Code, Status};

use super::super::process::LONG;

/// What a caller was told.
#[derive(Debug, Clone, PartialEq)]
pub enum Told {
    /// It is done; in the same words by both wires.
    Done(Value),
    /// It is not done, and why.
    Refused(String),
    /// Nothing, or that the server cannot do it now: whether it was done is not known.
    Nothing,
}

macro_rules! calls {
    ($($call:ident $client:ident $service:literal $method:ident $request:ident $response:ident,)*) => {
        /// A call of the contract.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum Call {
            $(#[doc = stringify!($call)] $call,)*
        }

        impl Call {
            pub fn path(self) -> &'static str {
                match self {
                    $(Call::$call => concat!("/pennantry.v1.", $service, "/", stringify!($call)),)*
                }
            }

            /// An answer as the contract's own JSON has it, whoever wrote it.
            fn plainly(self, answer: Value) -> Value {
                match self {
                    $(Call::$call => write(&read::<v1::$response>(answer)),)*
                }
            }

            async fn over_grpc(self, channel: Channel, body: Value) -> Result<Value, Status> {
                match self {
                    $(Call::$call => {
                        let mut client = $client::new(channel);
                        Ok(write(&client.$method(read::<v1::$request>(body)).await?.into_inner()))
                    })*
                }
            }
        }
    };
}

calls! {
    ReceiveStock StockServiceClient "StockService" receive_stock ReceiveStockRequest ReceiveStockResponse,
    AdjustStock StockServiceClient "StockService" adjust_stock AdjustStockRequest AdjustStockResponse,
    ListStock StockServiceClient "StockService" list_stock ListStockRequest ListStockResponse,
    RecordCut StockServiceClient "StockService" record_cut RecordCutRequest RecordCutResponse,
    UndoCut StockServiceClient "StockService" undo_cut UndoCutRequest UndoCutResponse,
    PlaceOrder StockServiceClient "StockService" place_order PlaceOrderRequest PlaceOrderResponse,
    CancelOrder StockServiceClient "StockService" cancel_order CancelOrderRequest CancelOrderResponse,
    CreateReservation ReservationServiceClient "ReservationService" create_reservation
        CreateReservationRequest CreateReservationResponse,
    GetReservation ReservationServiceClient "ReservationService" get_reservation
        GetReservationRequest GetReservationResponse,
    ConfirmReservation ReservationServiceClient "ReservationService" confirm_reservation
        ConfirmReservationRequest ConfirmReservationResponse,
    ReleaseReservation ReservationServiceClient "ReservationService" release_reservation
        ReleaseReservationRequest ReleaseReservationResponse,
    CancelReservation ReservationServiceClient "ReservationService" cancel_reservation
        CancelReservationRequest CancelReservationResponse,
    ListReservations ReservationServiceClient "ReservationService" list_reservations
        ListReservationsRequest ListReservationsResponse,
}

fn read<T: DeserializeOwned>(value: Value) -> T {
    serde_json::from_value(value).unwrap()
}

fn write<T: Serialize>(message: &T) -> Value {
    serde_json::to_value(message).unwrap()
}

/// Who calls, on one connection as long as that lasts.
pub struct Caller {
    wire: Wire,
}

enum Wire {
    Json { address: String, line: Option<BufReader<TcpStream>> },
    Grpc { runtime: Runtime, channel: Channel },
}

impl Caller {
    /// By JSON.
    pub fn json(address: &str) -> Caller {
        Caller { wire: Wire::Json { address: address.to_owned(), line: None } }
    }

    /// By gRPC.
    pub fn grpc(address: &str) -> Caller {
        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
        let entered = runtime.enter();
        let endpoint = Endpoint::from_shared(format!("http://{address}")).unwrap();
        let channel = endpoint.timeout(LONG).connect_lazy();
        drop(entered);
        Caller { wire: Wire::Grpc { runtime, channel } }
    }

    /// One of the two, by turns.
    pub fn either(address: &str, turn: usize) -> Caller {
        if turn.is_multiple_of(2) { Caller::json(address) } else { Caller::grpc(address) }
    }

    /// Calls.
    pub fn ask(&mut self, call: Call, body: &Value) -> Told {
        match &mut self.wire {
            Wire::Json { address, line } => {
                let answered = exchange(address, line, call.path(), body);
                match answered {
                    Err(_) => {
                        *line = None;
                        Told::Nothing
                    }
                    Ok((200, answer)) => Told::Done(call.plainly(answer)),
                    Ok((429 | 503 | 504, _)) => Told::Nothing,
                    Ok((500, answer)) => panic!("a fault: {call:?} {body}: {answer}"),
                    Ok((_, answer)) => Told::Refused(answer["detail"].as_str().unwrap().to_owned()),
                }
            }
            Wire::Grpc { runtime, channel } => {
                match runtime.block_on(call.over_grpc(channel.clone(), body.clone())) {
                    Ok(answer) => Told::Done(answer),
                    // a line that breaks is any of these, as the library sees it
                    Err(status) => match status.code() {
                        Code::Unavailable
                        | Code::Unknown
                        | Code::Internal
                        | Code::Cancelled
                        | Code::DeadlineExceeded
                        | Code::ResourceExhausted => Told::Nothing,
                        _ => Told::Refused(status.message().to_owned()),
                    },
                }
            }
        }
    }

    /// Calls, and it has to be done.
    pub fn done(&mut self, call: Call, body: &Value) -> Value {
        match self.ask(call, body) {
            Told::Done(answer) => answer,
            other => panic!("{call:?} {body}: {other:?}"),
        }
    }

    /// Labels of all pieces, used up or not.
    pub fn labels(&mut self) -> Vec<String> {
        let (mut labels, mut page) = (Vec::new(), String::new());
        loop {
            let body = serde_json::json!({"emptyToo": true, "pageSize": 1_000, "pageToken": page});
            let told = self.done(Call::ListStock, &body);
            let pieces = told["pieces"].as_array().map_or(&[][..], Vec::as_slice);
            labels.extend(pieces.iter().map(|piece| piece["pieceId"].as_str().unwrap().to_owned()));
            page = told["nextPageToken"].as_str().unwrap_or_default().to_owned();
            if page.is_empty() {
                return labels;
            }
        }
    }
}

/// A request of JSON, in bytes.
pub fn request(path: &str, headers: &str, body: &Value) -> String {
    let body = body.to_string();
    format!(
        "POST {path} HTTP/1.1\r\nhost: localhost\r\ncontent-type: application/json\r\n{headers}content-length: {}\r\n\r\n{body}",
        body.len()
    )
}

fn exchange(
    address: &str,
    line: &mut Option<BufReader<TcpStream>>,
    path: &str,
    body: &Value,
) -> io::Result<(u16, Value)> {
    let line = if let Some(line) = line {
        line
    } else {
        let stream = TcpStream::connect(address)?;
        stream.set_nodelay(true)?;
        stream.set_read_timeout(Some(LONG * 2))?;
        line.insert(BufReader::new(stream))
    };
    line.get_mut().write_all(request(path, "", body).as_bytes())?;
    answer(line)
}

/// Reads one answer: its status and its body.
pub fn answer(line: &mut impl BufRead) -> io::Result<(u16, Value)> {
    let broken = |()| io::Error::from(io::ErrorKind::UnexpectedEof);
    let mut head = String::new();
    while !head.ends_with("\r\n\r\n") {
        if line.read_line(&mut head)? == 0 {
            return Err(io::ErrorKind::UnexpectedEof.into());
        }
    }
    let head = head.to_ascii_lowercase();
    let length = head.split("content-length: ").nth(1).and_then(|rest| rest.split("\r\n").next());
    let mut body = vec![0; length.unwrap().parse().unwrap()];
    line.read_exact(&mut body)?;
    let status = head.split(' ').nth(1).unwrap().parse().unwrap();
    Ok((status, serde_json::from_slice(&body).map_err(|_| ()).map_err(broken)?))
}
