//! The same two inches by dropped spindle and by cut spring.

use crate::*;

/// The demo and five generated trucks on coils, the upper arm shorter, the
/// instant centre inboard of the wheel and beyond the centreline.
pub(crate) fn trucks() -> Vec<(String, Truck)> {
    let mut all = vec![("demo".to_owned(), on_coils(demo().truck))];
    let mut dice = Dice::of(7);
    while all.len() < 6 {
        let sample = pickup(&dice.cube());
        let mut truck = demo().truck;
        truck.points = sample.points;
        truck.points.camber_rad = 0.0;
        let truck = on_coils(truck);
        let before = rest(&truck, &[]);
        let arm = |points: &linkage::ArmPoints| {
            let frame = points.ball - nalgebra::center(&points.front, &points.rear);
            libm::hypot(frame.y, frame.z)
        };
        let shorter = arm(&truck.points.upper) < 0.8 * arm(&truck.points.lower);
        // At rest and where the springs will bring it.
        let inboard = [0.0, DROP_MM].iter().all(|travel| {
            let centre = read(&before, *travel).centre.centre;
            centre.is_some_and(|centre| centre.y < 0.0)
        });
        if shorter && inboard {
            all.push((format!("generated {}", all.len()), truck));
        }
    }
    all
}

/// The truck on a coil two thirds out along its lower arm, its stop far enough
/// away for two inches of lowering.
fn on_coils(mut truck: Truck) -> Truck {
    let lower = truck.points.lower;
    let pivot = nalgebra::center(&lower.front, &lower.rear);
    let seat = linkage::Point3::from(pivot.coords.lerp(&lower.ball.coords, 0.65)) + Vector3::z() * 12.0;
    truck.spring.kind = SpringKind::Coil;
    truck.spring.coil.arm_seat = seat;
    truck.spring.coil.body_seat = seat + Vector3::new(-6.0, -35.0, 270.0);
    truck
}

/// As measured, by the spindle, by the spring.
fn three(truck: &Truck) -> [StandingSide; 3] {
    let [spindle, spring] = same_drop(truck);
    let all = [rest(truck, &[]), rest(truck, &[spindle]), rest(truck, &[spring])];
    assert!(all.iter().all(|rest| rest.held_by == HeldBy::Spring));
    all
}

#[test]
fn the_lesson_s_own_two_are_equally_low() {
    let design = design(1);
    let [spindle, spring] = [0, 1].map(|at| rest(&design.truck, design.proposals[at].changes()));
    let before = rest(&design.truck, &[]);
    near(spindle.ride_height_mm(), spring.ride_height_mm(), 0.1, "the same height");
    // A hundredth of a coil is the finest cut that is kept.
    near(before.ride_height_mm() - spring.ride_height_mm(), DROP_MM, 0.4, "two inches");
}

#[test]
fn the_same_drop_both_ways() {
    for (name, truck) in trucks() {
        let [before, spindle, spring] = three(&truck);
        let drop = before.ride_height_mm() - spring.ride_height_mm();
        near(before.ride_height_mm() - spindle.ride_height_mm(), drop, 0.1, &name);
        near(drop, DROP_MM, 0.5, &name);
    }
}

/// Identities: stops and arms belong to the body, the pin to the knuckle.
#[test]
fn arms_and_travel_stay_with_the_one_and_go_with_the_other() {
    for (name, truck) in trucks() {
        let [before, spindle, spring] = three(&truck);
        near(spindle.pose.lower_arm_rad, before.pose.lower_arm_rad, 1e-9, &name);
        assert!(spring.pose.lower_arm_rad > before.pose.lower_arm_rad + 0.05, "{name}");
        let touch = [&before, &spindle, &spring].map(|rest| travel_left(rest).touch_mm);
        // The wheel turns with its knuckle, so its centre's path differs a little.
        near(touch[1], touch[0], 0.2, &name);
        let drop = before.ride_height_mm() - spring.ride_height_mm();
        let lost = touch[0] - touch[2];
        near(lost, spring.pose.wheel_centre.z - before.pose.wheel_centre.z, 1e-9, &name);
        // A wheel that leans stands lower by what its cosine takes of the radius.
        let lean = |rest: &StandingSide| libm::cos(read(rest, 0.0).attitude.camber_rad);
        let sunk = before.corner.loaded_radius_mm() * (lean(&before) - lean(&spring));
        near(lost + sunk, drop, 0.1, &name);
        if name == "demo" {
            near(lost, drop, 0.1, &name);
        }
    }
}

/// At the same angle of the arms the pin stands a drop further up, times the
/// cosine of how the knuckle has leaned since.
#[test]
fn the_spindle_puts_the_tire_further_into_the_fender() {
    for (name, truck) in trucks() {
        let [before, spindle, spring] = three(&truck);
        let at_stop = |rest: &StandingSide| {
            let pose = rest.corner.pose(rest.stops.touch_rad, Vector3::zeros()).unwrap();
            pose.wheel_centre.z
        };
        let drop = before.ride_height_mm() - spindle.ride_height_mm();
        near(at_stop(&spindle) - at_stop(&before), drop, 0.2, &name);
        near(at_stop(&spring), at_stop(&before), 1e-9, &name);
    }
}

#[test]
fn camber_goes_in_with_the_spring_and_stays_with_the_spindle() {
    for (name, truck) in trucks() {
        let [before, spindle, spring] = three(&truck).map(|rest| read(&rest, 0.0).attitude.camber_rad);
        near(spindle, before, 1e-9, &name);
        assert!(spring < before - 1e-3, "{name}: {} to {}", before.to_degrees(), spring.to_degrees());
    }
}

/// A spindle brings the ground up by the drop under an instant centre that
/// stays in the body: similar triangles give what is left of it at the centreline.
#[test]
fn the_roll_centre_comes_down_less_with_the_spindle_but_not_by_nothing() {
    for (name, truck) in trucks() {
        let all = three(&truck);
        let [before, spindle, spring] = all.clone().map(|rest| read(&rest, 0.0));
        let height = |gauged: &Gauged| gauged.centre.roll_centre_mm.unwrap();
        let (by_spindle, by_spring) = (height(&before) - height(&spindle), height(&before) - height(&spring));
        assert!(by_spindle > 0.5, "{name}: {by_spindle}");
        assert!(by_spring > by_spindle + 2.0, "{name}: {by_spring} against {by_spindle}");
        let centre = before.centre.centre.unwrap();
        let contact = before.attitude.contact.y;
        let drop = all[1].ground_mm;
        let left = drop * contact / (contact - centre.y);
        near(by_spindle, left, 0.02 * left + 0.1, &name);
    }
}
