//! What the `scrubline` command reads, apart from the command: text from outside
//! goes through here alone, and so can be tried without a process for each text.

pub mod tree;
