//! Why a file gives no design.

/// Why a tree gives no design; each reads as one sentence for the page's top or standard error.
///
/// Paths are those of the file: keys joined by points, places in lists in brackets.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum FileError {
    /// There is no mark of ours in it.
    #[error("This is not a Scrubline file: it has no \"scrubline\": 1.")]
    NotOurs,
    /// A key that is not known here.
    #[error("The file was made by a newer Scrubline: “{0}” is not known here.")]
    Newer(String),
    /// Something of another shape than the file's.
    #[error("The file has the wrong shape: {path} must be {expected}.")]
    Shape {
        /// Where.
        path: String,
        /// What stands there in a file of ours.
        expected: &'static str,
    },
    /// A number outside what can be entered.
    #[error("The file gives a number outside what can be entered: {path} ({label}) takes {low} to {high}.")]
    OutOfLimits {
        /// Where.
        path: String,
        /// What the forms call it.
        label: &'static str,
        /// Least value, in the file's unit.
        low: String,
        /// Greatest value, in the file's unit.
        high: String,
    },
    /// A key, a proposal's id or a change that is there twice.
    #[error("The file has {0} twice.")]
    Twice(String),
    /// Text or a list that is longer than a design can hold.
    #[error("The file has more than a design can hold in {0}.")]
    TooLong(String),
    /// More than a file of ours ever has.
    #[error("The file is too large or too deeply nested to be a Scrubline file.")]
    TooLarge,
}
