//! Distances from the tire against a search over its own surface, and against
//! `parry3d`, a general library for collisions.

use linkage::{Point3, Vector3, axes};
use nalgebra::{Isometry3, Translation3, UnitQuaternion};
use parry3d_f64::query::contact::contact_support_map_support_map;
use parry3d_f64::query::distance;
use parry3d_f64::shape::{self, Cuboid, Cylinder, RoundCylinder};
use std::f64::consts::TAU;
use study::{
    Block, Limiter, Pair, Rest, Ring, Segment, TireSolid, clearance, fender_lip, rail_box, travel_left,
};
use truck::{Overlay, ProposalId, demo, fit};
use yardstick::budget::near;
use yardstick::generate::Dice;

/// A tire of a plausible size, steered up to 40° and cambered up to 8°; every
/// fourth one exactly straight ahead and upright, so that faces are parallel.
fn tire(dice: &mut Dice, count: usize) -> TireSolid {
    let straight = count.is_multiple_of(4);
    let mut lean =
        |most_deg: f64| if straight { 0.0 } else { dice.between(-most_deg, most_deg).to_radians() };
    let (camber, toe) = (lean(8.0), lean(40.0));
    let half_width_mm = dice.between(80.0, 135.0);
    TireSolid {
        centre: Point3::new(
            dice.between(-20.0, 20.0),
            dice.between(650.0, 750.0),
            dice.between(280.0, 340.0),
        ),
        spin: axes::spin_axis(camber, toe),
        radius_mm: dice.between(280.0, 390.0),
        half_width_mm,
        shoulder_mm: dice.between(10.0, half_width_mm - 20.0),
    }
}

/// A box somewhere about a tire: rails and plates, near and far, around it and in it.
fn block(dice: &mut Dice, tire: &TireSolid) -> Block {
    let around = 1.6 * tire.radius_mm;
    let mut place = |half: f64| Vector3::from_fn(|_, _| dice.between(-half, half));
    let middle = tire.centre + place(around);
    let half = place(1.0).map(|share| 5.0 + 250.0 * share * share);
    Block { low: middle - half, high: middle + half }
}

fn point_to_block(point: &Point3<f64>, block: &Block) -> f64 {
    let nearest = Point3::from(point.coords.sup(&block.low.coords).inf(&block.high.coords));
    (point - nearest).norm()
}

/// A point of the tire's surface: `around` goes about the spin axis, `section`
/// along the half of the section's outline that the tread and the walls make.
fn surface(tire: &TireSolid, around: f64, section: f64) -> Point3<f64> {
    let round = tire.shoulder_mm;
    let (flat, tread) = (tire.radius_mm - round, 2.0 * (tire.half_width_mm - round));
    let quarter = round * TAU / 4.0;
    let mut run = section.clamp(0.0, 1.0) * (2.0 * flat + tread + 2.0 * quarter);
    let inner = tire.half_width_mm - round;
    // From the middle of one wall out, over the tread, and in again.
    let (out, along) = if run < flat {
        (run, -tire.half_width_mm)
    } else if run < flat + quarter {
        run = (run - flat) / round;
        (flat + round * libm::sin(run), -inner - round * libm::cos(run))
    } else if run < flat + quarter + tread {
        (tire.radius_mm, run - flat - quarter - inner)
    } else if run < flat + 2.0 * quarter + tread {
        run = (run - flat - quarter - tread) / round;
        (flat + round * libm::cos(run), inner + round * libm::sin(run))
    } else {
        (2.0 * flat + tread + 2.0 * quarter - run, tire.half_width_mm)
    };
    let side = tire.spin.cross(&Vector3::z()).normalize();
    let up = side.cross(&tire.spin);
    tire.centre + tire.spin * along + (side * libm::cos(around) + up * libm::sin(around)) * out
}

/// The least of a distance over the tire's surface: a grid, then finer grids
/// about the best of it. It can only be too large.
fn searched(tire: &TireSolid, far: impl Fn(&Point3<f64>) -> f64) -> f64 {
    let (mut around, mut section) = (0.0, 0.5);
    let (mut wide, mut steps) = ((TAU / 2.0, 0.5), (40, 40));
    let mut least = f64::INFINITY;
    for _ in 0..7 {
        let middle = (around, section);
        for i in -steps.0..=steps.0 {
            for j in -steps.1..=steps.1 {
                let at = (
                    middle.0 + wide.0 * f64::from(i) / f64::from(steps.0),
                    middle.1 + wide.1 * f64::from(j) / f64::from(steps.1),
                );
                let here = far(&surface(tire, at.0, at.1));
                if here < least {
                    least = here;
                    (around, section) = at;
                }
            }
        }
        wide = (wide.0 / 10.0, wide.1 / 10.0);
        steps = (12, 12);
    }
    least
}

/// What the tire is to this many shapes, and how many of each sort came up.
#[derive(Default)]
struct Met {
    clear: usize,
    touched: usize,
    entered: usize,
}

impl Met {
    fn count(&mut self, distance_mm: f64, shoulder_mm: f64) {
        if distance_mm > 0.0 {
            self.clear += 1;
        } else if distance_mm > -shoulder_mm {
            self.touched += 1;
        } else {
            self.entered += 1;
        }
    }

    fn assert_all_met(&self, least: usize) {
        let Self { clear, touched, entered } = self;
        assert!(*clear > least && *touched > least && *entered > least, "{clear} {touched} {entered}");
    }
}

#[test]
fn boxes_against_the_tire_s_own_surface() {
    let mut dice = Dice::of(31);
    let mut met = Met::default();
    for count in 0..40 {
        let tire = tire(&mut dice, count);
        let block = block(&mut dice, &tire);
        let got = tire.to_block(&block);
        met.count(got.distance_mm, tire.shoulder_mm);
        let least = searched(&tire, |point| point_to_block(point, &block));
        if got.distance_mm > 0.0 {
            near(got.distance_mm, least, 0.1, "clear");
            near((got.on_tire - got.on_other).norm(), got.distance_mm, 1e-9, "between the points named");
            near(point_to_block(&got.on_other, &block), 0.0, 1e-9, "on the box");
        } else {
            // A box wholly inside the tire meets no surface.
            let inside = (got.distance_mm + tire.shoulder_mm).abs() < 1e-9;
            assert!(least < 0.1 || inside, "{least} {got:?}");
        }
    }
    met.assert_all_met(2);
}

#[test]
fn points_and_segments_against_the_tire_s_own_surface() {
    let mut dice = Dice::of(32);
    let mut clear = 0;
    for count in 0..40 {
        let tire = tire(&mut dice, count);
        let mut place = || tire.centre + Vector3::from_fn(|_, _| dice.between(-600.0, 600.0));
        let segment = Segment { from: place(), to: place() };
        let got = tire.to_point(&segment.from);
        let least = searched(&tire, |point| (point - segment.from).norm());
        if got.distance_mm > 0.0 {
            near(got.distance_mm, least, 0.1, "point");
            near((got.on_tire - got.on_other).norm(), got.distance_mm, 1e-9, "between the points named");
        }
        let run = segment.to - segment.from;
        let to_line = |point: &Point3<f64>| {
            let share = (run.dot(&(point - segment.from)) / run.norm_squared()).clamp(0.0, 1.0);
            (point - (segment.from + run * share)).norm()
        };
        let got = tire.to_segment(&segment);
        if got.distance_mm > 0.0 {
            clear += 1;
            near(got.distance_mm, searched(&tire, to_line), 0.1, "segment");
            near(to_line(&got.on_other), 0.0, 1e-9, "on the segment");
        }
    }
    assert!(clear > 15, "{clear}");
}

/// The tire's place for the library, whose cylinders stand along `y`.
fn placed(tire: &TireSolid) -> Isometry3<f64> {
    let turn = UnitQuaternion::rotation_between(&Vector3::y(), &tire.spin).unwrap();
    Isometry3::from_parts(Translation3::from(tire.centre.coords), turn)
}

fn boxed(block: &Block) -> (Isometry3<f64>, Cuboid) {
    let middle = nalgebra::center(&block.low, &block.high);
    (
        Isometry3::from_parts(Translation3::from(middle.coords), UnitQuaternion::identity()),
        Cuboid::new((block.high - block.low) / 2.0),
    )
}

fn core(tire: &TireSolid) -> Cylinder {
    Cylinder::new(tire.half_width_mm - tire.shoulder_mm, tire.radius_mm - tire.shoulder_mm)
}

/// The library comes down on the least distance in steps and stops within the
/// square root of ten roundings, 4.7e-8 of its size, ours in closed form: so
/// theirs may be larger by that and a little, and smaller never.
fn as_the_library(got: f64, theirs: f64, what: &str) {
    near(got, theirs, 1e-6 + 5e-8 * (theirs.abs() + 200.0), what);
    assert!(got <= theirs + 1e-6, "{what}: {got} is no least, {theirs} is less");
}

/// The library measures to the core, a plain cylinder; the shoulder comes off.
#[test]
fn boxes_and_segments_against_a_library() {
    let mut dice = Dice::of(33);
    let mut met = Met::default();
    for count in 0..4000 {
        let tire = tire(&mut dice, count);
        let block = block(&mut dice, &tire);
        let (at, cuboid) = boxed(&block);
        let got = tire.to_block(&block).distance_mm;
        met.count(got, tire.shoulder_mm);
        let theirs = distance(&placed(&tire), &core(&tire), &at, &cuboid).unwrap() - tire.shoulder_mm;
        as_the_library(got, theirs, &format!("box {count}: {tire:?} {block:?}"));
        let segment = shape::Segment::new(block.low, block.high);
        let got = tire.to_segment(&Segment { from: block.low, to: block.high }).distance_mm;
        let theirs = distance(&placed(&tire), &core(&tire), &Isometry3::identity(), &segment).unwrap()
            - tire.shoulder_mm;
        as_the_library(got, theirs, &format!("segment {count}: {tire:?} {block:?}"));
    }
    met.assert_all_met(300);
}

/// With the shoulder on, the library's own overlap where the tire is entered no
/// deeper than that.
#[test]
fn shallow_overlap_against_a_library() {
    let mut dice = Dice::of(34);
    let mut compared = 0;
    for count in 0..3000 {
        let tire = tire(&mut dice, count);
        let block = block(&mut dice, &tire);
        let got = tire.to_block(&block).distance_mm;
        if got >= 0.0 || got <= -0.9 * tire.shoulder_mm {
            continue;
        }
        let (at, cuboid) = boxed(&block);
        let round = RoundCylinder { inner_shape: core(&tire), border_radius: tire.shoulder_mm };
        let from_tire = placed(&tire).inverse() * at;
        let theirs = contact_support_map_support_map(&from_tire, &round, &cuboid, 1.0).unwrap();
        near(got, theirs.dist, 0.1, &format!("{tire:?} {block:?}"));
        compared += 1;
    }
    assert!(compared > 200, "{compared}");
}

/// Exact cases by hand: an upright tire of 300 by 200 mm with shoulders of 30.
#[test]
fn faces_edges_and_corners_by_hand() {
    let tire = TireSolid {
        centre: Point3::origin(),
        spin: Vector3::y(),
        radius_mm: 300.0,
        half_width_mm: 100.0,
        shoulder_mm: 30.0,
    };
    let block = |low: [f64; 3], high: [f64; 3]| {
        tire.to_block(&Block { low: low.into(), high: high.into() }).distance_mm
    };
    // Wall to face, the face about the hub and the face beside it.
    near(block([-50.0, -300.0, -50.0], [50.0, -150.0, 50.0]), 50.0, 1e-12, "face, hub");
    near(block([100.0, -300.0, 100.0], [150.0, -150.0, 150.0]), 50.0, 1e-12, "face, wall");
    // Tread to a level face overhead.
    near(block([-500.0, -500.0, 310.0], [500.0, 500.0, 400.0]), 10.0, 1e-12, "face, tread");
    // A lengthways edge seen diagonally from the shoulder: core corner (70, 270) to (110, 310).
    near(block([-500.0, 110.0, 310.0], [500.0, 200.0, 400.0]), 40.0 * 2_f64.sqrt() - 30.0, 1e-9, "edge");
    // A corner straight ahead of the tread's middle.
    near(block([400.0, 0.0, 0.0], [500.0, 50.0, 50.0]), 100.0, 1e-12, "corner");
    // The tread pokes into the middle of a wide face, far from every edge.
    near(block([-900.0, -900.0, 290.0], [900.0, 900.0, 800.0]), -10.0, 1e-12, "shoulder in a face");
    near(block([-900.0, -900.0, 200.0], [900.0, 900.0, 800.0]), -30.0, 1e-12, "core in a face");
    // A plate through the whole tire, and a box around it.
    near(block([-900.0, -5.0, -900.0], [900.0, 5.0, 900.0]), -30.0, 1e-12, "plate through");
    near(block([-900.0; 3], [900.0; 3]), -30.0, 1e-12, "box around");
    near(block([-5.0; 3], [5.0; 3]), -30.0, 1e-12, "box within");
}

/// A point inside is as deep as it lies below the nearest face, negative, and leaves through
/// that one: by hand, a ring of 100 to 200 mm about `y`, 100 mm wide, grown by 10 mm all around,
/// and a box.
#[test]
fn inside_the_nearest_face_is_the_way_out() {
    let ring = Ring {
        centre: Point3::new(5.0, 700.0, 300.0),
        spin: Vector3::y(),
        along_mm: (-50.0, 50.0),
        radii_mm: (100.0, 200.0),
        round_mm: 10.0,
    };
    // Along the axis and up from it; how deep; the way out.
    for (along, up, deep, out) in [
        (0.0, 190.0, 10.0, Vector3::z()),
        (20.0, 103.0, 3.0, -Vector3::z()),
        (45.0, 150.0, 5.0, Vector3::y()),
        (-44.0, 150.0, 6.0, -Vector3::y()),
    ] {
        let point = ring.centre + Vector3::new(0.0, along, up);
        let found = ring.to_point(&point);
        near(found.distance_mm, -deep - 10.0, 1e-9, "ring");
        near((found.outward - out).norm(), 0.0, 1e-9, "the way out of the ring");
        near((found.on_solid() - (point + out * (deep + 10.0))).norm(), 0.0, 1e-9, "the ring's surface");
    }
    let block = Block { low: Point3::new(-50.0, 300.0, 300.0), high: Point3::new(50.0, 370.0, 400.0) };
    for (point, deep, out) in [
        ([-42.0, 335.0, 350.0], 8.0, -Vector3::x()),
        ([0.0, 363.0, 350.0], 7.0, Vector3::y()),
        ([0.0, 335.0, 396.0], 4.0, Vector3::z()),
        ([10.0, 330.0, 301.0], 1.0, -Vector3::z()),
    ] {
        let found = block.to_point(&point.into());
        near(found.distance_mm, -deep, 1e-12, "box");
        near((found.outward - out).norm(), 0.0, 1e-12, "the way out of the box");
    }
}

/// The truck's own shapes: demo tire to rail and to lip by plain arithmetic,
/// the wheel upright and straight ahead.
#[test]
fn the_demo_s_room_at_rest() {
    let truck = demo().truck;
    let rest = Rest::of(demo().as_measured()).unwrap();
    // 195 + 0.4 (139.7 − 136.5) = 196.28 mm on its rim (UN Regulation 30, 6.1.1.1),
    // centre plane at 702: inner wall at 603.86.
    let rail = clearance(&rest, &rest.pose, Pair::TireRail).unwrap();
    near(rail.distance_mm, 603.86 - 352.0, 1e-9, "rail");
    // The lip at 776 is in front of the tread's flat, which ends at 702 + 66.14,
    // by 7.86, and 734 − 312 above the hub; the core's rim stands at 292.
    let (beside, above) = (776.0 - 768.14, 734.0 - 312.0 - (324.0 - 32.0));
    let lip = clearance(&rest, &rest.pose, Pair::TireFender).unwrap();
    near(lip.distance_mm, libm::hypot(beside, above) - 32.0, 1e-6, "lip");
    assert_eq!(rail_box(&truck).high.y.to_bits(), 352_f64.to_bits());
    near((fender_lip(&truck).to - fender_lip(&truck).from).norm(), 240.0, 1e-12, "lip's length");
}

/// By its pivots an arm is always near its frame: it is held against it from a third of its way out, leg by leg.
/// Ten thousand places of each leg against the frame's box, by the nearest corner of arithmetic.
#[test]
fn an_arm_is_held_against_its_frame_from_a_third_of_its_way_out() {
    for lower_mm in [0.0, 40.0, 90.0] {
        let mut truck = demo().truck;
        // A frame that stands higher comes nearer to the upper arm, and not everywhere alike.
        truck.body.rail.bottom_z_mm += lower_mm;
        let rest = Rest::of(fit(&truck, Overlay::NOTHING).unwrap()).unwrap();
        let block = rail_box(&truck);
        let beside = |point: &Point3<f64>| {
            let off = |at: usize| (block.low[at] - point[at]).max(point[at] - block.high[at]).max(0.0);
            Vector3::new(off(0), off(1), off(2)).norm()
        };
        let arm = &truck.points.upper;
        let places = [arm.front, arm.rear].map(|pivot| {
            let least = (0..=10_000).map(|at| {
                let share = 1.0 / 3.0 + 2.0 / 3.0 * f64::from(at) / 10_000.0;
                beside(&(pivot + (arm.ball - pivot) * share))
            });
            least.fold(f64::MAX, f64::min)
        });
        let want = places[0].min(places[1]) - truck.thickness.upper_arm_mm.unwrap();
        let gap = clearance(&rest, &rest.pose, Pair::UpperArmRail).unwrap();
        near(gap.distance_mm, want, 1e-3, "arm");
        // The arm is named first.
        near(beside(&gap.on_second), 0.0, 1e-9, "on the frame");
        near(beside(&gap.on_first), want, 1e-3, "on the arm");
    }
}

/// The lesson's other half: at the same stop the tire stands the drop further
/// in, so on the demo it is the fender that ends the travel.
#[test]
fn the_demo_s_spindle_meets_the_fender() {
    let design = demo();
    let left = |rest: &Rest| travel_left(rest).bump;
    let before = Rest::of(design.as_measured()).unwrap();
    let after = Rest::of(design.fitted(ProposalId(0)).unwrap()).unwrap();
    assert_eq!(left(&before).by, Limiter::BumpStop);
    assert_eq!(left(&after).by, Limiter::Contact(Pair::TireFender));
    assert!(left(&after).travel_mm < left(&before).travel_mm);
}

/// The tire's section about its rim: a ring with a hole of `hole_mm`.
fn ring(tire: &TireSolid, hole_mm: f64) -> Ring {
    let round_mm = tire.shoulder_mm.min((tire.radius_mm - hole_mm) / 2.0 - 1.0);
    Ring {
        centre: tire.centre,
        spin: tire.spin,
        along_mm: (round_mm - tire.half_width_mm, tire.half_width_mm - round_mm),
        radii_mm: (hole_mm + round_mm, tire.radius_mm - round_mm),
        round_mm,
    }
}

/// From a point to the circle about a ring's axis at `along` with `radius`.
fn to_circle(ring: &Ring, point: &Point3<f64>, along: f64, radius: f64) -> f64 {
    let from = point - ring.centre;
    let on_axis = from.dot(&ring.spin);
    let off_axis = (from - ring.spin * on_axis).norm();
    libm::hypot(on_axis - along, off_axis - radius)
}

/// Rods through the hole, beside the ring and across it: against the distance
/// to 196 circles of its section from eight hundred points of the rod.
#[test]
fn rods_against_the_circles_of_a_ring() {
    let mut dice = Dice::of(35);
    let (mut clear, mut through) = (0, 0);
    for count in 0..60 {
        let tire = tire(&mut dice, count);
        let ring = ring(&tire, tire.radius_mm - 130.0);
        // From inside the hole, or from anywhere, to anywhere.
        let near_hub = if count % 2 == 0 { 100.0 } else { 500.0 };
        let mut place = |half: f64| tire.centre + Vector3::from_fn(|_, _| dice.between(-half, half));
        let rod = Segment { from: place(near_hub), to: place(500.0) };
        let got = ring.to_segment(&rod);
        let mut least = f64::INFINITY;
        for step in 0..=800 {
            let point = rod.from + (rod.to - rod.from) * (f64::from(step) / 800.0);
            for side in 0..=48 {
                let share = f64::from(side) / 48.0;
                let along = ring.along_mm.0 + (ring.along_mm.1 - ring.along_mm.0) * share;
                let radius = ring.radii_mm.0 + (ring.radii_mm.1 - ring.radii_mm.0) * share;
                for (along, radius) in [
                    (along, ring.radii_mm.0),
                    (along, ring.radii_mm.1),
                    (ring.along_mm.0, radius),
                    (ring.along_mm.1, radius),
                ] {
                    least = least.min(to_circle(&ring, &point, along, radius) - ring.round_mm);
                }
            }
        }
        // Hard by the core the samples are too few.
        if got.distance_mm > 15.0 - ring.round_mm {
            clear += 1;
            through += usize::from(count % 2 == 0);
            near(got.distance_mm, least, 0.15, &format!("rod {count}"));
            assert!(
                got.distance_mm <= least + 1e-9,
                "{count}: {} is no least, {least} is less",
                got.distance_mm
            );
            near((got.on_solid() - got.at).norm(), got.distance_mm.abs(), 1e-9, "between the points named");
        }
    }
    assert!(clear > 30 && through > 15, "{clear} {through}");
}

/// Where the hole plays no part a ring is a cylinder with rounded edges, and a
/// box is a box: against the library.
#[test]
fn rods_beside_rings_and_boxes_against_a_library() {
    let mut dice = Dice::of(36);
    let (mut rings, mut boxes) = (0, 0);
    for count in 0..3000 {
        let tire = tire(&mut dice, count);
        let block = block(&mut dice, &tire);
        let mut place = || tire.centre + Vector3::from_fn(|_, _| dice.between(-700.0, 700.0));
        let rod = Segment { from: place(), to: place() };
        let segment = shape::Segment::new(rod.from, rod.to);
        let (at, cuboid) = boxed(&block);
        let got = block.to_segment(&rod).distance_mm;
        let theirs = distance(&at, &cuboid, &Isometry3::identity(), &segment).unwrap();
        if theirs > 0.0 {
            boxes += 1;
            as_the_library(got, theirs, &format!("box {count}: {block:?} {rod:?}"));
        } else {
            assert!(got <= 1e-6, "{got} {block:?} {rod:?}");
        }
        // A ring whose hole is too small for the rod to be nearest to it.
        let ring = Ring { radii_mm: (0.0, tire.radius_mm - tire.shoulder_mm), ..ring(&tire, 10.0) };
        let ring = Ring { round_mm: tire.shoulder_mm, ..ring };
        let ring = Ring {
            along_mm: (tire.shoulder_mm - tire.half_width_mm, tire.half_width_mm - tire.shoulder_mm),
            ..ring
        };
        let theirs = distance(&placed(&tire), &core(&tire), &Isometry3::identity(), &segment).unwrap();
        if theirs > 0.0 {
            rings += 1;
            let got = ring.to_segment(&rod).distance_mm;
            as_the_library(got, theirs - tire.shoulder_mm, &format!("ring {count}: {tire:?} {rod:?}"));
        }
    }
    assert!(rings > 1000 && boxes > 1000, "{rings} {boxes}");
}
