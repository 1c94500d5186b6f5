//! Checks against sources from outside, and properties.
