//! The one rake of a truck whose sides may differ.
//!
//! By hand: a spindle lets its own corner down by its drop and does nothing else, so two
//! spindles of different drops give two corners whose heights are known without a solver. The
//! ground under the middle of the axle has then come up by the mean of the two, and the nose has
//! sunk by that less what the rear came down, over the wheelbase.

use super::sprung_trucks;
use crate::front_alone;
use study::{Gauged, NoRest, NoStance, Quantity, Rear, Rest, Stance, StandingSide};
use truck::{
    Change, DroppedSpindle, Edit, Field, Fitted, OneSide, Overlay, ProposalId, Side, Truck, demo, fit,
};
use yardstick::budget::near;
use yardstick::generate::Dice;

fn spindle(drop_mm: f64) -> Change {
    Change::DroppedSpindle(DroppedSpindle { drop_mm, ..DroppedSpindle::default() })
}

fn by_spindle(side: OneSide, drop_mm: f64) -> Fitted {
    fit(side, &[spindle(drop_mm)]).unwrap()
}

/// A truck let down by spindles of these drops, the left one first.
fn let_down(truck: &Truck, drops_mm: [f64; 2], rear: Rear) -> Stance {
    let [left, right] = drops_mm;
    let [left, right] = [by_spindle(truck.on(Side::Left), left), by_spindle(truck.on(Side::Right), right)];
    Stance::of(left, right, rear).unwrap()
}

/// The lean of the line through the balls in the body's side view (ISO 8855).
fn lean_rad(rest: &Rest) -> f64 {
    let axis = rest.pose.upper_ball - rest.pose.lower_ball;
    libm::atan2(-axis.x, axis.z)
}

#[test]
fn both_sides_have_the_rake_of_the_axle_s_middle() {
    for (name, truck) in sprung_trucks() {
        let wheelbase_mm = truck.body.wheelbase_mm;
        // Right lower, left lower; the rear up, down by less, by more, and raised.
        for drops_mm in [[50.8, 63.5], [60.0, 20.0]] {
            for (rear, rear_mm) in [
                (Rear::Stays, 0.0),
                (Rear::ComesDown(30.0), 30.0),
                (Rear::ComesDown(76.2), 76.2),
                (Rear::ComesDown(-20.0), -20.0),
            ] {
                let stance = let_down(&truck, drops_mm, rear);
                let [left_mm, right_mm] = drops_mm;
                let nose_rad = ((0.5 * (left_mm + right_mm) - rear_mm) / wheelbase_mm).atan();
                near(stance.nose_down_rad(), nose_rad, 1e-9, &name);
                for (side, drop_mm) in Side::ALL.into_iter().zip(drops_mm) {
                    let here = stance.on(side);
                    near(here.ground_mm, drop_mm, 1e-6, &name);
                    near(here.nose_down_rad(), nose_rad, 1e-9, &name);
                    near(here.attitude_on_ground().caster_rad, lean_rad(&here) - nose_rad, 1e-9, &name);
                    assert_eq!(here.rear_is_known(), rear != Rear::Stays);
                }
            }
        }
    }
}

/// Numbers against the ground of a corner, to the bit.
fn grounded(here: &StandingSide) -> [u64; 3] {
    let reading = Gauged::of(here, here.pose).unwrap();
    let read = |quantity: Quantity| quantity.read(&reading).unwrap().to_bits();
    [read(Quantity::CasterGround), read(Quantity::TrailGround), here.nose_down_rad().to_bits()]
}

/// Identity: a truck with its sides changed over is that truck seen in a mirror.
#[test]
fn changed_over_the_sides_change_over() {
    let truck = demo().truck;
    let rear = Rear::ComesDown(25.0);
    let (one, other) = (let_down(&truck, [63.5, 38.1], rear), let_down(&truck, [38.1, 63.5], rear));
    for side in Side::ALL {
        assert_eq!(grounded(&one.on(side)), grounded(&other.on(side.other())));
        assert_eq!(one.corner(side).pose, other.corner(side.other()).pose);
    }
    assert_ne!(one.corner(Side::Left).pose, one.corner(Side::Right).pose);
}

/// Identity: the mean of two that are equal is each of them, to the bit, so sides that are alike
/// have the rake of either; and they are solved once.
#[test]
fn sides_alike_are_one_corner() {
    let mut dice = Dice::of(71);
    for (name, truck) in sprung_trucks() {
        let (drop_mm, rear_mm) = (dice.between(10.0, 80.0), dice.between(-20.0, 90.0));
        let changes = [spindle(drop_mm)];
        let overlay = Overlay { rear_down_mm: Some(rear_mm), ..Overlay::from(&changes) };
        let (alone, for_one) = counted(|| Rest::of(fit(&truck, overlay).unwrap()).unwrap());
        let (stance, for_both) = counted(|| Stance::laid(&truck, overlay).unwrap());
        assert_eq!(for_both, for_one, "{name}: poses asked for");
        let nose_rad = libm::atan((alone.ground_mm - rear_mm) / truck.body.wheelbase_mm);
        assert_eq!(stance.nose_down_rad().to_bits(), nose_rad.to_bits(), "{name}");
        assert_eq!(grounded(&stance.on(Side::Left)), grounded(&stance.on(Side::Right)), "{name}");
        assert_eq!(*stance.corner(Side::Left), alone, "{name}");
        // The right one is a corner of the right all the same: its locks are across the truck.
        let right = Rest::of(fit(truck.on(Side::Right), overlay).unwrap()).unwrap();
        assert_eq!(*stance.corner(Side::Right), right, "{name}");
    }
}

fn counted<T>(of: impl FnOnce() -> T) -> (T, u64) {
    let before = linkage::count::poses();
    let made = of();
    (made, linkage::count::poses() - before)
}

/// As measured a truck stands on the ground that it was measured on, whatever differs between its
/// sides and whatever is said of others: no rake. A plan that changes something and says nothing
/// of the rear leaves it up.
#[test]
fn the_rear_is_what_the_plan_says() {
    let bent = vec![(Field::LowerBallZ, Some(224.0)), (Field::RailBottomZ, Some(293.0))];
    let design = front_alone().edited(&Edit::MeasureRight(bent)).unwrap();
    let measured = Stance::of_design(&design, truck::Which::AsMeasured).unwrap();
    assert_eq!(measured.rear(), Rear::AS_MEASURED);
    near(measured.nose_down_rad(), 0.0, 1e-12, "as it sits");
    let open = Stance::of_design(&design, ProposalId(0).into()).unwrap();
    assert_eq!(open.rear(), Rear::Stays);
    near(open.nose_down_rad(), (50.8 / design.truck.body.wheelbase_mm).atan(), 1e-9, "two inches");
    let down = design.edited(&Edit::RearDown(ProposalId(0), Some(50.8))).unwrap();
    let level = Stance::of_design(&down, ProposalId(0).into()).unwrap();
    assert_eq!(level.rear(), Rear::ComesDown(50.8));
    near(level.nose_down_rad(), 0.0, 1e-9, "level");
}

/// A truck stands on both its front wheels or not at all, and says which one does not.
#[test]
fn it_says_which_side_cannot_stand() {
    let right = vec![(Field::LowerBallY, Some(250.0))];
    let design = demo().edited(&Edit::MeasureRight(right)).unwrap();
    let why: NoStance = Stance::laid(&design.truck, &[]).unwrap_err();
    assert_eq!((why.side, why.why), (Some(Side::Right), NoRest::PointsInboard));
    assert!(why.to_string().starts_with("at the right, the lower arm's pivots"), "{why}");
    // Where both cannot, none is named.
    let mut truck = demo().truck;
    truck.points.lower.ball.y = 250.0;
    let both = Stance::laid(&truck, &[]).unwrap_err();
    assert_eq!(both.side, None);
    let alone: NoRest = Rest::of(Fitted::as_measured(&truck)).unwrap_err();
    assert_eq!(both.to_string(), alone.to_string());
}
