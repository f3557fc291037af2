//! The whole shelf as one file, and back.

use crate::shelf::{Drawer, MOST, NotOpened, design_of, entry_text, free_id, newest_first, print, split};
use sharing::{Shared, Tree, find_code, from_tree, rounded, to_kept_text, to_tree};

/// Reasons that are told of a file; the rest are counted.
const TOLD: usize = 3;

/// Most values of all sorts in a file that is read: a full shelf of designs that state everything and
/// have every change has fewer.
pub const MOST_VALUES: u32 = 60_000;

/// What came of taking a file onto the shelf.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct TakenIn {
    /// Designs that are on the shelf now.
    pub taken: usize,
    /// Designs that were there already.
    pub there: usize,
    /// Numbers that are finer in the file than they are kept.
    pub rounded: usize,
    /// Designs that are left out, since the shelf or the browser is full.
    pub over: usize,
    /// Why others are left out: a sentence each, with their place in the file.
    pub bad: Vec<String>,
}

impl TakenIn {
    /// The same in a few sentences.
    #[must_use]
    pub fn in_words(&self) -> String {
        let [taken, there, over] = [self.taken, self.there, self.over].map(|count| count.to_string());
        let mut said =
            ["Taken in: ", &taken, ". There already: ", &there, ". Without room: ", &over, "."].concat();
        if self.rounded > 0 {
            said.push_str(
                [" Numbers finer than they are kept, and rounded: ", &self.rounded.to_string(), "."]
                    .concat()
                    .as_str(),
            );
        }
        for why in self.bad.iter().take(TOLD) {
            said.push(' ');
            said.push_str(why);
        }
        if self.bad.len() > TOLD {
            said.push_str(" And more like it.");
        }
        said
    }
}

/// Everything on the shelf as a list, last touched first: designs in the form of their file, and
/// what cannot be read as the text that it is.
#[must_use]
pub fn export(drawer: &dyn Drawer) -> Tree {
    let item = |entry: super::Entry| match entry.read() {
        Ok(shared) => to_tree(&shared),
        Err(_) => Tree::Text(split(&entry.text).1.to_owned()),
    };
    Tree::List(newest_first(drawer).into_iter().map(item).collect())
}

/// Puts the designs of a list, or the one of a single file, on the shelf. Each is checked for
/// itself; nothing that is there goes for them.
pub fn take_in(drawer: &dyn Drawer, tree: &Tree, now_s: u32) -> TakenIn {
    let mut done = TakenIn::default();
    let items = if let Tree::List(items) = tree { items.as_slice() } else { std::slice::from_ref(tree) };
    let mut held: Vec<_> = newest_first(drawer).iter().filter_map(|entry| design_of(&entry.text)).collect();
    // The first is the newest.
    let text = |at: usize, shared: &Shared| {
        entry_text(now_s.saturating_sub(u32::try_from(at).unwrap_or(0)), &to_kept_text(shared))
    };
    for (at, item) in items.iter().enumerate() {
        match read_item(item) {
            Ok(shared) => {
                let design = print(&shared.design);
                if held.contains(&design) {
                    done.there += 1;
                } else if held.len() < MOST && drawer.put(&free_id(drawer, now_s), &text(at, &shared)).is_ok()
                {
                    held.push(design);
                    done.taken += 1;
                    done.rounded += rounded(item, &shared).len();
                } else {
                    done.over += 1;
                }
            }
            Err(why) => {
                done.bad.push(["Number ", &(at + 1).to_string(), " is left out: ", &why.in_words()].concat());
            }
        }
    }
    done
}

/// The design of a file, or of a link in it.
///
/// # Errors
/// [`NotOpened`] says why there is none.
pub fn read_item(item: &Tree) -> Result<Shared, NotOpened> {
    match item {
        Tree::Text(text) => find_code(text).map_err(NotOpened::Link),
        tree => from_tree(tree).map_err(NotOpened::File),
    }
}
