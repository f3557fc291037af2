//! Whether a verdict can be relied on: true parts at random, measured with each tool's error.
//!
//! The parts, the true answer and the errors are made here, by arithmetic that shares nothing
//! with the rules; a tool's error is uniform within what the tool is said to have.

#![expect(clippy::unwrap_used, reason = "a helper that panics fails its test")]
#![expect(clippy::disallowed_methods, reason = "a second opinion does not share libm with the first")]

use mating::{Jobs, Verdict, Work, verdict};
use proptest::prelude::*;

use truck::{
    AddedRow, Callout, CalloutSort, ChangeKind, Edit, Ledger, LedgerEdit, Mating, Part, PartId, ROWS, Row,
    RowId, Side, Tool, Whose, callouts, demo,
};
use yardstick::cases;
use yardstick::generate::Dice;

const ROW: RowId = RowId(RowId::FIRST_ADDED);

type Number = (u8, f64, Tool);

fn ledger(kind: Mating, vital: bool, numbers: &[(Number, Whose)]) -> Ledger {
    let added = AddedRow { name: String::new(), kind, parts: [PartId(0), PartId(1)], vital };
    let begun = Ledger::EMPTY.edited(&LedgerEdit::Row(ROW, added)).unwrap();
    numbers.iter().fold(begun, |ledger, ((callout, value, tool), whose)| {
        let edit =
            LedgerEdit::Write { row: ROW, callout: *callout, value: *value, tool: *tool, whose: *whose };
        ledger.edited(&edit).unwrap_or(ledger)
    })
}

fn told(ledger: &Ledger) -> Verdict {
    verdict(ledger, &ledger.row(ROW).unwrap()).verdict
}

fn own(kind: Mating, vital: bool, numbers: &[Number]) -> Verdict {
    told(&ledger(kind, vital, &numbers.iter().map(|number| (*number, Whose::Own)).collect::<Vec<_>>()))
}

fn says_yes(verdict: &Verdict) -> bool {
    matches!(verdict, Verdict::Mates | Verdict::WithWork(_))
}

/// What a tool reads of a true size. Rust lies on the metal: an outside reads large by it and an
/// inside small, and a distance either way.
fn read(dice: &mut Dice, kind: Mating, callout: u8, value: f64, tool: Tool) -> Number {
    let sort = kind.callouts()[usize::from(callout)].sort;
    let of = |dice: &mut Dice, half: f64| dice.between(-half, half);
    let error = match tool {
        Tool::Tape => of(dice, 1.6),
        Tool::Caliper => of(dice, 0.05),
        Tool::CaliperOnRust => {
            let rust = dice.between(0.0, 0.2);
            let side = match sort {
                CalloutSort::Outside => 1.0,
                CalloutSort::Inside => -1.0,
                _ => of(dice, 1.0),
            };
            rust * side + of(dice, 0.05)
        }
        Tool::Micrometer => of(dice, 0.01),
        Tool::Pin => of(dice, 0.1),
        _ => 0.0,
    };
    (callout, value + error, tool)
}

/// A true pair of a kind: its sizes, what else is said of it, and by how much it has room or
/// lacks it, mm.
struct Pair {
    sizes: Vec<(u8, f64)>,
    said: Vec<Number>,
    room: f64,
}

/// A difference of room around nothing, near enough for the tools to matter.
fn around(dice: &mut Dice, reach: f64) -> f64 {
    dice.between(-reach, reach)
}

fn bolt_in_hole(dice: &mut Dice, reach: f64) -> Pair {
    use callouts::bolt_in_hole::{HOLE, HOLE_SQUARE, SHANK};
    // A bolt of M12 in a hole of 12 to 13.5 mm.
    let room = around(dice, reach);
    let loose = dice.roll() < 0.5;
    let hole = if loose { 13.5 - room } else { 12.0 + room };
    let sizes = vec![(SHANK, 12.0), (HOLE, hole), (HOLE_SQUARE, hole)];
    Pair { sizes, said: vec![], room }
}

fn two_holes(dice: &mut Dice, reach: f64) -> Pair {
    use callouts::hole_pattern::{
        BOLT, COUNT, FIRST_HOLE_1, FIRST_HOLE_2, FIRST_OVER_12, HELD, SECOND_HOLE_1, SECOND_HOLE_2,
        SECOND_OVER_12,
    };
    let holes: [f64; 4] = std::array::from_fn(|_| 12.0 + dice.between(0.5, 1.3));
    let room = around(dice, reach);
    let clearances: f64 = holes.iter().map(|hole| hole - 12.0).sum();
    let off = clearances / 2.0 - room;
    let spacing = dice.between(60.0, 120.0);
    let sizes = vec![
        (FIRST_OVER_12, spacing + (holes[0] + holes[1]) / 2.0),
        (FIRST_HOLE_1, holes[0]),
        (FIRST_HOLE_2, holes[1]),
        (SECOND_OVER_12, spacing + off + (holes[2] + holes[3]) / 2.0),
        (SECOND_HOLE_1, holes[2]),
        (SECOND_HOLE_2, holes[3]),
        (BOLT, 12.0),
    ];
    Pair { sizes, said: vec![(COUNT, 2.0, Tool::Counted), (HELD, 0.0, Tool::Counted)], room }
}

/// Three holes on equal sides that differ by what their clearances allow: √3 times the radial one.
fn triangle(dice: &mut Dice, reach: f64) -> Pair {
    use callouts::hole_pattern::{
        BOLT, COUNT, FIRST_HOLE_1, FIRST_OVER_12, HELD, SECOND_HOLE_1, SECOND_OVER_12,
    };
    let clearance = dice.between(0.5, 1.3);
    let room = around(dice, reach);
    let side = dice.between(60.0, 120.0);
    let other = side + (clearance - room) * 3.0_f64.sqrt();
    let hole = 12.0 + clearance;
    let mut sizes = vec![(BOLT, 12.0)];
    for (over, across, side) in [(FIRST_OVER_12, FIRST_HOLE_1, side), (SECOND_OVER_12, SECOND_HOLE_1, other)]
    {
        sizes.extend((0..3).map(|at| (over + at, side + hole)));
        sizes.extend((0..3).map(|at| (across + at, hole)));
    }
    Pair { sizes, said: vec![(COUNT, 3.0, Tool::Counted), (HELD, 0.0, Tool::Counted)], room }
}

fn new_hole(dice: &mut Dice, reach: f64) -> Pair {
    use callouts::new_hole::{BOLT, EDGE, HOLE, OLD, OLD_ACROSS, PLACE};
    // M10: 15 mm to the edge, 26.67 mm to the old hole, 10 mm of metal between.
    let room = around(dice, reach);
    let at_edge = dice.roll() < 0.5;
    let edge = if at_edge { 15.0 + room } else { 30.0 };
    let old = if at_edge { 60.0 } else { 10.0 * 8.0 / 3.0 + room };
    let sizes = vec![(BOLT, 10.0), (HOLE, 11.0), (EDGE, edge), (OLD, old), (OLD_ACROSS, 11.0)];
    Pair { sizes, said: vec![(PLACE, 1.0, Tool::Counted)], room }
}

fn sleeve(dice: &mut Dice, reach: f64) -> Pair {
    use callouts::crush_sleeve::{BOLT, BORE, GRADE, LENGTH, OUTSIDE, WIDTH, YIELD};
    let width = dice.between(30.0, 60.0);
    // From full length down to a quarter of a millimetre less: most room in the middle.
    let short = dice.between(-reach, 0.25 + reach);
    let sizes = vec![(WIDTH, width), (LENGTH, width - short), (OUTSIDE, 26.0), (BORE, 12.6), (BOLT, 12.0)];
    let said = vec![(GRADE, 2.0, Tool::Stamped), (YIELD, 250.0, Tool::Stamped)];
    Pair { sizes, said, room: short.min(0.25 - short) }
}

fn press(dice: &mut Dice, reach: f64) -> Pair {
    use callouts::press_fit::{BORE, EYE, OUTSIDE, STATE};
    let room = around(dice, reach.min(0.05));
    let bore = dice.between(30.0, 60.0);
    let sizes = vec![(OUTSIDE, bore + room), (BORE, bore)];
    Pair { sizes, said: vec![(STATE, 1.0, Tool::Counted), (EYE, 0.0, Tool::Counted)], room }
}

fn hub(dice: &mut Dice, reach: f64) -> Pair {
    use callouts::running_fit::{HOME, INNER, NUT, OUTER, PIN, RACES, SEAL, SHOULDERS, THREAD};
    let room = around(dice, reach.min(0.5));
    let way = if dice.roll() < 0.5 { -1.0 } else { 1.0 };
    let sizes = vec![(RACES, 60.0 + way * (0.5 - room)), (SHOULDERS, 60.0)];
    let said = [INNER, OUTER, SEAL, THREAD].map(|callout| (callout, 1.0, Tool::Stamped)).to_vec();
    let seen = [(HOME, 1.0, Tool::Counted), (PIN, 1.0, Tool::Counted), (NUT, 1.0, Tool::TriedOn)];
    Pair { sizes, said: [said, seen.to_vec()].concat(), room }
}

fn spline(dice: &mut Dice, reach: f64) -> Pair {
    use callouts::spline::{BLIND, BLIND_SOCKET, ENGAGED, OVER, ROCK, TEETH, TEETH_SOCKET, VALLEYS};
    let pitch = 25.4 / 32.0;
    let gap = dice.between(0.3 * pitch - reach, 0.9 * pitch + reach);
    let sizes = vec![(OVER, 37.0 * pitch), (VALLEYS, 37.0 * pitch + gap)];
    let mut said = vec![(TEETH, 36.0, Tool::Counted), (TEETH_SOCKET, 36.0, Tool::Counted)];
    said.extend([BLIND, BLIND_SOCKET, ENGAGED].map(|callout| (callout, 1.0, Tool::Counted)));
    said.push((ROCK, 1.0, Tool::TriedOn));
    Pair { sizes, said, room: (gap - 0.3 * pitch).min(0.9 * pitch - gap) }
}

/// The same by the bar that came out of the socket: a fifth of a pitch either way.
fn old_bar(dice: &mut Dice, reach: f64) -> Pair {
    use callouts::spline::{OLD_BAR, OVER};
    let pitch = 25.4 / 32.0;
    let off = dice.between(-0.2 * pitch - reach, 0.2 * pitch + reach);
    let said = spline(dice, reach).said;
    let sizes = vec![(OVER, 37.0 * pitch), (OLD_BAR, 37.0 * pitch + off)];
    Pair { sizes, said, room: 0.2 * pitch - off.abs() }
}

fn thread(dice: &mut Dice, reach: f64) -> Pair {
    use callouts::thread::{ENGAGED, GRIP, NUT, OVER, OVER_OLD, PITCH, PITCH_NUT, PLAIN, SHOWING};
    let room = around(dice, reach);
    // Too little of it in the nut, or a nut that comes up against the shank.
    let (engaged, plain) = if dice.roll() < 0.5 { (11.9 + room, 20.0) } else { (16.0, 30.0 - room) };
    let sizes = vec![(OVER, 11.9), (OVER_OLD, 11.9), (ENGAGED, engaged), (GRIP, 30.0), (PLAIN, plain)];
    let said = vec![
        (PITCH, 1.75, Tool::ThreadGauge),
        (PITCH_NUT, 1.75, Tool::ThreadGauge),
        (SHOWING, 3.0, Tool::Counted),
        (NUT, 1.0, Tool::Counted),
    ];
    Pair { sizes, said, room }
}

fn circle(dice: &mut Dice, reach: f64) -> Pair {
    use callouts::circle::{
        ADJACENT, ADJACENT_STUDS, BORE, CENTRED, HOLE, HOLES, SEAT, SPIGOT, STUD, STUDS, THREAD,
    };
    let room = around(dice, reach);
    // Two neighbours of five are 0.5878 of the circle apart.
    let share = (std::f64::consts::PI / 5.0).sin();
    let circle = dice.between(100.0, 140.0);
    let sizes = vec![
        (ADJACENT, (circle + 1.0 - room) * share),
        (ADJACENT_STUDS, circle * share),
        (HOLE, 13.0),
        (STUD, 12.0),
        (BORE, 72.0),
        (SPIGOT, 66.0),
    ];
    let mut said = vec![(HOLES, 5.0, Tool::Counted), (STUDS, 5.0, Tool::Counted)];
    said.extend([(CENTRED, 1.0, Tool::Counted), (SEAT, 1.0, Tool::Counted), (THREAD, 1.0, Tool::Stamped)]);
    Pair { sizes, said, room }
}

fn rotor(dice: &mut Dice, reach: f64) -> Pair {
    use callouts::rotor_in_caliper::{BRIDGE, OPENING, PLANE, REACH_LEAST, REACH_MOST, THICKNESS};
    let room = around(dice, reach);
    let sizes = vec![
        (PLANE, 30.0 + room),
        (REACH_LEAST, 30.0),
        (REACH_MOST, 45.0),
        (THICKNESS, 22.0),
        (OPENING, 26.0),
        (BRIDGE, 5.0),
    ];
    Pair { sizes, said: vec![], room }
}

fn width(dice: &mut Dice, reach: f64) -> Pair {
    use callouts::width::{INSIDE, MOVES, OUTSIDE};
    let room = around(dice, reach);
    let swings = dice.roll() < 0.5;
    let outside = dice.between(30.0, 90.0);
    let inside = outside + room + if swings { 6.35 } else { 0.0 };
    let moves = if swings { 2.0 } else { 1.0 };
    Pair {
        sizes: vec![(INSIDE, inside), (OUTSIDE, outside)],
        said: vec![(MOVES, moves, Tool::Counted)],
        room,
    }
}

fn hose(dice: &mut Dice, reach: f64) -> Pair {
    use callouts::hose::{ENDS, FREE, PATH_DROOP, PATH_LOCK};
    let room = around(dice, 5.0 * reach);
    let path = dice.between(300.0, 450.0);
    let sizes = vec![(FREE, 1.1 * path + room), (PATH_DROOP, path - 40.0), (PATH_LOCK, path)];
    Pair { sizes, said: vec![(ENDS, 1.0, Tool::Counted)], room }
}

/// Four holes at the corners of a rectangle, and four of one that is larger all round: by symmetry the best place is
/// with its middle over the other's, where each hole is off by what half of the diagonal grew.
fn four_holes(dice: &mut Dice, reach: f64) -> Pair {
    use callouts::hole_pattern::{
        BOLT, COUNT, FIRST_HOLE_1, FIRST_OVER_12, HELD, SECOND_HOLE_1, SECOND_OVER_12,
    };
    let clearance = dice.between(0.5, 1.3);
    let room = around(dice, reach);
    let (wide, high) = (dice.between(60.0, 120.0), dice.between(40.0, 80.0));
    let diagonal = wide.hypot(high);
    let larger = (diagonal + 2.0 * (clearance - room)) / diagonal;
    let hole = 12.0 + clearance;
    let mut sizes = vec![(BOLT, 12.0)];
    for (over, across, by) in [(FIRST_OVER_12, FIRST_HOLE_1, 1.0), (SECOND_OVER_12, SECOND_HOLE_1, larger)] {
        // 1-2, 1-3, 2-3, 1-4, 2-4, 3-4, round the rectangle.
        let apart = [wide, diagonal, high, high, diagonal, wide];
        sizes.extend((over..).zip(apart).map(|(at, apart)| (at, apart * by + hole)));
        sizes.extend((0..4).map(|at| (across + at, hole)));
    }
    Pair { sizes, said: vec![(COUNT, 4.0, Tool::Counted), (HELD, 0.0, Tool::Counted)], room }
}

/// A rotor that its pilot centers: from no clearance to 0.3 mm.
fn pilot(dice: &mut Dice, reach: f64) -> Pair {
    use callouts::circle::{BORE, CENTRED, SPIGOT};
    let clearance = dice.between(-reach.min(0.5), 0.3 + reach.min(0.5));
    let Pair { mut sizes, mut said, .. } = circle(dice, 0.0);
    sizes.retain(|(callout, _)| *callout != BORE && *callout != SPIGOT);
    said.retain(|(callout, ..)| *callout != CENTRED);
    // The holes leave a circle that is a millimetre off no room: here it is half that.
    sizes[0].1 -= 0.5 * (std::f64::consts::PI / 5.0).sin();
    sizes.extend([(SPIGOT, 66.0), (BORE, 66.0 + clearance)]);
    said.push((CENTRED, 0.0, Tool::Counted));
    Pair { sizes, said, room: clearance.min(0.3 - clearance) }
}

/// What a film of marking blue shows of two tapers, mm over the length that is measured, from memory.
const FILM_MM: f64 = 0.02;

/// A taper of 1:8 whose seat narrows otherwise. Blue shows it, but one look in a hundred is wrong.
fn taper(dice: &mut Dice, reach: f64) -> Pair {
    use callouts::taper_seat::{
        BLUE, NUT, PIN, ROCK, SEAT_ALONG, SEAT_LARGE, SEAT_SMALL, STUD_ALONG, STUD_LARGE, STUD_SMALL,
    };
    let parts = around(dice, reach.min(0.6) + FILM_MM);
    let room = FILM_MM - parts.abs();
    let narrows = 11.0 / 8.0;
    let sizes = vec![
        (STUD_LARGE, 18.0),
        (STUD_ALONG, 11.0),
        (STUD_SMALL, 18.0 - narrows),
        (SEAT_LARGE, 18.0),
        (SEAT_ALONG, 11.0),
        (SEAT_SMALL, 18.0 - narrows - parts),
    ];
    let is_seen = room >= 0.0 || dice.roll() < 0.01;
    let mut said = vec![(ROCK, 1.0, Tool::TriedOn), (BLUE, f64::from(is_seen), Tool::MarkingBlue)];
    said.extend([NUT, PIN].map(|callout| (callout, 1.0, Tool::Counted)));
    Pair { sizes, said, room }
}

type Maker = fn(&mut Dice, f64) -> Pair;

const KINDS: [(Mating, Maker); 17] = [
    (Mating::BoltInHole, bolt_in_hole),
    (Mating::HolePattern, two_holes),
    (Mating::HolePattern, triangle),
    (Mating::NewHole, new_hole),
    (Mating::CrushSleeve, sleeve),
    (Mating::PressFit, press),
    (Mating::RunningFit, hub),
    (Mating::Spline, spline),
    (Mating::Thread, thread),
    (Mating::Circle, circle),
    (Mating::RotorInCaliper, rotor),
    (Mating::Width, width),
    (Mating::Hose, hose),
    (Mating::Spline, old_bar),
    (Mating::HolePattern, four_holes),
    (Mating::Circle, pilot),
    (Mating::TaperSeat, taper),
];
/// The place of what its pilot centers.
const PILOT: usize = 15;

fn measured(dice: &mut Dice, kind: Mating, pair: &Pair, tool: Tool) -> Verdict {
    let allowed = |callout: u8| kind.callouts()[usize::from(callout)].sort.tools().contains(&tool);
    let sizes = pair.sizes.iter().map(|(callout, value)| {
        let tool = if allowed(*callout) { tool } else { Tool::Caliper };
        read(dice, kind, *callout, *value, tool)
    });
    let numbers: Vec<Number> = sizes.chain(pair.said.iter().copied()).collect();
    // A new hole is work or nothing.
    own(kind, kind != Mating::NewHole, &numbers)
}

/// Of pairs that truly do not mate, at most one in forty is passed, whatever the tool.
#[test]
fn a_false_yes_is_rare_for_every_kind_and_tool() {
    for (place, (kind, maker)) in KINDS.into_iter().enumerate() {
        for (tool, reach) in
            [(Tool::Tape, 4.0), (Tool::CaliperOnRust, 0.5), (Tool::Caliper, 0.15), (Tool::Micrometer, 0.03)]
        {
            let mut dice = Dice::of(700 + u64::try_from(place).unwrap());
            let (mut false_pairs, mut passed) = (0_u32, 0_u32);
            while false_pairs < 400 {
                let pair = maker(&mut dice, reach);
                if pair.room < 0.0 {
                    false_pairs += 1;
                    passed += u32::from(says_yes(&measured(&mut dice, kind, &pair, tool)));
                }
            }
            assert!(passed * 40 <= false_pairs, "{kind:?} {tool:?}: {passed} of {false_pairs}");
        }
    }
}

/// What is measured of true parts is not asked about.
#[test]
fn no_true_size_is_beyond_the_rule() {
    for (place, (kind, maker)) in KINDS.into_iter().enumerate() {
        let mut dice = Dice::of(1500 + u64::try_from(place).unwrap());
        for (callout, mm) in (0..200).flat_map(|_| maker(&mut dice, 1.0).sizes) {
            let (least, most) = kind.rule_mm(callout).unwrap();
            assert!(least <= mm && mm <= most, "{kind:?} {callout}: {mm}");
        }
    }
}

/// Of pairs that miss by next to nothing, where the tools have most to say, as few.
#[test]
fn a_false_yes_is_rare_at_the_very_edge() {
    for (place, (kind, maker)) in KINDS.into_iter().enumerate() {
        let mut dice = Dice::of(900 + u64::try_from(place).unwrap());
        let (mut edge_pairs, mut passed) = (0_u32, 0_u32);
        while edge_pairs < 400 {
            let pair = maker(&mut dice, 0.02);
            if pair.room < 0.0 && pair.room > -0.02 {
                edge_pairs += 1;
                let tool = if kind == Mating::PressFit { Tool::Micrometer } else { Tool::Caliper };
                passed += u32::from(says_yes(&measured(&mut dice, kind, &pair, tool)));
            }
        }
        // A chance of one in forty gives 10 of 400, and over 20 once in a thousand times.
        assert!(passed <= 20, "{kind:?}: {passed} of {edge_pairs}");
    }
}

/// A ledger that never says yes is none: what has room is passed with the right tool.
#[test]
fn what_truly_mates_is_passed_with_the_right_tool() {
    for (place, (kind, maker)) in KINDS.into_iter().enumerate() {
        // By tool: what it takes for a caliper, and a hundredth more for a press fit.
        let (tool, least) = match kind {
            Mating::PressFit => (Tool::Micrometer, 0.035),
            Mating::TaperSeat => (Tool::Micrometer, 0.0),
            Mating::Circle if place == PILOT => (Tool::Micrometer, 0.03),
            Mating::CrushSleeve => (Tool::Micrometer, 0.06),
            Mating::Spline => (Tool::Caliper, 0.145),
            Mating::Hose => (Tool::Tape, 4.5),
            _ => (Tool::Caliper, 0.25),
        };
        let mut dice = Dice::of(1100 + u64::try_from(place).unwrap());
        let (mut true_pairs, mut passed) = (0, 0);
        while true_pairs < 100 {
            let pair = maker(&mut dice, 1.0);
            if pair.room >= least {
                true_pairs += 1;
                let verdict = measured(&mut dice, kind, &pair, tool);
                passed += i32::from(says_yes(&verdict));
                assert!(!matches!(verdict, Verdict::DoesNot(_)), "{kind:?}: {verdict:?}");
            }
        }
        assert!(passed >= 90, "{kind:?}: {passed} of {true_pairs}");
    }
}

/// And of pairs that miss by more than the tools leave open, most are refused.
#[test]
fn what_truly_misses_is_refused() {
    for (place, (kind, maker)) in KINDS.into_iter().enumerate() {
        let least = match kind {
            Mating::Hose => 1.0,
            // By the socket alone nearly half a pitch more, for which another bar is asked first.
            Mating::Spline => 0.61,
            _ => 0.25,
        };
        let tool = if kind == Mating::PressFit { Tool::Micrometer } else { Tool::Caliper };
        let mut dice = Dice::of(1300 + u64::try_from(place).unwrap());
        let (mut pairs, mut refused) = (0, 0);
        while pairs < 60 {
            let pair = maker(&mut dice, 1.0);
            if pair.room < if kind == Mating::PressFit { -0.04 } else { -least } {
                pairs += 1;
                refused += i32::from(matches!(measured(&mut dice, kind, &pair, tool), Verdict::DoesNot(_)));
            }
        }
        assert!(refused >= 57, "{kind:?}: {refused} of {pairs}");
    }
}

/// A dropped spindle is one case of it, so it is unbolted and bolted on alike.
#[test]
fn another_knuckle_is_put_on_as_a_spindle_is() {
    let only = |kind: ChangeKind| {
        let edits = [Edit::OwnTruck, Edit::AddProposal(String::new())];
        let truck = edits.iter().fold(demo(), |design, edit| design.edited(edit).unwrap());
        let id = truck.proposals[0].id;
        let design = truck.edited(&Edit::Set(id, kind.first(None, &truck.truck).unwrap())).unwrap();
        Jobs::of(&design, id)
    };
    let knuckle = only(ChangeKind::KnuckleSwap);
    assert_eq!(knuckle, only(ChangeKind::DroppedSpindle));
    assert_ne!(knuckle, only(ChangeKind::Shims));
}

/// Left and right donor parts, and a bar that was set for the other side.
#[test]
fn a_left_part_and_a_right_one_do_not_go_together() {
    let bar = RowId::of_usual("bar_in_bracket").unwrap();
    let parts = bar.usual().unwrap().parts;
    let said = |part, side| LedgerEdit::Part(PartId(part), Part { side: Some(side), ..Part::default() });
    let verdict_of = |one, other| {
        let ledger =
            Ledger::EMPTY.edited(&said(parts[0], one)).unwrap().edited(&said(parts[1], other)).unwrap();
        verdict(&ledger, &ledger.row(bar).unwrap()).verdict
    };
    assert!(matches!(verdict_of(Side::Left, Side::Right), Verdict::DoesNot(_)));
    assert!(matches!(verdict_of(Side::Right, Side::Right), Verdict::NotAsked { .. }));
}

/// Handed parts reach through what has no side of its own: a right bar does not go into a bracket that goes on
/// the left arm, nor that bracket, with the bar in it, on that arm. What only hangs on the bar, and what is on the frame
/// that both sides share, is asked as before.
#[test]
fn a_right_bar_does_not_go_to_a_left_arm() {
    let part = |key: &str| {
        let at = truck::PARTS.iter().position(|(other, _)| *other == key).unwrap();
        PartId(u8::try_from(at).unwrap())
    };
    let of = |said: &[(&str, Side)]| {
        said.iter().fold(Ledger::EMPTY, |ledger, (key, side)| {
            let said = Part { side: Some(*side), ..Part::default() };
            ledger.edited(&LedgerEdit::Part(part(key), said)).unwrap()
        })
    };
    let refused = |ledger: &Ledger| -> Vec<&str> {
        let no = |row: &usize| {
            let row = ledger.row(RowId(u8::try_from(*row).unwrap())).unwrap();
            matches!(verdict(ledger, &row).verdict, Verdict::DoesNot(_))
        };
        (0..ROWS.len()).filter(no).map(|row| ROWS[row].key()).collect()
    };
    let across = refused(&of(&[("bar", Side::Right), ("lower_arm", Side::Left)]));
    for row in ["bar_in_bracket", "bracket_on_arm", "bracket_new_hole"] {
        assert!(across.contains(&row), "{across:?}");
    }
    for row in ["bar_in_anchor", "adjuster_bolt", "upper_shaft", "hose", "strut_on_arm"] {
        assert!(!across.contains(&row), "{row}");
    }
    // A knuckle on the other side's joint is reached by the joint.
    let knuckle = refused(&of(&[("knuckle", Side::Left), ("lower_arm", Side::Right)]));
    assert!(knuckle.contains(&"lower_stud") && knuckle.contains(&"lock_stops"), "{knuckle:?}");
    assert!(refused(&of(&[("bar", Side::Left), ("lower_arm", Side::Left)])).is_empty());
    assert!(refused(&of(&[("bar", Side::Right)])).is_empty());
}

/// Any numbers at all in a row of any kind.
fn any_numbers() -> impl Strategy<Value = (Mating, bool, Vec<(Number, Whose)>)> {
    let kind = proptest::sample::select(Mating::ALL);
    (kind, any::<bool>(), any::<u64>()).prop_map(|(kind, vital, seed)| {
        let mut dice = Dice::of(seed);
        let mut numbers = Vec::new();
        let scale = dice.between(8.0, 120.0);
        for (at, callout) in kind.callouts().iter().enumerate() {
            if dice.roll() < 0.93 {
                numbers.push((number(&mut dice, at, callout, scale), whose(&mut dice)));
            }
        }
        (kind, vital, numbers)
    })
}

fn number(dice: &mut Dice, at: usize, callout: &Callout, scale: f64) -> Number {
    let (low, high) = callout.limits();
    let tools = callout.sort.tools();
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a place in a short list")]
    let tool = tools[(dice.roll() * 6.0) as usize % tools.len()];
    let value = match callout.sort {
        sort if sort.is_size() && dice.roll() < 0.9 => scale * dice.between(0.9, 1.1),
        CalloutSort::Count => 2.0 + (dice.roll() * 4.0).floor(),
        CalloutSort::Seen | CalloutSort::Stamped | CalloutSort::Blue | CalloutSort::Tried => {
            if dice.roll() < 0.8 { high } else { low }
        }
        _ => dice.between(low, high),
    };
    (u8::try_from(at).unwrap(), value, tool)
}

fn whose(dice: &mut Dice) -> Whose {
    if dice.roll() < 0.95 { Whose::Own } else { Whose::ALL[1 + usize::from(dice.roll() < 0.5)] }
}

proptest! {
    #![proptest_config(cases(1500))]

    /// No row with a guessed, a stranger's or a missing number, and no vital row, says *with
    /// work*, and only what is one's own mates.
    #[test]
    fn work_and_yes_rest_on_ones_own_numbers((kind, vital, numbers) in any_numbers()) {
        let ledger = ledger(kind, vital, &numbers);
        let row: Row = ledger.row(ROW).unwrap();
        let answer = verdict(&ledger, &row);
        let own = row.entries().iter().all(|(_, entry)| entry.whose == Whose::Own);
        if matches!(answer.verdict, Verdict::WithWork(_)) {
            prop_assert!(own && !vital && answer.missing.is_empty());
        }
        if matches!(answer.verdict, Verdict::Mates) {
            prop_assert!(own && answer.missing.is_empty());
        }
        let came = ledger.came_by_link();
        if !row.entries().is_empty() {
            prop_assert!(!says_yes(&told(&came)));
        }
    }

    /// A worse tool for one number never turns *does not* or *too near* into a yes.
    #[test]
    fn a_worse_tool_makes_no_yes((kind, vital, mut numbers) in any_numbers(), pick in any::<prop::sample::Index>()) {
        numbers.iter_mut().for_each(|number| number.1 = Whose::Own);
        prop_assume!(!numbers.is_empty());
        let at = pick.index(numbers.len());
        let ((callout, _, tool), _) = &mut numbers[at];
        let sort = kind.callouts()[usize::from(*callout)].sort;
        prop_assume!(sort.is_size());
        let spread = tool.spread_mm(sort);
        for worse in sort.tools() {
            let (below, above) = worse.spread_mm(sort);
            if below >= spread.0 && above >= spread.1 {
                // Rounded as the better tool keeps it, so that only the tool is another.
                numbers[at].0.1 = (numbers[at].0.1 * 100.0).round() / 100.0;
                let better = told(&ledger(kind, vital, &numbers));
                let mut with = numbers.clone();
                with[at].0.2 = *worse;
                if !says_yes(&better) {
                    let after = told(&ledger(kind, vital, &with));
                    prop_assert!(!says_yes(&after), "{:?}: {better:?}, then {after:?}", with[at]);
                }
            }
        }
    }

    /// Calipers alone pass no taper, no press fit and no bearing.
    #[test]
    fn calipers_alone_pass_nothing_that_is_not_theirs(
        (_, vital, _) in any_numbers(), seed in any::<u64>(),
        kind in proptest::sample::select(vec![Mating::TaperSeat, Mating::PressFit, Mating::RunningFit]),
    ) {
        let mut dice = Dice::of(seed);
        let scale = dice.between(15.0, 60.0);
        let numbers: Vec<Number> = kind.callouts().iter().enumerate().filter_map(|(at, callout)| {
            let (at, value, _) = number(&mut dice, at, callout, scale);
            let by_eye = kind == Mating::PressFit && !callout.sort.is_size();
            if by_eye { return Some((at, callout.limits().1, callout.sort.tools()[0])) }
            callout.sort.is_size().then_some((at, value, Tool::Caliper))
        }).collect();
        prop_assert!(!says_yes(&own(kind, vital, &numbers)));
    }
}

/// A wheel maker's quarter of an inch: a caliper inside the rim and a lock stop turn, whatever is said of them; an arm's
/// fork is clamped on its bushing, where three millimetres are taken up by washers.
#[test]
fn what_turns_there_is_no_matter_of_what_is_said() {
    use callouts::width::{INSIDE, MOVES, OUTSIDE};
    let told = |key: &str, inside: f64, moves: Option<f64>| {
        let row = RowId::of_usual(key).unwrap();
        let mut numbers = vec![(INSIDE, inside, Tool::Caliper), (OUTSIDE, 60.0, Tool::Caliper)];
        numbers.extend(moves.map(|moves| (MOVES, moves, Tool::Counted)));
        let ledger = numbers.into_iter().fold(Ledger::EMPTY, |ledger, (callout, value, tool)| {
            ledger.edited(&LedgerEdit::Write { row, callout, value, tool, whose: Whose::Own }).unwrap()
        });
        verdict(&ledger, &ledger.row(row).unwrap()).verdict
    };
    for key in ["caliper_in_rim", "lock_stops"] {
        for said in [None, Some(1.0)] {
            assert!(matches!(told(key, 60.3, said), Verdict::DoesNot(_)), "{key} {said:?}");
            assert_eq!(told(key, 66.6, said), Verdict::Mates, "{key} {said:?}");
        }
    }
    for key in ["lower_arm_fork", "upper_arm_on_shaft"] {
        for said in [None, Some(2.0)] {
            let Verdict::WithWork(work) = told(key, 63.0, said) else { panic!("{key}") };
            assert!(matches!(work[..], [Work::ShimWashers { mm }] if (mm - 3.0).abs() < 1e-9));
            assert_eq!(told(key, 60.2, said), Verdict::Mates, "{key} {said:?}");
        }
    }
    // A stop lands whole or not, and no washer is put beside it.
    for said in [None, Some(0.0), Some(2.0)] {
        assert_eq!(told("stop_lands", 63.0, said), Verdict::Mates, "{said:?}");
        assert!(matches!(told("stop_lands", 59.5, said), Verdict::DoesNot(_)), "{said:?}");
    }
    assert!(matches!(told("shock", 60.3, None), Verdict::NotAsked { .. }));
}
