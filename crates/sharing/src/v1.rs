//! Version 1 of a link's payload: bits, section by section.
//!
//! ```text
//! payload  = ids section*            the sections that are there, by id
//! ids      = { 1 skip take } 0       runs of ids: so many absent, so many there
//! number   = class bits              steps of `truck::Kind`, less the default
//! text     = gamma bytes             length + 1, UTF-8
//!
//! 0 title     = text
//! 1 note      = text
//! 2 numbers   = ids { [stated] number }          by `Field::id`
//! 3 sources   = rule any { [other] }             one for each number above
//! 4 spring    = ids [ kind ] [ arm ] [ named ]  named has no bits: somebody said which kind
//! 5 proposals = gamma { proposal }
//! 6 opening   = ids [ proposal ] [ travel ] [ steer ] [ units ] [ lesson ]
//! 7 base      = gamma                            which numbers are stated by default, and which
//!                                                proposals
//! 8 right     = ids { number }                   by `Field::id`; the others are as the left's
//! 9 readings  = see `readings`                   what was read off as it sits
//! 10 ledger   = see `ledger`                     what meets what
//! 11 rear     = see `rear`                       the rear axle on its springs
//! 12 built    = see `readings`                   what was read as it was built
//! 13 settled  = see `readings`                   the same, once it had settled
//! 14 guesses  = gamma any any any                the rule by which guesses follow what is known, and
//!                                                which parts they do not follow
//! proposal = ids [ id ] [ name ] [ changes ] [ left ] [ right ] [ rear ] [ origins ]     ids 0 to 6
//! changes  = gamma { change }                    on both sides; left, right: on one side alone
//! rear     = number                              how far it comes down, from zero; absent: not stated
//! origins  = { ids { guess } }                   one for each slot, as the changes stand; its numbers
//!                                                that are not typed
//! change   = kind any [ place ] ids { number }
//! ```
//!
//! What is absent is the default of [`defaults`], and a truck's number that is
//! not among them is not stated. A number is there when its value differs from
//! the default or its source from the rule. Numbers of optional fields say
//! first whether they are stated.
//!
//! Anything may be added with an id of its own, and needs no new version: an
//! older reader meets an id it does not know and says that the link is newer.

mod bits;
pub(crate) mod defaults;
mod ids;
mod ledger;
mod read;
mod readings;
mod rear;
pub(crate) mod stated;
mod write;

pub(crate) use read::read;
pub(crate) use write::write;

use truck::{Field, Kind, Source};

/// The source that a number which is there has, unless its link says otherwise.
///
/// On a truck whose numbers count as assumed it is what typing them in makes of them.
const fn usual_source(rule: Source, field: Field) -> Source {
    match (rule, field.kind()) {
        (Source::Assumed, Kind::Whole | Kind::RimCode | Kind::Modulus | Kind::Stress) => Source::Typed,
        (Source::Assumed, _) => Source::Measured,
        _ => rule,
    }
}
