//! What a link would have replaced, as it is kept in the browser until the person has decided; and what
//! somebody sent, once that is answered.

use crate::browser::storage;
use sharing::{Opening, Shared};
use truck::Design;

/// It is kept under this key, as a letter and its text.
const KEY: &str = "aside";
/// What was answered last is kept under this key, behind the entry of the answer.
const SENT: &str = "sent";

/// A design that is not on the page, while another is.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Aside {
    /// The design, and how it was last seen.
    pub(crate) shared: Shared,
    /// Whether it is the person's own, and the link's is on the page; or the other way round.
    pub(crate) own: bool,
}

impl Aside {
    /// The person's own design and the link's, in this order, wherever each is.
    pub(crate) fn own_and_link(&self, here: Design) -> (Design, Design) {
        let there = self.shared.design.clone();
        if self.own { (there, here) } else { (here, there) }
    }
}

/// What was kept aside when the page was last left.
pub(crate) fn kept() -> Option<Aside> {
    let text = storage::kept(KEY)?;
    let own = text.starts_with('o');
    Some(Aside { shared: sharing::from_kept_text(text.get(1..)?).ok()?, own })
}

/// The code of the person's own design, where that is what was kept aside.
pub(crate) fn own_code() -> Option<String> {
    storage::kept(KEY)?.strip_prefix('o').map(str::to_owned)
}

/// Keeps what is aside, or that nothing is.
pub(crate) fn keep(aside: Option<&Aside>) {
    let text = match aside {
        Some(aside) => (if aside.own { "o" } else { "l" }).to_owned() + &sharing::to_kept_text(&aside.shared),
        None => String::new(),
    };
    let _ = storage::keep(KEY, &text);
}

/// What somebody sent, where an entry of the shelf answers that.
pub(crate) fn sent(entry: &str) -> Option<Design> {
    let text = storage::kept(SENT)?;
    Some(sharing::from_kept_text(text.strip_prefix(entry)?.strip_prefix(' ')?).ok()?.design)
}

/// Keeps what somebody sent for as long as an entry answers it.
pub(crate) fn keep_sent(entry: &str, design: Design) {
    let shared = Shared { design, opening: Opening::default() };
    let _ = storage::keep(SENT, &[entry, " ", &sharing::to_kept_text(&shared)].concat());
}

/// Forgets it: nobody sent what is answered.
pub(crate) fn forget_sent() {
    storage::forget(SENT);
}
