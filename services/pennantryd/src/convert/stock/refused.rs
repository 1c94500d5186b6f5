//! Refusals of the ledger, and of whoever plans on it, as failures.
//!
//! | refusal | kind |
//! |---|---|
//! | something named is not there | `NOT_FOUND` |
//! | an amount, a width or a list cannot stand | `INVALID_ENQUIRY` |
//! | what was planned on has changed meanwhile | `ABORTED` |
//! | a holder has as many holds as may be | `RESOURCE_EXHAUSTED` |
//! | anything else: as things stand it cannot be done | `FAILED_PRECONDITION` |
//!
//! At the public door no piece is named and no amount is told: what lies on the shelf is the
//! shop's affair.

use pennantry_contract::reasons::Kind;
use pennantry_ledger::Error;
use pennantry_ledger::rules::Refusal;

use crate::failure::Failure;
use crate::service::Door;

/// The kind of a refusal.
pub const fn kind(refusal: &Refusal) -> Kind {
    match refusal {
        Refusal::NoPiece(_)
        | Refusal::NoReservation(_)
        | Refusal::NoLine(..)
        | Refusal::NoCut(_)
        | Refusal::NoOrder(_) => Kind::NotFound,
        Refusal::TooManyHolds(_) => Kind::ResourceExhausted,
        Refusal::BadAmount(..)
        | Refusal::BadWidth(..)
        | Refusal::BadSeconds(_)
        | Refusal::BadBenchTime(_)
        | Refusal::BadShapeArea(_)
        | Refusal::TooManyShapes { .. }
        | Refusal::BadDay { .. }
        | Refusal::BadFlaws(_)
        | Refusal::Twice(_) => Kind::InvalidEnquiry,
        Refusal::PieceExists(_)
        | Refusal::ReservationExists(_)
        | Refusal::CutExists(_)
        | Refusal::OrderExists(_)
        | Refusal::Taken(_)
        | Refusal::OtherMaterial { .. }
        | Refusal::Expired(..)
        | Refusal::NotNow(..)
        | Refusal::IsShort { .. }
        | Refusal::AsLongAsMayBe(..)
        | Refusal::NotYours(_)
        | Refusal::MoreThanLies { .. }
        | Refusal::PartsDoNotFit { .. }
        | Refusal::RemnantsDoNotFit(_)
        | Refusal::NothingToCut(_)
        | Refusal::TooLate(..)
        | Refusal::AlreadyUndone(_)
        | Refusal::UsedSince(..)
        | Refusal::OrderNotNow(..)
        | Refusal::NotOrdered(..)
        | Refusal::NothingLeft(_)
        | Refusal::Empty => Kind::FailedPrecondition,
        Refusal::Changed(_) => Kind::Aborted,
    }
}

/// A refusal in words.
pub fn refusal(refusal: &Refusal, door: Door) -> Failure {
    let detail = match (door, refusal) {
        (Door::Public, Refusal::IsShort { .. }) => {
            "something of what was held is missing: it cannot be confirmed as it is; ask the shop".to_owned()
        }
        (Door::Public, Refusal::Taken(_)) => overtaken().detail,
        _ => refusal.to_string(),
    };
    Failure::new(kind(refusal), detail)
}

/// Somebody was quicker, time and again.
pub fn overtaken() -> Failure {
    Failure::new(
        Kind::Aborted,
        "others took of the same cloth each time it was tried: nothing was taken; try again now",
    )
}

/// An error of the ledger.
pub fn error(error: &Error, door: Door) -> Failure {
    match error {
        Error::Refused(found) => refusal(found, door),
        Error::KeyReused => Failure::new(
            Kind::KeyReused,
            "that request id was used for another request: give each request an id of its own, and send the same \
             one again only with the same content",
        ),
        Error::InProgress => Failure::new(
            Kind::Aborted,
            "the same request is being carried out just now: send it again in a moment for its answer",
        ),
        Error::Busy => Failure::new(
            Kind::ResourceExhausted,
            "more is asked of the stock at once than it takes in: nothing was changed; try again in a moment",
        ),
        Error::Late => Failure::new(
            Kind::DeadlineExceeded,
            "the time given was over before it was begun: nothing was changed; give it more time",
        ),
        Error::Unavailable(cause) => {
            tracing::error!(cause, "the stock cannot be had");
            Failure::new(
                Kind::Unavailable,
                "the stock cannot be had now, and whether it was done is not known: sent again with the same id it is \
                 done once at most; a request without one has to be looked for on the shelf first",
            )
        }
        Error::Unfit(cause) => {
            tracing::error!(cause, "the stock is not one that this program may write to");
            Failure::new(Kind::Unavailable, "the stock cannot be used by this server: ask whoever runs it")
        }
        Error::Fault(cause) => Failure::internal(cause),
    }
}
