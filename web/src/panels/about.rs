//! What to be careful of, and what the sketch does not know. The words stand in `index.html`.

use crate::dom::{Node, block, el, words};

/// The panel.
#[inline(never)]
pub(crate) fn about() -> Node {
    block("section", "panel")
        .attr("aria-label", "Cautions")
        .child(el("h2").text("Cautions"))
        .child(words("words-cautions"))
        .child(el("h3").text("What the sketch does not know"))
        .child(words("words-limits"))
}
