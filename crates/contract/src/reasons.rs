//! The one table of errors: from what went wrong to the words and numbers of both doors.
//!
//! A [`Kind`] says how a whole request failed; a [`ViolationReason`] what is wrong with
//! one field of it. Each row stands here once: the gRPC status, the HTTP status, the
//! documentation ([`markdown`]) and the tests read it from here.
//!
//! HTTP statuses are those of RFC 9110 and, for 422, RFC 4918 by way of RFC 9110; 499
//! is common practice, no standard. The pairs of gRPC code and HTTP status follow
//! `google/rpc/code.proto`, but for three that it has no row for: a body over the limit
//! is OUT_OF_RANGE, because that is what tonic answers by itself to a message over its
//! limit; a request id used again for another request is ALREADY_EXISTS; and what only
//! HTTP can get wrong (method, media type) has the nearest code.
//!
//! # Example
//! ```
//! use pennantry_contract::reasons::Kind;
//!
//! let kind = Kind::ViewNotPublic;
//! assert_eq!((kind.as_str(), kind.http_status()), ("VIEW_NOT_PUBLIC", 403));
//! assert_eq!(kind.grpc_code(), tonic::Code::PermissionDenied);
//! ```

use std::fmt::Write as _;

use tonic::Code;

macro_rules! kinds {
    ($($(#[doc = $doc:literal])+ $kind:ident $reason:literal $code:ident $status:literal $title:literal;)+) => {
        /// How a request failed.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum Kind {
            $($(#[doc = $doc])+ $kind,)+
        }

        impl Kind {
            /// Every kind, in the order of the HTTP status.
            pub const ALL: &'static [Kind] = &[$(Kind::$kind),+];

            /// The reason in capitals, for programs.
            pub const fn as_str(self) -> &'static str {
                match self { $(Kind::$kind => $reason,)+ }
            }

            /// The code of the gRPC status.
            pub const fn grpc_code(self) -> Code {
                match self { $(Kind::$kind => Code::$code,)+ }
            }

            /// The HTTP status.
            pub const fn http_status(self) -> u16 {
                match self { $(Kind::$kind => $status,)+ }
            }

            /// The failure in a few words, the same every time, for people.
            pub const fn title(self) -> &'static str {
                match self { $(Kind::$kind => $title,)+ }
            }

            const fn doc(self) -> &'static str {
                match self { $(Kind::$kind => concat!($($doc),+),)+ }
            }
        }
    };
}

kinds! {
    /// A readable request breaks rules; every violation is listed.
    InvalidEnquiry "INVALID_ENQUIRY" InvalidArgument 400 "The request cannot stand as it is";
    /// The body cannot be read; the first fault is listed with its path.
    Unreadable "UNREADABLE" InvalidArgument 400 "The request cannot be read";
    /// No key, or one that is not known.
    Unauthenticated "UNAUTHENTICATED" Unauthenticated 401 "Not signed in";
    /// The shop's view was asked at the public door.
    ViewNotPublic "VIEW_NOT_PUBLIC" PermissionDenied 403 "That view is not given here";
    /// Nothing is there under that name.
    NotFound "NOT_FOUND" NotFound 404 "Not found";
    /// The address is there, but not for this method.
    MethodNotAllowed "METHOD_NOT_ALLOWED" Unimplemented 405 "Method not allowed";
    /// No answer is to be had in a form that the caller accepts.
    NotAcceptable "NOT_ACCEPTABLE" InvalidArgument 406 "No such form of answer";
    /// What is asked does not agree with what is there now.
    FailedPrecondition "FAILED_PRECONDITION" FailedPrecondition 409 "Not as things stand";
    /// Somebody else was quicker; the same request may succeed now.
    Aborted "ABORTED" Aborted 409 "Overtaken by another request";
    /// The body is over the limit.
    TooLarge "TOO_LARGE" OutOfRange 413 "The request is too large";
    /// The body is not of a kind that is read here.
    UnsupportedMedia "UNSUPPORTED_MEDIA" InvalidArgument 415 "Not a kind of body that is read here";
    /// The request's id was used before, for another request.
    KeyReused "KEY_REUSED" AlreadyExists 422 "That request id was used for another request";
    /// Too many requests at once.
    ResourceExhausted "RESOURCE_EXHAUSTED" ResourceExhausted 429 "Too many requests";
    /// The caller went away.
    Cancelled "CANCELLED" Cancelled 499 "Called off";
    /// A fault of the program; the cause is in its log and never in the answer.
    Internal "INTERNAL" Internal 500 "Something went wrong inside";
    /// Not now: starting, stopping, or without something that this needs.
    Unavailable "UNAVAILABLE" Unavailable 503 "Not available now";
    /// It took longer than the caller, or the server, gives it.
    DeadlineExceeded "DEADLINE_EXCEEDED" DeadlineExceeded 504 "It took too long";
}

impl Kind {
    /// The kind that a gRPC status without a reason of ours comes nearest to, such as one
    /// that the library made by itself.
    ///
    /// A status that says OK is not a failure; handed in here it is a fault of the program.
    pub fn from_grpc_code(code: impl Into<Code>) -> Kind {
        match code.into() {
            Code::Ok | Code::Unknown | Code::Internal | Code::DataLoss => Kind::Internal,
            Code::Cancelled => Kind::Cancelled,
            Code::InvalidArgument => Kind::InvalidEnquiry,
            Code::DeadlineExceeded => Kind::DeadlineExceeded,
            Code::NotFound | Code::Unimplemented => Kind::NotFound,
            Code::AlreadyExists => Kind::KeyReused,
            Code::PermissionDenied => Kind::ViewNotPublic,
            Code::ResourceExhausted => Kind::ResourceExhausted,
            Code::FailedPrecondition => Kind::FailedPrecondition,
            Code::Aborted => Kind::Aborted,
            Code::OutOfRange => Kind::TooLarge,
            Code::Unavailable => Kind::Unavailable,
            Code::Unauthenticated => Kind::Unauthenticated,
        }
    }

    /// The kind of a reason as it was sent.
    pub fn from_reason(reason: &str) -> Option<Kind> {
        Kind::ALL.iter().copied().find(|kind| kind.as_str() == reason)
    }
}

macro_rules! violations {
    ($(#[doc = $doc:literal] $reason:ident $name:literal;)+) => {
        /// What is wrong with one field.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        pub enum ViolationReason {
            $(#[doc = $doc] $reason,)+
        }

        impl ViolationReason {
            /// Every reason, those of reading first.
            pub const ALL: &'static [ViolationReason] = &[$(ViolationReason::$reason),+];

            /// The reason in capitals, for programs.
            pub const fn as_str(self) -> &'static str {
                match self { $(ViolationReason::$reason => $name,)+ }
            }

            const fn doc(self) -> &'static str {
                match self { $(ViolationReason::$reason => $doc,)+ }
            }
        }
    };
}

violations! {
    /// The body is not JSON.
    MalformedJson "MALFORMED_JSON";
    /// Nested deeper than anything that is read.
    TooDeep "TOO_DEEP";
    /// There is no such key here.
    UnknownField "UNKNOWN_FIELD";
    /// The key is there twice.
    RepeatedField "REPEATED_FIELD";
    /// Something of which there is one is said in two ways, such as the length.
    TwoLengths "TWO_LENGTHS";
    /// The value is of another type than the field.
    WrongType "WRONG_TYPE";
    /// The enum has no such value.
    UnknownValue "UNKNOWN_VALUE";
    /// Something must be given and is not.
    Missing "MISSING";
    /// Not a number, or infinite.
    NotFinite "NOT_FINITE";
    /// The length is finer than a micrometre.
    LengthTooFine "LENGTH_TOO_FINE";
    /// Less than the least or more than the most.
    OutOfRange "OUT_OF_RANGE";
    /// More characters or entries than the most.
    TooLong "TOO_LONG";
    /// The text holds what cannot be lettered, shown or printed.
    BadText "BAD_TEXT";
    /// Not a day of the calendar as YYYY-MM-DD.
    BadDate "BAD_DATE";
    /// A day that is over.
    PastDate "PAST_DATE";
    /// Something is listed twice that may be there once.
    Repeated "REPEATED";
    /// The catalogue has no such code.
    UnknownCode "UNKNOWN_CODE";
    /// The catalogue has it, but not for this.
    NotOffered "NOT_OFFERED";
    /// Two fields cannot both hold.
    Contradiction "CONTRADICTION";
    /// It does not fit into the length.
    DoesNotFit "DOES_NOT_FIT";
    /// The shop alone may say this, at the private door.
    StaffOnly "STAFF_ONLY";
}

/// Both tables in Markdown, for DEVELOPERS.md.
pub fn markdown() -> String {
    let mut out = String::from("| reason | gRPC | HTTP | when |\n|---|---|---|---|\n");
    for kind in Kind::ALL {
        let (code, number) = (kind.grpc_code(), i32::from(kind.grpc_code()));
        let (reason, status, doc) = (kind.as_str(), kind.http_status(), kind.doc().trim());
        // Writing into a string cannot fail.
        let _ = writeln!(out, "| {reason} | {code:?} ({number}) | {status} | {doc} |");
    }
    out.push_str("\n| reason of a violation | when |\n|---|---|\n");
    for reason in ViolationReason::ALL {
        let _ = writeln!(out, "| {} | {} |", reason.as_str(), reason.doc().trim());
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The pairs that DESIGN section 4 lists, written down a second time on purpose.
    #[test]
    fn statuses_are_those_of_the_design() {
        let listed = [
            (Code::InvalidArgument, 400),
            (Code::Unauthenticated, 401),
            (Code::PermissionDenied, 403),
            (Code::NotFound, 404),
            (Code::FailedPrecondition, 409),
            (Code::Aborted, 409),
            (Code::ResourceExhausted, 429),
            (Code::Cancelled, 499),
            (Code::Internal, 500),
            (Code::Unavailable, 503),
            (Code::DeadlineExceeded, 504),
        ];
        for (code, status) in listed {
            assert_eq!(Kind::from_grpc_code(code).http_status(), status, "{code:?}");
        }
        assert_eq!(Kind::TooLarge.http_status(), 413);
        assert_eq!(Kind::KeyReused.http_status(), 422);
    }

    #[test]
    fn a_kind_survives_the_wire_by_its_reason() {
        for kind in Kind::ALL {
            assert_eq!(Kind::from_reason(kind.as_str()), Some(*kind));
        }
        assert_eq!(Kind::from_reason("NO_SUCH"), None);
    }

    /// A status made by a library keeps the HTTP status of the kind it would be here,
    /// but for what only HTTP can get wrong.
    #[test]
    fn a_code_alone_keeps_its_status() {
        let http_only = [Kind::MethodNotAllowed, Kind::NotAcceptable, Kind::UnsupportedMedia];
        for kind in Kind::ALL.iter().filter(|kind| !http_only.contains(kind)) {
            assert_eq!(Kind::from_grpc_code(kind.grpc_code()).http_status(), kind.http_status(), "{kind:?}");
        }
    }

    #[test]
    fn reasons_are_written_like_constants_and_once() {
        let mut all: Vec<&str> = Kind::ALL.iter().map(|kind| kind.as_str()).collect();
        all.extend(ViolationReason::ALL.iter().map(|reason| reason.as_str()));
        for reason in &all {
            assert!(reason.chars().all(|letter| letter.is_ascii_uppercase() || letter == '_'), "{reason}");
        }
        let count = all.len();
        all.sort_unstable();
        all.dedup();
        assert_eq!(all.len(), count);
    }

    #[test]
    fn markdown_has_a_row_for_each() {
        let text = markdown();
        assert!(text.contains("| VIEW_NOT_PUBLIC | PermissionDenied (7) | 403 |"), "{text}");
        assert_eq!(text.matches("\n| ").count(), Kind::ALL.len() + ViolationReason::ALL.len() + 1);
    }
}
