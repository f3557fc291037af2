//! Labels of the pictures: no two meet, none leaves the picture, none covers a handle.

use drawing::{
    Aspect, Band, Broken, Chart, DragNote, Handle, Scene, Series, SeriesStyle, Shown, Sketch, Theme, Units,
    View, Zoom, chart, front_view, front_view_broken, view_of, view_of_broken, write_svg,
};
use linkage::{Point3, Vector3};
use study::{NoStance, Stance, clearances, travel_left};
use truck::{
    Change, DroppedSpindle, Fitted, MovedPivot, Place, RearAxle, Side, SpringKind, TireSize, TireSwap, Truck,
    demo, fit,
};

/// Radius of the mark that a handle is taken hold of by, px.
const DOT_PX: f64 = 6.0;
const DESIGNS: u32 = 200;
const FRAMES: [(f64, f64); 4] = [(320.0, 300.0), (360.0, 330.0), (600.0, 420.0), (1280.0, 620.0)];

/// Numbers between 0 and 1 in a fixed order: Lehmer's generator as Park and Miller give it.
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> f64 {
        self.0 = self.0 * 16807 % 2_147_483_647;
        f64::from(u32::try_from(self.0).expect("below the modulus, which fits")) / 2_147_483_647.0
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.roll()
    }

    fn one_in(&mut self, count: f64) -> bool {
        self.roll() * count < 1.0
    }
}

struct Case {
    truck: Truck,
    side: Side,
    changes: Vec<Change>,
    drop_mm: f64,
    travel_mm: f64,
    dragging: bool,
    selected: Option<Handle>,
    units: Units,
    type_px: f64,
}

#[expect(clippy::too_many_lines, reason = "every number of a picture is rolled in one place")]
fn case(dice: &mut Dice) -> Case {
    // Where its rear is not measured, more is written: if it stays up.
    let mut truck = Truck { rear: RearAxle::UNKNOWN, ..demo().truck };
    let shift = |dice: &mut Dice, point: &mut Point3<f64>, by: f64| {
        point.y += dice.between(-by, by);
        point.z += dice.between(-by, by);
    };
    // One in six trucks is measured badly: some of them do not close.
    let by = if dice.one_in(6.0) { 90.0 } else { 25.0 };
    let points = &mut truck.points;
    for point in
        [&mut points.lower.ball, &mut points.upper.ball, &mut points.tie_outer, &mut points.tie_inner]
    {
        shift(dice, point, by);
    }
    for arm in [&mut points.lower, &mut points.upper] {
        let (y, z) = (dice.between(-by, by), dice.between(-by, by));
        for pivot in [&mut arm.front, &mut arm.rear] {
            pivot.y += y;
            pivot.z += z;
        }
    }
    points.wheel_centre.y += dice.between(-20.0, 30.0);
    points.camber_rad = dice.between(-3.0, 3.0).to_radians();
    let body = &mut truck.body;
    body.rail.outer_y_mm += dice.between(-40.0, 30.0);
    body.rail.bottom_z_mm += dice.between(-60.0, 40.0);
    body.rail.height_mm = dice.between(60.0, 160.0);
    body.fender.lip_y_mm += dice.between(-30.0, 30.0);
    body.fender.lip_z_mm += dice.between(-60.0, 40.0);
    if dice.one_in(4.0) {
        truck.spring.kind = SpringKind::Coil;
    }
    let drop_mm = if dice.one_in(3.0) { 0.0 } else { dice.between(0.0, 100.0) };
    let mut changes = vec![Change::DroppedSpindle(DroppedSpindle { drop_mm, ..DroppedSpindle::default() })];
    if dice.one_in(3.0) {
        changes.push(Change::TireSwap(TireSwap {
            size: TireSize {
                section_mm: dice.between(165.0, 255.0).round(),
                aspect_percent: (dice.between(9.0, 16.0).round()) * 5.0,
                rim_code: dice.between(13.0, 17.0).round(),
            },
            rim_width_mm: dice.between(120.0, 200.0),
            offset_mm: dice.between(-30.0, 30.0),
            loaded_radius_mm: None,
            barrel_mm: None,
        }));
    }
    if dice.one_in(8.0) {
        // Far enough that the arm seldom reaches its ball any more.
        let by_mm = Vector3::new(0.0, dice.between(-250.0, 100.0), dice.between(-150.0, 150.0));
        changes.push(Change::MovedPivot(MovedPivot { place: Place::UpperArm, by_mm }));
    }
    let dragging = dice.one_in(3.0);
    let any = dice.roll();
    let handles = (1..).zip(Aspect::Front.handles());
    let handle = handles.into_iter().find(|(at, _)| any * 9.0 < f64::from(*at)).map(|(_, handle)| *handle);
    Case {
        side: Side::Left,
        truck,
        changes,
        drop_mm,
        travel_mm: if dice.one_in(2.0) { 0.0 } else { dice.between(-60.0, 60.0) },
        dragging,
        selected: if dragging || dice.one_in(2.0) { handle } else { None },
        units: if dice.one_in(4.0) { Units::Millimetres } else { Units::Inches },
        type_px: dice.between(11.0, 15.0),
    }
}

fn view(width_px: f64, height_px: f64, case: &Case) -> View {
    View { type_px: case.type_px, units: case.units, ..crate::view(width_px, height_px) }
}

/// The picture of a case, and whether its linkage closes.
fn picture(aspect: Aspect, case: &Case, view: &View) -> Option<(Scene, bool)> {
    let fitted = fit(case.truck.on(case.side), &case.changes).ok()?;
    let stands = |changes: &[Change]| Ok::<_, NoStance>(Stance::laid(&case.truck, changes)?.on(case.side));
    let measured = stands(&[]).ok();
    let before = measured.as_ref().map(|rest| Shown {
        rest,
        pose: &rest.pose,
        gaps: &[],
        travel_left: None,
        travel_mm: 0.0,
    });
    match stands(&case.changes) {
        Ok(rest) => {
            let (pose, travel_mm) = match rest.at_travel(case.travel_mm) {
                Ok(pose) => (pose, case.travel_mm),
                Err(_) => (rest.pose, 0.0),
            };
            let (gaps, left) = (clearances(&rest, &pose), travel_left(&rest));
            let now = Shown { rest: &rest, pose: &pose, gaps: &gaps, travel_left: Some(&left), travel_mm };
            let dragging = case
                .dragging
                .then(|| DragNote { text: "Lower arm pivots → 1 13/16 in ↑ 2 1/16 in".to_owned() });
            let (selected, drop_mm) = (case.selected, case.drop_mm);
            let sketch = Sketch { before, selected, dragging, drop_mm, ..Sketch::alone(now) };
            Some((view_of(aspect, &sketch, view), true))
        }
        Err(why) => {
            let corner = fitted.corner().ok()?;
            let broken = Broken { corner: &corner, fitted: &fitted, before, message: why.to_string() };
            Some((view_of_broken(aspect, &broken, view), false))
        }
    }
}

fn check(scene: &Scene, what: &str) {
    for (at, label) in scene.labels.iter().enumerate() {
        let (right, bottom) = (label.left + label.width, label.top + label.height);
        assert!(label.width > 0.0 && label.height > 0.0, "{what}: {label:?}");
        assert!(
            label.left >= 0.0 && label.top >= 0.0 && right <= scene.width_px && bottom <= scene.height_px,
            "{what}: leaves the frame: {label:?}"
        );
        for other in &scene.labels[..at] {
            let apart = label.left >= other.left + other.width
                || other.left >= right
                || label.top >= other.top + other.height
                || other.top >= bottom;
            assert!(apart, "{what}: {label:?} meets {other:?}");
        }
        for (handle, x, y) in &scene.handles {
            let (dx, dy) = (x.clamp(label.left, right) - x, y.clamp(label.top, bottom) - y);
            assert!(dx * dx + dy * dy > DOT_PX * DOT_PX, "{what}: {label:?} covers {handle:?}");
        }
        assert!(label.size >= 11.0, "{what}: {label:?} is too small");
    }
}

#[test]
fn labels_of_two_hundred_trucks_keep_apart_in_every_frame() {
    let mut dice = Dice(20_240_117);
    let (mut standing, mut open, mut laid) = (0, 0, 0);
    let mut listed = Vec::new();
    for number in 0..DESIGNS {
        let case = case(&mut dice);
        for (width_px, height_px) in FRAMES {
            let view = view(width_px, height_px, &case);
            let Some((scene, stands)) = picture(Aspect::Front, &case, &view) else { continue };
            check(&scene, &format!("truck {number} at {width_px} px"));
            let below = scene.overflow.len();
            laid += scene.labels.len();
            listed.extend(scene.overflow.iter().cloned());
            if stands {
                standing += 1;
                // Ride height, two gaps, camber, bump, roll centre: laid or listed.
                let said = scene.labels.len() + below;
                assert!(said >= 5, "truck {number} at {width_px} px says only {said} things");
                let has = |word: &str| scene.labels.iter().any(|label| label.spoken.contains(word));
                assert!(has("Frame height") && has("Camber"), "truck {number} at {width_px} px");
                if case.dragging {
                    assert!(has("Lower arm pivots"), "truck {number} at {width_px} px hides the drag");
                }
            } else {
                open += 1;
                assert!(!scene.labels.is_empty(), "truck {number} at {width_px} px does not say why");
            }
        }
    }
    assert!(standing > 500 && open > 8, "{standing} standing and {open} open pictures are no fair sample");
    assert!(listed.len() * 8 < laid, "{} of {laid} labels found no room: {listed:?}", listed.len());
}

#[test]
fn labels_keep_apart_from_the_side_and_from_above() {
    let mut dice = Dice(20_240_229);
    let mut pictures = 0;
    for number in 0..DESIGNS {
        let mut case = case(&mut dice);
        for aspect in [Aspect::Side, Aspect::Top] {
            // Those of the rear stand on its own picture.
            let handles: Vec<_> =
                aspect.handles().iter().copied().filter(|handle| !handle.is_rear()).collect();
            // Each of the nine in turn.
            let handle = handles[usize::try_from(number).unwrap() % handles.len()];
            case.selected = case.selected.map(|_| handle);
            for (width_px, height_px) in FRAMES {
                let view = view(width_px, height_px, &case);
                let Some((scene, true)) = picture(aspect, &case, &view) else { continue };
                let what = format!("{aspect:?} of truck {number} at {width_px} px");
                check(&scene, &what);
                assert_eq!(scene.handles.len(), handles.len(), "{what}");
                let said = |word: &str| {
                    scene.labels.iter().any(|label| label.spoken.contains(word))
                        || scene.overflow.iter().any(|words| words.contains(&word.to_ascii_lowercase()))
                };
                let all = match aspect {
                    Aspect::Side => ["Caster", "Trail", "path"].into_iter().all(said),
                    _ => (said("toe") || said("steer")) && (said("Tire to frame") || said("tire meets")),
                };
                assert!(all, "{what}: {:?} {:?}", scene.overflow, scene.labels);
                if case.dragging {
                    assert!(said("Lower arm pivots"), "{what} hides the drag");
                }
                pictures += 1;
            }
        }
    }
    assert!(pictures > 1000, "{pictures} pictures are no fair sample");
}

#[test]
fn labels_of_charts_keep_apart_in_every_frame() {
    let mut dice = Dice(77);
    for number in 0..100 {
        let case = case(&mut dice);
        let curve = |dice: &mut Dice| -> Vec<(f64, f64)> {
            let (a, b, c) = (dice.between(-2.0, 2.0), dice.between(-1.0, 1.0), dice.between(-0.3, 0.3));
            (-30..=30).map(|at| f64::from(at) / 10.0).map(|x| (x, a + b * x + c * x * x)).collect()
        };
        let series = [SeriesStyle::AsMeasured, SeriesStyle::Proposal(0), SeriesStyle::Proposal(1)]
            .map(|style| Series { name: "two-inch spindle".to_owned(), points: curve(&mut dice), style });
        let chart_of = Chart {
            title: "Camber".to_owned(),
            x_label: "wheel travel, in".to_owned(),
            y_label: "°".to_owned(),
            series: series.to_vec(),
            bands: vec![Band { from: dice.between(0.0, 2.8), to: 3.0, label: "past the stop".to_owned() }],
            cursor_x: Some(dice.between(-3.0, 3.0)),
            ..Chart::default()
        };
        for (width_px, height_px) in [(320.0, 190.0), (360.0, 240.0), (600.0, 300.0), (1280.0, 400.0)] {
            let scene = chart(&chart_of, &view(width_px, height_px, &case));
            check(&scene, &format!("chart {number} at {width_px} px"));
            assert!(scene.labels.len() >= 6, "chart {number} at {width_px} px: {:?}", scene.overflow);
        }
    }
}

#[test]
fn what_is_written_is_well_formed_and_escaped() {
    let truck = demo().truck;
    let fitted = Fitted::as_measured(&truck);
    let corner = fitted.corner().unwrap();
    let message = "a <b> & \"c\" 'd' \u{1}".to_owned();
    let broken = Broken { corner: &corner, fitted: &fitted, before: None, message };
    let mut dice = Dice(3);
    let mut view = view(600.0, 420.0, &case(&mut dice));
    view.prefix = "\"><script>".to_owned();
    let scene = front_view_broken(&broken, &view);
    for theme in [Theme::Light, Theme::Dark] {
        let text = write_svg(&scene, theme);
        assert!(
            !text.contains("<script")
                && !text.contains("<b>")
                && !text.contains("& ")
                && !text.contains('\u{1}')
        );
        assert!(!text.contains("NaN") && !text.contains("inf"));
        let opened = text.matches('<').count() - text.matches("</").count() - text.matches("/>").count();
        assert_eq!(opened, text.matches("</").count(), "every element is closed");
        assert_eq!(text.matches('<').count(), text.matches('>').count());
    }
    assert!(write_svg(&scene, Theme::Light).starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\""));
}

#[test]
fn pixels_and_millimetres_are_inverse() {
    let mut dice = Dice(5);
    let case = case(&mut dice);
    for zoom in [Zoom::default(), Zoom { scale: 3.5, pan_px: (120.0, -40.0) }] {
        let view = View { zoom, ..view(360.0, 300.0, &case) };
        let rest = Stance::laid(&demo().truck, &[]).unwrap().on(Side::Left);
        let now = Shown { rest: &rest, pose: &rest.pose, gaps: &[], travel_left: None, travel_mm: 0.0 };
        let sketch = Sketch::alone(now);
        let scene = front_view(&sketch, &view);
        let transform = scene.transform;
        for (y_mm, z_mm) in [(0.0, 0.0), (702.0, 312.0), (-40.0, 900.0)] {
            let (x, y) = transform.to_px(y_mm, z_mm);
            let back = transform.to_mm(x, y);
            assert!((back.0 - y_mm).abs() < 1e-9 && (back.1 - z_mm).abs() < 1e-9);
        }
        // The wheel centre of the measured truck stands on the ground at its measured height.
        let (_, x, y) = scene.handles.iter().find(|(handle, _, _)| *handle == Handle::WheelCentre).unwrap();
        let (out, up) = transform.to_mm(*x, *y);
        assert!((out - 702.0).abs() < 1e-6 && (up - 312.0).abs() < 1e-6);
        // As measured the ground lies at z = 0, and every point where the tape found it.
        let points = &demo().truck.points;
        let (wheel, axes) = (&points.wheel_centre, &points.lower);
        for (aspect, handle, point) in [
            (Aspect::Front, Handle::LowerBall, &axes.ball),
            (Aspect::Front, Handle::UpperBall, &points.upper.ball),
            (Aspect::Front, Handle::TieInner, &points.tie_inner),
            (Aspect::Side, Handle::LowerFront, &axes.front),
            (Aspect::Side, Handle::UpperRear, &points.upper.rear),
            (Aspect::Side, Handle::WheelCentre, wheel),
            (Aspect::Top, Handle::LowerRear, &axes.rear),
            (Aspect::Top, Handle::UpperFront, &points.upper.front),
            (Aspect::Top, Handle::TieOuter, &points.tie_outer),
        ] {
            let scene = view_of(aspect, &sketch, &view);
            let (_, x, y) = scene.handles.iter().find(|(found, _, _)| *found == handle).unwrap();
            let (right, up) = scene.transform.to_mm(*x, *y);
            // By hand: the side shows forward to the left, the top shows it downward.
            let seen = match aspect {
                Aspect::Front => (point.y, point.z),
                Aspect::Side => (-point.x, point.z),
                Aspect::Top => (point.y, -point.x),
            };
            assert!((right - seen.0).abs() < 1e-6 && (up - seen.1).abs() < 1e-6, "{aspect:?} {handle:?}");
            // A movement on the picture is the one in the body that is seen so.
            let moved = aspect.in_body(3.0, -2.0);
            let to = point + moved;
            let now = match aspect {
                Aspect::Front => (to.y, to.z),
                Aspect::Side => (-to.x, to.z),
                Aspect::Top => (to.y, -to.x),
            };
            assert!((now.0 - seen.0 - 3.0).abs() < 1e-12 && (now.1 - seen.1 + 2.0).abs() < 1e-12);
        }
        // Twice the scale is twice the pixels of a millimetre.
        let fit = front_view(&sketch, &View { zoom: Zoom::default(), ..view.clone() }).transform;
        assert!((transform.px_per_mm() - fit.px_per_mm() * zoom.scale).abs() < 1e-12);
    }
}

/// A right corner like the left is its mirror image, wherever it is looked at from and however it
/// is zoomed and moved; what is written stays to be read, and out of the corner that is covered,
/// which is mirrored too.
#[test]
fn a_right_corner_is_the_mirror_image_of_the_left() {
    let mut dice = Dice(9);
    for number in 0..40 {
        let mut case = case(&mut dice);
        // One box goes farther to one side: without it both corners have the same travel.
        case.truck.steering.kind = None;
        let (truck, changes) = (case.truck.clone(), case.changes.clone());
        let right = Case { truck, side: Side::Right, changes, ..case };
        for aspect in Aspect::ALL {
            let pan_px = (dice.between(-40.0, 40.0), dice.between(-30.0, 30.0));
            let view = View { zoom: Zoom { scale: 1.3, pan_px }, ..view(600.0, 420.0, &case) };
            let turned = View { zoom: Zoom { scale: 1.3, pan_px: (-pan_px.0, pan_px.1) }, ..view.clone() };
            let Some((left, true)) = picture(aspect, &case, &view) else { continue };
            let Some((right_scene, true)) = picture(aspect, &right, &turned) else {
                panic!("{aspect:?} of truck {number} stands at the left alone")
            };
            let what = format!("{aspect:?} of truck {number}");
            check(&right_scene, &what);
            assert_eq!(left.title.replace("left", "right"), right_scene.title);
            assert_eq!(left.handles.len(), right_scene.handles.len());
            for ((handle, x, y), (other, mirrored_x, mirrored_y)) in
                left.handles.iter().zip(&right_scene.handles)
            {
                assert_eq!((handle, y), (other, mirrored_y), "{what}");
                assert!((x + mirrored_x - 600.0).abs() < 1e-9, "{what}: {handle:?}");
                // The same place on the truck, outward from its centreline.
                let (one, two) =
                    (left.transform.to_mm(*x, *y), right_scene.transform.to_mm(*mirrored_x, *mirrored_y));
                assert!((one.0 - two.0).abs() < 1e-9 && (one.1 - two.1).abs() < 1e-9, "{what}: {handle:?}");
            }
            let moved = left.transform.moved_mm(7.0, 2.0);
            assert_eq!(right_scene.transform.moved_mm(-7.0, 2.0), moved, "{what}");
            // Steered to the left is another word than steered to the right, and takes other room.
            let steered = |scene: &Scene| scene.labels.iter().any(|label| label.spoken.contains("teer"));
            assert_eq!(steered(&left), steered(&right_scene), "{what}");
            for (one, other) in left.labels.iter().zip(&right_scene.labels).filter(|_| !steered(&left)) {
                assert_eq!((&one.lines, one.top), (&other.lines, other.top), "{what}");
                assert!((one.left + other.left + one.width - 600.0).abs() < 1e-9, "{what}");
            }
            assert_eq!(left.shapes.len(), right_scene.shapes.len(), "{what}");
            let covered = View { covered_px: (180.0, 60.0), zoom: Zoom::default(), ..view };
            for (case, from_px, to_px) in [(&case, 180.0, 600.0), (&right, 0.0, 420.0)] {
                let (scene, _) = picture(aspect, case, &covered).unwrap();
                for label in &scene.labels {
                    let beside = label.left >= from_px && label.left + label.width <= to_px;
                    assert!(beside || label.top >= 60.0, "{what}: {label:?}");
                }
            }
        }
    }
}
