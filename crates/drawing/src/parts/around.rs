//! The parts as they are seen from the side and from above.

use crate::aspect::Aspect;
use crate::board::Board;
use crate::geometry::{Trace, Vec2};
use crate::palette::Ink;
use crate::parts::arms;
use crate::projection::{Projection, StrutRod};
use linkage::Point3;
use truck::{Arm, SpringKind};

/// How far a torsion bar is followed behind its arm, mm.
const BAR_MM: f64 = 330.0;

/// Everything but the wheel, from behind to front.
pub(crate) fn body(board: &mut Board, seen: &Projection<'_>) {
    board.part();
    frame(board, seen);
    board.part();
    if seen.fitted.spring.kind == SpringKind::TorsionBar {
        torsion_bar(board, seen);
    }
    let (lower, upper) = (&seen.lower, &seen.upper);
    let rod = board.least(9.0, 2.0);
    if let Some(StrutRod { bushing, bolt }) = seen.strut_rod {
        board.taper(Ink::Rod, bushing, rod, bolt, rod);
    } else {
        board.taper(Ink::Steel, lower.front, 20.0, lower.ball, 19.0);
    }
    board.taper(Ink::Steel, seen.lower_bushing, 25.0, lower.ball, 21.0);
    board.taper(Ink::Rod, seen.tie_inner, rod, seen.tie_outer, rod);
    board.part();
    knuckle(board, seen);
    board.part();
    board.taper(Ink::Rod, upper.front, rod, upper.rear, rod);
    for pivot in [upper.front, upper.rear] {
        board.taper(Ink::Steel, pivot, 17.0, upper.ball, 15.0);
    }
    if !board.ghost {
        joints(board, seen);
    }
}

/// The rail and the fender's lip.
fn frame(board: &mut Board, seen: &Projection<'_>) {
    let measured = &seen.fitted.measured;
    let (rail, fender) = (&measured.body.rail, &measured.body.fender);
    let (inner, top) = (rail.outer_y_mm - rail.width_mm, rail.bottom_z_mm + rail.height_mm);
    let corners = [
        (rail.front_x_mm, rail.outer_y_mm, rail.bottom_z_mm),
        (rail.rear_x_mm, rail.outer_y_mm, rail.bottom_z_mm),
        (rail.rear_x_mm, inner, top),
        (rail.front_x_mm, inner, top),
    ];
    board.rounded(Ink::Frame, &corners.map(|(x, y, z)| (seen.at(&Point3::new(x, y, z)), 4.0)));
    let middle = measured.points.wheel_centre.x;
    let lip = [(-2.0, 170.0), (-1.0, 0.0), (1.0, 0.0), (2.0, 170.0)].map(|(along, down)| {
        let x = middle + along * fender.half_length_mm;
        (seen.at(&Point3::new(x, fender.lip_y_mm, fender.lip_z_mm - down)), 90.0)
    });
    board.draw(Ink::SheetMetal, &Trace::bent(&lip));
}

fn torsion_bar(board: &mut Board, seen: &Projection<'_>) {
    let spring = &seen.fitted.spring;
    let (arm, from) = match spring.arm {
        Arm::Lower => (&seen.lower, seen.lower_bushing),
        Arm::Upper => (&seen.upper, seen.upper.rear),
    };
    let thin = board.least(spring.bar.diameter_mm / 2.0, 2.0);
    // A strut rod's bushing is no bearing of the bar: it then runs straight back.
    let back = seen.aspect.flat(&Point3::new(-1.0, 0.0, 0.0));
    let way = if seen.strut_rod.is_some() { back } else { arm.rear - arm.front };
    board.taper(Ink::Rod, from, thin, from + way.unit() * BAR_MM, thin);
}

fn knuckle(board: &mut Board, seen: &Projection<'_>) {
    let [lower, upper, steering_arm] =
        [&seen.pose.lower_ball, &seen.pose.upper_ball, &seen.pose.tie_outer].map(|point| seen.level(point));
    board.taper(Ink::Forging, lower.towards(upper, 0.3), 15.0, steering_arm, 11.0);
    board.taper(Ink::Forging, lower, 21.0, upper, 17.0);
    let wheel = seen.level(&seen.pose.wheel_centre);
    if !board.ghost {
        board.taper(Ink::Pin, lower.towards(upper, 0.45), 24.0, wheel, 18.0);
    }
}

/// Joints, pivots and the lines that things turn about.
fn joints(board: &mut Board, seen: &Projection<'_>) {
    let (lower, upper) = (&seen.lower, &seen.upper);
    for arm in [lower, upper] {
        let beyond = (arm.front - arm.rear).unit() * 58.0;
        board.lines(Ink::Centre, &[arm.front + beyond, arm.rear - beyond]);
    }
    let wheel = seen.level(&seen.pose.wheel_centre);
    if seen.aspect == Aspect::Side {
        let foot = seen.level(&seen.pose.axis_at(seen.attitude.contact.z));
        board.lines(Ink::Centre, &[foot, upper.ball + (upper.ball - foot).unit() * 90.0]);
        board.lines(Ink::Centre, &[Vec2(wheel.0, 0.0), wheel + Vec2(0.0, 60.0)]);
    } else {
        let radius = seen.fitted.tire.free_radius_mm() + board.mm(9.0);
        let spin = seen.aspect.in_body(1.0, 0.0).dot(&seen.pose.spin);
        let ahead = Vec2(seen.pose.spin.x, spin).unit() * radius;
        board.lines(Ink::Centre, &[wheel - ahead, wheel + ahead]);
        board.lines(Ink::Centre, &[Vec2(0.0, -2000.0), Vec2(0.0, 2000.0)]);
    }
    for arm in [lower, upper] {
        arms::pivot(board, arm.front, 19.0, None);
        arms::pivot(board, arm.rear, 19.0, None);
    }
    let balls = [lower.ball, upper.ball].map(|at| (at, 18.5, 6.6));
    let ends = [seen.tie_inner, seen.tie_outer].map(|at| (at, 11.5, 4.6));
    for solid in [false, true] {
        for (at, mm, px) in balls.into_iter().chain(ends) {
            let housing = board.least(mm, px);
            arms::joint(board, at, housing, solid);
        }
    }
}
