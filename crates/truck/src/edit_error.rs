//! Why an edit is refused, and the one thing that is asked of every name.

use crate::change::ChangeKind;
use crate::field::Field;
use crate::reading::{Readable, ReadingFault};
use crate::rear::RearField;

/// Longest title or name, in bytes.
pub(crate) const LONGEST_NAME: usize = 80;

/// Why an edit was refused. The design stays as it was.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum EditError {
    /// The value is not finite, or outside what the field takes.
    #[error("{}: outside what can be entered", .0.label())]
    OutOfLimits(Field),
    /// The field cannot be left open.
    #[error("{}: a value is needed", .0.label())]
    NeedsValue(Field),
    /// The number is one for both sides.
    #[error("{}: there is one for both sides", .0.label())]
    OneForBoth(Field),
    /// A number of the change is outside its limits.
    #[error("{}: a number is outside what can be entered", .0.label())]
    Change(ChangeKind),
    /// The change is one for both sides.
    #[error("{}: on both sides alike", .0.label())]
    ChangeForBoth(ChangeKind),
    /// A number of the rear is not finite, or outside what can be entered.
    #[error("A number of the rear: outside what can be entered")]
    RearOutOfLimits(RearField),
    /// The rear comes down by more than can be entered, or less.
    #[error("Rear comes down by: outside what can be entered")]
    RearDown,
    /// What was read off is no reading.
    #[error("{}: {}", .0.label(), .1.label())]
    Reading(Readable, ReadingFault),
    /// A torque is outside what can be entered.
    #[error("Torque: outside what can be entered")]
    Torque,
    /// There is no such proposal.
    #[error("the plan is not there any more")]
    NoProposal,
    /// There are as many proposals as a design can hold.
    #[error("a design holds no more than three plans")]
    TooManyProposals,
    /// The text is longer than a design can hold.
    #[error("the text is too long")]
    TooLong,
    /// There is no such row, part or number in the ledger.
    #[error("the ledger has no such row or part")]
    NoRow,
    /// A number of the ledger is outside what can be entered, or not by a tool for it.
    #[error("outside what can be measured there, or not with that tool")]
    LedgerNumber,
    /// The ledger has as many rows, parts, numbers or names as a link can hold, beside readings and rear.
    #[error(
        "the ledger is full: 64 rows and 64 parts added, 800 letters of names, 256 numbers, fewer beside readings, a rear and plans by side"
    )]
    LedgerFull,
}

/// A text that is no longer than it may be.
///
/// # Errors
/// [`EditError::TooLong`] where it is.
pub(crate) fn bounded(text: &str, most: usize) -> Result<String, EditError> {
    if text.len() <= most { Ok(text.to_owned()) } else { Err(EditError::TooLong) }
}
