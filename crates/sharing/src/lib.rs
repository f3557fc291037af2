//! A design as a link and as a file: what came in from outside is checked here
//! and nowhere else.
//!
//! A link ([`to_code`], [`find_code`]) carries only what differs from defaults
//! that are frozen with its version; a file ([`to_tree`], [`from_tree`])
//! carries the same content under names. Both are read into a [`Shared`], and
//! whatever arrives, the answer is a whole design or one plain sentence why not.
//!
//! Promises, each held by a test:
//!
//! - a link made by any version opens in every later one and means the same;
//! - equal designs give equal codes, and a code that is opened and shared again
//!   is the same code;
//! - ids of fields, changes, places and sections are never reused, and the sort
//!   of a field's number never changes;
//! - memory and time are bounded by the length of the text, which is bounded;
//! - text that came from outside stays text.
//!
//! No type of the crate `truck` knows how it is written down: everything here is
//! converted by hand.

mod file;
#[cfg(feature = "fuzz")]
pub mod fuzz;
mod kept;
mod kept_text;
mod link;
mod link_error;
mod shared;
mod v1;

pub use file::{FileError, Rounded, Tree, from_tree, print_json, rounded, rounded_in_words, schema, to_tree};
pub use kept_text::{code_and_work, from_kept_text, read_work, to_kept_text, write_work};
pub use link::{LONGEST_CODE, LONGEST_TEXT, find_code, from_code, link, to_code};
pub use link_error::LinkError;
pub use shared::{Opening, Shared};
