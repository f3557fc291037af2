//! A plan that sets left and right differently: mirrors, the rake of both, and a truck that leans set level.

use crate::front_alone;
use study::{
    Alignment, CasterBy, HeightBy, LEAST_BUMP_MM, Rest, Stance, StandingSide, Steps, Target, alignments,
};
use truck::{BarAdjuster, Change, Design, Edit, Field, ProposalId, ShimChange, Side};
use yardstick::budget::near;

const ID: ProposalId = ProposalId(0);

fn turns(turns: f64) -> Change {
    Change::BarAdjuster(BarAdjuster { turns })
}

fn by_side(each: [Option<Change>; 2]) -> Stance {
    let design = front_alone().edited(&Edit::SetEach(ID, each)).unwrap();
    Stance::of_design(&design, ID.into()).unwrap()
}

/// The demo truck's front, whose right sags: its rail is measured 9 mm lower, at the same turns of its bolt.
fn sagging() -> Design {
    let rail_mm = Field::RailBottomZ.get(&front_alone().truck).unwrap() - 9.0;
    let own = vec![(Field::RailBottomZ, Some(rail_mm)), (Field::Camber, Some(-0.012))];
    front_alone().edited(&Edit::MeasureRight(own)).unwrap()
}

fn read(rest: &StandingSide) -> Target {
    Target::of(rest)
}

/// Left and right are mirrors: what a plan does at one side it does at the other when the two change places.
#[test]
fn sides_that_change_places_change_answers() {
    let shims = Change::Shims(ShimChange { front_mm: 1.5, rear_mm: -0.5 });
    for each in [[Some(turns(4.0)), Some(turns(-3.0))], [Some(shims), None], [None, Some(turns(-5.0))]] {
        let [one, two] = [by_side(each), by_side([each[1], each[0]])];
        for side in Side::ALL {
            let (here, there): (&Rest, &Rest) = (one.corner(side), two.corner(side.other()));
            near(here.ride_height_mm(), there.ride_height_mm(), 1e-9, "frame height");
            near(here.attitude().camber_rad, there.attitude().camber_rad, 1e-12, "camber");
            near(one.on(side).nose_down_rad(), two.on(side.other()).nose_down_rad(), 1e-15, "rake");
        }
    }
}

/// By hand: the nose goes down by the mean of what both fronts come down, over the wheelbase; with turns
/// on one side alone by half of that side's.
#[test]
fn one_side_takes_half_of_the_rake() {
    let wheelbase_mm = front_alone().truck.body.wheelbase_mm;
    let nose = |each| by_side(each).nose_down_rad() * wheelbase_mm;
    let (none, left) = (nose([None, None]), by_side([Some(turns(-4.0)), None]));
    let gained_mm = left.corner(Side::Left).ground_mm - by_side([None, None]).corner(Side::Left).ground_mm;
    assert!(gained_mm > 5.0, "turns out lower it: {gained_mm}");
    near(left.nose_down_rad() * wheelbase_mm - none, gained_mm / 2.0, 0.02, "rake");
    near(nose([None, Some(turns(-4.0))]), nose([Some(turns(-4.0)), None]), 1e-12, "either side");
}

fn set(design: &Design, targets: [Target; 2]) -> [Alignment; 2] {
    let sides: Vec<_> = Side::ALL.into_iter().zip(targets).collect();
    let steps = &Steps::MILLIMETRES;
    let found = alignments(&design.truck, &sides, design.overlay(ID), CasterBy::Shims, steps, LEAST_BUMP_MM);
    found.unwrap().try_into().unwrap()
}

/// A truck that leans is set level by other turns at the right, and what set-up says a gauge will read is
/// what it reads on the truck with the plan that comes of it.
#[test]
fn a_truck_that_leans_is_set_level() {
    let design = sagging();
    let before = Stance::of_design(&design, ID.into()).unwrap();
    let [left, right] = Side::ALL.map(|side| read(&before.on(side)));
    near(left.ride_height_mm - right.ride_height_mm, 9.0, 0.5, "it leans");
    let level = |now: Target| Target { ride_height_mm: left.ride_height_mm, camber_rad: 0.0, ..now };
    let found = set(&design, [level(left), level(right)]);
    let [left_turns, right_turns] = found.each_ref().map(|found| match found.setting.height {
        HeightBy::Anchor { turns, .. } => turns,
        _ => panic!("a bar has an anchor"),
    });
    assert!(right_turns - left_turns > 1.0, "turns in at the right raise it: {left_turns} {right_turns}");
    let plan = design.edited(&Edit::SetAll(ID, found[1].setting.on_each())).unwrap();
    let stance = Stance::of_design(&plan, ID.into()).unwrap();
    for (side, found) in Side::ALL.into_iter().zip(&found) {
        let reads = read(&stance.on(side));
        // A quarter turn of the bolt is a millimetre or two, half a millimetre of shims a tenth of a degree.
        near(reads.ride_height_mm, left.ride_height_mm, 2.0, side.label());
        near(reads.camber_rad.to_degrees(), 0.0, 0.15, side.label());
        near(reads.ride_height_mm, found.setting.reads.ride_height_mm, 0.6, side.label());
        near(reads.caster_rad, found.setting.reads.caster_rad, 2e-4, side.label());
    }
}

/// Of a truck whose sides are alike each side is set as both are.
#[test]
fn sides_alike_are_set_alike() {
    let design = front_alone();
    let now = read(&Stance::of_design(&design, ID.into()).unwrap().on(Side::Left));
    let target = Target { ride_height_mm: now.ride_height_mm - 6.0, ..now };
    let [left, right] = set(&design, [target, target]);
    assert_eq!(left.setting.set, right.setting.set);
    let plan = design.edited(&Edit::SetAll(ID, right.setting.on_each())).unwrap();
    assert!(plan.overlay(ID).is_for_both(), "the same on each is on both");
}
