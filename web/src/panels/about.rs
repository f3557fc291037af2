//! What to be careful of, what the sketch does not know, and how it is kept at hand. The words stand in `words.html`.

use crate::dom::{Node, el, words};
use crate::widgets::panel;

/// The panel.
#[inline(never)]
pub(crate) fn about() -> Node {
    panel("Safety")
        .child(words("words-cautions"))
        .child(el("h3").text("What the sketch does not know"))
        .child(words("words-limits"))
        .child(el("h3").text("Without a network"))
        .child(words("words-offline"))
}
