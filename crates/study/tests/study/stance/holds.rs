//! A balance in which the least push carries the truck away is no rest: at a rest on
//! the spring the potential energy has a minimum, which `energy.rs` works out on its own.

use super::energy::{Energy, Worked};
use study::{HeldBy, NoRest, Rest};
use truck::{Arm, BarAdjuster, Change, Fitted, SpringKind, Truck, demo, fit};
use yardstick::generate::{Dice, pickup};

/// A generated corner on a generated bar, many of them far too soft.
fn truck(dice: &mut Dice) -> Truck {
    let mut truck = demo().truck;
    truck.points = pickup(&dice.cube()).points;
    truck.spring.kind = if dice.roll() < 0.8 { SpringKind::TorsionBar } else { SpringKind::WheelRate };
    truck.spring.arm = if dice.roll() < 0.5 { Arm::Lower } else { Arm::Upper };
    truck.spring.bar.diameter_mm = dice.between(9.0, 26.0);
    truck.spring.bar.length_mm = dice.between(700.0, 2500.0);
    truck.spring.wheel_rate_n_per_mm = dice.between(1.0, 60.0);
    truck.load.corner_n = dice.between(3000.0, 6500.0);
    truck
}

/// Second difference of the energy over the arm's angle, N·mm for a radian squared.
fn stiffness(energy: &Energy<'_>, angle: f64) -> f64 {
    let step = 1e-3;
    (energy.at(angle + step) - 2.0 * energy.at(angle) + energy.at(angle - step)) / (step * step)
}

#[test]
fn a_rest_on_the_spring_is_a_minimum_of_energy() {
    let mut dice = Dice::of(41);
    let (mut held, mut fell) = (0, 0);
    for number in 0..400 {
        let truck = truck(&mut dice);
        let corner = Fitted::as_measured(&truck).corner().unwrap();
        let preload = Energy::preload(&truck);
        let as_measured = Energy { truck: &truck, corner: &corner, preload, worked: Worked::default() };
        let there = stiffness(&as_measured, corner.measured_angle_rad());
        match Rest::of(Fitted::as_measured(&truck)) {
            Ok(rest) => {
                assert!(there > -1.0 && rest.wheel_rate_n_per_mm > 0.0, "truck {number}: {there}");
                held += 1;
            }
            Err(NoRest::Unstable { .. }) => {
                assert!(there < 1.0, "truck {number}: {there}");
                fell += 1;
            }
            Err(why) => panic!("truck {number}: {why}"),
        }
        // Turned by its bolt it goes elsewhere, and never to stay on a crest.
        if truck.spring.kind == SpringKind::TorsionBar {
            let turns = dice.between(-3.0, 3.0);
            let fitted = fit(&truck, &[Change::BarAdjuster(BarAdjuster { turns })]).unwrap();
            let anchor_rad = truck.spring.bar.anchor_turn_rad(turns);
            let worked = Worked { anchor_rad, coils: 0.0 };
            let Ok(rest) = Rest::of(fitted) else { continue };
            let energy = Energy { truck: &truck, corner: &rest.corner, preload, worked };
            let (angle, near) = (rest.pose.lower_arm_rad, 1e-3);
            let here = energy.at(angle);
            if rest.held_by == HeldBy::Spring {
                assert!(rest.wheel_rate_n_per_mm > 0.0, "truck {number}: {}", rest.wheel_rate_n_per_mm);
                assert!(here < energy.at(angle + near) && here < energy.at(angle - near), "truck {number}");
            } else if rest.held_by == HeldBy::BumpStop {
                assert!(energy.at(angle - near) > here, "truck {number}: it leans on the stop");
            } else if rest.held_by == HeldBy::DroopStop {
                assert!(energy.at(angle + near) > here, "truck {number}: it hangs in the stop");
            }
        }
    }
    assert!(held > 100 && fell > 50, "{held} held, {fell} fell");
}
