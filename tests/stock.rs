//! The stock against a model of it that shares no rule with it: the same commands, from a
//! seed, asked of both engines and of the model in lock-step.
//!
//! A failure names its seed and the number of the command; `SIM_SEED` runs that one again,
//! `SIM_COMMANDS` makes a run longer or shorter.

mod commands;
mod lockstep;
mod model;
mod whole;
