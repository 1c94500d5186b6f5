//! Tests of the rules.
