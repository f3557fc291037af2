//! A design as a JSON file: the same content as a link, under names.
//!
//! Lengths are millimetres, angles degrees, forces newtons. Text becomes a
//! [`Tree`] and a tree becomes text elsewhere but for [`print_json`]: the page
//! has the browser's reader, the command its own. A number that a file leaves
//! out is the default of version 1, as in a link; a title, note or proposal
//! that it leaves out is not there. A key that is not known is refused by name.

mod error;
mod layout;
mod ledger;
mod ledger_schema;
mod path;
mod pieces;
mod read;
mod readings;
mod rounded;
mod schema;
mod tree;
mod work;
mod write;

pub use error::FileError;
pub use read::from_tree;
pub use rounded::{Rounded, rounded, rounded_in_words};
pub use schema::schema;
pub use tree::{Tree, print_json};
pub use write::to_tree;

/// The version of the file's form.
const VERSION: u8 = 1;
/// The key that says that a file is ours, and its version.
const MARK: &str = "scrubline";
/// The key of what meets what.
const LEDGER: &str = "ledger";
/// The key of what is written down of the work.
const WORK: &str = "work";
