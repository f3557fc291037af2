//! Packs of shims as they are made up from pieces.

use super::{Amounts, Steps};
use truck::Shims;

/// From this many pieces a pack is mentioned. Fewer than four at a bolt: a service text for
/// another light truck (seen).
const MANY: usize = 4;

impl Steps {
    /// The pieces that make up a thickness, thickest first, mm; what is left is less than the thinnest.
    #[must_use]
    pub fn pieces_mm(&self, thickness_mm: f64) -> Vec<f64> {
        let mut remaining = thickness_mm.abs();
        let mut pack = Vec::new();
        for size in self.shims_mm {
            while remaining > size - 0.05 && pack.len() < 100 {
                remaining -= size;
                pack.push(*size);
            }
        }
        pack
    }
}

/// Whether a pack comes to four pieces or more, made up afresh from the sizes of `steps`:
/// the pieces of the truck's own packs are not known. A pack that nobody has measured is
/// counted by what is added.
#[must_use]
pub fn many_pieces(shims: &Shims, set: &Amounts, steps: &Steps) -> bool {
    let packs = [(shims.front_mm, set.shim_front_mm), (shims.rear_mm, set.shim_rear_mm)];
    packs.into_iter().any(|(now, added)| {
        let total_mm = now.unwrap_or(0.0) + added;
        added != 0.0 && total_mm > 0.0 && steps.pieces_mm(total_mm).len() >= MANY
    })
}
