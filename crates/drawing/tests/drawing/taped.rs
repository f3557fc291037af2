//! The tape at a number: it lies where the number's words say, and is as long as the number says.
//!
//! Source: what the numbers are called. A point is counted forward from the axle, outward from the centerline
//! and up from the ground; from the side the truck's front is at the left, from above below.

use crate::view;
use drawing::{Form, Ink, Scene, Shown, Step, Taped, taped};
use study::Stance;
use truck::{Datum, Edit, Field, Readable, Side, SpringKind, Stage, Truck, demo};

fn picture(truck: &Truck, side: Side, of: Taped) -> Option<Scene> {
    let rest = Stance::as_measured(truck).unwrap().on(side);
    let shown = Shown { rest: &rest, pose: &rest.pose, gaps: &[], travel_left: None, travel_mm: 0.0 };
    taped(of, &shown, &view(300.0, 140.0))
}

/// Both ends of the tape: the middles of its short sides, mm to the right and up on the picture of a left side.
fn ends(scene: &Scene) -> [(f64, f64); 2] {
    let tape: Vec<_> = scene.shapes.iter().filter(|shape| shape.ink == Ink::Tape).collect();
    let [shape] = tape[..] else { panic!("one tape") };
    let Form::Path(path) = &shape.form else { panic!("of four corners") };
    let corners: Vec<_> = path
        .steps
        .iter()
        .filter_map(|step| match step {
            Step::Move(to) | Step::Line(to) => Some(scene.transform.to_mm(to.0, to.1)),
            _ => None,
        })
        .collect();
    let [a, b, c, d] = corners[..] else { panic!("{corners:?}") };
    let middle = |p: (f64, f64), q: (f64, f64)| (f64::midpoint(p.0, q.0), f64::midpoint(p.1, q.1));
    [middle(a, d), middle(b, c)]
}

/// Trucks that differ in everything that a tape can lie on, and both sides of one.
fn trucks() -> Vec<(Truck, Side)> {
    let design = demo();
    let moved: Vec<_> = Field::ALL
        .iter()
        .filter(|field| field.datum().is_some())
        .filter_map(|field| Some((*field, field.nearest(field.get(&design.truck)? + 11.0)?)))
        .collect();
    let other = design.edited(&Edit::MeasureAll(moved)).unwrap();
    let right = [(Field::LowerFrontY, Some(301.0)), (Field::FenderZ, Some(777.0))];
    let right = other.edited(&Edit::MeasureRight(right.to_vec())).unwrap();
    vec![(design.truck, Side::Left), (other.truck, Side::Left), (right.truck, Side::Right)]
}

fn near(found: (f64, f64), wanted: (f64, f64), what: &str) {
    let off = (found.0 - wanted.0).abs().max((found.1 - wanted.1).abs());
    assert!(off < 0.05, "{what}: {found:?}, not {wanted:?}");
}

/// The points of a corner that are measured, by the first of their three numbers, and where each is.
fn points(truck: &Truck) -> [(Field, [f64; 3]); 9] {
    let of = &truck.points;
    [
        (Field::LowerFrontX, of.lower.front),
        (Field::LowerRearX, of.lower.rear),
        (Field::LowerBallX, of.lower.ball),
        (Field::UpperFrontX, of.upper.front),
        (Field::UpperRearX, of.upper.rear),
        (Field::UpperBallX, of.upper.ball),
        (Field::WheelCentreX, of.wheel_centre),
        (Field::TieInnerX, of.tie_inner),
        (Field::TieOuterX, of.tie_outer),
    ]
    .map(|(field, at)| (field, [at.x, at.y, at.z]))
}

/// From its plane to the point, square to the plane, and on the point in the picture's other direction.
#[test]
fn the_tape_of_a_point_lies_from_its_plane_to_it() {
    for (truck, side) in trucks() {
        let own = truck.on(side);
        for (first, [x, y, z]) in points(&own) {
            for axis in 0..3 {
                let field = Field::from_id(first.id() + axis).unwrap();
                let scene = picture(&truck, side, Taped::Number(field)).unwrap();
                let is_pivot = field.key().contains("front") || field.key().contains("rear");
                let (view, [from, to]) = match (field.datum().unwrap(), is_pivot) {
                    (Datum::Axle, _) => ("Side", [(0.0, z), (-x, z)]),
                    (Datum::Centreline, true) => ("Top", [(0.0, -x), (y, -x)]),
                    (Datum::Ground, true) => ("Side", [(-x, 0.0), (-x, z)]),
                    (Datum::Centreline, false) => ("Front", [(0.0, z), (y, z)]),
                    (Datum::Ground, false) => ("Front", [(y, 0.0), (y, z)]),
                };
                let said = &scene.description;
                assert!(said.starts_with(view) && said.ends_with(field.label()), "{field:?}: {said}");
                assert!(said.contains(if side == Side::Left { "left" } else { "right" }), "{said}");
                let found = ends(&scene);
                near(found[0], from, &format!("{field:?} from"));
                near(found[1], to, &format!("{field:?} to"));
            }
        }
    }
}

/// The rail, the fender's lip and the sizes of the wheel, by the words of each.
#[test]
fn the_other_tapes_lie_where_their_words_say() {
    for (truck, side) in trucks() {
        let own = truck.on(side);
        let (rail, fender, wheel) = (&own.body.rail, &own.body.fender, own.points.wheel_centre);
        let drawn = |of| ends(&picture(&truck, side, of).unwrap());
        let (outer, bottom) = (rail.outer_y_mm, rail.bottom_z_mm);
        let lip = (fender.lip_y_mm, fender.lip_z_mm);
        let half_way = bottom + 0.5 * rail.height_mm;
        let lengthwise = |x: f64| [(0.0, bottom), (-x, bottom)];
        let whole = |x: f64| [(-wheel.x, lip.1), (-wheel.x - x, lip.1)];
        for (of, wanted) in [
            (Taped::Number(Field::RailOuterY), [(0.0, half_way), (outer, half_way)]),
            (Taped::Number(Field::RailBottomZ), [(outer, 0.0), (outer, bottom)]),
            (Taped::Number(Field::RailWidth), [(outer - rail.width_mm, bottom), (outer, bottom)]),
            (Taped::Number(Field::RailHeight), [(outer, bottom), (outer, bottom + rail.height_mm)]),
            (Taped::Number(Field::RailFrontX), lengthwise(rail.front_x_mm)),
            (Taped::Number(Field::RailRearX), lengthwise(rail.rear_x_mm)),
            (Taped::Number(Field::FenderY), [(0.0, lip.1), lip]),
            (Taped::Number(Field::FenderZ), [(lip.0, 0.0), lip]),
            (Taped::Number(Field::FenderHalfLength), whole(fender.half_length_mm)),
            (Taped::Read(Readable::FrameHeight), [(outer, 0.0), (outer, bottom)]),
        ] {
            for (found, wanted) in drawn(of).into_iter().zip(wanted) {
                near(found, wanted, &format!("{of:?}"));
            }
        }
    }
}

/// How long each is: what is typed there. A tire is as wide as it stands on its rim, by the rule of the trade two
/// fifths of what the rim is wider than the one that it was measured on (`truck::Tire::section_on_mm`).
#[test]
fn the_tape_of_a_size_is_as_long_as_the_size() {
    for (truck, side) in trucks() {
        let own = truck.on(side);
        let wide = own.tire.section_on_mm(own.wheel.rim_width_mm);
        for (field, wanted) in [
            (Field::TireSection, wide),
            (Field::TireRim, own.tire.size.rim_code * 25.4),
            (Field::TireAspect, own.tire.free_radius_mm() - own.tire.size.rim_code * 12.7),
            (Field::TireDiameter, 2.0 * own.tire.free_radius_mm()),
            (Field::TireShoulder, own.tire.shoulder_mm),
            (Field::RimWidth, own.wheel.rim_width_mm),
            (Field::WheelOffset, own.wheel.offset_mm.abs()),
            (Field::BumpGap, own.stops.bump_gap_mm),
            (Field::BumpSquash, own.stops.bump_squash_mm),
            (Field::BumpRadius, own.stops.bump_radius_mm),
            (Field::Droop, own.stops.droop_mm),
        ] {
            let [from, to] = ends(&picture(&truck, side, Taped::Number(field)).unwrap());
            let long = libm::hypot(to.0 - from.0, to.1 - from.1);
            // A stop's way lies square to the arm's axis, a degree or two off the picture.
            assert!((long - wanted).abs() < 0.05 + 0.005 * wanted, "{field:?}: {long}, not {wanted}");
        }
    }
}

/// Up or down, outward or inward: what hangs goes down, what is squeezed up, and a lip is above the tire.
#[test]
fn the_tape_of_a_reading_goes_the_way_of_its_words() {
    let truck = demo().truck;
    let drawn = |of| ends(&picture(&truck, Side::Left, of).unwrap());
    let wheel = truck.points.wheel_centre;
    for of in [Taped::Number(Field::Droop), Taped::Read(Readable::Droop)] {
        let [from, to] = drawn(of);
        near(from, (wheel.y, wheel.z), "droop from");
        near(to, (wheel.y, wheel.z - truck.stops.droop_mm), "droop to");
    }
    let [from, to] = drawn(Taped::Read(Readable::FenderAbove));
    let top = wheel.z + truck.tire.free_radius_mm() * libm::cos(truck.points.camber_rad);
    near(from, (truck.body.fender.lip_y_mm, top), "above the tire from");
    near(to, (truck.body.fender.lip_y_mm, truck.body.fender.lip_z_mm), "above the tire to");
    // The arm comes up to the stop, and squeezes it up.
    let [tip, strikes] = drawn(Taped::Number(Field::BumpGap));
    assert!(strikes.1 < tip.1, "{tip:?} {strikes:?}");
    let [from, to] = drawn(Taped::Number(Field::BumpSquash));
    near(from, tip, "squeezed from");
    assert!(to.1 > tip.1, "{to:?}");
    let [from, to] = drawn(Taped::Number(Field::BumpRadius));
    assert!(to.0 > from.0, "the stop strikes outboard of the pivot");
    near(to, strikes, "strikes");
}

/// Of the stages that ask for places: what has no tape is an angle, a thread, a choice, and what lies beyond the
/// corner. Of every other the tape is whole in the picture and the last of its parts.
#[test]
fn what_no_view_shows_has_no_tape_and_all_else_has() {
    let truck = demo().truck;
    let without: Vec<Field> = [Stage::Outside, Stage::Arms, Stage::ForeAft]
        .into_iter()
        .flat_map(|stage| stage.fields(SpringKind::TorsionBar))
        .filter(|field| {
            let Some(scene) = picture(&truck, Side::Left, Taped::Number(*field)) else { return true };
            let last = *scene.parts.last().unwrap();
            assert!(scene.shapes[..last].iter().all(|shape| shape.ink != Ink::Tape), "{field:?}");
            for (x, y) in ends(&scene).map(|(x, y)| scene.transform.to_px(x, y)) {
                assert!((8.0..=292.0).contains(&x) && (8.0..=132.0).contains(&y), "{field:?}: {x}, {y}");
            }
            false
        })
        .collect();
    let beyond = [Field::SteeringKind, Field::PitmanLength, Field::PitmanSide, Field::Wheelbase];
    let angles = [Field::Camber, Field::Toe, Field::TieThread, Field::LockLeft, Field::LockRight];
    assert!(without.iter().all(|field| beyond.contains(field) || angles.contains(field)), "{without:?}");
    assert_eq!(without.len(), beyond.len() + angles.len(), "{without:?}");
    for of in Stage::Outside.readables() {
        assert!(picture(&truck, Side::Left, Taped::Read(*of)).is_some(), "{of:?}");
    }
}

/// On a picture of the right side the truck's middle is at the right.
#[test]
fn the_right_is_the_mirror_image() {
    let truck = demo().truck;
    let [left, right] = Side::ALL.map(|side| {
        let scene = picture(&truck, side, Taped::Number(Field::LowerBallY)).unwrap();
        ends(&scene).map(|(x, y)| scene.transform.to_px(x, y))
    });
    assert!(left[0].0 < left[1].0 && right[0].0 > right[1].0, "{left:?} {right:?}");
    near(right[0], (300.0 - left[0].0, left[0].1), "mirrored");
}
