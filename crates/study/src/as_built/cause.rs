//! What alone may have made a truck other than it was planned.

use crate::figure::Trial;
use truck::{Change, ChangeKind, Kind, Place, Proposal, Readable, Side, SpringKind, fit};

/// Where a change stands: the side that it is on alone, and its slot.
type Slot = (Option<Side>, ChangeKind, Option<Place>);

/// One thing that may be other than planned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Cause {
    /// A change of the proposal is not on the truck.
    NotOn(Change),
    /// A number of one of the proposal's changes, by its index.
    Number(Change, usize),
    /// Something was adjusted that the proposal leaves alone: numbers of a change, by their indices, alike.
    Beside(ChangeKind, &'static [usize]),
    /// The spring carries the truck higher than it did, by its seat: it sagged, or the load is another one.
    Spring,
    /// The tire stands higher than planned: another size, or pressure.
    Tire,
    /// The rear stands lower than planned.
    Rear,
    /// One reading is wrong.
    Misread(Readable),
}

/// A cause that would explain what was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CauseFound {
    /// What.
    pub cause: Cause,
    /// How much more it is than planned, in the core's unit; `None` of what is not on at all.
    pub by: Option<f64>,
    /// Whether anything that was compared rests on a guess.
    pub is_guess: bool,
}

/// What may have been adjusted beside the proposal.
const BESIDE: [(ChangeKind, &[usize]); 6] = [
    (ChangeKind::BarAdjuster, &[0]),
    (ChangeKind::Shims, &[0]),
    (ChangeKind::Shims, &[1]),
    (ChangeKind::Shims, &[0, 1]),
    (ChangeKind::StrutRod, &[0]),
    (ChangeKind::TieRod, &[0]),
];

/// Puts every cause of a proposal that may have to do with what was read at a side.
pub(super) fn push_causes(plan: &Trial, side: Side, all: &mut Vec<Cause>) {
    let on_it = plan.overlay().on(side);
    let spring = plan.truck.spring.kind;
    for change in &on_it {
        all.push(Cause::NotOn(*change));
        if change.kind().is_rear() {
            continue;
        }
        for (at, number) in change.kind().numbers().iter().enumerate() {
            // A tire's size is told by how high it stands.
            let is_size = change.kind() == ChangeKind::TireSwap && number.key() != "offset";
            if change.counts(at) && !is_size {
                all.push(Cause::Number(*change, at));
            }
        }
    }
    for (kind, numbers) in BESIDE {
        let is_planned = on_it.iter().any(|change| change.kind() == kind);
        if !is_planned && kind.spring().is_none_or(|works_on| works_on == spring) {
            all.push(Cause::Beside(kind, numbers));
        }
    }
    if spring == SpringKind::Coil {
        all.push(Cause::Spring);
    }
    all.push(Cause::Tire);
    // Where it comes down by its own parts, that is what they do.
    if !on_it.iter().any(|change| change.kind().is_rear()) {
        all.push(Cause::Rear);
    }
}

impl Cause {
    /// The sort of number that it is off by; `None` of what is not on at all.
    #[must_use]
    pub fn kind(&self) -> Option<Kind> {
        Some(match self {
            Self::NotOn(_) => return None,
            Self::Number(change, at) => change.kind().numbers()[*at].kind,
            Self::Beside(kind, numbers) => kind.numbers()[numbers[0]].kind,
            Self::Misread(of) => of.kind(),
            Self::Spring | Self::Tire | Self::Rear => Kind::Length,
        })
    }

    /// How far off it may plausibly be where work went otherwise than planned, one standard deviation, in the
    /// core's unit: what is likelier is named first. `None` of what is not on at all. Common practice, no source.
    pub(super) fn plausible(&self) -> Option<f64> {
        self.kind().map(|kind| match kind {
            Kind::Length => 25.4,
            Kind::Angle => 5_f64.to_radians(),
            _ => 5.0,
        })
    }

    /// The proposal with it other than planned by `by`, less where that is as far as it goes; with by how
    /// much it is. `None` where it cannot be so.
    pub(super) fn put(&self, plan: &Trial, side: Side, by: f64) -> Option<(Trial, f64)> {
        let mut trial = plan.clone();
        let slot_of = |change: &Change| slot(plan, side, change);
        let by = match self {
            Self::NotOn(change) => {
                let (of, kind, place) = slot_of(change)?;
                trial.changes.retain(|other| of.is_some() || other.slot() != (kind, place));
                trial.own.retain(|(at, other)| Some(*at) != of || other.slot() != (kind, place));
                0.0
            }
            Self::Number(change, at) => {
                let (moved, by) = moved(change, &[*at], by)?;
                *trial.change_mut(slot_of(change)?)? = moved;
                by
            }
            Self::Beside(kind, numbers) => {
                let none = kind.with(None, &vec![Some(0.0); kind.numbers().len()])?;
                beside(&mut trial, side, &none, numbers, by)?
            }
            Self::Spring => {
                let kind = ChangeKind::SeatSpacer;
                let planned = change_at(&trial, side, kind);
                let none = planned.or_else(|| kind.with(None, &[Some(0.0)]))?;
                beside(&mut trial, side, &none, &[0], by)?
            }
            Self::Tire => {
                let kind = ChangeKind::TireSwap;
                let stands_mm = fit(trial.truck.on(side), trial.overlay()).ok()?.loaded_radius_mm;
                let planned = change_at(&trial, side, kind).or_else(|| kind.first(None, &trial.truck))?;
                let at = kind.numbers().iter().position(|row| row.key() == "loaded_radius")?;
                let none = planned.with_value(at, Some(stands_mm))?;
                let (moved, by) = moved(&none, &[at], by)?;
                // Tires are swapped, and filled, on both sides.
                trial.own.retain(|(_, other)| other.kind() != kind);
                trial.changes.retain(|other| other.kind() != kind);
                trial.changes.push(moved);
                by
            }
            Self::Rear => {
                let stated_mm = trial.rear_down_mm.unwrap_or(0.0);
                let (low, high) = Proposal::REAR_DOWN_LIMITS_MM;
                let to = (stated_mm + by).clamp(low, high);
                trial.rear_down_mm = Some(to);
                to - stated_mm
            }
            Self::Misread(_) => return None,
        };
        Some((trial, by))
    }
}

/// The change of a kind that is on a side.
fn change_at(trial: &Trial, side: Side, kind: ChangeKind) -> Option<Change> {
    trial.overlay().on(side).into_iter().find(|change| change.kind() == kind)
}

/// Where a change of a side stands.
fn slot(trial: &Trial, side: Side, change: &Change) -> Option<Slot> {
    let (kind, place) = change.slot();
    let all = trial.overlay().every();
    let is_it = |(of, other): &&(Option<Side>, Change)| {
        other.slot() == (kind, place) && of.is_none_or(|of| of == side)
    };
    all.iter().find(is_it).map(|(of, _)| (*of, kind, place))
}

/// Puts a change with some of its numbers moved where it stands, or on a side alone where it stands nowhere.
fn beside(trial: &mut Trial, side: Side, from: &Change, numbers: &[usize], by: f64) -> Option<f64> {
    let (moved, by) = moved(from, numbers, by)?;
    match slot(trial, side, from) {
        Some(slot) => *trial.change_mut(slot)? = moved,
        None => trial.own.push((side, moved)),
    }
    Some(by)
}

/// A change with some of its numbers moved alike, no farther than they go, and by how much.
fn moved(change: &Change, numbers: &[usize], by: f64) -> Option<(Change, f64)> {
    let (mut moved, mut least) = (*change, by);
    for at in numbers {
        let row = &change.kind().numbers()[*at];
        let value = change.values().get(*at).copied()??;
        let to = row.nearest(value + by)?;
        moved = moved.with_value(*at, Some(to))?;
        if (to - value).abs() < least.abs() {
            least = to - value;
        }
    }
    Some((moved, least))
}
