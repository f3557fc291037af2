//! One number of the truck on a small picture of its corner: a tape from where to where.

use crate::aspect::Aspect;
use crate::board::Board;
use crate::dimension::arrow;
use crate::front;
use crate::front_points::FrontPoints;
use crate::geometry::{Trace, Vec2};
use crate::palette::Ink;
use crate::projection::Projection;
use crate::scene::{Label, Scene};
use crate::shown::Shown;
use crate::text;
use crate::transform::{Transform, View, Zoom};
use linkage::Point3;
use measure::{MM_PER_INCH, Units};
use truck::{Datum, Field, Group, Readable, Truck};

/// Free beside the tape and above it, px.
const BESIDE_PX: (f64, f64) = (34.0, 20.0);
/// A part is never seen larger, px/mm: what is around it says where one is.
const LARGEST: f64 = 0.55;
/// Half of the tape's width, px.
const HALF_PX: f64 = 5.0;
/// Half of the stroke at an end, px.
const END_PX: f64 = 13.0;
/// A shorter tape has its arrows outside, px.
const SHORT_PX: f64 = 26.0;
/// Least distance between two strokes on the tape, px.
const STROKES_PX: f64 = 4.0;

/// What a tape is laid to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taped {
    /// A number of the truck.
    Number(Field),
    /// An answer that is read off it.
    Read(Readable),
}

/// A tape on a picture, the picture's millimetres.
#[derive(Clone, Copy)]
struct Tape {
    aspect: Aspect,
    ends: [Vec2; 2],
    /// The plane that it begins on.
    from: Option<Datum>,
}

/// A number's tape on a picture of the corner as it stands, seen from where the number is seen in true
/// length; `None` of what no view shows, and of a point that is not stated.
///
/// What is last of the picture's parts is the tape.
#[must_use]
pub fn taped(of: Taped, shown: &Shown<'_>, view: &View) -> Option<Scene> {
    let points = FrontPoints::of(shown);
    let fitted = &shown.rest.fitted;
    let tape = match of {
        Taped::Read(of) => from_front(read(of, &points, fitted.stops.droop_mm)?),
        Taped::Number(of) => match of.datum() {
            Some(from) => at_point(of, from, shown, &points)?,
            None if of == Field::FenderHalfLength => at_lip(shown),
            None => from_front(sized(of, &points, &fitted.stops)?),
        },
    };
    let (aspect, size) = (tape.aspect, (view.width_px, view.height_px));
    let seen = |fit: Transform| View { zoom: tape.zoom(fit, size), ..view.clone() };
    let mut board = if aspect == Aspect::Front {
        front::drawn(&points, fitted, Some(shown), None, false, &seen(front::fit(fitted, view)))
    } else {
        let projection = Projection::of(aspect, shown);
        let seen = seen(projection.fit(view));
        let mut board = Board::new(projection.fit(&seen));
        projection.draw(&mut board, None, &seen);
        board
    };
    board.part();
    let mut scene = Scene::empty(view);
    scene.labels.extend(tape.lay(&mut board, view));
    let side = fitted.measured.side();
    let label = match of {
        Taped::Number(of) => of.label(),
        Taped::Read(of) => of.label(),
    };
    scene.description = [aspect.title(side), ", a tape on: ", label].concat();
    (scene.transform, scene.shapes, scene.parts) = (board.transform, board.shapes, board.parts);
    Some(if side == truck::Side::Right { scene.mirrored() } else { scene })
}

fn from_front(ends: [Vec2; 2]) -> Tape {
    Tape { aspect: Aspect::Front, ends, from: None }
}

/// From its plane to a point. What lies behind one another from the front, the pivots of an arm, is seen from
/// above and from the side.
fn at_point(of: Field, from: Datum, shown: &Shown<'_>, points: &FrontPoints) -> Option<Tape> {
    let at = point(of, from, &shown.rest.fitted.measured)?;
    let is_pivot = matches!(of.group(), Group::LowerArm | Group::UpperArm);
    let aspect = match from {
        Datum::Axle => Aspect::Side,
        Datum::Centreline if is_pivot => Aspect::Top,
        Datum::Ground if is_pivot => Aspect::Side,
        _ => Aspect::Front,
    };
    let mut foot = at;
    foot[from.axis()] = 0.0;
    let ends = if aspect == Aspect::Front {
        [foot, at].map(|point| aspect.flat(&point) - Vec2(0.0, points.ground))
    } else {
        let projection = Projection::of(aspect, shown);
        [foot, at].map(|point| projection.at(&point))
    };
    Some(Tape { aspect, ends, from: Some(from) })
}

/// The point of which a number is one; of a rail, a lip or the lowest point, a place of it where that is.
fn point(of: Field, from: Datum, truck: &Truck) -> Option<Point3<f64>> {
    let (rail, fender) = (&truck.body.rail, &truck.body.fender);
    let wheel = &truck.points.wheel_centre;
    Some(match of {
        Field::RailOuterY => Point3::new(wheel.x, rail.outer_y_mm, rail.bottom_z_mm + 0.5 * rail.height_mm),
        Field::RailBottomZ => Point3::new(wheel.x, rail.outer_y_mm, rail.bottom_z_mm),
        Field::RailFrontX => Point3::new(rail.front_x_mm, rail.outer_y_mm, rail.bottom_z_mm),
        Field::RailRearX => Point3::new(rail.rear_x_mm, rail.outer_y_mm, rail.bottom_z_mm),
        Field::FenderY | Field::FenderZ => Point3::new(wheel.x, fender.lip_y_mm, fender.lip_z_mm),
        Field::LowPointY | Field::LowPointZ => Point3::new(0.0, truck.low.y_mm?, truck.low.z_mm?),
        Field::ShimFrontX | Field::ShimRearX => return None,
        // Of a point's three numbers each has the next id.
        _ => {
            let first = of.id() - u8::try_from(from.axis()).ok()?;
            let [x, y, z] = [0, 1, 2].map(|axis| Field::from_id(first + axis)?.get(truck));
            Point3::new(x?, y?, z?)
        }
    })
}

/// Along the fender's lip, from over the wheel's middle to its front end.
fn at_lip(shown: &Shown<'_>) -> Tape {
    let measured = &shown.rest.fitted.measured;
    let (middle, fender) = (measured.points.wheel_centre.x, &measured.body.fender);
    let projection = Projection::of(Aspect::Side, shown);
    let ends = [0.0, fender.half_length_mm]
        .map(|along| projection.at(&Point3::new(middle + along, fender.lip_y_mm, fender.lip_z_mm)));
    Tape { aspect: Aspect::Side, ends, from: None }
}

/// From what to what a size goes, or a length from one part to another.
fn sized(of: Field, points: &FrontPoints, stops: &truck::Stops) -> Option<[Vec2; 2]> {
    let (size, stop, rail) = (&points.wheel.size, points.stop, points.rail);
    let wheel = |ends: [(f64, f64); 2]| Some(ends.map(|(along, up)| points.wheel.axes.at(along, up)));
    let (radius, rim) = (size.radius, size.rim_radius);
    match of {
        // Over the sidewalls, above the rim.
        Field::TireSection => wheel([-1.0, 1.0].map(|end| (end * size.half_width, 0.5 * (radius + rim)))),
        Field::TireAspect => wheel([(size.half_rim, rim), (size.half_rim, radius)]),
        Field::TireRim => wheel([(size.half_rim, -rim), (size.half_rim, rim)]),
        Field::TireShoulder => wheel([(size.half_width, radius - size.shoulder), (size.half_width, radius)]),
        Field::TireDiameter => wheel([(0.0, -radius), (0.0, radius)]),
        Field::RimWidth => wheel([(-size.half_rim, rim), (size.half_rim, rim)]),
        Field::WheelOffset => wheel([(0.0, 0.0), (size.offset, 0.0)]),
        Field::RailWidth => Some([rail - Vec2(points.rail_size.0, 0.0), rail]),
        Field::RailHeight => Some([rail, rail + Vec2(0.0, points.rail_size.1)]),
        Field::Droop => Some(hanging(points, stops.droop_mm)),
        Field::BumpGap => stop.map(|stop| [stop.tip, stop.strikes]),
        Field::BumpSquash => stop.map(|stop| [stop.tip, stop.tip + stop.up() * stops.bump_squash_mm]),
        Field::BumpRadius => stop.map(|stop| {
            // Beside the arm, whose far edge the stop strikes.
            let out = stop.strikes - points.lower.pivot;
            [stop.strikes - (out - stop.up() * out.dot(stop.up())), stop.strikes]
        }),
        _ => None,
    }
}

/// From what to what an answer is read with a tape.
fn read(of: Readable, points: &FrontPoints, droop_mm: f64) -> Option<[Vec2; 2]> {
    let (rail, fender, wheel) = (points.rail, points.fender, &points.wheel);
    Some(match of {
        Readable::FrameHeight => [Vec2(rail.0, 0.0), rail],
        Readable::Droop => hanging(points, droop_mm),
        Readable::FenderAbove => [Vec2(fender.0, wheel.axes.at(0.0, wheel.size.radius).1), fender],
        _ => return None,
    })
}

/// From where the wheel's center stands to where it hangs.
fn hanging(points: &FrontPoints, droop_mm: f64) -> [Vec2; 2] {
    let centre = points.wheel.axes.origin;
    [centre, centre - Vec2(0.0, droop_mm)]
}

impl Tape {
    /// How a picture that shows all is to be looked at for the tape to be seen whole.
    fn zoom(&self, fit: Transform, (wide, tall): (f64, f64)) -> Zoom {
        let [from, to] = self.ends;
        let room = |px: f64, beside: f64, mm: f64| (px - 2.0 * beside) / mm.abs().max(1.0);
        let scale =
            room(wide, BESIDE_PX.0, to.0 - from.0).min(room(tall, BESIDE_PX.1, to.1 - from.1)).min(LARGEST)
                / fit.px_per_mm();
        let middle = from.towards(to, 0.5);
        let (x, y) = fit.to_px(middle.0, middle.1);
        Zoom { scale, pan_px: ((wide / 2.0 - x) * scale, (tall / 2.0 - y) * scale) }
    }

    /// Draws it on its plane, and says which one that is.
    fn lay(&self, board: &mut Board, view: &View) -> Option<Label> {
        let [from, to] = self.ends;
        let along = to - from;
        // Of no length it still has a way.
        let way = match self.from {
            Some(from) if along.size() < 0.01 => self.aspect.flat(&Point3::from(unit(from))),
            _ => along.unit(),
        };
        let across = way.left();
        let label = self.from.and_then(|plane| plane_of(plane, from, way, board, view));
        let (half, end) = (across * board.mm(HALF_PX), across * board.mm(END_PX));
        board.draw(Ink::Tape, &Trace::lines(&[from + half, to + half, to - half, from - half]).close());
        let unit = if view.units == Units::Inches { MM_PER_INCH } else { 10.0 };
        let mut step = unit;
        while step < board.mm(STROKES_PX) {
            step *= 2.0;
        }
        let (mut strokes, mut at) = (Trace::default(), step);
        while at < along.size() {
            strokes.jump(from + way * at + half);
            strokes.to(from + way * at);
            at += step;
        }
        board.draw(Ink::Edge, &strokes);
        let is_short = along.size() < board.mm(SHORT_PX);
        for (tip, out) in [(from, way * -1.0), (to, way)] {
            board.lines(Ink::Edge, &[tip + end, tip - end]);
            let out = if is_short { out * -1.0 } else { out };
            if is_short {
                board.lines(Ink::Edge, &[tip, tip - out * board.mm(2.0 * END_PX)]);
            }
            // Millimetres go up, pixels down.
            board.shapes.push(arrow(Ink::Solid, board.px(tip), (out.0, -out.1)));
        }
        label
    }
}

/// A plane's way away from it.
fn unit(from: Datum) -> linkage::Vector3<f64> {
    let mut way = linkage::Vector3::zeros();
    way[from.axis()] = 1.0;
    way
}

/// Draws the plane as it is seen, on edge, and names it where its line alone does not.
fn plane_of(plane: Datum, foot: Vec2, way: Vec2, board: &mut Board, view: &View) -> Option<Label> {
    let far = way.left() * 4000.0;
    let name = match plane {
        Datum::Ground => {
            board.lines(Ink::Ground, &[foot + far, foot - far]);
            return None;
        }
        Datum::Axle => "axle",
        Datum::Centreline => "centerline",
    };
    board.lines(Ink::Centre, &[foot + far, foot - far]);
    let (lines, size) = (vec![text::words(name)], view.type_px.max(View::LEAST_TYPE_PX));
    let (width, height) = text::box_of(&lines, Ink::TextSoft, size);
    // At the line's head, on the tape's side only where there is no room on the other.
    let x = board.px(foot).0;
    let beside = 5.0;
    let left = if x > width + 2.0 * beside { x - width - beside } else { x + beside };
    let spoken = name.to_owned();
    Some(Label { left, top: 2.0, width, height, size, ink: Ink::TextSoft, lines, spoken })
}
