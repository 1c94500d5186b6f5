//! Who may ask at the private HTTP door: it asks nobody who they are yet, so no web page but its
//! own may lead a browser there.
//!
//! | what a request says | what is taken |
//! |---|---|
//! | `Host`, from this machine | `localhost`, or an address of this machine alone, any port: a name that a stranger has put on such an address is none of these |
//! | `Origin` | that of the `Host`, or any where the browser itself says `same-origin`; none |
//! | `Sec-Fetch-Site`, for what begins something by `GET` | `same-origin`, `none`, or nothing |
//!
//! Origins: RFC 6454, section 7; what a browser says of itself: Fetch Metadata Request Headers,
//! section 2.2 (a page cannot set it).

use std::net::IpAddr;

use axum::extract::Request;
use axum::middleware::Next;
use axum::response::Response;
use http::uri::Authority;
use http::{HeaderMap, HeaderName, header};
use pennantry_contract::reasons::Kind;

use super::Refusal;
use crate::failure::Failure;
use crate::listen::Peer;

/// What a browser says of the page that asks.
const SITE: HeaderName = HeaderName::from_static("sec-fetch-site");

/// Lets a request in, or refuses it.
pub async fn guard(request: Request, next: Next) -> Result<Response, Refusal> {
    let is_near = request.extensions().get::<Peer>().is_none_or(|peer| peer.0.is_loopback());
    if is_near {
        named(&request)?;
    }
    asked_by(request.headers())?;
    Ok(next.run(request).await)
}

/// Refuses what another page had a browser ask, where it would begin something.
///
/// # Errors
/// It did.
pub fn begins(headers: &HeaderMap) -> Result<(), Failure> {
    match headers.get(SITE).map(http::HeaderValue::as_bytes) {
        None | Some(b"same-origin" | b"none") => Ok(()),
        Some(_) => Err(foreign("a page of another site")),
    }
}

fn foreign(who: &str) -> Failure {
    let detail = format!(
        "{who} asks: the shop's side answers its own pages and programs of this machine alone; open it as \
         http://127.0.0.1 or http://localhost with its port"
    );
    Failure::new(Kind::ViewNotPublic, detail)
}

fn short(given: &str) -> String {
    given.chars().take(80).collect()
}

/// Whether a name is this machine's own.
fn is_here(host: &str) -> bool {
    let bare = host.strip_prefix('[').and_then(|rest| rest.strip_suffix(']')).unwrap_or(host);
    host.eq_ignore_ascii_case("localhost")
        || bare.parse().is_ok_and(|ip: IpAddr| ip.to_canonical().is_loopback())
}

fn named(request: &Request) -> Result<(), Failure> {
    let of_address = request.uri().authority().map(|authority| Ok(authority.host().to_owned()));
    let of_headers = request.headers().get_all(header::HOST).iter().map(|host| {
        let text = String::from_utf8_lossy(host.as_bytes()).into_owned();
        text.parse::<Authority>().map(|authority| authority.host().to_owned()).map_err(|_| text)
    });
    for host in of_address.into_iter().chain(of_headers) {
        let host = match host {
            Ok(host) if is_here(&host) => continue,
            Ok(host) | Err(host) => host,
        };
        return Err(foreign(&format!("{:?}, a name that is not this machine's own,", short(&host))));
    }
    Ok(())
}

fn asked_by(headers: &HeaderMap) -> Result<(), Failure> {
    if headers.get(SITE).is_some_and(|site| site.as_bytes() == b"same-origin") {
        return Ok(());
    }
    let own = headers.get(header::HOST).and_then(|host| host.to_str().ok());
    for origin in headers.get_all(header::ORIGIN) {
        let origin = String::from_utf8_lossy(origin.as_bytes());
        let of = origin.split_once("://").map(|(_, of)| of);
        if of.is_none() || !of.zip(own).is_some_and(|(of, own)| of.eq_ignore_ascii_case(own)) {
            return Err(foreign(&format!("a page of {:?}", short(&origin))));
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use axum::body::Body;

    use super::*;

    fn with(pairs: &[(&str, &str)]) -> Request {
        let mut request = Request::get("/report");
        for (name, value) in pairs {
            request = request.header(*name, *value);
        }
        request.body(Body::empty()).unwrap()
    }

    #[test]
    fn names_of_this_machine_are_taken_and_others_are_not() {
        for own in
            ["127.0.0.1:50051", "127.0.0.1", "127.8.8.8:1", "localhost:8080", "LOCALHOST", "[::1]:50051"]
        {
            assert_eq!(named(&with(&[("host", own)])), Ok(()), "{own}");
        }
        assert_eq!(named(&with(&[])), Ok(()), "a program may leave it out");
        for foreign in [
            "rebound.example:50051",
            "localhost.rebound.example",
            "127.0.0.1.rebound.example",
            "10.0.0.5:50051",
            "[2001:db8::1]:80",
            "0.0.0.0:50051",
            "2130706433",
            "a",
            "",
            "127.0.0.1:50051@rebound.example",
        ] {
            let refused = named(&with(&[("host", foreign)])).unwrap_err();
            assert_eq!(refused.kind, Kind::ViewNotPublic, "{foreign}");
            assert!(refused.detail.contains("http://127.0.0.1"), "says what to do: {refused:?}");
        }
        assert!(named(&with(&[("host", "localhost"), ("host", "rebound.example")])).is_err());
        let mut absolute = with(&[("host", "localhost")]);
        *absolute.uri_mut() = "http://rebound.example/report".parse().unwrap();
        assert!(named(&absolute).is_err());
    }

    #[test]
    fn pages_of_other_origins_are_refused() {
        let by = |pairs: &[(&str, &str)]| asked_by(with(pairs).headers()).is_ok();
        let host = ("host", "127.0.0.1:50051");
        assert!(by(&[host]));
        assert!(by(&[host, ("origin", "http://127.0.0.1:50051")]));
        for foreign in [
            "http://shop.example",
            "null",
            "http://127.0.0.1:3000",
            "http://localhost:50051",
            "",
            "127.0.0.1:50051",
        ] {
            assert!(!by(&[host, ("origin", foreign)]), "{foreign}");
        }
        // behind a web server that asks, its page is the browser's own
        assert!(by(&[host, ("origin", "https://desk.example"), ("sec-fetch-site", "same-origin")]));
        assert!(!by(&[host, ("origin", "https://desk.example"), ("sec-fetch-site", "same-site")]));
        for (site, may) in
            [("same-origin", true), ("none", true), ("same-site", false), ("cross-site", false), ("x", false)]
        {
            assert_eq!(begins(with(&[("sec-fetch-site", site)]).headers()).is_ok(), may, "{site}");
        }
        assert_eq!(begins(with(&[]).headers()), Ok(()));
    }
}
