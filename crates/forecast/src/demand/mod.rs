//! What a demand history says.
