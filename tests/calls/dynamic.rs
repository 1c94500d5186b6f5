//! Calls of gRPC by the descriptor alone: no client is made for them.

use std::sync::LazyLock;
use std::time::Duration;

use bytes::Bytes;
use http::uri::PathAndQuery;
use pennantry_contract::{DESCRIPTOR, table};
use pennantry_tests::raw::Raw;
use prost::Message as _;
use prost_reflect::{DescriptorPool, DynamicMessage, SerializeOptions};
use serde_json::Value;
use tonic::Status;
use tonic::client::Grpc;

use super::Told;
use crate::doors::House;

static POOL: LazyLock<DescriptorPool> =
    LazyLock::new(|| DescriptorPool::decode(DESCRIPTOR).expect("the descriptor is one"));
/// Longer than any sign takes.
const LONG: Duration = Duration::from_mins(1);

fn json(message: &DynamicMessage) -> Value {
    let options = SerializeOptions::new().skip_default_fields(false);
    let written = message.serialize_with_options(serde_json::value::Serializer, &options);
    written.expect("a message is JSON")
}

/// Calls a method with what is asked in JSON. Of a stream so many signs are waited for.
pub async fn call(house: &House, method: &table::Method, ask: &Value, signs: Option<usize>) -> Told {
    let find = |name: &str| POOL.get_message_by_name(name).expect("a message of the contract");
    let asked = DynamicMessage::deserialize(find(method.request.name), ask).expect("a request");
    let asked = Bytes::from(asked.encode_to_vec());
    let response = find(method.response.name);
    let read = |told: Bytes| DynamicMessage::decode(response.clone(), told).expect("a message of its kind");
    let path: PathAndQuery = method.path().parse().expect("a path");
    let mut client = Grpc::new(house.channel());
    client.ready().await.expect("the door is open");
    let refused = |status: Status| House::refusal_of(&status);
    if !method.server_streaming {
        let told = client.unary(tonic::Request::new(asked), path, Raw).await;
        return told.map(|told| json(&read(told.into_inner()))).map_err(refused);
    }
    let told = client.server_streaming(tonic::Request::new(asked), path, Raw).await;
    let mut stream = told.map_err(refused)?.into_inner();
    let mut list = Vec::new();
    while list.len() < signs.unwrap_or(usize::MAX) {
        let next = tokio::time::timeout(LONG, stream.message()).await.expect("a sign in time");
        match next.map_err(refused)? {
            Some(sign) => list.push(json(&read(sign))),
            None => break,
        }
    }
    Ok(serde_json::json!({ "signs": list }))
}
