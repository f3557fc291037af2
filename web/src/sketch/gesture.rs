//! From a handle and a movement to an edit: pure, so that it is tested without a browser's events.
//!
//! A gesture stores where it began and never reads the moving picture: the
//! value is the start value and the movement, in the handle's own frame.

use drawing::{Handle, Units};
use linkage::{Corner, Member, Pose, Vector3};
use measure::MM_PER_INCH;
use truck::{Change, ChangeKind, Design, DroppedSpindle, Edit, Field, MovedPivot, Place, ProposalId};

/// What a drag works on, as it was when it began.
#[derive(Clone, Debug)]
pub struct Start {
    /// The handle that was taken.
    pub handle: Handle,
    /// The proposal that is being changed; none corrects the measurement.
    pub proposal: Option<ProposalId>,
    /// The design.
    pub design: Design,
    /// The pose and its corner, where the linkage closed.
    pub stood: Option<(Corner, Pose)>,
}

/// How values are rounded while they are dragged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Snap {
    /// Not at all.
    Off,
    /// To whole steps, mm.
    To(f64),
}

impl Snap {
    /// The step that goes with the reader's units.
    #[must_use]
    pub const fn for_units(units: Units, on: bool) -> Self {
        match (on, units) {
            (false, _) => Self::Off,
            (true, Units::Inches) => Self::To(MM_PER_INCH / 16.0),
            (true, Units::Millimetres) => Self::To(1.0),
        }
    }

    /// `start` moved by `delta`: exactly `start` where the movement is less than half a step.
    #[must_use]
    pub fn moved(self, start: f64, delta: f64) -> f64 {
        match self {
            Self::Off => start + delta,
            Self::To(step) if delta.abs() < step / 2.0 => start,
            Self::To(step) => ((start + delta) / step).round() * step,
        }
    }
}

/// What a movement of a handle means.
#[derive(Clone, Debug, PartialEq)]
pub enum Meaning {
    /// An edit, and what the drag says of itself.
    Edit(Edit, Said),
    /// The handle does not move what is selected, and why.
    Fixed(&'static str),
}

/// What a drag says of itself: a value and what it is of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Said {
    /// What is dragged.
    pub what: &'static str,
    /// Outward or along the truck's width, mm.
    pub out_mm: Option<f64>,
    /// Up, mm.
    pub up_mm: Option<f64>,
}

/// Where a corner of a truck stands that a change of a proposal cannot reach.
const SELECT_MEASURED: &str =
    "This point belongs to the truck as measured: select As measured to correct it.";

/// The edit that a movement of `(out, up)` mm on the picture makes.
///
/// Picture millimetres are those of the body, which never turns in front view.
#[must_use]
pub fn meaning(start: &Start, out_mm: f64, up_mm: f64, snap: Snap) -> Meaning {
    match start.proposal {
        Some(id) => proposed(start, id, out_mm, up_mm, snap),
        None => measured(start, out_mm, up_mm, snap),
    }
}

fn proposed(start: &Start, id: ProposalId, out_mm: f64, up_mm: f64, snap: Snap) -> Meaning {
    let found = |kind, place| start.design.proposal(id).and_then(|proposal| proposal.change(kind, place));
    match start.handle {
        Handle::LowerAxis | Handle::UpperAxis => {
            let place = if start.handle == Handle::LowerAxis { Place::LowerArm } else { Place::UpperArm };
            let by_mm = match found(ChangeKind::MovedPivot, Some(place)) {
                Some(Change::MovedPivot(moved)) => moved.by_mm,
                _ => Vector3::zeros(),
            };
            let by_mm = Vector3::new(by_mm.x, snap.moved(by_mm.y, out_mm), snap.moved(by_mm.z, up_mm));
            let said = Said { what: start.handle.label(), out_mm: Some(by_mm.y), up_mm: Some(by_mm.z) };
            Meaning::Edit(put(start, id, Change::MovedPivot(MovedPivot { place, by_mm })), said)
        }
        Handle::WheelCentre => {
            let before = match found(ChangeKind::DroppedSpindle, None) {
                Some(Change::DroppedSpindle(spindle)) => *spindle,
                _ => DroppedSpindle::default(),
            };
            let mut spindle = before;
            // A thumb wanders: the way it mostly goes is the way it means.
            let said = if out_mm.abs() > 2.0 * up_mm.abs() {
                spindle.out_mm = snap.moved(before.out_mm, out_mm);
                Said { what: "Spindle", out_mm: Some(spindle.out_mm), up_mm: None }
            } else {
                spindle.drop_mm = snap.moved(before.drop_mm, up_mm);
                Said { what: "Spindle", out_mm: None, up_mm: Some(spindle.drop_mm) }
            };
            Meaning::Edit(put(start, id, Change::DroppedSpindle(spindle)), said)
        }
        _ => Meaning::Fixed(SELECT_MEASURED),
    }
}

/// Puts a change in its slot. A movement that came back to where it began in an
/// empty slot leaves it empty.
fn put(start: &Start, id: ProposalId, change: Change) -> Edit {
    let (kind, place) = change.slot();
    let empty = start.design.proposal(id).is_some_and(|proposal| proposal.change(kind, place).is_none());
    let nothing = kind.with(place, &[]) == Some(change);
    if empty && nothing { Edit::Clear(id, kind, place) } else { Edit::Set(id, change) }
}

fn measured(start: &Start, out_mm: f64, up_mm: f64, snap: Snap) -> Meaning {
    let (out_mm, up_mm) = as_measured_movement(start, out_mm, up_mm);
    let fields = fields(start.handle);
    let truck = &start.design.truck;
    let mut values = Vec::with_capacity(fields.len());
    let (mut out, mut up) = (None, None);
    // Points that move together keep their distance: the first is snapped, the others follow.
    let mut moved = [None; 2];
    for &(field, upward) in fields {
        let Some(from) = field.get(truck) else { continue };
        let by = if upward { up_mm } else { out_mm };
        let shift = *moved[usize::from(upward)].get_or_insert_with(|| snap.moved(from, by) - from);
        let to = from + shift;
        // What is said is the one that was snapped.
        (if upward { &mut up } else { &mut out }).get_or_insert(to);
        values.push((field, to));
    }
    let said = Said { what: start.handle.label(), out_mm: out, up_mm: up };
    Meaning::Edit(Edit::MeasureAll(values), said)
}

/// The numbers a handle stands for, and whether each is a height.
const fn fields(handle: Handle) -> &'static [(Field, bool)] {
    match handle {
        Handle::LowerAxis => &[
            (Field::LowerRearY, false),
            (Field::LowerRearZ, true),
            (Field::LowerFrontY, false),
            (Field::LowerFrontZ, true),
        ],
        Handle::UpperAxis => &[
            (Field::UpperRearY, false),
            (Field::UpperRearZ, true),
            (Field::UpperFrontY, false),
            (Field::UpperFrontZ, true),
        ],
        Handle::LowerBall => &[(Field::LowerBallY, false), (Field::LowerBallZ, true)],
        Handle::UpperBall => &[(Field::UpperBallY, false), (Field::UpperBallZ, true)],
        Handle::WheelCentre => &[(Field::WheelCentreY, false), (Field::WheelCentreZ, true)],
        Handle::TieInner => &[(Field::TieInnerY, false), (Field::TieInnerZ, true)],
        Handle::TieOuter => &[(Field::TieOuterY, false), (Field::TieOuterZ, true)],
        Handle::Rail => &[(Field::RailOuterY, false), (Field::RailBottomZ, true)],
        Handle::Fender => &[(Field::FenderY, false), (Field::FenderZ, true)],
    }
}

/// A movement seen at the shown pose, as one in the measured pose: a ball moves
/// with its arm, a wheel centre with its knuckle.
fn as_measured_movement(start: &Start, out_mm: f64, up_mm: f64) -> (f64, f64) {
    let seen = Vector3::new(0.0, out_mm, up_mm);
    let turned = start.stood.as_ref().and_then(|(corner, pose)| {
        let points = &start.design.truck.points;
        let (now, then) = match start.handle {
            Handle::LowerBall => (corner.lower_arm(pose), points.lower.frame(Member::LowerArm).ok()?),
            Handle::UpperBall => (corner.upper_arm(pose), points.upper.frame(Member::UpperArm).ok()?),
            Handle::WheelCentre | Handle::TieOuter => (pose.knuckle, points.knuckle_frame().ok()?),
            _ => return None,
        };
        Some(then.carry_direction(&now.local_direction(&seen)))
    });
    turned.map_or((out_mm, up_mm), |moved| (moved.y, moved.z))
}

/// The candidates within reach of a pointer, nearest first.
#[must_use]
pub fn within_reach(handles: &[(Handle, f64, f64)], x: f64, y: f64, reach_px: f64) -> Vec<Handle> {
    let mut near: Vec<(f64, Handle)> = handles
        .iter()
        .map(|(handle, hx, hy)| ((hx - x) * (hx - x) + (hy - y) * (hy - y), *handle))
        .filter(|(squared, _)| *squared <= reach_px * reach_px)
        .collect();
    // Nine handles at the most: the nearest is taken out until none is left.
    let mut order = Vec::with_capacity(near.len());
    while let Some(at) = (0..near.len()).min_by(|a, b| near[*a].0.total_cmp(&near[*b].0)) {
        order.push(near.remove(at).1);
    }
    order
}

/// The one to take of several in reach: the selected one if it is among them, else the nearest.
#[must_use]
pub fn pick(near: &[Handle], selected: Option<Handle>) -> Option<Handle> {
    selected.filter(|handle| near.contains(handle)).or_else(|| near.first().copied())
}

/// The one that a second tap on the same crowd goes on to.
#[must_use]
pub fn next_in_crowd(near: &[Handle], selected: Option<Handle>) -> Option<Handle> {
    let at = selected.and_then(|selected| near.iter().position(|handle| *handle == selected));
    match at {
        Some(at) => near.get((at + 1) % near.len()).copied(),
        None => near.first().copied(),
    }
}
