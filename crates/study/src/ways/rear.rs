//! Rear parts that go with a way down: blocks and shackles that bring the rear down by so much.
//!
//! They move neither front corner, so they are looked for once, and lie in every way. An axle flip
//! and a notch are not among them: both are welded, and are for whoever does that to propose.

use crate::figure::Value;
use crate::rear::NoRear;
use crate::rear_told::{RearTold, rear_told};
use crate::stance::{NoStance, Stance};
use std::fmt;
use truck::{Change, RearBlock, RearField, RearShackle, Truck};

/// The rear parts that may be used: of each list one, or none.
#[derive(Clone, Debug, PartialEq)]
pub struct RearTable {
    /// Heights of the blocks, mm.
    pub blocks_mm: Vec<f64>,
    /// How much longer the shackles are, mm, − shorter.
    pub shackles_mm: Vec<f64>,
}

impl Default for RearTable {
    /// Blocks from an inch to three by halves, shackles an inch and two longer and shorter: what is
    /// sold for light trucks. Common practice, no source.
    fn default() -> Self {
        Self { blocks_mm: vec![25.4, 38.1, 50.8, 63.5, 76.2], shackles_mm: vec![25.4, 50.8, -25.4, -50.8] }
    }
}

/// Rear parts, and what they come to.
#[derive(Clone, Debug, PartialEq)]
pub struct RearWay {
    /// The parts.
    pub changes: Vec<Change>,
    /// How far they bring the rear down, mm.
    pub down_mm: f64,
    /// Rear bump travel that they leave, mm.
    pub bump_mm: f64,
}

/// Rear parts that are not proposed, and why.
#[derive(Clone, Debug, PartialEq)]
pub struct Barred {
    /// The parts.
    pub changes: Vec<Change>,
    /// The answer of the rear that stops them.
    pub answer: &'static str,
    /// What is to be thought of it.
    pub verdict: &'static str,
}

/// Why there are no such parts.
#[derive(Clone, Debug, PartialEq)]
pub enum NoRearWay {
    /// The truck as measured does not stand.
    Stance(NoStance),
    /// The rear is not measured so far, or is no rear.
    Rear(NoRear),
    /// None comes within half an inch of it and leaves the bump travel, with nothing of the rear worse
    /// than it was: the nearest of those that leave it so, and what stops the nearest of all.
    OutOfReach(Option<RearWay>, Option<Barred>),
}

impl fmt::Display for NoRearWay {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Stance(why) => why.fmt(f),
            Self::Rear(why) => why.fmt(f),
            Self::OutOfReach(..) => f.write_str(
                "No block or shackle on the table brings the rear down so far and leaves its travel, with no verdict of the rear worse than it was",
            ),
        }
    }
}

impl std::error::Error for NoRearWay {}

/// How far off the rear may stay, mm: half an inch, which is half of the step between blocks and
/// little against the wheelbase. Common practice, no source.
const WITHIN_MM: f64 = 12.7;

/// The rear parts that bring the rear down by nearest to `down_mm`, of two that do the fewer.
///
/// Left out are those that leave less rear bump travel than `bump_mm`, and those with which an answer
/// of the rear alone is judged that was fine as it sits: metal, shock, the shaft's swing. Whether its joints
/// keep the trade's rules is left to the wedge that sets the pinion, and has to be asked.
///
/// # Errors
/// [`NoRearWay`].
pub fn rear_way(truck: &Truck, down_mm: f64, bump_mm: f64, table: &RearTable) -> Result<RearWay, NoRearWay> {
    let before = Stance::as_measured(truck).map_err(NoRearWay::Stance)?;
    let before = rear_told(&before);
    for needed in [RearField::FrameHeight, RearField::StopGap] {
        if truck.rear.get(needed).is_none() {
            return Err(NoRearWay::Rear(NoRear::NotStated(needed)));
        }
    }
    let mut trouble = before.trouble;
    let mut nearest: Option<RearWay> = None;
    let mut barred: Option<(f64, Barred)> = None;
    for changes in combinations(table) {
        let Ok(stance) = Stance::laid(truck, &changes) else { continue };
        let now = rear_told(&stance);
        if let Some(why) = now.trouble {
            trouble.get_or_insert(why);
            continue;
        }
        let got = (number(&now.told, "rear_comes_down"), number(&now.told, "rear_bump"));
        let (Some(down), Some(bump)) = got else { continue };
        let worse = now.told.iter().zip(&before.told).find_map(|(now, was)| {
            // What hangs on the front too is for the whole truck to say, and a pinion is set by a wedge.
            let is_settled_later = now.answer.hangs_on_front() || now.answer.key() == "joints";
            let verdict = now.verdict.filter(|_| now.verdict != was.verdict && !is_settled_later)?;
            Some((now.answer.label(), verdict))
        });
        let short = (bump < bump_mm).then_some(("Rear bump travel", "less than is wished"));
        if let Some((answer, verdict)) = worse.or(short) {
            let off_mm = (down - down_mm).abs();
            if barred.as_ref().is_none_or(|(other_mm, _)| off_mm < *other_mm) {
                barred = Some((off_mm, Barred { changes, answer, verdict }));
            }
            continue;
        }
        // Of two that do those with fewer parts were before.
        let off = |way: &RearWay| (way.down_mm - down_mm).abs();
        let way = RearWay { changes, down_mm: down, bump_mm: bump };
        if nearest.as_ref().is_none_or(|other| off(&way) < off(other)) {
            nearest = Some(way);
        }
    }
    let barred = barred.map(|(_, barred)| barred);
    match nearest {
        Some(way) if (way.down_mm - down_mm).abs() <= WITHIN_MM + 1e-6 => Ok(way),
        nearest => Err(match (trouble, &nearest, &barred) {
            (Some(why), None, None) => NoRearWay::Rear(why),
            _ => NoRearWay::OutOfReach(nearest, barred),
        }),
    }
}

/// Every block, or none, with every shackle, or none; the fewer parts first.
fn combinations(table: &RearTable) -> Vec<Vec<Change>> {
    let with_none = |list: &[f64]| [&[0.0], list].concat();
    let (mut all, mut both) = (Vec::new(), Vec::new());
    for height_mm in with_none(&table.blocks_mm) {
        for longer_mm in with_none(&table.shackles_mm) {
            let mut parts = Vec::new();
            if height_mm != 0.0 {
                parts.push(Change::RearBlock(RearBlock { height_mm, ..RearBlock::default() }));
            }
            if longer_mm != 0.0 {
                parts.push(Change::RearShackle(RearShackle { longer_mm }));
            }
            if parts.len() < 2 { all.push(parts) } else { both.push(parts) }
        }
    }
    all.append(&mut both);
    all
}

fn number(told: &[RearTold], key: &str) -> Option<f64> {
    let told = told.iter().find(|told| told.answer.key() == key)?;
    match told.value {
        Some(Value::Number(value)) => Some(value),
        _ => None,
    }
}
