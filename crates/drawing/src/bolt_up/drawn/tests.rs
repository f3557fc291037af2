//! What is drawn is held to what the numbers are called: by the shapes of the picture itself.

use super::*;
use crate::path::Step;
use truck::callouts::{
    bolt_in_hole, circle, crush_sleeve, hole_pattern, new_hole, press_fit, rotor_in_caliper, spline,
    taper_seat, width,
};
use truck::{AddedRow, Callout, CalloutSort, LedgerEdit, Mating, PartId, RowId};

fn picture(kind: Mating, callout: u8) -> Scene {
    // What only some rows of a kind ask for the sketch is drawn for those.
    let usual = match kind {
        Mating::PressFit => Some(RowId::ARM_BUSHING),
        Mating::Width if callout > width::MOVES => Some(RowId::LOWER_ARM_FORK),
        _ => None,
    };
    if let Some(row) = usual.and_then(|id| Ledger::EMPTY.row(id)) {
        return callout_drawing(&Ledger::EMPTY, &row, callout);
    }
    let id = RowId(RowId::FIRST_ADDED);
    let added = AddedRow { name: String::new(), kind, parts: [PartId(9), PartId(3)], vital: true };
    let ledger = Ledger::EMPTY.edited(&LedgerEdit::Row(id, added)).unwrap();
    callout_drawing(&ledger, &ledger.row(id).unwrap(), callout)
}

fn corners(shape: &Shape) -> Vec<(f64, f64)> {
    let Form::Path(path) = &shape.form else { return Vec::new() };
    let ends = path.steps.iter().filter_map(|step| match step {
        Step::Move(to) | Step::Line(to) | Step::Curve(_, to) => Some(*to),
        Step::Close => None,
    });
    ends.collect()
}

/// Left, top, right, bottom.
type Bounds = [f64; 4];

fn bounds(shape: &Shape) -> Bounds {
    let nothing = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
    corners(shape).iter().fold(nothing, |[left, top, right, bottom], (x, y)| {
        [left.min(*x), top.min(*y), right.max(*x), bottom.max(*y)]
    })
}

/// The shapes of an ink, from the first drawn.
fn of(scene: &Scene, ink: Ink) -> Vec<&Shape> {
    scene.shapes.iter().filter(|shape| shape.ink == ink).collect()
}

/// The tips of the arrow: each head begins at its own.
fn tips(scene: &Scene) -> Vec<(f64, f64)> {
    let [heads] = of(scene, Ink::AccentSolid)[..] else { panic!("one arrow") };
    let Form::Path(path) = &heads.form else { panic!("heads are paths") };
    let tip = |step: &Step| if let Step::Move(to) = step { Some(*to) } else { None };
    path.steps.iter().filter_map(tip).collect()
}

/// Every number that there is.
fn every() -> impl Iterator<Item = (Mating, u8)> {
    Mating::ALL.iter().flat_map(|kind| (0_u8..).zip(kind.callouts()).map(|(callout, _)| (*kind, callout)))
}

#[test]
fn every_number_has_one_arrow_on_its_own_side_and_no_other_has_the_same() {
    for (kind, callout) in every() {
        let scene = picture(kind, callout);
        assert_eq!(of(&scene, Ink::Accent).len(), 1, "{kind:?} {callout}");
        let tips = tips(&scene);
        assert!(matches!(tips.len(), 1 | 2), "{kind:?} {callout}: {tips:?}");
        let middle = f64::midpoint(tips[0].0, tips[tips.len() - 1].0);
        match kind.callout(callout).unwrap().of {
            Of::First => assert!(middle < SECOND_PX, "{kind:?} {callout}"),
            Of::Second => assert!(middle > SECOND_PX, "{kind:?} {callout}"),
            Of::Both => {}
        }
        let arrow = |scene: &Scene| -> Vec<Shape> {
            let inks = [Ink::Accent, Ink::AccentSolid, Ink::Extension];
            scene.shapes.iter().filter(|shape| inks.contains(&shape.ink)).cloned().collect()
        };
        for other in 0..callout {
            assert_ne!(arrow(&scene), arrow(&picture(kind, other)), "{kind:?} {other} and {callout}");
        }
    }
}

/// A size has two tips, what is counted, seen, stamped or tried one; to rock is to and fro.
#[test]
fn sizes_are_spanned_and_the_rest_is_pointed_at() {
    for (kind, callout) in every() {
        let Callout { of, sort, .. } = *kind.callout(callout).unwrap();
        // A nut's thread is inside it, where no arrow spans it.
        let is_size = sort.is_size() || (sort, of) == (CalloutSort::Pitch, Of::First);
        let label = kind.callout_label(callout);
        let swings = label.contains("by hand") || label.starts_with("Length") || kind == Mating::Width;
        let expected = if is_size || swings { 2 } else { 1 };
        assert_eq!(tips(&picture(kind, callout)).len(), expected, "{kind:?} {label}");
    }
}

#[test]
fn nothing_leaves_the_picture_or_its_own_side() {
    for (kind, callout) in every() {
        let scene = picture(kind, callout);
        for shape in &scene.shapes {
            let [left, top, right, bottom] = bounds(shape);
            assert!(
                left >= 0.0 && right <= SIZE_PX.0 && top >= 0.0 && bottom <= SIZE_PX.1,
                "{kind:?} {callout} {shape:?}"
            );
        }
        // Between the two parts there is room for what holds them.
        let drawn = kinds::drawn(kind, true).0;
        for (pieces, right) in drawn.iter().zip([0.0, SECOND_PX]) {
            let mut sketch = Sketch { right, ..Sketch::default() };
            pieces.iter().for_each(|piece| sketch.draw(*piece));
            for shape in &sketch.shapes {
                let [left, _, most, _] = bounds(shape);
                assert!(left >= right && most <= right + 136.0, "{kind:?} {shape:?}");
            }
        }
    }
}

/// A hole's number stands clear of its hole, of the plate's edge and of every arrow of its kind.
#[test]
fn a_hole_s_number_can_be_read_whichever_is_asked() {
    for callout in 0_u8..24 {
        let scene = picture(Mating::HolePattern, callout);
        assert_eq!(scene.labels.len(), 8);
        for label in &scene.labels {
            let clear = |(x, y): (f64, f64)| {
                x < label.left
                    || x > label.left + label.width
                    || y < label.top
                    || y > label.top + label.height
            };
            for shape in scene.shapes.iter().filter(|shape| shape.ink != Ink::Press) {
                let corners = corners(shape);
                for pair in corners.windows(2) {
                    let on = |share: f64| {
                        (
                            pair[0].0 + (pair[1].0 - pair[0].0) * share,
                            pair[0].1 + (pair[1].1 - pair[0].1) * share,
                        )
                    };
                    assert!(
                        (0..=20).all(|at| clear(on(f64::from(at) / 20.0))),
                        "{callout} {label:?} {shape:?}"
                    );
                }
            }
        }
    }
}

#[track_caller]
fn across(scene: &Scene, left: f64, right: f64) {
    let [from, to] = tips(scene)[..] else { panic!("two tips") };
    assert!((from.1 - to.1).abs() < 1e-9, "across: {from:?} {to:?}");
    assert!((from.0 - left).abs() < 0.8 && (to.0 - right).abs() < 0.8, "{from:?} {to:?}: {left} {right}");
}

#[track_caller]
fn down(scene: &Scene, top: f64, bottom: f64) {
    let [from, to] = tips(scene)[..] else { panic!("two tips") };
    assert!((from.0 - to.0).abs() < 1e-9, "down: {from:?} {to:?}");
    assert!((from.1 - top).abs() < 0.8 && (to.1 - bottom).abs() < 0.8, "{from:?} {to:?}: {top} {bottom}");
}

/// Calipers go over the shank, and across the hole both ways.
#[test]
fn a_bolt_is_taken_over_its_shank_and_a_hole_across_itself() {
    let scene = picture(Mating::BoltInHole, bolt_in_hole::SHANK);
    let [_head, shank] = of(&scene, Ink::Steel)[..] else { panic!() };
    across(&scene, bounds(shank)[0], bounds(shank)[2]);
    let scene = picture(Mating::BoltInHole, bolt_in_hole::HOLE);
    let hole = bounds(of(&scene, Ink::Joint)[0]);
    across(&scene, hole[0], hole[2]);
    down(&picture(Mating::BoltInHole, bolt_in_hole::HOLE_SQUARE), hole[1], hole[3]);
}

/// "Over both holes": from the far edge of the one to the far edge of the other, on either part.
#[test]
fn a_pattern_is_taken_over_both_its_holes() {
    let scene = picture(Mating::HolePattern, hole_pattern::COUNT);
    let holes: Vec<Bounds> = of(&scene, Ink::Joint).into_iter().map(bounds).collect();
    let pairs = [(0, 1), (0, 2), (1, 2), (0, 3), (1, 3), (2, 3)];
    for (from, part) in [(hole_pattern::FIRST_OVER_12, 0), (hole_pattern::SECOND_OVER_12, 4)] {
        for (at, (one, other)) in (0_u8..).zip(pairs) {
            let scene = picture(Mating::HolePattern, from + at);
            let (one, other): (Bounds, Bounds) = (holes[part + one], holes[part + other]);
            if (one[1] - other[1]).abs() < 1e-9 {
                across(&scene, one[0].min(other[0]), one[2].max(other[2]));
            } else if (one[0] - other[0]).abs() < 1e-9 {
                down(&scene, one[1].min(other[1]), one[3].max(other[3]));
            } else {
                // Along the line of centres, a radius beyond each.
                let middle =
                    |hole: Bounds| (f64::midpoint(hole[0], hole[2]), f64::midpoint(hole[1], hole[3]));
                let apart = |a: (f64, f64), b: (f64, f64)| libm::hypot(a.0 - b.0, a.1 - b.1);
                let [from, to] = tips(&scene)[..] else { panic!() };
                let radius = (one[2] - one[0]) / 2.0;
                assert!((apart(middle(one), from) - radius).abs() < 0.8, "{from:?}");
                assert!((apart(middle(other), to) - radius).abs() < 0.8, "{to:?}");
                assert!((apart(from, to) - apart(middle(one), middle(other)) - 2.0 * radius).abs() < 0.8);
            }
        }
        for (at, hole) in (0_u8..).zip(&holes[part..part + 4]) {
            across(&picture(Mating::HolePattern, from + 6 + at), hole[0], hole[2]);
        }
    }
    // Each number is nearest to its own hole.
    for (at, label) in scene.labels.iter().enumerate() {
        let x = label.left + label.width / 2.0;
        let y = label.top + label.height / 2.0;
        let off = |hole: &Bounds| {
            libm::hypot(f64::midpoint(hole[0], hole[2]) - x, f64::midpoint(hole[1], hole[3]) - y)
        };
        let nearest = (0..8).min_by(|a, b| off(&holes[*a]).total_cmp(&off(&holes[*b])));
        assert_eq!(nearest, Some(at));
        assert_eq!(label.spoken, (at % 4 + 1).to_string());
    }
}

#[test]
fn a_new_hole_is_taken_from_center_to_center_and_to_the_edge() {
    let scene = picture(Mating::NewHole, new_hole::EDGE);
    let plate = bounds(of(&scene, Ink::Press)[0]);
    let [old, new, ..] = of(&scene, Ink::Joint)[..] else { panic!() };
    let (old, new) = (bounds(old), bounds(new));
    let middle = |hole: Bounds| (f64::midpoint(hole[0], hole[2]), f64::midpoint(hole[1], hole[3]));
    // The nearest of the four, here the right one.
    let (x, y) = middle(new);
    let least = [x - plate[0], plate[2] - x, y - plate[1], plate[3] - y].into_iter().fold(f64::MAX, f64::min);
    assert!((plate[2] - x - least).abs() < 1e-9);
    across(&scene, x, plate[2]);
    across(&picture(Mating::NewHole, new_hole::OLD), middle(old).0, middle(new).0);
    across(&picture(Mating::NewHole, new_hole::HOLE), new[0], new[2]);
    across(&picture(Mating::NewHole, new_hole::OLD_ACROSS), old[0], old[2]);
}

#[test]
fn inside_and_outside_widths_bore_and_wall() {
    for kind in [Mating::CrushSleeve, Mating::Width] {
        let scene = picture(kind, crush_sleeve::WIDTH);
        let [_web, left, right, ..] = of(&scene, Ink::Section)[..] else { panic!() };
        across(&scene, bounds(left)[2], bounds(right)[0]);
    }
    let scene = picture(Mating::Width, width::OUTSIDE);
    let part = bounds(of(&scene, Ink::Steel)[0]);
    across(&scene, part[0], part[2]);
    let scene = picture(Mating::CrushSleeve, crush_sleeve::LENGTH);
    let tube = bounds(of(&scene, Ink::Steel)[0]);
    across(&scene, tube[0], tube[2]);
    down(&picture(Mating::CrushSleeve, crush_sleeve::OUTSIDE), tube[1], tube[3]);
    let [_, _, _, upper, lower] = of(&scene, Ink::Section)[..] else { panic!() };
    down(&picture(Mating::CrushSleeve, crush_sleeve::BORE), bounds(upper)[3], bounds(lower)[1]);

    let scene = picture(Mating::PressFit, press_fit::WALL);
    let (ring, bore) = (bounds(of(&scene, Ink::Section)[0]), bounds(of(&scene, Ink::Joint)[0]));
    across(&scene, bore[2], ring[2]);
    across(&picture(Mating::PressFit, press_fit::BORE), bore[0], bore[2]);
    let [flange, pressed] = of(&scene, Ink::Steel)[..] else { panic!() };
    across(&picture(Mating::PressFit, press_fit::OUTSIDE), bounds(pressed)[0], bounds(pressed)[2]);
    // What is in the bore ends at the flange.
    down(&picture(Mating::PressFit, press_fit::LENGTH), bounds(flange)[3], bounds(pressed)[3]);
}

/// How far across a straight-sided cone is at a height.
fn cone_at(cone: &Shape, height: f64) -> (f64, f64) {
    let corners = corners(cone);
    let edge =
        |from: (f64, f64), to: (f64, f64)| from.0 + (to.0 - from.0) * (height - from.1) / (to.1 - from.1);
    (edge(corners[0], corners[3]), edge(corners[1], corners[2]))
}

/// Large end first; the second place is as far along as the number between them says.
#[test]
fn a_taper_is_taken_at_its_large_end_and_farther_along() {
    let scene = picture(Mating::TaperSeat, taper_seat::STUD_LARGE);
    let cone = of(&scene, Ink::Steel)[1];
    let [left, top, right, _] = bounds(cone);
    across(&scene, left, right);
    let small = tips(&picture(Mating::TaperSeat, taper_seat::STUD_SMALL))[0].1;
    let (from, to) = cone_at(cone, small);
    across(&picture(Mating::TaperSeat, taper_seat::STUD_SMALL), from, to);
    down(&picture(Mating::TaperSeat, taper_seat::STUD_ALONG), top, small);
    // The seat lies between the cut halves.
    let [one, other] = of(&scene, Ink::Section)[..] else { panic!() };
    let (one, other) = (corners(one), corners(other));
    across(&picture(Mating::TaperSeat, taper_seat::SEAT_LARGE), one[1].0, other[0].0);
    let small = tips(&picture(Mating::TaperSeat, taper_seat::SEAT_SMALL))[0].1;
    let share = (small - one[1].1) / (one[2].1 - one[1].1);
    let at = |from: (f64, f64), to: (f64, f64)| from.0 + (to.0 - from.0) * share;
    across(&picture(Mating::TaperSeat, taper_seat::SEAT_SMALL), at(one[1], one[2]), at(other[0], other[3]));
    down(&picture(Mating::TaperSeat, taper_seat::SEAT_ALONG), one[1].1, small);
}

#[test]
fn splines_are_taken_over_the_bar_s_teeth_and_between_the_socket_s_valleys() {
    let scene = picture(Mating::Spline, spline::VALLEYS);
    let socket = bounds(of(&scene, Ink::Joint)[0]);
    across(&scene, socket[0], socket[2]);
    let bar = bounds(of(&scene, Ink::Steel)[0]);
    across(&picture(Mating::Spline, spline::OVER), bar[0], bar[2]);
    let old = bounds(of(&scene, Ink::Rod)[0]);
    across(&picture(Mating::Spline, spline::OLD_BAR), old[0], old[2]);
    assert!(
        (socket[2] - socket[0] - bar[2] + bar[0]).abs() < 1e-9,
        "nothing is drawn as if it were measured"
    );
}

#[test]
fn a_circle_is_taken_from_a_hole_s_center_to_the_next_one_s() {
    let middle = |shape: &Shape| {
        let [left, top, right, bottom] = bounds(shape);
        (f64::midpoint(left, right), f64::midpoint(top, bottom))
    };
    let near = |a: (f64, f64), b: (f64, f64)| libm::hypot(a.0 - b.0, a.1 - b.1) < 0.8;
    let scene = picture(Mating::Circle, circle::ADJACENT);
    let [bore, one, next, ..] = of(&scene, Ink::Joint)[..] else { panic!() };
    let [from, to] = tips(&scene)[..] else { panic!() };
    assert!(near(from, middle(one)) && near(to, middle(next)));
    across(&picture(Mating::Circle, circle::BORE), bounds(bore)[0], bounds(bore)[2]);
    let studs = picture(Mating::Circle, circle::ADJACENT_STUDS);
    let [one, next, ..] = of(&studs, Ink::Solid)[..] else { panic!() };
    let [from, to] = tips(&studs)[..] else { panic!() };
    assert!(near(from, middle(one)) && near(to, middle(next)));
    // Five places 72° apart, a pixel's rounding on each.
    for ink in [Ink::Joint, Ink::Solid] {
        let places: Vec<_> = of(&scene, ink)
            .into_iter()
            .map(middle)
            .filter(|at| libm::hypot(at.0 % SECOND_PX - 68.0, at.1 - 60.0) > 1.0)
            .collect();
        assert_eq!(places.len(), 5);
        for (at, place) in (0_i32..).zip(&places) {
            let (sin, cos) = libm::sincos(f64::from(at) * std::f64::consts::TAU / 5.0);
            let off = (place.0 % SECOND_PX - 68.0 - 33.0 * sin, place.1 - 60.0 + 33.0 * cos);
            assert!(libm::hypot(off.0, off.1) < 1.0, "{ink:?} {at}");
        }
    }
}

#[test]
fn a_rotor_is_taken_from_the_ears_to_its_middle() {
    let scene = picture(Mating::RotorInCaliper, rotor_in_caliper::PLANE);
    let ears = bounds(of(&scene, Ink::Section)[0]);
    let rotor = bounds(of(&scene, Ink::Steel)[0]);
    across(&scene, ears[2], f64::midpoint(rotor[0], rotor[2]));
    across(&picture(Mating::RotorInCaliper, rotor_in_caliper::THICKNESS), rotor[0], rotor[2]);
    let pads: Vec<Bounds> = of(&scene, Ink::Rubber).into_iter().map(bounds).collect();
    across(&picture(Mating::RotorInCaliper, rotor_in_caliper::OPENING), pads[0][2], pads[1][0]);
    // From the bridge's underside to the edge of the rotor that stands there.
    let bridge = bounds(of(&scene, Ink::Section)[2]);
    let edge = bounds(of(&scene, Ink::Before)[0]);
    down(&picture(Mating::RotorInCaliper, rotor_in_caliper::BRIDGE), bridge[3], edge[1]);
    // The slider's nearest middle comes before its farthest, both from the ears.
    let reach = |callout| tips(&picture(Mating::RotorInCaliper, callout));
    let (least, most) = (reach(rotor_in_caliper::REACH_LEAST), reach(rotor_in_caliper::REACH_MOST));
    let ears = bounds(of(&scene, Ink::Section)[1]);
    assert!((least[0].0 - ears[2]).abs() < 1e-9 && (most[0].0 - ears[2]).abs() < 1e-9);
    assert!(least[1].0 < most[1].0);
}

#[test]
fn what_is_spoken_names_both_parts_and_the_number_asked() {
    let said = picture(Mating::HolePattern, hole_pattern::SECOND_OVER_12).description;
    assert_eq!(said, "bracket–lower arm, not to scale. Arrow at: Over both holes, 1 and 2, of the lower arm");
    let said = picture(Mating::HolePattern, hole_pattern::COUNT).description;
    assert_eq!(said, "bracket–lower arm, not to scale. Arrow at: Bolts in the pattern, 2 to 4");
}
