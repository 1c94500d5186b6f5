//! Who calls, as far as a door knows.

use std::time::Instant;

use http::{Extensions, HeaderMap, HeaderName};

use crate::listen::Peer;
use crate::service::{Caller, Door};

/// The header, or metadata, by which the shop's own tools say who they are, for the record.
pub const ACTOR: HeaderName = HeaderName::from_static("pennantry-actor");

/// Characters of a name at most.
const MOST: usize = 40;

/// Who is written down where nobody says who they are.
const STAFF: &str = "staff";
/// Who is written down at the public door, whoever says what.
const STOREFRONT: &str = "storefront";

/// The caller of a request of JSON.
pub fn of(door: Door, headers: &HeaderMap, extensions: &Extensions, deadline: Instant) -> Caller {
    let actor = match door {
        Door::Public => STOREFRONT.to_owned(),
        Door::Private => actor(headers.get(ACTOR).map(http::HeaderValue::as_bytes)),
    };
    let address = extensions.get::<Peer>().map(|peer| peer.0);
    Caller { door, actor, address, deadline: Some(deadline) }
}

/// The caller of a call of gRPC.
pub fn of_call<T>(request: &tonic::Request<T>) -> Caller {
    let given = request.metadata().get(ACTOR.as_str());
    Caller {
        door: Door::Private,
        actor: actor(given.map(tonic::metadata::MetadataValue::as_encoded_bytes)),
        address: request.remote_addr().map(|address| address.ip().to_canonical()),
        deadline: request.extensions().get::<Until>().map(|until| until.at),
    }
}

/// Until when a call of gRPC is waited for.
#[derive(Debug, Clone, Copy)]
pub struct Until {
    /// The instant.
    pub at: Instant,
    /// Whether the caller said so; otherwise it is this server's own limit.
    pub given: bool,
}

/// The name that is given where it is a plain one, "staff" otherwise.
///
/// ```
/// use pennantryd::doors::caller::actor;
/// assert_eq!(actor(Some(b"bench-2")), "bench-2");
/// assert_eq!(actor(Some(b"<b>")), "staff");
/// assert_eq!(actor(None), "staff");
/// ```
pub fn actor(given: Option<&[u8]>) -> String {
    let plain = |byte: &u8| byte.is_ascii_alphanumeric() || matches!(byte, b'.' | b'_' | b'-');
    given
        .filter(|given| (1..=MOST).contains(&given.len()) && given.iter().all(plain))
        .and_then(|given| std::str::from_utf8(given).ok())
        .unwrap_or(STAFF)
        .to_owned()
}
