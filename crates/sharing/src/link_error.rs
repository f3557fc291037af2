//! Why a text gives no design.

/// Why a text gives no design; each reads as one sentence for the page's top or standard error.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum LinkError {
    /// The check characters do not fit what stands before them.
    #[error("The link is cut off or mistyped.")]
    CutOff,
    /// The version is unknown, or an id within a known version.
    #[error("The link was made by a newer Scrubline: reload the page or update to open it.")]
    Newer,
    /// There is nothing in the text that could be a link of ours.
    #[error("This is not a Scrubline link.")]
    NotALink,
    /// The text is longer than [`LONGEST_TEXT`](crate::LONGEST_TEXT), or the code than [`LONGEST_CODE`](crate::LONGEST_CODE).
    #[error("The text is too long to be a Scrubline link.")]
    TooLong,
    /// A number is outside what can be entered; the field's label is named.
    #[error("The link gives a number outside what can be entered: {0}.")]
    OutOfLimits(&'static str),
    /// The check characters fit, and still the link contradicts itself.
    #[error("The link does not hold a design.")]
    Unreadable,
}
