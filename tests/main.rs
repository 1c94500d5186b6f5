//! All.
