//! How sure it is which way gives up least: limits by hand, and a tie against draws of our own.

use super::{nothing_but, search, small};
use crate::as_built::another;
use crate::front_alone;
use study::{Certainty, Figure, Trial, Way, Ways, Weights, Wish};
use truck::{Overlay, Side, Truck};
use yardstick::generate::Dice;

const DRAWS: usize = 200;

fn found(truck: &Truck, wish: Wish, weights: Weights) -> Ways {
    let mut ways = Ways::new(truck, wish, weights, small()).unwrap();
    while !ways.step(50) {}
    ways
}

fn certainties(ways: &Ways, count: usize) -> Vec<Certainty> {
    let mut contest = ways.contest(count);
    while contest.draws() < DRAWS {
        contest.step();
    }
    ways.certainties(&contest)
}

/// By hand: of one way nothing is cheaper. Where a bump travel is wished that is just what it leaves, half of the
/// trucks leave more and half less; half an inch less is left by all of them, half an inch more by none.
#[test]
fn what_is_just_left_is_kept_by_half() {
    let truck = front_alone().truck;
    let first = search(&truck, nothing_but(63.5), small(), 50).found()[0].clone();
    let sure = |bump_mm: f64| {
        let wish = Wish { bump_mm, ..nothing_but(63.5) };
        let ways = found(&truck, wish, Weights::default());
        assert_eq!(ways.found()[0].changes, first.changes);
        certainties(&ways, 1)[0]
    };
    let just = sure(first.bump.travel_mm - 0.01);
    assert!((just.is_cheapest - 1.0).abs() < 1e-9, "{just:?}");
    // What ends it may be another thing in many of them, which only leaves less.
    assert!((0.1..0.65).contains(&just.keeps), "{just:?}");
    let easy = sure((first.bump.travel_mm - 25.4).max(0.0));
    assert!(easy.keeps > 0.95, "{easy:?}");
}

/// With weights by which the first two give up alike neither is sure to give up less: as often as in trucks that
/// are drawn here, each by its figures and the sum of what they give up.
#[test]
fn a_tie_is_as_near_as_other_draws_say() {
    let truck = front_alone().truck;
    let plain = Weights { bump: 1.0, camber: 0.0, caster: 0.0, frequency: 0.0, part: 0.0, scar: 0.0 };
    let all = found(&truck, nothing_but(63.5), plain);
    let (one, other) = two(all.found());
    // As much of camber as makes up for what is lost of the bump.
    let camber = (other.bump_lost_mm - one.bump_lost_mm)
        / 10.0
        / (one.camber_rad.abs() - other.camber_rad.abs()).to_degrees();
    let weights = Weights { camber, ..plain };
    let tied = found(&truck, nothing_but(63.5), weights);
    let place = |way: &Way| tied.found().iter().position(|found| found.changes == way.changes);
    let (one_at, other_at) = (place(one).unwrap(), place(other).unwrap());
    assert!((tied.found()[one_at].cost - tied.found()[other_at].cost).abs() < 1e-6);
    let count = one_at.max(other_at) + 1;
    let sure = certainties(&tied, count);
    let sum: f64 = sure.iter().map(|one| one.is_cheapest).sum();
    assert!((sum - 1.0).abs() < 1e-9, "{sure:?}");
    let by_hand = shares(&truck, &tied.found()[..count], weights);
    for (one, by_hand) in sure.iter().zip(by_hand) {
        // Of 200 and 200 draws a share is known to a tenth, 19 times in 20.
        assert!((one.is_cheapest - by_hand).abs() < 0.12, "{sure:?} {by_hand}");
    }
    assert!(sure[one_at].is_cheapest < 0.9 && sure[other_at].is_cheapest < 0.9, "{sure:?}");
    assert_eq!(certainties(&tied, 0), Vec::<Certainty>::new());
}

/// Two ways of which the one loses more bump travel, and the other more camber.
fn two(ways: &[Way]) -> (&Way, &Way) {
    let pairs = ways.iter().flat_map(|one| ways.iter().map(move |other| (one, other)));
    let trades = |(one, other): &(&Way, &Way)| {
        let camber = one.camber_rad.abs() - other.camber_rad.abs();
        other.bump_lost_mm > one.bump_lost_mm + 1.0 && one.bump_lost_mm > 0.0 && camber > 1e-3
    };
    pairs.into_iter().find(trades).expect("some way trades bump for camber")
}

/// In which share of trucks each way gives up least, by trucks that are off as their tools may be.
fn shares(truck: &Truck, ways: &[Way], weights: Weights) -> Vec<f64> {
    let mut dice = Dice::of(5);
    let mut wins = vec![0.0; ways.len()];
    let figures = [Figure::BUMP, Figure::CAMBER];
    for _ in 0..DRAWS {
        let own = another(truck, &mut dice);
        let read = |overlay: Overlay<'_>| -> Option<[f64; 2]> {
            let values = Trial::new(&own, overlay).values(Side::Left, &figures);
            Some([values[0]?.number()?, values[1]?.number()?])
        };
        let Some([bump, camber]) = read(Overlay::NOTHING) else { continue };
        let cost = |way: &Way| {
            let [left, leans] = read(Overlay::from(&way.changes))?;
            let lost = (bump - left).max(0.0) / 10.0;
            Some(lost + weights.camber * (leans - camber).to_degrees().abs())
        };
        let costs: Vec<_> = ways.iter().map(|way| cost(way).unwrap_or(f64::INFINITY)).collect();
        let least = (0..costs.len()).min_by(|one, other| costs[*one].total_cmp(&costs[*other])).unwrap();
        wins[least] += 1.0 / 200.0;
    }
    wins
}
