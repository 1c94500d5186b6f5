//! The calls of the stock and of reservations are the same by both private doors.
//!
//! One story is told to two servers, to one over gRPC and to the other as JSON, and every
//! answer and refusal compared. Names that a server makes up itself are other ones on each,
//! so they are compared by where they come.

use pennantry_contract::v1;
use pennantry_contract::v1::reservation_service_client::ReservationServiceClient;
use pennantry_contract::v1::stock_service_client::StockServiceClient;
use serde_json::{Value, json};

use crate::doors::{House, Refused};

/// Calls that this compares.
pub const COMPARED: [&str; 18] = [
    "/pennantry.v1.ReservationService/CreateReservation",
    "/pennantry.v1.ReservationService/GetReservation",
    "/pennantry.v1.ReservationService/ExtendReservation",
    "/pennantry.v1.ReservationService/ConfirmReservation",
    "/pennantry.v1.ReservationService/ReleaseReservation",
    "/pennantry.v1.ReservationService/CancelReservation",
    "/pennantry.v1.ReservationService/AmendReservation",
    "/pennantry.v1.ReservationService/ListReservations",
    "/pennantry.v1.StockService/ReceiveStock",
    "/pennantry.v1.StockService/CheckDelivery",
    "/pennantry.v1.StockService/AdjustStock",
    "/pennantry.v1.StockService/ListStock",
    "/pennantry.v1.StockService/GetPiece",
    "/pennantry.v1.StockService/RecordCut",
    "/pennantry.v1.StockService/UndoCut",
    "/pennantry.v1.StockService/PlaceOrder",
    "/pennantry.v1.StockService/ListOrders",
    "/pennantry.v1.StockService/CancelOrder",
];

type Told = Result<Value, Refused>;

macro_rules! over_grpc {
    ($house:ident, $name:ident, $body:ident; $($client:ident { $($call:ident $asked:ident $literal:literal)+ })+) => {
        match $name {
            $($($literal => {
                let asked: v1::$asked = serde_json::from_value($body.clone()).expect("a request");
                let told = $client::new($house.channel()).$call(asked).await;
                told.map(|told| serde_json::to_value(told.into_inner()).expect("a response"))
                    .map_err(|status| House::refusal_of(&status))
            })+)+
            other => panic!("{other} is called nowhere"),
        }
    };
}

async fn grpc(house: &House, name: &str, body: &Value) -> Told {
    over_grpc! {
        house, name, body;
        ReservationServiceClient {
            create_reservation CreateReservationRequest "CreateReservation"
            get_reservation GetReservationRequest "GetReservation"
            extend_reservation ExtendReservationRequest "ExtendReservation"
            confirm_reservation ConfirmReservationRequest "ConfirmReservation"
            release_reservation ReleaseReservationRequest "ReleaseReservation"
            cancel_reservation CancelReservationRequest "CancelReservation"
            amend_reservation AmendReservationRequest "AmendReservation"
            list_reservations ListReservationsRequest "ListReservations"
        }
        StockServiceClient {
            receive_stock ReceiveStockRequest "ReceiveStock"
            check_delivery CheckDeliveryRequest "CheckDelivery"
            adjust_stock AdjustStockRequest "AdjustStock"
            list_stock ListStockRequest "ListStock"
            get_piece GetPieceRequest "GetPiece"
            record_cut RecordCutRequest "RecordCut"
            undo_cut UndoCutRequest "UndoCut"
            place_order PlaceOrderRequest "PlaceOrder"
            list_orders ListOrdersRequest "ListOrders"
            cancel_order CancelOrderRequest "CancelOrder"
        }
    }
}

async fn twin(house: &House, name: &str, body: &Value) -> Told {
    let path = COMPARED.iter().find(|path| path.ends_with(&format!("/{name}"))).expect("a call");
    let reply = house.post(house.private(), path, body.to_string().as_bytes()).await;
    if reply.status.as_u16() == 200 {
        Ok(serde_json::from_slice(&reply.body).expect("a response"))
    } else {
        Err(House::problem(&reply))
    }
}

/// A server, and the names that it made up.
struct Side {
    house: House,
    names: Vec<(&'static str, String)>,
}

impl Side {
    /// A body with the names of this side where `{name}` stands.
    fn filled(&self, body: &Value) -> Value {
        let mut text = body.to_string();
        for (name, value) in &self.names {
            text = text.replace(&format!("{{{name}}}"), value);
        }
        serde_json::from_str(&text).expect("still JSON")
    }

    /// What was told with `{name}` where the names of this side stand, as text.
    fn without_names(&self, told: &Told) -> String {
        let mut text = match told {
            Ok(told) => told.to_string(),
            Err(refused) => format!("{refused:?}"),
        };
        for (name, value) in &self.names {
            text = text.replace(value, &format!("{{{name}}}"));
        }
        text
    }

    fn learn(&mut self, name: &'static str, told: &Value, pointer: &str) {
        let value =
            told.pointer(pointer).and_then(Value::as_str).unwrap_or_else(|| panic!("{pointer} in {told}"));
        self.names.push((name, value.to_owned()));
    }
}

struct Story {
    grpc: Side,
    json: Side,
    answered: usize,
    refused: usize,
}

impl Story {
    async fn begin() -> Story {
        let side = async || Side { house: House::demo().await, names: Vec::new() };
        Story { grpc: side().await, json: side().await, answered: 0, refused: 0 }
    }

    /// Says the same at both doors, compares what comes back, and gives it.
    async fn say(&mut self, name: &str, body: Value, learnt: &[(&'static str, &str)]) -> Told {
        let one = grpc(&self.grpc.house, name, &self.grpc.filled(&body)).await;
        let other = twin(&self.json.house, name, &self.json.filled(&body)).await;
        for (key, pointer) in learnt {
            self.grpc.learn(
                key,
                one.as_ref().unwrap_or_else(|refused| panic!("{name}: {refused:?}")),
                pointer,
            );
            self.json.learn(
                key,
                other.as_ref().unwrap_or_else(|refused| panic!("{name}: {refused:?}")),
                pointer,
            );
        }
        let (one_text, other_text) = (self.grpc.without_names(&one), self.json.without_names(&other));
        assert_eq!(one_text, other_text, "{name} {body}");
        match &one {
            Ok(_) => self.answered += 1,
            Err(_) => self.refused += 1,
        }
        one
    }

    async fn done(&mut self, name: &str, body: Value, learnt: &[(&'static str, &str)]) -> Value {
        let told = self.say(name, body.clone(), learnt).await;
        told.unwrap_or_else(|refused| panic!("{name} {body}: {refused:?}"))
    }

    async fn refused(&mut self, name: &str, body: Value, reason: &str) {
        match self.say(name, body.clone(), &[]).await {
            Err(refused) => assert_eq!(refused.reason, reason, "{name} {body}: {}", refused.detail),
            Ok(told) => panic!("{name} {body}: {told}"),
        }
    }
}

/// What an order of bunting needs, as pieces to be received.
pub async fn pieces(house: &House, order: &Value) -> (Value, String) {
    let quote = house.private_json(order).await.answer.expect("a quote");
    let token = quote.token.clone().expect("a ticket");
    let quote = serde_json::to_value(&quote).expect("a message is JSON");
    let fabrics = quote["fabrics"].as_array().expect("fabrics").iter().enumerate().map(|(at, fabric)| {
        json!({
            "pieceId": format!("B-{at}"), "code": fabric["fabricCode"], "lot": "L1",
            "quantity": {"lengthMm": 25_000}, "location": "shelf 1",
        })
    });
    let code = &quote["understood"]["bindingCode"];
    let roll = json!({"pieceId": "R-1", "code": code, "quantity": {"lengthMm": 200_000}});
    (fabrics.chain([roll]).collect(), token)
}

#[tokio::test]
async fn the_stock_is_the_same_by_both_private_doors() {
    let mut story = Story::begin().await;
    story.json.house.record.begin();
    // each server seals with a key of its own
    for side in [&mut story.grpc, &mut story.json] {
        for (name, millimetres) in [("token", 6200), ("longer", 9000)] {
            let (_, token) = pieces(&side.house, &json!({"flaggedMm": millimetres})).await;
            side.names.push((name, token));
        }
    }
    let (pieces, _) = pieces(&story.grpc.house, &json!({"flaggedMm": 6200})).await;
    let fabric = pieces[0]["code"].clone();

    let lines = json!([{"code": fabric, "quantity": {"lengthMm": 50_000}}]);
    let order =
        json!({"orderId": "PO-1", "supplier": "Harbour Mills", "expectedDate": "2026-12-04", "lines": lines});
    story.done("PlaceOrder", order, &[]).await;
    let delivery = json!({"requestId": "d-1", "pieces": pieces});
    story.done("ReceiveStock", delivery.clone(), &[]).await;
    let again = story.done("ReceiveStock", delivery, &[]).await;
    assert_eq!(again["replayed"], true);
    story.refused("ReceiveStock", json!({"requestId": "d-1", "pieces": [pieces[0]]}), "KEY_REUSED").await;
    let taken = story.done("CheckDelivery", json!({"pieces": [pieces[0], {"code": "no such"}]}), &[]).await;
    assert_eq!(taken["violations"][0]["field"], "pieces[0].pieceId", "{taken}");
    story.done("ListStock", json!({}), &[]).await;

    let hold = json!({"requestId": "h-1", "hold": {"token": "{token}", "acknowledgedRuleIds": ["R00"]}});
    story.done("CreateReservation", hold.clone(), &[("one", "/reservation/reservationId")]).await;
    let again = story.done("CreateReservation", hold, &[]).await;
    assert_eq!(again["reservation"]["replayed"], true);
    story.done("GetReservation", json!({"reservationId": "{one}"}), &[]).await;
    let more = json!({"reservationId": "{one}", "extension": {"seconds": 1800}});
    story.done("ExtendReservation", more, &[]).await;
    story
        .done(
            "AmendReservation",
            json!({
                "reservationId": "{one}", "token": "{longer}", "acknowledgedRuleIds": ["R00"], "reason": "longer",
            }),
            &[],
        )
        .await;
    let confirmation = json!({"reservationId": "{one}", "confirmation": {"orderReference": "1007"}});
    story.done("ConfirmReservation", confirmation, &[]).await;
    story.refused("ReleaseReservation", json!({"reservationId": "{one}"}), "FAILED_PRECONDITION").await;
    story.done("RecordCut", json!({"reservationId": "{one}"}), &[("cut", "/cutId")]).await;
    story.done("GetPiece", json!({"pieceId": "B-0"}), &[]).await;
    story.done("UndoCut", json!({"cutId": "{cut}"}), &[]).await;
    let counted = json!({"pieceId": "B-0", "counted": {"lengthMm": 20_000}, "note": "by the yardstick"});
    story.done("AdjustStock", counted, &[]).await;
    story.done("CancelReservation", json!({"reservationId": "{one}", "reason": "called off"}), &[]).await;
    let other = json!({"hold": {"token": "{token}", "acknowledgedRuleIds": ["R00"], "seconds": 60}});
    story.done("CreateReservation", other, &[("two", "/reservation/reservationId")]).await;
    story.done("ReleaseReservation", json!({"reservationId": "{two}"}), &[]).await;
    story.done("ListReservations", json!({"states": ["RESERVATION_STATE_RELEASED"]}), &[]).await;
    story.done("CancelOrder", json!({"orderId": "PO-1", "reason": "too late"}), &[]).await;
    story.done("ListOrders", json!({"closedToo": true}), &[]).await;

    // what is wrong is told alike: nothing said at all, and too much of it
    for path in COMPARED {
        let name = path.rsplit('/').next().expect("a name");
        story.say(name, json!({}), &[]).await.ok();
    }
    for (name, body) in [
        ("GetReservation", json!({"reservationId": "nobodys"})),
        ("CreateReservation", json!({"hold": {"token": "x", "seconds": 1}})),
        ("ReceiveStock", json!({"pieces": [{"code": "no such", "quantity": {"lengthMm": -1}}, {}]})),
        ("AdjustStock", json!({"pieceId": "none", "gone": {"quantity": {"count": 3}}})),
        ("GetPiece", json!({"pieceId": "none"})),
        ("RecordCut", json!({"reservationId": "nobodys", "parts": [{"line": 1, "taken": {"lengthMm": 0}}]})),
        ("UndoCut", json!({"cutId": "nobodys"})),
        ("PlaceOrder", json!({"supplier": "", "expectedDate": "soon", "lines": []})),
        ("CancelOrder", json!({"orderId": "none"})),
        ("ListReservations", json!({"pageSize": 501})),
    ] {
        story.say(name, body, &[]).await.unwrap_err();
    }
    assert!(
        story.answered >= 20 && story.refused >= 20,
        "{} answered, {} refused",
        story.answered,
        story.refused
    );
    let seen = story.json.house.record.is_as_described();
    for path in COMPARED {
        let name = path.rsplit('/').next().expect("a name");
        assert!(seen.contains(&format!("{name} 200")), "{name} was not seen answered: {seen:?}");
    }
    story.grpc.house.close().await;
    story.json.house.close().await;
}
