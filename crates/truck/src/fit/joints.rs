//! Changes that move a ball on its arm, or the upper arm's shaft under its bolts.

use super::{BallShift, Fitted};
use crate::change::{ChangeKind, JointTurned, Place, ShimChange, StrutRodChange};
use crate::choice::ShaftSide;
use crate::field::Field;
use crate::remark::Remark;
use crate::spring::Arm;
use linkage::{Vector3, axes};

/// The ball goes to the other side of the plate with its housing, as far over it
/// as it was under it; the stud, and so the knuckle, stays as it is.
pub(super) fn turned(fitted: &mut Fitted, change: &JointTurned) {
    let arm = match change.place {
        Place::UpperJointUp | Place::UpperJointDown => Arm::Upper,
        _ => Arm::Lower,
    };
    fitted.ball_mut(arm).turned_mm += change.higher_mm();
}

/// Shims hold the shaft off its bracket: outwards where it is outboard of it,
/// inwards where it is inboard. The shaft is stiff, so its pivots follow the two packs in
/// proportion to where they stand between the bolts.
pub(super) fn shims(fitted: &mut Fitted, change: &ShimChange) {
    let shims = fitted.measured.shims;
    let Some(side) = shims.side else {
        fitted.remarks.push(Remark::NeedsNumber(ChangeKind::Shims, Field::ShaftSide));
        return;
    };
    let out = match side {
        ShaftSide::Outboard => 1.0,
        ShaftSide::Inboard => -1.0,
    };
    let pivots = fitted.measured.points.upper;
    let front_x = shims.front_x_mm.unwrap_or(pivots.front.x);
    let rear_x = shims.rear_x_mm.unwrap_or(pivots.rear.x);
    let between = front_x - rear_x;
    let (front, rear) = (change.front_mm * out, change.rear_mm * out);
    let moved =
        |x: f64| if between.abs() < 1.0 { rear } else { rear + (front - rear) * (x - rear_x) / between };
    fitted.mounts.upper.front.y += moved(pivots.front.x);
    fitted.mounts.upper.rear.y += moved(pivots.rear.x);
    for (now, added) in [(shims.front_mm, change.front_mm), (shims.rear_mm, change.rear_mm)] {
        let (least, most) = shims.room_mm(now);
        if added < least - 1e-9 || added > most + 1e-9 {
            fitted.remarks.push(Remark::PastShims);
            break;
        }
    }
}

/// The rod is screwed to another length; what that does to the arm is settled by [`rod`].
pub(super) fn strut_rod(fitted: &mut Fitted, change: &StrutRodChange) {
    if fitted.measured.strut.arm.stated().is_none() {
        fitted.remarks.push(Remark::NeedsNumber(ChangeKind::StrutRod, Field::StrutArmX));
        return;
    }
    fitted.rod_longer_mm += change.longer_mm;
    rod(fitted);
}

/// The arm swings about its own bushing until the rod reaches, which moves the
/// ball fore and aft: after the rod or a pivot was changed.
///
/// In the plane of the arm and its two bushings the rod is the third side of a
/// triangle, whose angle at the arm's bushing follows from the law of cosines.
/// Without a stated rod the arm follows the middle of its pivots.
pub(super) fn rod(fitted: &mut Fitted) {
    fitted.rod_ball = BallShift::default();
    let truck = &fitted.measured;
    let arm = truck.points.lower;
    let both = truck.bushings(&arm.axis()).zip(truck.bushings(&fitted.mounts.lower));
    let Some(((bushing, frame_end), (new_bushing, new_frame_end))) = both else { return };
    let Some(rod_end) = truck.strut.arm.stated() else { return };
    let to_rod = frame_end - bushing;
    let (base, new_base) = (axes::length(&to_rod), axes::length(&(new_frame_end - new_bushing)));
    if fitted.rod_longer_mm == 0.0 && (new_base - base).abs() < 1e-9 {
        return;
    }
    match swung(&to_rod, &(rod_end - bushing), &(arm.ball - bushing), new_base, fitted.rod_longer_mm) {
        Some((moved, longer_mm)) => {
            // From the middle of the pivots, which moves by half of what they part; the axis counts forward.
            let from_middle = moved - (new_base - base) / 2.0;
            let forward_mm = if to_rod.x < 0.0 { -from_middle } else { from_middle };
            fitted.rod_ball = BallShift { forward_mm, longer_mm, ..BallShift::default() };
        }
        None if !fitted.remarks.contains(&Remark::RodTooShort) => fitted.remarks.push(Remark::RodTooShort),
        None => {}
    }
}

/// How far the ball moves along the line from the arm's bushing to the rod's, and away from it, mm.
/// All points are seen from the arm's bushing.
fn swung(
    to_rod: &Vector3<f64>,
    to_end: &Vector3<f64>,
    to_ball: &Vector3<f64>,
    new_base: f64,
    longer_mm: f64,
) -> Option<(f64, f64)> {
    let along = axes::direction(*to_rod)?;
    let upright = axes::direction(to_rod.cross(to_ball))?;
    let aside = upright.cross(&along);
    let (end_along, end_aside) = (to_end.dot(&along), to_end.dot(&aside));
    let reach = axes::hypotenuse(end_along, end_aside);
    let rod = axes::length(&(to_rod - to_end)) + longer_mm;
    let over = to_end.dot(&upright);
    let cos = (over * over + reach * reach + new_base * new_base - rod * rod) / (2.0 * reach * new_base);
    if !(-1.0..=1.0).contains(&cos) || rod <= 0.0 {
        return None;
    }
    let was = libm::atan2(end_aside, end_along);
    // The end stays on the side of the line between the bushings on which it was.
    let turn = if was < 0.0 { -libm::acos(cos) - was } else { libm::acos(cos) - was };
    let (sin, cos) = linkage::angle::sincos(turn);
    let (out, forward) = (to_ball.dot(&aside), to_ball.dot(&along));
    Some((forward * (cos - 1.0) - out * sin, forward * sin + out * (cos - 1.0)))
}
