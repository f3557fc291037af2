//! What ends the travel and what would be hit, in sentences to be read out.

use crate::words::tape;
use measure::{Units, fixed, print_length};
use study::{
    Against, Clearances, Figure, Guesses, Limit, Limiter, StandingSide, Studied, TravelLeft, VariesWith,
    capital, least_first, limiters_unstated,
};
use truck::{Arm, Side};

/// What is met nearer than this is met at rest, mm: no output prints it as a travel.
const HERE_MM: f64 = 0.05;

/// What begins the sentence on the way down.
const DOWN: &str = "Goes down ";

/// A front wheel of a truck at rest, with what it comes near.
#[derive(Clone, Copy, Debug)]
pub struct Wheel<'a> {
    /// The truck, looked at from this side.
    pub rest: &'a StandingSide,
    /// What comes near what.
    pub found: &'a Clearances,
    /// How far it goes, by those.
    pub left: &'a TravelLeft,
}

/// A truck at rest, of which is said what hits.
#[derive(Clone, Copy)]
pub struct WhatHits<'a> {
    /// The wheel that is looked at, and behind it the other one where that goes elsewhere
    /// ([`StandingSide::other_wheel`]): what is said is of the worse of them.
    pub wheels: &'a [Wheel<'a>],
    /// The guesses that a figure of a side rests on.
    pub rests_on: &'a dyn Fn(&StandingSide, Figure) -> Guesses,
    /// Units of lengths.
    pub units: Units,
}

impl std::fmt::Debug for WhatHits<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_list().entries(self.sentences()).finish()
    }
}

/// What ends the travel of a wheel, of both the sooner.
#[derive(Clone, Copy)]
struct End<'a> {
    travel_mm: f64,
    by: Limiter,
    wheel: &'a Wheel<'a>,
    /// Whether the other wheel meets it later, or not at all.
    is_alone: bool,
}

impl End<'_> {
    /// The wheel's side, to stand before a part of it, where the other meets it later.
    const fn side(&self) -> &'static str {
        if self.is_alone { side(self.wheel) } else { "" }
    }
}

const fn side(wheel: &Wheel<'_>) -> &'static str {
    match wheel.rest.side() {
        Side::Left => "left ",
        Side::Right => "right ",
    }
}

impl WhatHits<'_> {
    /// What meets by what was read off the truck; what touches already, a wheel that jams first; how far it goes up,
    /// what ends that and what would be hit next; what is hit going down, if anything; and what is not known.
    /// Of several that meet at rest the first is named and the others are counted: they stand in the list below.
    ///
    /// What rests on a guess has its mark, and nothing is said to be clear that was not looked at.
    #[must_use]
    pub fn sentences(&self) -> Vec<String> {
        let mut all = Vec::new();
        let is_met = self.read_to_meet(&mut all);
        let bump = self.limits(|left| &left.bump_limits);
        let here = bump.iter().take_while(|end| end.travel_mm < HERE_MM).count();
        let (here, ahead) = bump.split_at(here);
        self.touch(&mut all, here);
        let is_free = here.is_empty() && !is_met;
        let goes = if is_free { "Goes up " } else { "But for that it goes up " };
        if let Some(end) = ahead.first() {
            let ends = [Figure::BUMP, Figure::BUMP_ENDED_BY];
            self.ends(&mut all, goes, end, if here.is_empty() { &ends } else { &[] });
            self.next(&mut all, ahead, is_met || here.iter().any(|end| contact(end.by)));
        }
        if let Some((end, is_first)) = self.hits_going_down() {
            let ends = [Figure::DROOP, Figure::DROOP_ENDED_BY];
            self.ends(&mut all, DOWN, &end, if is_first { &ends } else { &[] });
        }
        self.unstated(&mut all);
        all
    }

    /// What ends the travel of either wheel, each thing where the first of them meets it, the nearest first.
    fn limits(&self, of: fn(&TravelLeft) -> &[Limit]) -> Vec<End<'_>> {
        let mut ends: Vec<End<'_>> = Vec::new();
        for (at, wheel) in self.wheels.iter().enumerate() {
            for Limit { travel_mm, by } in of(wheel.left).iter().copied() {
                let met = End { travel_mm, by, wheel, is_alone: self.wheels.len() > 1 };
                match ends.iter_mut().find(|end| end.by == by && at > 0) {
                    Some(end) if travel_mm < end.travel_mm - HERE_MM => *end = met,
                    Some(end) if travel_mm <= end.travel_mm + HERE_MM => end.is_alone = false,
                    Some(_) => {}
                    None => ends.push(met),
                }
            }
        }
        least_first(&mut ends, |end| end.travel_mm);
        ends
    }

    /// What a wheel hits before its own droop ends, of both the sooner, and whether nothing of it touches before: a
    /// stop of the one does not hold the other up.
    fn hits_going_down(&self) -> Option<(End<'_>, bool)> {
        let mut least: Option<(End<'_>, bool)> = None;
        for wheel in self.wheels {
            let mut limits = wheel.left.droop_limits.clone();
            least_first(&mut limits, |limit| limit.travel_mm);
            let Some(Limit { travel_mm, by }) =
                limits.iter().find(|limit| limit.travel_mm >= HERE_MM).copied()
            else {
                continue;
            };
            if !contact(by) {
                continue;
            }
            match &mut least {
                Some((end, _)) if end.by == by && (end.travel_mm - travel_mm).abs() <= HERE_MM => {
                    end.is_alone = false;
                }
                Some((end, _)) if end.travel_mm <= travel_mm => {}
                _ => {
                    let end = End { travel_mm, by, wheel, is_alone: self.wheels.len() > 1 };
                    least = Some((end, limits[0].travel_mm >= HERE_MM));
                }
            }
        }
        least
    }

    /// What nobody has stated, and so was not looked at.
    fn unstated(&self, all: &mut Vec<String>) {
        let mut named: Vec<&str> = Vec::new();
        for wheel in self.wheels {
            let steering = if wheel.found.steers.len() < 2 { Some("steering") } else { None };
            for name in limiters_unstated(wheel.rest).iter().map(|by| by.label()).chain(steering) {
                if !named.contains(&name) {
                    named.push(name);
                }
            }
        }
        let mut open = String::new();
        for name in named {
            open += if open.is_empty() { "Not stated, so not looked at: " } else { ", " };
            open += name;
        }
        close(all, &open);
    }

    /// What meets at rest by what was read off the truck, whatever its points say; whether anything does.
    fn read_to_meet(&self, all: &mut Vec<String>) -> bool {
        let (mut said, mut others) = (String::new(), Others::default());
        for wheel in self.wheels {
            let studied = Studied::new(wheel.rest, Clearances::LIVE);
            for found in &wheel.found.found {
                let figure = Figure::room(found.pair);
                if figure.reading(&wheel.rest.fitted.measured).is_none() {
                    continue;
                }
                let told = figure.told(&studied, (self.rests_on)(wheel.rest, figure));
                if told.number().is_none_or(|mm| mm > 0.0) {
                    continue;
                }
                if !said.is_empty() {
                    others.count(told.is_guess());
                    continue;
                }
                said += "By what was read, these meet at ride height: ";
                said += if told.is_guess() { "~ " } else { "" };
                said += if self.wheels.len() > 1 { side(wheel) } else { "" };
                said += found.pair.label();
            }
        }
        others.close(all, said)
    }

    /// What touches at rest.
    fn touch(&self, all: &mut Vec<String>, here: &[End<'_>]) {
        let (mut said, mut others) = (String::new(), Others::default());
        for is_control in [true, false] {
            for end in here {
                let jams = matches!(end.by, Limiter::Contact(pair) if pair.against() == Against::Control);
                if jams != is_control {
                    continue;
                }
                let is_guess = self.is_guess(end);
                if !said.is_empty() {
                    others.count(is_guess);
                    continue;
                }
                said += if is_guess { "Already at ride height ~ " } else { "Already at ride height " };
                self.does(&mut said, end, " hits the ", true);
            }
        }
        others.close(all, said);
    }

    /// How far it goes one way, and what ends that; `figures` tell of it where nothing touches at rest.
    fn ends(&self, all: &mut Vec<String>, goes: &str, end: &End<'_>, figures: &[Figure]) {
        let (mut said, is_up) = (goes.to_owned(), goes != DOWN);
        let is_guess = figures.iter().any(|figure| self.rests(end.wheel, *figure));
        self.length(&mut said, end, is_guess || (figures.is_empty() && may_rest(end.wheel)));
        if end.by == Limiter::BumpStop {
            for part in [" to the ", end.side(), "bump stop"] {
                said += part;
            }
        } else {
            said += ", then ";
            self.does(&mut said, end, " hits the ", is_up);
        }
        close(all, &said);
    }

    /// What comes behind what ends the way up: the same wheel's stop behind a contact, else the first contact; `is_met`
    /// where something meets at rest already.
    fn next(&self, all: &mut Vec<String>, ahead: &[End<'_>], is_met: bool) {
        let first = &ahead[0];
        let (hits, stops) = (contact(first.by), first.by == Limiter::BumpStop);
        let is_stop = |limit: &&Limit| limit.by == Limiter::BumpStop && limit.travel_mm > first.travel_mm;
        let stop = || {
            let Limit { travel_mm, by } = *first.wheel.left.bump_limits.iter().find(is_stop)?;
            Some(End { travel_mm, by, ..*first })
        };
        let next = if hits { stop() } else { ahead.iter().skip(1).find(|end| contact(end.by)).copied() };
        let mut said = String::new();
        if let Some(next) = next {
            if hits {
                said += "the bump stop comes only";
            } else {
                self.does(&mut said, &next, if stops { " hits the " } else { " would hit the " }, true);
            }
            said += " at ";
            self.length(&mut said, &next, self.is_guess(&next));
            said += if stops { ", before the stop is solid" } else { "" };
        } else if !hits {
            let rests = |wheel: &Wheel<'_>| {
                wheel.found.found.iter().any(|found| self.rests(wheel, Figure::meets_at(found.pair)))
            };
            said += if self.wheels.iter().any(rests) { "~ " } else { "" };
            said += if is_met { "Nothing else" } else { "Nothing" };
            said += " looked at hits before the bump stop is solid";
        }
        close(all, &said);
    }

    /// What ends the travel, as something that happens, and how the wheel is steered where it does.
    #[inline(never)]
    fn does(&self, said: &mut String, end: &End<'_>, hits: &str, is_up: bool) {
        let Limiter::Contact(pair) = end.by else {
            let before = match end.by {
                Limiter::BumpStop => "it stands on its ",
                Limiter::DroopStop => "it hangs on its ",
                _ => "the ",
            };
            for part in [before, end.side(), part_ends(end.by).unwrap_or_default()] {
                *said += part;
            }
            return;
        };
        let [moves, met] = pair.things();
        for part in ["the ", end.side(), moves, hits, met] {
            *said += part;
        }
        let found = end.wheel.found.of_pair(pair);
        let spot = found.and_then(|found| if is_up { found.meets_in_bump } else { found.meets_in_droop });
        // A right corner is mirrored, and so is its heading.
        let sign = end.wheel.rest.side().sign();
        let degrees = spot.map_or(0.0, |spot| (sign * spot.heading_rad).to_degrees());
        if pair.varies_with() == VariesWith::TravelAndSteer && degrees.abs() >= 0.5 {
            *said += if self.is_guess(end) { " with the wheel turned ~ " } else { " with the wheel turned " };
            *said += &fixed(degrees.abs(), 0);
            *said += if degrees > 0.0 { "° left" } else { "° right" };
        }
    }

    /// Whether where one thing ends the travel rests on a guess.
    #[inline(never)]
    fn is_guess(&self, end: &End<'_>) -> bool {
        let figure = match end.by {
            Limiter::Contact(pair) => Figure::meets_at(pair),
            Limiter::BumpStop => Figure::BUMP_TOUCH,
            _ => return may_rest(end.wheel),
        };
        self.rests(end.wheel, figure)
    }

    #[inline(never)]
    fn rests(&self, wheel: &Wheel<'_>, figure: Figure) -> bool {
        !(self.rests_on)(wheel.rest, figure).is_empty()
    }

    #[inline(never)]
    fn length(&self, said: &mut String, end: &End<'_>, is_guess: bool) {
        *said += if is_guess { "~ " } else { "" };
        *said += &print_length(end.travel_mm, tape(self.units));
    }
}

/// Whether what has no figure of its own may rest on a guess: rather one mark too many.
#[inline(never)]
fn may_rest(wheel: &Wheel<'_>) -> bool {
    !Figure::BUMP.of_side_may_rest_on(wheel.rest).is_empty()
}

/// What is not named behind the first of its sort.
#[derive(Default)]
struct Others {
    number: u8,
    is_guess: bool,
}

impl Others {
    fn count(&mut self, is_guess: bool) {
        self.number += 1;
        self.is_guess |= is_guess;
    }

    /// Puts a sentence behind the others, where there is one, with how many more there are; whether there was one.
    fn close(&self, all: &mut Vec<String>, mut said: String) -> bool {
        if self.number > 0 {
            said += if self.is_guess { ", and ~ " } else { ", and " };
            said += &self.number.to_string();
            said += " more below";
        }
        close(all, &said);
        !said.is_empty()
    }
}

/// What a part does that ends the travel by itself; `None` where two things meet.
#[must_use]
pub const fn part_ends(by: Limiter) -> Option<&'static str> {
    Some(match by {
        Limiter::BumpStop => "bump stop",
        Limiter::DroopStop => "droop stop",
        Limiter::Shock => "shock runs out of travel",
        Limiter::CoilBind => "coil binds",
        Limiter::Joint(Arm::Lower) => "lower ball joint binds",
        Limiter::Joint(Arm::Upper) => "upper ball joint binds",
        Limiter::Contact(_) => return None,
    })
}

const fn contact(by: Limiter) -> bool {
    matches!(by, Limiter::Contact(_))
}

/// Puts a sentence behind the others, where there is one.
#[inline(never)]
fn close(all: &mut Vec<String>, said: &str) {
    if !said.is_empty() {
        all.push(capital(said) + ".");
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use study::{Found, Gap, Pair, Spot, Stance};
    use truck::{DroppedSpindle, ReadWith, Readable, Reading, Source, SpringKind, Truck, demo};

    const IN: f64 = 25.4;
    const JOINT: Limiter = Limiter::Joint(Arm::Upper);
    const FENDER: Limiter = Limiter::Contact(Pair::TireFender);
    const TIE_ROD: Limiter = Limiter::Contact(Pair::RimTieRod);
    const CALIPER: Limiter = Limiter::Contact(Pair::RimCaliper);
    const STRUT: Limiter = Limiter::Contact(Pair::TireStrutRod);

    /// What is put together by hand: how far each limit is, in, and how the wheel is steered where a pair
    /// meets, degrees to the left.
    struct Made {
        bump: Vec<(f64, Limiter)>,
        droop: Vec<(f64, Limiter)>,
        steered: f64,
        truck: Truck,
        side: Side,
        guessed: Vec<Figure>,
    }

    fn made(bump: &[(f64, Limiter)]) -> Made {
        Made {
            bump: bump.to_vec(),
            droop: vec![(3.0, Limiter::DroopStop)],
            steered: 0.0,
            truck: demo().truck,
            side: Side::Left,
            guessed: Vec::new(),
        }
    }

    impl Made {
        fn limits(of: &[(f64, Limiter)]) -> Vec<Limit> {
            of.iter().map(|(inches, by)| Limit { travel_mm: inches * IN, by: *by }).collect()
        }

        fn left(&self) -> TravelLeft {
            let (bump_limits, droop_limits) = (Self::limits(&self.bump), Self::limits(&self.droop));
            let least =
                |all: &[Limit]| *all.iter().min_by(|a, b| a.travel_mm.total_cmp(&b.travel_mm)).unwrap();
            TravelLeft {
                bump: least(&bump_limits),
                touch_mm: 0.0,
                solid_mm: 0.0,
                droop: least(&droop_limits),
                droop_stop_mm: 0.0,
                contacts: Vec::new(),
                bump_limits,
                droop_limits,
            }
        }

        fn found(&self, pair: Pair) -> Found {
            let spot = |travel_mm: f64| Spot {
                travel_mm,
                wheel_travel_mm: travel_mm,
                steer: 0.0,
                heading_rad: self.steered.to_radians(),
            };
            let at = |limits: &[(f64, Limiter)]| {
                let met = limits.iter().find(|(_, by)| *by == Limiter::Contact(pair));
                met.map(|(inches, _)| spot(inches * IN))
            };
            let nowhere = linkage::Point3::origin();
            Found {
                pair,
                at: spot(0.0),
                gap: Gap { pair, distance_mm: 1.0, on_first: nowhere, on_second: nowhere },
                meets_in_bump: at(&self.bump),
                meets_in_droop: at(&self.droop),
                map: Vec::new(),
            }
        }

        fn said_in(&self, units: Units) -> String {
            said_of(&[self], units)
        }

        fn said(&self) -> String {
            self.said_in(Units::Inches)
        }
    }

    fn said_of(made: &[&Made], units: Units) -> String {
        let mut one = Guesses::NONE;
        one.insert(study::Guess::Number(truck::Field::FenderZ));
        let rests_on = |rest: &StandingSide, figure| {
            let of = made.iter().find(|made| made.side == rest.side()).unwrap();
            if of.guessed.contains(&figure) { one } else { Guesses::NONE }
        };
        let of = |made: &&Made| {
            let rest = Stance::laid(&made.truck, &[]).unwrap().on(made.side);
            let clearances = Clearances {
                travels_mm: Vec::new(),
                steers: vec![-1.0, 0.0, 1.0],
                headings_rad: Vec::new(),
                found: Pair::ALL.iter().map(|pair| made.found(*pair)).collect(),
                unstated: Vec::new(),
            };
            (rest, clearances, made.left())
        };
        let all: Vec<_> = made.iter().map(of).collect();
        let wheels: Vec<_> = all.iter().map(|(rest, found, left)| Wheel { rest, found, left }).collect();
        WhatHits { wheels: &wheels, rests_on: &rests_on, units }.sentences().join(" ")
    }

    /// A sixteenth is 1.5875 mm: 1 9/16 in are 39.7, 2 1/16 are 52.4 and 2 9/16 are 65.1. Hand arithmetic.
    #[test]
    fn a_joint_that_binds_is_named_first_and_then_what_would_be_hit() {
        let stop = (2.5625, Limiter::BumpStop);
        let of = made(&[stop, (1.5625, JOINT), (2.0625, FENDER), (2.25, TIE_ROD)]);
        assert_eq!(
            of.said(),
            "Goes up 1 9/16 in, then the upper ball joint binds. The tire would hit the fender at 2 1/16 in."
        );
        assert_eq!(
            of.said_in(Units::Millimetres),
            "Goes up 39.7 mm, then the upper ball joint binds. The tire would hit the fender at 52.4 mm."
        );
    }

    /// By hand: a room that was read as an inch and a half is gone under a two-inch spindle, which brings the rim's joint
    /// up by its two inches; one of three inches is not. What the points say is then said of the rest alone.
    #[test]
    fn what_was_read_to_meet_is_said_first() {
        let joint = Readable::ALL.iter().copied().find(|of| of.key() == Pair::RimLowerJoint.key()).unwrap();
        let spindle = DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() };
        let plan = [truck::Change::DroppedSpindle(spindle)];
        let fender = Figure::room(Pair::TireFender).readable().unwrap();
        let said_of = |read: &[(Readable, f64)], plan: &[truck::Change]| {
            let mut truck = demo().truck;
            for (of, room_mm) in read {
                let reading = Reading::by(*of, *room_mm, ReadWith::DrillShank);
                truck.readings.set(*of, Side::Left, Some(reading)).unwrap();
            }
            let rest = Stance::laid(&truck, plan).unwrap().on(Side::Left);
            let found = Clearances::of(&rest, Clearances::LIVE);
            let left = study::travel_left_of(&rest, &found);
            let rests_on = |_: &StandingSide, _| Guesses::NONE;
            let wheels = [Wheel { rest: &rest, found: &found, left: &left }];
            WhatHits { wheels: &wheels, rests_on: &rests_on, units: Units::Inches }.sentences()
        };
        let said = |room_mm: f64, plan: &[truck::Change]| said_of(&[(joint, room_mm)], plan);
        let meet = "By what was read, these meet at ride height: rim to lower ball joint.";
        let both = said_of(&[(joint, 0.0), (fender, 0.0)], &[]);
        assert!(both[0].ends_with(", and 1 more below.") && !both[0].contains(", and ~"), "{both:?}");
        assert_eq!(said(38.1, &plan)[0], meet);
        let touches = said(0.0, &[]);
        assert_eq!(touches[0], meet);
        assert!(touches[1].starts_with("But for that it goes up "), "{touches:?}");
        assert!(!touches.iter().any(|sentence| sentence.contains("Nothing looked at")), "{touches:?}");
        for other in [said(38.1, &[]), said(76.2, &plan)] {
            assert!(other[0].starts_with("Goes up "), "{other:?}");
        }
    }

    #[test]
    fn what_is_hit_before_the_stop_ends_the_travel() {
        let stop = (2.5625, Limiter::BumpStop);
        let mut of = made(&[stop, (2.0625, FENDER)]);
        let said = "Goes up 2 1/16 in, then the tire hits the fender. The bump stop comes only at 2 9/16 in.";
        assert_eq!(of.said(), said);
        // Steered it says so; a right corner is the left's mirror.
        of.steered = 20.0;
        let steered = said.replace("fender.", "fender with the wheel turned 20° left.");
        assert_eq!(of.said(), steered);
        of.side = Side::Right;
        assert_eq!(of.said(), steered.replace("left", "right"));
        // Between the stop's first touch and the stop solid.
        let of = made(&[stop, (2.75, FENDER)]);
        let said = "Goes up 2 9/16 in to the bump stop. The tire hits the fender at 2 3/4 in, before the stop is solid.";
        assert_eq!(of.said(), said);
    }

    /// Nothing is said to be clear but what was looked at; what only hangs is not spoken of.
    #[test]
    fn where_nothing_is_hit_it_says_how_far_it_looked() {
        let stop = (2.5625, Limiter::BumpStop);
        let clear = "Nothing looked at hits before the bump stop is solid.";
        let mut of = made(&[stop]);
        assert_eq!(of.said(), ["Goes up 2 9/16 in to the bump stop. ", clear].concat());
        of.droop = vec![(3.0, Limiter::DroopStop), (2.0, Limiter::Shock)];
        assert_eq!(of.said(), ["Goes up 2 9/16 in to the bump stop. ", clear].concat());
        of.bump.push((1.0, Limiter::Shock));
        assert_eq!(of.said(), ["Goes up 1 in, then the shock runs out of travel. ", clear].concat());
        of.bump.push((0.5, Limiter::CoilBind));
        assert_eq!(of.said(), ["Goes up 1/2 in, then the coil binds. ", clear].concat());
        of.truck.shock.short_mm = None;
        of.truck.spring.kind = SpringKind::TorsionBar;
        let open = " Not stated, so not looked at: shock.";
        assert_eq!(of.said(), ["Goes up 1/2 in, then the coil binds. ", clear, open].concat());
        of.truck.joints.lower.limit_rad = None;
        assert!(of.said().ends_with("looked at: shock, lower ball joint's swing."), "{}", of.said());
    }

    #[test]
    fn what_touches_already_is_said_first_and_what_jams_a_wheel_before_the_rest() {
        let stop = (2.5625, Limiter::BumpStop);
        let mut of = made(&[stop, (0.0, FENDER), (0.0, TIE_ROD), (0.0, CALIPER)]);
        let said = "Already at ride height the rim hits the tie rod, and 2 more below. But for that it goes up \
                    2 9/16 in to the bump stop. Nothing else looked at hits before the bump stop is solid.";
        assert_eq!(of.said(), said);
        // One of those that are only counted may be a guess.
        of.guessed = vec![Figure::meets_at(Pair::TireFender)];
        assert!(of.said().contains("tie rod, and ~ 2 more below."), "{}", of.said());
        of.guessed.clear();
        // What touches at rest ends the droop too, and is said once.
        of.droop = vec![(0.0, TIE_ROD), (0.0, FENDER), (0.0, CALIPER), (3.0, Limiter::DroopStop)];
        assert_eq!(of.said(), said);
        let of = made(&[(0.0, Limiter::BumpStop)]);
        assert_eq!(of.said(), "Already at ride height it stands on its bump stop.");
    }

    #[test]
    fn what_is_hit_going_down_comes_last() {
        let mut of = made(&[(2.5625, Limiter::BumpStop)]);
        let up = of.said();
        of.droop = vec![(3.0, Limiter::DroopStop), (2.0, STRUT)];
        assert_eq!(of.said(), [&up, " Goes down 2 in, then the tire hits the strut rod."].concat());
        // Met where the shock does not let it go.
        of.droop.push((1.5, Limiter::Shock));
        assert_eq!(of.said(), up);
    }

    /// Of both wheels the worse is told, with its side where the other meets it later or not at all. A right corner
    /// is mirrored, so what is 20° to its own left is 20° to the truck's right.
    #[test]
    fn of_two_wheels_the_worse_is_told_under_its_side() {
        let stop = (2.5625, Limiter::BumpStop);
        let told = |left: &[(f64, Limiter)], right: &[(f64, Limiter)]| {
            let (left, mut right) = (made(left), made(right));
            (right.side, right.steered) = (Side::Right, 20.0);
            let said = said_of(&[&left, &right], Units::Inches);
            assert_eq!(said, said_of(&[&right, &left], Units::Inches), "whichever is looked at");
            said
        };
        assert_eq!(
            told(&[stop, (2.0625, FENDER)], &[stop, (1.5, FENDER)]),
            "Goes up 1 1/2 in, then the right tire hits the fender with the wheel turned 20° right. The bump stop \
             comes only at 2 9/16 in."
        );
        let clear = "Nothing looked at hits before the bump stop is solid.";
        assert_eq!(
            told(&[stop, (1.5, JOINT)], &[stop, (2.0, JOINT)]),
            ["Goes up 1 1/2 in, then the left upper ball joint binds. ", clear].concat()
        );
        assert_eq!(
            told(&[stop], &[(2.0, Limiter::BumpStop)]),
            ["Goes up 2 in to the right bump stop. ", clear].concat()
        );
        assert_eq!(told(&[stop], &[stop]), ["Goes up 2 9/16 in to the bump stop. ", clear].concat());
        // The stop that comes behind a contact is that of the wheel that hits.
        assert_eq!(
            told(&[(2.25, Limiter::BumpStop), (2.0, TIE_ROD)], &[(2.125, Limiter::BumpStop)]),
            "Goes up 2 in, then the left rim hits the tie rod. The bump stop comes only at 2 1/4 in."
        );
        let said = told(&[stop, (0.0, TIE_ROD)], &[stop, (0.0, FENDER)]);
        let jam = "Already at ride height the left rim hits the tie rod, and 1 more below. ";
        assert!(said.starts_with(jam), "{said}");
        // What jams is told first, whichever wheel it is.
        let said = told(&[stop, (0.0, FENDER)], &[stop, (0.0, TIE_ROD)]);
        assert!(said.starts_with("Already at ride height the right rim hits the tie rod"), "{said}");
    }

    /// The droop stop of one wheel does not keep the other from what it hits.
    #[test]
    fn a_droop_stop_of_one_wheel_does_not_hide_what_the_other_hits() {
        let going_down = |left: &[(f64, Limiter)], right: &[(f64, Limiter)]| {
            let mut sides = [left, right].map(|droop| {
                let mut of = made(&[(2.0, Limiter::BumpStop)]);
                of.droop = droop.to_vec();
                of
            });
            sides[1].side = Side::Right;
            let all = said_of(&[&sides[0], &sides[1]], Units::Inches);
            all.split_once("Goes down ").map_or_else(String::new, |(_, said)| said.to_owned())
        };
        let [short, long] = [(2.0, Limiter::DroopStop), (3.0, Limiter::DroopStop)];
        let said = going_down(&[short], &[(2.5, TIE_ROD), long]);
        assert!(said.starts_with("2 1/2 in, then the right rim hits the tie rod"), "{said}");
        // Behind its own stop nothing is hit, and what both hit at once is nobody's alone.
        assert_eq!(going_down(&[short, (2.5, TIE_ROD)], &[short, (2.5, TIE_ROD)]), "");
        let said = going_down(&[(1.0, TIE_ROD), short], &[(1.0, TIE_ROD), short]);
        assert!(said.starts_with("1 in, then the rim hits the tie rod"), "{said}");
    }

    /// What is not stated of either wheel was not looked at, and is named once.
    #[test]
    fn what_is_open_of_either_wheel_is_named_once() {
        let (left, mut right) = (made(&[(2.0, Limiter::BumpStop)]), made(&[(2.0, Limiter::BumpStop)]));
        right.side = Side::Right;
        right.truck.joints.lower.limit_rad = None;
        let said = said_of(&[&left, &right], Units::Inches);
        assert!(said.ends_with("Not stated, so not looked at: lower ball joint's swing."), "{said}");
    }

    /// By hand: a right fender whose lip hangs 12.7 mm lower is met 12.7 mm sooner, and a millimeter or so more, since a
    /// tire that tips in as it rises meets the lip farther down its shoulder; and the left is as it was.
    #[test]
    fn a_right_fender_that_hangs_lower_is_hit_first() {
        let spindle =
            [truck::Change::DroppedSpindle(DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() })];
        let mut truck = demo().truck;
        let lip_mm = truck.body.fender.lip_z_mm;
        truck.right.put(truck::Field::FenderZ, lip_mm - 12.7);
        let stance = Stance::laid(&truck, &spindle).unwrap();
        let met = |side: Side| {
            let rest = stance.on(side);
            let found = Clearances::of(&rest, Clearances::LIVE);
            let left = study::travel_left_of(&rest, &found);
            (rest, found, left)
        };
        let [left, right] = Side::ALL.map(met);
        assert_eq!(left.0.other_wheel().as_ref(), Some(&right.0));
        let bump = [&left, &right].map(|wheel| wheel.2.bump.travel_mm);
        assert!((bump[0] - bump[1] - 12.7).abs() < 1.5, "{bump:?}");
        let rests_on = |_: &StandingSide, _| Guesses::NONE;
        let wheels = [&left, &right].map(|(rest, found, left)| Wheel { rest, found, left });
        let said = WhatHits { wheels: &wheels, rests_on: &rests_on, units: Units::Millimetres }.sentences();
        let first = [
            "Goes up ",
            &print_length(bump[1], tape(Units::Millimetres)),
            ", then the right tire hits the fender",
        ]
        .concat();
        assert!(said[0].starts_with(&first), "{said:?}");
    }

    /// A guess keeps its mark, and no other number gets one.
    #[test]
    fn what_rests_on_a_guess_is_marked() {
        let limits = [(2.5625, Limiter::BumpStop), (1.5625, JOINT), (2.0625, FENDER)];
        let said = |bump: &[(f64, Limiter)], guessed: &[Figure]| {
            let mut of = made(bump);
            of.guessed = guessed.to_vec();
            of.steered = -31.0;
            of.said()
        };
        let meets = Figure::meets_at(Pair::TireFender);
        for end in [Figure::BUMP, Figure::BUMP_ENDED_BY] {
            assert_eq!(
                said(&limits, &[end]),
                "Goes up ~ 1 9/16 in, then the upper ball joint binds. The tire would hit the \
                 fender with the wheel turned 31° right at 2 1/16 in."
            );
        }
        assert_eq!(
            said(&limits, &[meets]),
            "Goes up 1 9/16 in, then the upper ball joint binds. The tire would hit the fender \
             with the wheel turned ~ 31° right at ~ 2 1/16 in."
        );
        assert_eq!(
            said(&[limits[0], limits[2]], &[Figure::BUMP_TOUCH]),
            "Goes up 2 1/16 in, then the tire hits the fender with the wheel turned 31° right. The bump stop comes only \
             at ~ 2 9/16 in."
        );
        let clear = said(&limits[..1], &[Figure::meets_at(Pair::UpperArmRail)]);
        assert!(clear.ends_with(" ~ Nothing looked at hits before the bump stop is solid."), "{clear}");
        let already = said(&[limits[0], (0.0, FENDER)], &[meets]);
        assert!(already.starts_with("Already at ride height ~ the tire hits the fender with "), "{already}");
    }

    /// What a number that is guessed may have made of it, from a truck of which it is one.
    #[test]
    fn behind_what_touches_already_a_part_is_marked_by_what_it_may_rest_on() {
        let mut of = made(&[(2.5, Limiter::BumpStop), (0.0, FENDER), (1.0, JOINT)]);
        let part = "But for that it goes up 1 in, then the upper ball joint binds.";
        assert!(of.said().contains(part), "{}", of.said());
        of.truck.sources.set(truck::Field::UpperSwing, Source::Assumed);
        assert!(of.said().contains(&part.replace("1 in", "~ 1 in")), "{}", of.said());
    }
}
