//! Changes that move a ball on its arm, or the upper arm's shaft under its bolts.

use super::Fitted;
use crate::change::{ChangeKind, JointTurned, Place, ShimChange, StrutRodChange};
use crate::field::Field;
use crate::remark::Remark;
use crate::spring::Arm;
use linkage::frame;

/// The ball goes to the other side of the plate with its housing; the stud, and
/// so the knuckle, stays as it is.
pub(super) fn turned(fitted: &mut Fitted, change: &JointTurned) {
    let arm = match change.place {
        Place::UpperJointUp | Place::UpperJointDown => Arm::Upper,
        _ => Arm::Lower,
    };
    fitted.ball_mut(arm).higher_mm += change.higher_mm();
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
    let out = if side < 0.5 { 1.0 } else { -1.0 };
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
        let Some(now) = now else { continue };
        let pack = now + added;
        if pack < -1e-9 || shims.most_mm.is_some_and(|most| pack > most + 1e-9) {
            fitted.remarks.push(Remark::PastShims);
            break;
        }
    }
}

/// The arm swings about its own bushing until the rod reaches: the ball goes fore and aft.
///
/// In the plane of the arm and its two bushings the rod is the third side of a
/// triangle, whose angle at the arm's bushing follows from the law of cosines.
pub(super) fn strut_rod(fitted: &mut Fitted, change: &StrutRodChange) {
    let Some(rod_end) = fitted.measured.strut.arm.stated() else {
        fitted.remarks.push(Remark::NeedsNumber(ChangeKind::StrutRod, Field::StrutArmX));
        return;
    };
    let arm = fitted.measured.points.lower;
    let (to_rod, to_end, to_ball) = (arm.front - arm.rear, rod_end - arm.rear, arm.ball - arm.rear);
    let swung = || {
        let along = frame::direction(to_rod)?;
        let upright = frame::direction(to_rod.cross(&to_ball))?;
        let aside = upright.cross(&along);
        let base = frame::length(&to_rod);
        let (end_along, end_aside) = (to_end.dot(&along), to_end.dot(&aside));
        let reach = libm::hypot(end_along, end_aside);
        let rod = frame::length(&(to_rod - to_end)) + change.longer_mm;
        let over = to_end.dot(&upright);
        let cos = (over * over + reach * reach + base * base - rod * rod) / (2.0 * reach * base);
        if !(-1.0..=1.0).contains(&cos) || rod <= 0.0 {
            return None;
        }
        let was = libm::atan2(end_aside, end_along);
        // The end stays on the side of the line between the bushings on which it was.
        let turn = if was < 0.0 { -libm::acos(cos) - was } else { libm::acos(cos) - was };
        let (sin, cos) = libm::sincos(turn);
        let (out, forward) = (to_ball.dot(&aside), to_ball.dot(&along));
        let moved = forward * (cos - 1.0) - out * sin;
        // The axis counts forward whichever pivot was entered as the front one.
        let forwards = if along.x < 0.0 { -moved } else { moved };
        Some((forwards, forward * sin + out * (cos - 1.0)))
    };
    if change.longer_mm == 0.0 {
        return;
    }
    match swung() {
        Some((forward_mm, longer_mm)) => {
            fitted.lower_ball.forward_mm += forward_mm;
            fitted.lower_ball.longer_mm += longer_mm;
        }
        None => fitted.remarks.push(Remark::RodTooShort),
    }
}
