//! Rules about paper, each at its edge.
