//! By what the height is set, in steps that can be set.

use super::{Bound, Steps};
use std::f64::consts::TAU;
use truck::{Bar, BarAdjuster, BarReindex, Change, SeatSpacer, Spring, SpringKind};

/// By what the height is set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HeightBy {
    /// The bar's anchor.
    Anchor {
        /// Turns of the bolt, + in.
        turns: f64,
        /// Splines at the anchor, + raises.
        splines_anchor: f64,
        /// Splines at the arm, + raises.
        splines_arm: f64,
    },
    /// A spacer on the coil's seat, + raises, mm.
    Spacer(f64),
    /// Nothing: a plain rate has no adjuster.
    Nothing,
}

impl HeightBy {
    /// The changes that set it; none where nothing is moved.
    pub(super) fn changes(self) -> Vec<Change> {
        match self {
            Self::Anchor { turns, splines_anchor, splines_arm } => {
                let mut changes = Vec::new();
                if splines_anchor != 0.0 || splines_arm != 0.0 {
                    changes.push(Change::BarReindex(BarReindex { anchor: splines_anchor, arm: splines_arm }));
                }
                if turns != 0.0 {
                    changes.push(Change::BarAdjuster(BarAdjuster { turns }));
                }
                changes
            }
            Self::Spacer(thickness_mm) if thickness_mm != 0.0 => {
                vec![Change::SeatSpacer(SeatSpacer { thickness_mm })]
            }
            Self::Spacer(_) | Self::Nothing => Vec::new(),
        }
    }
}

/// Farthest that a bar is put over, splines at each end.
const FAR: i32 = 12;

/// How to raise by `height` (as in [`super::Amounts`]), and what that comes to.
pub(super) fn hoist(spring: &Spring, height: f64, steps: &Steps, bounds: &mut Vec<Bound>) -> (HeightBy, f64) {
    match spring.kind {
        SpringKind::TorsionBar => anchor(&spring.bar, height, steps, bounds),
        SpringKind::Coil => {
            let thickness_mm = (height / steps.spacer_mm).round() * steps.spacer_mm;
            (HeightBy::Spacer(thickness_mm), thickness_mm)
        }
        SpringKind::WheelRate => (HeightBy::Nothing, 0.0),
    }
}

/// The bolt alone where it reaches; otherwise the fewest splines that bring it
/// within reach, of these the ones that leave it nearest to where it is.
fn anchor(bar: &Bar, turn_rad: f64, steps: &Steps, bounds: &mut Vec<Bound>) -> (HeightBy, f64) {
    let step = |count: Option<f64>| count.map_or(0.0, |count| TAU / count);
    let [open_anchor, open_arm] = bar.open_splines();
    let (at_anchor, at_arm) = (step(open_anchor), step(open_arm));
    let reach = |count: Option<f64>| if count.is_some() { -FAR..=FAR } else { 0..=0 };
    // What is not met, then splines, then turns: the least of these is the best.
    let mut best = [f64::INFINITY; 3];
    let mut found = (HeightBy::Nothing, 0.0);
    for anchor in reach(open_anchor) {
        for arm in reach(open_arm) {
            let (splines_anchor, splines_arm) = (f64::from(anchor), f64::from(arm));
            let splined = splines_anchor * at_anchor + splines_arm * at_arm;
            let Some(wanted) = bar.turns_for(turn_rad - splined) else { continue };
            let turns = (wanted / steps.turns).round() * steps.turns;
            let turns = turns.clamp(-bar.turns_out, bar.turns_in);
            let missed = ((turns - wanted).abs() - steps.turns).max(0.0);
            let cost = [missed, f64::from(anchor.abs() + arm.abs()), turns.abs()];
            if cost < best {
                best = cost;
                let height = splined + bar.anchor_turn_rad(turns);
                found = (HeightBy::Anchor { turns, splines_anchor, splines_arm }, height);
            }
        }
    }
    if best[0] > 0.0 {
        bounds.push(if bar.has_blind_tooth() { Bound::BlindTooth } else { Bound::Bolt });
    }
    found
}
