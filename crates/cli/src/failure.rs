//! Why the command did not do what it was asked.

use std::{fmt, io};

/// Why the command stops with exit code 1.
#[derive(Debug)]
pub(crate) enum Failure {
    /// What was given cannot be used.
    Data {
        /// The file, or the part of the design.
        place: Option<String>,
        /// A plain sentence.
        sentence: String,
    },
    /// What was found cannot be written.
    Output(io::Error),
}

impl Failure {
    /// A failure at a file or a part of a design.
    pub(crate) fn at(place: impl Into<String>, sentence: impl fmt::Display) -> Self {
        Self::Data { place: Some(place.into()), sentence: sentence.to_string() }
    }

    /// A failure with nothing to point at.
    pub(crate) fn plain(sentence: impl fmt::Display) -> Self {
        Self::Data { place: None, sentence: sentence.to_string() }
    }

    /// Whether the reader has simply had enough, as `head` has.
    pub(crate) fn is_closed_pipe(&self) -> bool {
        matches!(self, Self::Output(error) if error.kind() == io::ErrorKind::BrokenPipe)
    }
}

impl From<io::Error> for Failure {
    fn from(error: io::Error) -> Self {
        Self::Output(error)
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Data { place: Some(place), sentence } => write!(f, "{place}: {sentence}"),
            Self::Data { place: None, sentence } => f.write_str(sentence),
            Self::Output(error) => write!(f, "standard output: {error}"),
        }
    }
}
