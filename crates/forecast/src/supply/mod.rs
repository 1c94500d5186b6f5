//! What a stock needs.
