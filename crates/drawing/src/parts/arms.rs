//! The arms, their bushings and joints, the torsion bar, the coil.

use crate::board::Board;
use crate::front_points::{ARM_HALF_MM, ArmLine, FrontPoints};
use crate::geometry::{Axes, Trace, Vec2, bounded};
use crate::palette::Ink;
use crate::pattern::{Pattern, shape};
use truck::Arm;

/// Radius of the lower arm's bushing eye, mm.
const LOWER_EYE_MM: f64 = 27.0;
/// Radius of the upper arm's.
const UPPER_EYE_MM: f64 = 21.0;

/// Both arms with their joints.
pub(crate) fn arms(board: &mut Board, points: &FrontPoints) {
    stud(board, points.lower.ball, points.knuckle.along);
    stud(board, points.upper.ball, points.knuckle.along * -1.0);
    let bar = |arm: Arm| points.bar.filter(|(_, carries)| *carries == arm).map(|(diameter, _)| diameter);
    arm(board, &points.lower, LOWER_EYE_MM, ARM_HALF_MM + 3.0);
    arm(board, &points.upper, UPPER_EYE_MM, 17.0);
    if board.ghost {
        return;
    }
    pivot(board, points.lower.pivot, LOWER_EYE_MM, bar(Arm::Lower));
    pivot(board, points.upper.pivot, UPPER_EYE_MM, bar(Arm::Upper));
    // Housings first: what is solid in all of them is then one shape.
    for solid in [false, true] {
        ball(board, points.lower.ball, points.knuckle.along, solid);
        ball(board, points.upper.ball, points.knuckle.along * -1.0, solid);
        for end in [points.tie_inner, points.steering_arm] {
            let housing = board.least(11.5, 4.6);
            joint(board, end, housing, solid);
        }
    }
}

/// A pressed arm, tapered from its eye to its ball.
fn arm(board: &mut Board, line: &ArmLine, eye: f64, end: f64) {
    board.taper(Ink::Steel, line.pivot, eye, line.ball, end);
    if board.ghost {
        return;
    }
    let length = (line.ball - line.pivot).size();
    if length < 90.0 {
        return;
    }
    let axes = Axes::new(line.pivot, line.ball - line.pivot);
    let (from, to) = (eye + 15.0, length - end - 14.0);
    if to - from > 30.0 {
        // The trough that stiffens the pressing.
        board.taper(Ink::Press, axes.at(from + 5.0, 0.0), 0.46 * eye, axes.at(to - 4.0, 0.0), 0.4 * end);
    }
    if board.fine() && to - from > 120.0 {
        let middle = f64::midpoint(from, to);
        for at in [middle - 34.0, middle + 34.0] {
            board.circle(Ink::Thin, axes.at(at, 0.0), 5.5);
        }
    }
}

/// A bushing, or where a torsion bar lies in the arm's axis: the bar, cut through.
pub(crate) fn pivot(board: &mut Board, at: Vec2, eye: f64, bar_mm: Option<f64>) {
    let ring = board.least(eye * 0.72, 5.4);
    board.circle(Ink::Rubber, at, ring);
    match bar_mm {
        Some(diameter) => {
            let radius = board.least(diameter / 2.0, 4.2).min(ring * 0.86);
            board.circle(Ink::Section, at, radius);
            board.hatch(&Trace::disc(at, radius), true, at);
        }
        None => board.circle(Ink::Joint, at, ring * 0.5),
    }
    centre_mark(board, at, eye + 9.0);
}

/// The cross of short centrelines that marks an axis.
fn centre_mark(board: &mut Board, at: Vec2, reach: f64) {
    let reach = board.least(reach, 11.0);
    let gap = board.least(reach * 0.55, 6.0);
    for way in [Vec2(1.0, 0.0), Vec2(0.0, 1.0), Vec2(-1.0, 0.0), Vec2(0.0, -1.0)] {
        board.lines(Ink::Thin, &[at + way * gap, at + way * reach]);
    }
}

/// A ball joint's stud and boot, from the ball into the knuckle.
fn stud(board: &mut Board, at: Vec2, towards: Vec2) {
    if board.ghost {
        return;
    }
    board.patterns(&Axes::new(at, towards), &[], STUD);
}

const STUD: &[Pattern] = &[
    shape(Ink::Pin, &[(0, 0, 0, 8, 1), (0, 44, 0, 6, 1), (0, 44, 0, -6, 1), (0, 0, 0, -8, 1)]),
    shape(Ink::Rubber, &[(0, 10, 0, 18, 4), (0, 25, 0, 10, 4), (0, 25, 0, -10, 4), (0, 10, 0, -18, 4)]),
];

/// A ball's housing, or what is solid in it: the ball, and the plate that closes
/// the housing, away from the stud.
fn ball(board: &mut Board, at: Vec2, stud: Vec2, solid: bool) {
    let housing = board.least(18.5, 6.6);
    joint(board, at, housing, solid);
    if solid {
        let heading = libm::atan2(stud.1, stud.0) + std::f64::consts::PI;
        let mut plate = Trace::default();
        plate.arc(at, housing, heading - 0.95, 1.9);
        board.draw(Ink::Solid, &plate.close());
    }
}

/// A round housing, or the ball in it.
pub(crate) fn joint(board: &mut Board, at: Vec2, housing: f64, solid: bool) {
    if solid {
        board.disc(Ink::Solid, at, housing * 0.42);
    } else {
        board.circle(Ink::Joint, at, housing);
    }
}

/// A coil between its seats: the far strands first.
pub(crate) fn coil(board: &mut Board, points: &FrontPoints, wire_mm: f64, mean_mm: f64, active: f64) {
    let Some((arm, body)) = points.coil else { return };
    let axes = Axes::new(arm, body - arm);
    let length = (body - arm).size();
    let (half, wire) = (mean_mm / 2.0, wire_mm / 2.0);
    let turns = bounded(active, 1.0, 20.0).round();
    let pitch = (length - 2.0 * wire) / turns;
    let at = |turn: f64, side: f64| axes.at(wire + turn * pitch, side * half);
    if board.ghost {
        let corners = [at(0.0, -1.0), at(0.0, 1.0), at(turns, 1.0), at(turns, -1.0)].map(|p| (p, wire));
        board.rounded(Ink::Steel, &corners);
        return;
    }
    // The far strands, then the near ones.
    for (ink, shift, side) in [(Ink::Press, 0.5, -1.0), (Ink::Steel, 0.0, 1.0)] {
        let mut turn = shift;
        while turn < turns {
            board.taper(ink, at(turn, side), wire, at(turn + 0.5, -side), wire);
            turn += 1.0;
        }
    }
    for (along, reach) in [(-4.0, half + 10.0), (length + 4.0, half + 10.0)] {
        board.taper(Ink::Frame, axes.at(along, -reach), 4.0, axes.at(along, reach), 4.0);
    }
}
