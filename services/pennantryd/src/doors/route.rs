//! What is found where, from the contract's own table.

use pennantry_contract::table::{METHODS, Method};

use crate::docs;
use crate::form;
use crate::metrics::Metrics;

/// A route of a door, for counting: paths that are not ours are all one.
pub const OTHER: &str = "other";

/// Routes of one door, by path.
#[derive(Debug, Clone, Copy)]
pub enum Routes {
    /// Paths of the HTTP rules.
    Public,
    /// Paths of gRPC, for gRPC and its JSON twin.
    Calls,
    /// Paths of the admin listener.
    Admin,
}

impl Routes {
    /// The route that a path is, out of a fixed set: a caller cannot make more.
    pub fn name(self, path: &str) -> &'static str {
        match self {
            Routes::Public => public(path),
            Routes::Calls => {
                METHODS.iter().find(|method| is_call(method, path)).map_or(OTHER, |method| method.name)
            }
            Routes::Admin => ["/healthz", "/readyz", "/readyz/stock", "/metrics"]
                .into_iter()
                .find(|known| *known == path)
                .unwrap_or(OTHER),
        }
    }
}

fn public(path: &str) -> &'static str {
    METHODS
        .iter()
        .filter_map(|method| method.http)
        .find(|http| fits(http.path, path))
        .map(|http| http.path)
        .or_else(|| form::route(path))
        .or_else(|| docs::route(path))
        .unwrap_or(OTHER)
}

/// Whether a path is one of a pattern, in which a part in braces stands for any one part.
fn fits(pattern: &str, path: &str) -> bool {
    let (mut parts, mut given) = (pattern.split('/'), path.split('/'));
    loop {
        match (parts.next(), given.next()) {
            (None, None) => return true,
            (Some(part), Some(given)) if part == given || (part.starts_with('{') && !given.is_empty()) => {}
            _ => return false,
        }
    }
}

fn is_call(method: &Method, path: &str) -> bool {
    let Some((service, name)) = path.strip_prefix('/').and_then(|rest| rest.split_once('/')) else {
        return false;
    };
    method.service == service && method.name == name
}

/// One door, for counting.
#[derive(Debug, Clone, Copy)]
pub struct Counted {
    /// Its name in the metrics.
    pub door: &'static str,
    /// Its routes.
    pub routes: Routes,
}

impl Counted {
    /// Public JSON.
    pub const PUBLIC: Counted = Counted { door: "public", routes: Routes::Public };
    /// Private JSON.
    pub const PRIVATE: Counted = Counted { door: "private", routes: Routes::Calls };
    /// Private gRPC.
    pub const GRPC: Counted = Counted { door: "grpc", routes: Routes::Calls };
    /// Health and metrics.
    pub const ADMIN: Counted = Counted { door: "admin", routes: Routes::Admin };

    /// Counts an answer.
    pub fn answered(self, metrics: &Metrics, route: &'static str, status: u16) {
        metrics.answered(self.door, route, status);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_with_a_name_in_it_is_one_route() {
        let name = |path| Routes::Public.name(path);
        let of_one = "/v1/reservations/{reservation_id}";
        assert_eq!((name("/v1/reservations"), name("/v1/reservations/r1")), ("/v1/reservations", of_one));
        assert_eq!(name("/v1/reservations/r2/extend"), "/v1/reservations/{reservation_id}/extend");
        for other in
            ["/v1/reservations/", "/v1/reservations/r1/", "/v1/reservations/r1/more", "/v1/quotes/r1"]
        {
            assert_eq!(name(other), OTHER, "{other}");
        }
    }
}
