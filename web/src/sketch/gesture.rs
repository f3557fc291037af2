//! From a handle and a movement to an edit: pure, so that it is tested without a browser's events.
//!
//! A gesture stores where it began and never reads the moving picture: the
//! value is the start value and the movement, in the handle's own frame.

use drawing::{Aspect, Handle, Units};
use linkage::{Corner, Member, Pose, Vector3};
use measure::MM_PER_INCH;
use truck::{
    ChangeKind, Design, Edit, Field, Place, Proposal, ProposalId, RearAxle, RearField, RearParts, Side,
};

/// What a drag works on, as it was when it began.
#[derive(Clone, Debug)]
pub struct Start {
    /// From where it is looked at.
    pub aspect: Aspect,
    /// The handle that was taken.
    pub handle: Handle,
    /// The proposal that is being changed; none corrects the measurement.
    pub proposal: Option<ProposalId>,
    /// The side of the truck on the sketch.
    pub side: Side,
    /// The design.
    pub design: Design,
    /// The pose and its corner, where the linkage closed.
    pub posed: Option<(Corner, Pose)>,
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

/// How far a drag has come along one axis of the screen, px, that took hold at `from`, was held still at `slow` and
/// is at `at` now: about `slow` a quarter as far as the finger goes, and at `from` not at all. It is as far
/// wherever the finger has been between, and never goes against it.
#[must_use]
pub fn slowed(from: f64, slow: f64, at: f64) -> f64 {
    let (out, by) = (slow - from, at - slow);
    // The way back is as long as the way out: its second half makes up for the first.
    let back = if out == 0.0 { 0.0 } else { -by / out };
    match back {
        ..=0.5 => out + by / 4.0,
        0.5..1.0 => 1.75 * (at - from),
        _ => (at - from) / 4.0,
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
    /// To the right on the picture of a left corner, mm; to the left where it is negative.
    pub right_mm: Option<f64>,
    /// Up on the picture, mm.
    pub up_mm: Option<f64>,
}

impl Said {
    /// What is said of a value with parts along the body's axes, where it is seen from `aspect`.
    fn of(start: &Start, value: [Option<f64>; 3]) -> Self {
        let [right_mm, up_mm] = start.aspect.axes().map(|(axis, sign)| value[axis].map(|mm| sign * mm));
        Self { what: start.handle.label(), right_mm, up_mm }
    }
}

/// Said of a point that no change of a proposal moves.
const SELECT_MEASURED: &str = "This point belongs to the truck as it sits: select As it sits to correct it.";
const TYPED: &str = "The rear as it sits is typed under The rear. Select a plan to change its parts.";
const FROM_THE_FRONT: &str = "What a plan can do to this point is seen from the front.";
const TOO_FAR: &str = "That is farther than this part can be changed.";

/// The edit that a movement on the picture makes, mm to the right and up; on that of a right
/// corner, which is a mirror image, to the left and up.
#[must_use]
pub fn meaning(start: &Start, right_mm: f64, up_mm: f64, snap: Snap) -> Meaning {
    let seen = start.aspect.in_body(right_mm, up_mm);
    match start.proposal {
        Some(id) => proposed(start, id, &seen, snap),
        None => measured(start, &seen, snap),
    }
}

/// The change that a handle makes, and which of its numbers goes with each axis of the body.
const fn changed_by(handle: Handle) -> Option<(ChangeKind, Option<Place>, [Option<usize>; 3])> {
    const POINT: [Option<usize>; 3] = [Some(0), Some(1), Some(2)];
    // An arm is longer, its ball is higher or farther forward.
    const ARM: [Option<usize>; 3] = [Some(2), Some(0), Some(1)];
    Some(match handle {
        Handle::LowerAxis => (ChangeKind::MovedPivot, Some(Place::LowerArm), POINT),
        Handle::UpperAxis => (ChangeKind::MovedPivot, Some(Place::UpperArm), POINT),
        Handle::LowerFront => (ChangeKind::MovedPivot, Some(Place::LowerFront), POINT),
        Handle::LowerRear => (ChangeKind::MovedPivot, Some(Place::LowerRear), POINT),
        Handle::UpperFront => (ChangeKind::MovedPivot, Some(Place::UpperFront), POINT),
        Handle::UpperRear => (ChangeKind::MovedPivot, Some(Place::UpperRear), POINT),
        Handle::LowerBall => (ChangeKind::ArmSwap, Some(Place::LowerArm), ARM),
        Handle::UpperBall => (ChangeKind::ArmSwap, Some(Place::UpperArm), ARM),
        Handle::WheelCentre => (ChangeKind::DroppedSpindle, None, [None, Some(1), Some(0)]),
        Handle::TieInner => (ChangeKind::TieRod, None, [Some(1), Some(2), Some(3)]),
        Handle::TieOuter => (ChangeKind::TieRod, None, [None, Some(0), None]),
        Handle::RearBlock => (ChangeKind::RearBlock, None, [None, None, Some(0)]),
        Handle::RearShackle => (ChangeKind::RearShackle, None, [None, None, Some(0)]),
        Handle::RearHanger => (ChangeKind::RearHangers, None, [Some(2), None, Some(1)]),
        Handle::RearStop => (ChangeKind::RearStop, None, [None, None, Some(0)]),
        Handle::Rail | Handle::Fender => return None,
    })
}

/// Whether a proposal can move a handle on a picture: some belong to the truck as measured, and some
/// move only across what is seen.
pub(crate) fn is_movable(aspect: Aspect, handle: Handle) -> bool {
    changed_by(handle).is_some_and(|(_, _, numbers)| is_seen(aspect, &numbers))
}

/// Whether a picture shows one of the axes that numbers go with.
fn is_seen(aspect: Aspect, numbers: &[Option<usize>; 3]) -> bool {
    aspect.axes().iter().any(|(axis, _)| numbers[*axis].is_some())
}

fn proposed(start: &Start, id: ProposalId, seen: &Vector3<f64>, snap: Snap) -> Meaning {
    let Some((kind, place, numbers)) = changed_by(start.handle) else {
        return Meaning::Fixed(SELECT_MEASURED);
    };
    if !is_seen(start.aspect, &numbers) {
        return Meaning::Fixed(FROM_THE_FRONT);
    }
    let proposal = start.design.proposal(id);
    let at = |side| proposal.and_then(|proposal| proposal.change_at(side, kind, place)).copied();
    let before = at(start.side);
    let nothing = kind.with(place, &[]);
    let Some(change) = before.or(nothing) else { return Meaning::Fixed(TOO_FAR) };
    let ways = rear_ways(start, id);
    let moved = in_axes_of_change(start, seen).component_mul(&ways);
    let mut values = change.values();
    let mut said = [None; 3];
    for (axis, _) in start.aspect.axes() {
        let Some(number) = numbers[axis].filter(|_| is_meant(start, axis, seen)) else { continue };
        if let Some(value) = values.get_mut(number) {
            *value = Some(snap.moved(value.unwrap_or(0.0), moved[axis]));
            said[axis] = value.map(|value| ways[axis] * value);
        }
    }
    let Some(change) = kind.with(place, &values) else { return Meaning::Fixed(TOO_FAR) };
    // A movement that came back to where it began in an empty slot leaves it empty.
    let is_nothing = before.is_none() && nothing == Some(change);
    let edit = if proposal.is_some_and(|proposal| proposal.differs(kind, place)) {
        // A side that differs is moved alone.
        let mut each = Side::ALL.map(at);
        each[start.side as usize] = if is_nothing { None } else { Some(change) };
        Edit::SetEach(id, each)
    } else if is_nothing {
        Edit::Clear(id, kind, place)
    } else {
        Edit::Set(id, change)
    };
    Meaning::Edit(edit, Said::of(start, said))
}

/// Whether a movement means this axis: a thumb on the spindle wanders, and the
/// way it mostly goes is the way it means.
fn is_meant(start: &Start, axis: usize, seen: &Vector3<f64>) -> bool {
    let outward = seen.y.abs() > 2.0 * seen.z.abs();
    let both = start.handle != Handle::WheelCentre || start.aspect != Aspect::Front;
    both || (axis == 1) == outward
}

/// Which way a part of the rear grows where its handle goes along each axis of the body: 1 or −1.
fn rear_ways(start: &Start, id: ProposalId) -> Vector3<f64> {
    let rear = &start.design.truck.rear;
    let (mut ways, way) = (Vector3::new(1.0, 1.0, 1.0), |is_back| if is_back { -1.0 } else { 1.0 });
    match start.handle {
        Handle::RearBlock => {
            // A block takes the spring away from the axle, down where the axle is on top.
            let changes = start.design.proposal(id).map_or(&[][..], Proposal::changes);
            let seat_mm = rear.get(RearField::Seat).unwrap_or(-1.0);
            ways.z = way(RearParts::of(changes).seat_mm(seat_mm) < 0.0);
        }
        Handle::RearShackle => ways.z = way(shackle(rear).is_some_and(|out| out.z < 0.0)),
        Handle::RearHanger => ways.x = way(!rear.shackle_is_ahead()),
        _ => {}
    }
    ways
}

/// The way from a shackle's bolt in its hanger to its eye, as measured; `None` where it was not.
fn shackle(rear: &RearAxle) -> Option<Vector3<f64>> {
    let beyond_mm = rear.get(RearField::EyeBeyond)?;
    let ahead_mm = if rear.shackle_is_ahead() { beyond_mm } else { -beyond_mm };
    let up_mm = rear.get(RearField::ShackleEye)? - rear.get(RearField::HangerBolt)?;
    linkage::axes::direction(Vector3::new(ahead_mm, 0.0, up_mm))
}

/// A movement in the body's axes as one in those that the change counts in: an arm grows
/// along itself, and so does a tie rod.
fn in_axes_of_change(start: &Start, seen: &Vector3<f64>) -> Vector3<f64> {
    let turned = start.posed.as_ref().and_then(|(corner, pose)| {
        let local = match start.handle {
            Handle::LowerBall => corner.lower_arm(pose).local_direction(seen),
            Handle::UpperBall => corner.upper_arm(pose).local_direction(seen),
            Handle::RearShackle => {
                let out = shackle(&start.design.truck.rear)?;
                let longer_mm = out.dot(seen);
                return Some(Vector3::new(0.0, 0.0, if out.z < 0.0 { -longer_mm } else { longer_mm }));
            }
            Handle::TieOuter => {
                let rod = linkage::axes::direction(pose.tie_outer - pose.tie_inner)?;
                Vector3::new(0.0, rod.dot(seen), 0.0)
            }
            _ => return None,
        };
        Some(local)
    });
    turned.unwrap_or(*seen)
}

fn measured(start: &Start, seen: &Vector3<f64>, snap: Snap) -> Meaning {
    if start.handle.is_rear() {
        return Meaning::Fixed(TYPED);
    }
    let moved = as_measured_movement(start, seen);
    let truck = &start.design.truck.on(start.side);
    let (mut values, mut said) = (Vec::new(), [None; 3]);
    for (axis, _) in start.aspect.axes() {
        let along = |field: &Field| field.datum().is_some_and(|datum| datum.axis() == axis);
        // Points that move together keep their distance: the first is snapped, the others follow.
        let mut shift = None;
        for field in fields(start.handle).iter().copied().filter(along) {
            let Some(from) = field.get(truck) else { continue };
            let to = from + *shift.get_or_insert_with(|| snap.moved(from, moved[axis]) - from);
            // What is said is the one that was snapped.
            said[axis].get_or_insert(to);
            values.push((field, to));
        }
    }
    let edit = match start.side {
        Side::Left => Edit::MeasureAll(values),
        Side::Right => {
            // What the movement leaves as it is has no number of its own for that.
            values.retain(|(field, to)| field.get(truck) != Some(*to));
            Edit::MeasureRight(values.into_iter().map(|(field, to)| (field, Some(to))).collect())
        }
    };
    Meaning::Edit(edit, Said::of(start, said))
}

/// The numbers of the points that a handle stands for, one point after the other.
const fn fields(handle: Handle) -> &'static [Field] {
    macro_rules! fields {
        ($($field:ident)*) => { &[$(Field::$field),*] };
    }
    match handle {
        Handle::LowerAxis => fields!(LowerRearX LowerRearY LowerRearZ LowerFrontX LowerFrontY LowerFrontZ),
        Handle::UpperAxis => fields!(UpperRearX UpperRearY UpperRearZ UpperFrontX UpperFrontY UpperFrontZ),
        Handle::LowerFront => fields!(LowerFrontX LowerFrontY LowerFrontZ),
        Handle::LowerRear => fields!(LowerRearX LowerRearY LowerRearZ),
        Handle::UpperFront => fields!(UpperFrontX UpperFrontY UpperFrontZ),
        Handle::UpperRear => fields!(UpperRearX UpperRearY UpperRearZ),
        Handle::LowerBall => fields!(LowerBallX LowerBallY LowerBallZ),
        Handle::UpperBall => fields!(UpperBallX UpperBallY UpperBallZ),
        Handle::WheelCentre => fields!(WheelCentreX WheelCentreY WheelCentreZ),
        Handle::TieInner => fields!(TieInnerX TieInnerY TieInnerZ),
        Handle::TieOuter => fields!(TieOuterX TieOuterY TieOuterZ),
        Handle::Rail => fields!(RailOuterY RailBottomZ),
        Handle::Fender => fields!(FenderY FenderZ),
        Handle::RearBlock | Handle::RearShackle | Handle::RearHanger | Handle::RearStop => &[],
    }
}

/// A movement seen at the shown pose, as one in the measured pose: a ball moves
/// with its arm, a wheel centre with its knuckle.
fn as_measured_movement(start: &Start, seen: &Vector3<f64>) -> Vector3<f64> {
    let turned = start.posed.as_ref().and_then(|(corner, pose)| {
        let points = &start.design.truck.on(start.side).points;
        let (now, then) = match start.handle {
            Handle::LowerBall => (corner.lower_arm(pose), points.lower.frame(Member::LowerArm).ok()?),
            Handle::UpperBall => (corner.upper_arm(pose), points.upper.frame(Member::UpperArm).ok()?),
            Handle::WheelCentre | Handle::TieOuter => (pose.knuckle, points.knuckle_frame().ok()?),
            _ => return None,
        };
        Some(then.carry_direction(&now.local_direction(seen)))
    });
    turned.unwrap_or(*seen)
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
