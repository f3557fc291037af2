//! Links and files against the promises of the crate.

#![expect(clippy::unwrap_used, reason = "a helper that panics fails its test")]

mod codes;
mod files;
mod finding;
mod generate;
mod links;
mod opening;
mod round_trips;
mod rounded;
mod schema;
mod work;
