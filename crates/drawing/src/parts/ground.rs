//! The ground and the centrelines.

use crate::board::Board;
use crate::front_points::FrontPoints;
use crate::geometry::{Trace, Vec2};
use crate::palette::Ink;

/// Between two strokes under the ground's line, px.
const EARTH_PX: f64 = 9.0;

/// The ground across the whole picture, `width_px` wide.
pub(crate) fn ground(board: &mut Board, width_px: f64) {
    let (from, to) = (board.transform.to_mm(0.0, 0.0).0, board.transform.to_mm(width_px, 0.0).0);
    let step = board.mm(EARTH_PX);
    let mut strokes = Trace::default();
    // Strokes stand still on the ground when the picture is moved.
    let mut at = (from / step).ceil() * step;
    while at < to + step {
        strokes.jump(Vec2(at, -board.mm(2.0)));
        strokes.to(Vec2(at - board.mm(7.0), -board.mm(9.0)));
        at += step;
    }
    board.draw(Ink::Earth, &strokes);
    board.lines(Ink::Ground, &[Vec2(from, 0.0), Vec2(to, 0.0)]);
}

/// The truck's centreline and the wheel's plane.
pub(crate) fn centrelines(board: &mut Board, points: &FrontPoints, top_mm: f64) {
    board.lines(Ink::Centre, &[Vec2(0.0, -board.mm(14.0)), Vec2(0.0, top_mm)]);
    let wheel = &points.wheel;
    let beyond = board.mm(13.0);
    board.lines(
        Ink::Centre,
        &[
            wheel.axes.at(0.0, -wheel.size.radius - 0.6 * beyond),
            wheel.axes.at(0.0, wheel.size.radius + beyond),
        ],
    );
}
