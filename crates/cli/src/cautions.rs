//! What is said below every answer that somebody may work by.

/// What no number takes the place of.
pub(crate) const CAUTIONS: [&str; 3] = [
    "Work under it on stands only, never on a jack.",
    "Have it aligned and inspected before it goes on the road.",
    "Your local rules decide what may be changed.",
];
