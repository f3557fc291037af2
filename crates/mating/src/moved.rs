//! What a row does to the sketch, offered as an edit marked a guess: how the old part sat nobody has measured.

use super::numbers::{MOST_CALLOUTS, Numbers};
use super::{Verdict, verdict};
use truck::callouts::hole_pattern::{
    FIRST_HOLE_1, FIRST_HOLE_2, FIRST_OVER_12, REACH, REACH_OLD, SQUARE, TURNS,
};
use truck::callouts::taper_seat::{POINTS, SEAT_LARGE, STUD_ALONG, STUD_LARGE, STUD_SMALL};
use truck::callouts::{circle, press_fit, running_fit, width};
use truck::{
    Change, ChangeKind, Design, Edit, KnuckleSwap, Ledger, Mating, Place, RowId, SpringKind, StrutRodChange,
    Truck, Which,
};

/// Where a change stands in a proposal.
type Slot = (ChangeKind, Option<Place>);

/// What a row can move on the sketch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Moves {
    /// The upper ball along its stud, by a stud that sits deeper.
    UpperBall,
    /// The lower ball along its stud.
    LowerBall,
    /// The tie rod's outer end along its stud, up or down as that points.
    TieEnd,
    /// The wheel out, by another hub's flange.
    Flange,
    /// The wheel out, by another rotor's hat.
    Hat,
    /// The length of the strut rod.
    Rod,
    /// The bar's end at the arm, by a bracket that is bolted on askew.
    Bar,
    /// The lower arm along its pivot's bolt, by where its fork stands on the bushing.
    LowerAlong,
    /// The upper arm along its shaft.
    UpperAlong,
    /// The lower arm's pivot in or out, by a bushing whose hole is not in its middle.
    PivotOut,
    /// The lower arm's pivot up or down, by such a bushing.
    PivotUp,
}

/// The rows that can.
const ROWS: [(RowId, Moves); 11] = [
    (RowId::UPPER_STUD, Moves::UpperBall),
    (RowId::LOWER_STUD, Moves::LowerBall),
    (RowId::TIE_STUD, Moves::TieEnd),
    (RowId::HUB_ON_SPINDLE, Moves::Flange),
    (RowId::ROTOR_ON_HUB, Moves::Hat),
    (RowId::STRUT_ON_ARM, Moves::Rod),
    (RowId::BRACKET_ON_ARM, Moves::Bar),
    (RowId::LOWER_ARM_FORK, Moves::LowerAlong),
    (RowId::UPPER_ARM_ON_SHAFT, Moves::UpperAlong),
    (RowId::ARM_BUSHING, Moves::PivotOut),
    (RowId::ARM_BUSHING, Moves::PivotUp),
];

impl Moves {
    /// What a row can move, one or another; nothing by most.
    pub fn of(id: RowId) -> impl Iterator<Item = Self> {
        ROWS.into_iter().filter(move |(row, _)| *row == id).map(|(_, moves)| moves)
    }

    /// The slot of the change by which a proposal takes it over; what several rows move together is one.
    fn slot(self, truck: &Truck) -> Slot {
        let pivot = |place| (ChangeKind::MovedPivot, Some(place));
        match self {
            Self::UpperBall | Self::LowerBall | Self::TieEnd => (ChangeKind::KnuckleSwap, None),
            Self::Flange | Self::Hat => (ChangeKind::TireSwap, None),
            Self::Rod => (ChangeKind::StrutRod, None),
            Self::Bar => (ChangeKind::AnchorSwap, None),
            Self::LowerAlong | Self::PivotOut | Self::PivotUp => pivot(lower_pivot(truck)),
            Self::UpperAlong => pivot(Place::UpperArm),
        }
    }

    /// How far, mm: a ball nearer along its stud, the tie rod's end up, the wheel out, the rod longer, an arm
    /// forward, a pivot out or up; of the bar its turn, rad, + raises.
    fn by(self, numbers: &Numbers) -> Option<f64> {
        let more = |new, old| numbers.all([new, old]).map(|[new, old]| new - old);
        match self {
            Self::UpperBall | Self::LowerBall => deeper_mm(numbers),
            // It sits deeper the way that it points, and so does its ball.
            Self::TieEnd => {
                let deeper_mm = deeper_mm(numbers).filter(|mm| *mm > 0.0)?;
                Some(deeper_mm * second_word(numbers, POINTS)?)
            }
            Self::Flange => more(running_fit::FACE, running_fit::FACE_OLD),
            Self::Hat => more(circle::HAT, circle::HAT_OLD),
            Self::Rod => more(REACH, REACH_OLD),
            Self::Bar => {
                let [off, over, one, other] =
                    numbers.all([SQUARE, FIRST_OVER_12, FIRST_HOLE_1, FIRST_HOLE_2])?;
                // Turned as the arm goes in bump it winds the bar up.
                Some(libm::atan2(off, over - f64::midpoint(one, other)) * second_word(numbers, TURNS)?)
            }
            Self::LowerAlong | Self::UpperAlong => more(width::AHEAD, width::AHEAD_OLD),
            Self::PivotOut | Self::PivotUp => {
                let (way, is_up) = match numbers.choice(press_fit::LIES)? {
                    0 => (-1.0, false),
                    1 => (1.0, false),
                    2 => (-1.0, true),
                    _ => (1.0, true),
                };
                let offset_mm = numbers.get(press_fit::OFFSET)?;
                (is_up == (self == Self::PivotUp)).then_some(offset_mm * way)
            }
        }
    }
}

/// The lower arm's own pivot: the other is the strut rod's, where one is stated; else both are the arm's.
fn lower_pivot(truck: &Truck) -> Place {
    let lower = &truck.points.lower;
    match truck.bushings(&lower.axis()) {
        Some((own, _)) if own == lower.front => Place::LowerFront,
        Some(_) => Place::LowerRear,
        None => Place::LowerArm,
    }
}

/// 1 of the second of two words, −1 of the first.
fn second_word(numbers: &Numbers, callout: u8) -> Option<f64> {
    numbers.choice(callout).map(|choice| if choice == 1 { 1.0 } else { -1.0 })
}

/// By how much the stud is thinner than its seat, over the taper: so much deeper than flush it sits.
fn deeper_mm(numbers: &Numbers) -> Option<f64> {
    let [large, along, small, seat] = numbers.all([STUD_LARGE, STUD_ALONG, STUD_SMALL, SEAT_LARGE])?;
    (large > small && along > 0.0).then(|| (seat - large) * along / (large - small))
}

/// What a row does to the sketch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moved {
    /// What it moves.
    pub what: Moves,
    /// How far, mm: a ball nearer along its stud, the tie rod's end up, the wheel out, the rod longer, an arm
    /// forward, a pivot out or up; of the bar its turn, rad, + raises.
    pub by: f64,
    /// How far that may be off, k = 2, in the same unit.
    pub within: f64,
}

/// What a row does to the sketch, where its numbers are one's own and the tools tell it from nothing, and the
/// row does not say no; a taper has to have mated. `None` otherwise, and of any other row.
#[must_use]
pub fn moved(ledger: &Ledger, id: RowId) -> Option<Moved> {
    let row = ledger.row(id)?;
    let numbers = Numbers::of(&row);
    let (what, by) = Moves::of(id).find_map(|what| Some((what, what.by(&numbers)?)))?;
    let answer = verdict(ledger, &row);
    let is_taper = row.kind() == Mating::TaperSeat;
    let stands = match answer.verdict {
        Verdict::Mates => true,
        Verdict::DoesNot(_) => false,
        _ => !is_taper,
    };
    if !stands || !answer.own {
        return None;
    }
    let mut squares = 0.0;
    for callout in 0..MOST_CALLOUTS {
        let Some((below, above)) = numbers.spread(callout) else { continue };
        let off = |way: f64| what.by(&numbers.moved(callout, way)).map(|moved| (moved - by).abs());
        let most = off(-below)?.max(off(above)?);
        squares += most * most;
    }
    let within = 2.0 * (squares / 3.0).sqrt();
    // A stud that stands proud does not sit at all.
    let is_told = by.abs() > within && (by > 0.0 || !matches!(what, Moves::UpperBall | Moves::LowerBall));
    is_told.then_some(Moved { what, by, within })
}

/// What every row of [`ROWS`] moves, zero where it moves nothing.
fn all_by(ledger: &Ledger) -> [f64; ROWS.len()] {
    ROWS.map(|(row, what)| match moved(ledger, row) {
        Some(moved) if moved.what == what => moved.by,
        _ => 0.0,
    })
}

/// The rows that make the change of a slot together, a bit for each: of one arm's pivots, whichever of them it moves,
/// since which is the arm's own goes by what else is measured.
fn rows_of(truck: &Truck, slot: Slot) -> usize {
    let mut rows = 0;
    for (at, (_, moves)) in ROWS.iter().enumerate() {
        rows |= usize::from(overlap(moves.slot(truck), slot)) << at;
    }
    rows
}

/// Whether two slots are the same, or move pivots of the same arm.
fn overlap(one: Slot, other: Slot) -> bool {
    let is_upper = |(_, place): Slot| {
        place.map(|place| matches!(place, Place::UpperArm | Place::UpperFront | Place::UpperRear))
    };
    one == other || (one.0 == other.0 && one.0 == ChangeKind::MovedPivot && is_upper(one) == is_upper(other))
}

/// The change of a slot that some of its rows make together, by a bit for each; `None` where they move nothing.
fn change_of(design: &Design, slot: Slot, by: &[f64; ROWS.len()], rows: usize) -> Option<Change> {
    let mut each = *by;
    for (at, by) in each.iter_mut().enumerate() {
        if rows >> at & 1 == 0 {
            *by = 0.0;
        }
    }
    if each.iter().all(|by| *by == 0.0) {
        return None;
    }
    let [upper, lower, tie_up, flange, hat, longer, turn, lower_along, upper_along, pivot_out, pivot_up] =
        each;
    let truck = &design.truck;
    let mut change = slot.0.first(slot.1, truck)?;
    match &mut change {
        Change::KnuckleSwap(swap) => {
            *swap = KnuckleSwap::seated(&truck.points, upper, lower);
            swap.tie_outer_mm.z += tie_up;
        }
        // The wheel itself is the old one: clamped farther out, it stands as one of so much less offset.
        Change::TireSwap(swap) => swap.offset_mm -= flange + hat,
        Change::StrutRod(rod) => *rod = StrutRodChange { longer_mm: longer },
        Change::MovedPivot(pivot) => {
            pivot.by_mm.x += lower_along + upper_along;
            pivot.by_mm.y += pivot_out;
            pivot.by_mm.z += pivot_up;
        }
        Change::AnchorSwap(swap) if truck.spring.kind == SpringKind::TorsionBar => swap.clocking_rad = turn,
        _ => return None,
    }
    change.kept()
}

/// Whether the change that a proposal has is what some rows make of the sketch, and so none of a part.
fn is_made_by_rows(design: &Design, change: &Change, by: &[f64; ROWS.len()]) -> bool {
    let all = rows_of(&design.truck, change.slot());
    let made = |rows| change_of(design, change.slot(), by, rows).as_ref() == Some(change);
    (1..=all).filter(|rows| rows & !all == 0).any(made)
}

/// Whether a change is what rows of the ledger make of the sketch, so that there is nothing to get for it.
#[must_use]
pub fn is_by_rows(design: &Design, change: &Change) -> bool {
    rows_of(&design.truck, change.slot()) != 0 && is_made_by_rows(design, change, &all_by(&design.ledger))
}

/// The edit by which a proposal takes over what a row does to the sketch, with what other rows do to the same, as
/// numbers that are guesses. None where that is nothing, where the proposal has it, and over a change that
/// is there: its numbers were typed, unless they are what fewer of these rows made.
#[must_use]
pub fn take_over(design: &Design, which: impl Into<Which>, id: RowId) -> Option<Edit> {
    let proposal = design.proposal(which.into().proposal()?)?;
    // Of its own nothing, whatever the others of its slot do.
    let slot = moved(&design.ledger, id)?.what.slot(&design.truck);
    let by = all_by(&design.ledger);
    let change = change_of(design, slot, &by, rows_of(&design.truck, slot))?;
    for (side, had) in proposal.every() {
        let is_replaced =
            had.slot() == slot && side.is_none() && had != change && is_made_by_rows(design, &had, &by);
        if overlap(had.slot(), slot) && !is_replaced {
            return None;
        }
    }
    Some(Edit::SetGuessed(proposal.id, change))
}

#[cfg(test)]
mod tests {
    use super::super::support::near;
    use super::*;
    use truck::callouts::hole_pattern::{BOLT, COUNT, HELD, SECOND_HOLE_1, SECOND_HOLE_2, SECOND_OVER_12};
    use truck::callouts::taper_seat::{BLUE, NUT, PIN, ROCK, SEAT_ALONG, SEAT_SMALL};
    use truck::{LedgerEdit, ProposalId, TireSwap, Tool, Whose, demo};

    const UPPER: RowId = RowId::UPPER_STUD;
    const LOWER: RowId = RowId::LOWER_STUD;
    const TIE: RowId = RowId::TIE_STUD;
    const BRACKET: RowId = RowId::BRACKET_ON_ARM;
    const STRUT: RowId = RowId::STRUT_ON_ARM;
    const HUB: RowId = RowId::HUB_ON_SPINDLE;
    const ROTOR: RowId = RowId::ROTOR_ON_HUB;
    const FORK: RowId = RowId::LOWER_ARM_FORK;
    const SHAFT: RowId = RowId::UPPER_ARM_ON_SHAFT;
    const BUSHING: RowId = RowId::ARM_BUSHING;

    fn with(ledger: Ledger, id: RowId, numbers: &[(u8, f64, Tool)]) -> Ledger {
        numbers.iter().fold(ledger, |ledger, (callout, value, tool)| {
            let (value, tool, whose) = (*value, *tool, Whose::Own);
            ledger.edited(&LedgerEdit::Write { row: id, callout: *callout, value, tool, whose }).unwrap()
        })
    }

    /// A stud of 1:8 in a seat of 1:8, the large ends so far across, and all else well.
    fn seated(ledger: Ledger, id: RowId, stud: f64, seat: f64) -> Ledger {
        let (along, tool) = (12.0, Tool::Caliper);
        let numbers = [
            (STUD_LARGE, stud, tool),
            (STUD_ALONG, along, tool),
            (STUD_SMALL, stud - along / 8.0, tool),
            (SEAT_LARGE, seat, tool),
            (SEAT_ALONG, along, tool),
            (SEAT_SMALL, seat - along / 8.0, tool),
            (ROCK, 1.0, Tool::TriedOn),
            (BLUE, 1.0, Tool::MarkingBlue),
            (NUT, 1.0, Tool::Counted),
            (PIN, 1.0, Tool::Counted),
        ];
        with(ledger, id, &numbers)
    }

    fn whose(ledger: &Ledger, id: RowId, callout: u8, whose: Whose) -> Ledger {
        let row = ledger.row(id).unwrap();
        let entry = row.entry(callout).unwrap();
        let value = entry.value(row.kind().callout(callout).unwrap().sort);
        ledger.edited(&LedgerEdit::Write { row: id, callout, value, tool: entry.tool, whose }).unwrap()
    }

    /// The only plan of the demo without its parts, with such a ledger.
    fn plain(ledger: Ledger) -> (Design, ProposalId) {
        let edits = [Edit::OwnTruck, Edit::AddProposal(String::new())];
        let mut design = edits.iter().fold(demo(), |design, edit| design.edited(edit).unwrap());
        design.ledger = ledger;
        let id = design.proposals[0].id;
        (design, id)
    }

    fn taken(design: &Design, plan: ProposalId, id: RowId) -> Change {
        let Some(Edit::SetGuessed(on, change)) = take_over(design, plan, id) else { panic!("{id:?}") };
        assert_eq!(on, plan);
        change
    }

    fn pivot(change: &Change) -> (Place, [f64; 3]) {
        let Change::MovedPivot(pivot) = change else { panic!("{change:?}") };
        (pivot.place, pivot.by_mm.into())
    }

    #[test]
    fn the_rows_are_those_of_the_usual_swap() {
        let keys = ROWS.map(|(row, _)| row.usual().unwrap().key());
        let expected = [
            "upper_stud",
            "lower_stud",
            "tie_stud",
            "hub_on_spindle",
            "rotor_on_hub",
            "strut_on_arm",
            "bracket_on_arm",
            "lower_arm_fork",
            "upper_arm_on_shaft",
            "arm_bushing",
            "arm_bushing",
        ];
        assert_eq!(keys, expected);
        let asks = |id: RowId, callout| Ledger::EMPTY.row(id).unwrap().asks(callout);
        assert!(asks(TIE, POINTS) && !asks(UPPER, POINTS));
        assert!(asks(BRACKET, SQUARE) && asks(BRACKET, TURNS) && !asks(BRACKET, REACH));
        assert!(asks(STRUT, REACH) && asks(STRUT, REACH_OLD) && !asks(STRUT, SQUARE));
        assert!(asks(HUB, running_fit::FACE) && asks(ROTOR, circle::HAT) && asks(RowId(31), circle::BORE));
        assert!(!asks(RowId(31), circle::HAT), "a wheel on its hub");
        assert!(asks(FORK, width::AHEAD) && asks(SHAFT, width::AHEAD_OLD) && !asks(RowId(21), width::AHEAD));
        assert!(
            asks(BUSHING, press_fit::LIES) && !asks(RowId(2), press_fit::OFFSET),
            "a ball joint in its arm"
        );
    }

    /// By hand: 0.4 mm thinner in a taper of 1:8 is 3.2 mm deeper. A caliper is off by 0.05 at each
    /// size, which counts 8, 8 + 2.13, 2.13 and 0.27 times: in all 13.09 · 0.05 · 2/√3 = 0.756 mm, and a
    /// fiftieth more since each counts by its worse end.
    #[test]
    fn a_thinner_stud_sits_deeper_by_the_difference_over_the_taper() {
        for id in [UPPER, LOWER] {
            let found = moved(&seated(Ledger::EMPTY, id, 17.6, 18.0), id).unwrap();
            near(found.by, 3.2, 1e-9);
            near(found.within, 0.756, 0.02);
        }
    }

    /// Nothing where the tools do not tell it from flush, where it stands proud, where a number is a guess
    /// or somebody else's, and before the blue has passed it.
    #[test]
    fn what_is_not_known_offers_nothing() {
        let told = |ledger: &Ledger| moved(ledger, UPPER);
        assert_eq!(told(&seated(Ledger::EMPTY, UPPER, 17.95, 18.0)), None);
        assert_eq!(told(&seated(Ledger::EMPTY, UPPER, 18.4, 18.0)), None);
        let own = seated(Ledger::EMPTY, UPPER, 17.6, 18.0);
        assert!(told(&own).is_some());
        assert_eq!(told(&whose(&own, UPPER, STUD_LARGE, Whose::Guessed)), None);
        assert_eq!(told(&whose(&own, UPPER, STUD_LARGE, Whose::Stranger)), None);
        assert_eq!(told(&own.edited(&LedgerEdit::Erase(UPPER, BLUE)).unwrap()), None);
        assert_eq!(told(&own.came_by_link()), None);
        // A seat that no stud's ball is known to follow.
        assert_eq!(moved(&seated(Ledger::EMPTY, TIE, 17.6, 18.0), TIE), None);
    }

    /// The rod's ball goes the way that its stud points: one that is put in from above points down, and the ball
    /// over the arm comes down to it.
    #[test]
    fn a_tie_rod_s_end_goes_the_way_its_stud_points() {
        let proud = seated(Ledger::EMPTY, TIE, 18.4, 18.0);
        assert_eq!(moved(&with(proud, TIE, &[(POINTS, 1.0, Tool::Counted)]), TIE), None, "it does not sit");
        for (points, up_mm) in [(0.0, -3.2), (1.0, 3.2)] {
            let ledger = seated(Ledger::EMPTY, TIE, 17.6, 18.0);
            let (design, plan) = plain(with(ledger, TIE, &[(POINTS, points, Tool::Counted)]));
            near(moved(&design.ledger, TIE).unwrap().by, up_mm, 1e-9);
            let Change::KnuckleSwap(swap) = taken(&design, plan, TIE) else { panic!() };
            let mut only = KnuckleSwap::default();
            only.tie_outer_mm.z = up_mm;
            assert_eq!(swap, only);
        }
    }

    /// Each stud is taken over as it is measured, the one beside the other; over a knuckle that was typed none is.
    #[test]
    fn studs_are_taken_over_one_after_the_other() {
        let (mut design, plan) = plain(seated(Ledger::EMPTY, UPPER, 17.6, 18.0));
        assert_eq!(take_over(&design, Which::AsMeasured, UPPER), None);
        assert_eq!(take_over(&design, plan, LOWER), None, "of the lower nothing is known yet");
        let upper = taken(&design, plan, UPPER);
        assert_eq!(upper, Change::KnuckleSwap(KnuckleSwap { balls_mm: -3.2, ..KnuckleSwap::default() }));
        design = design.edited(&take_over(&design, plan, UPPER).unwrap()).unwrap();
        assert_eq!(take_over(&design, plan, UPPER), None, "it is there");
        assert!(is_by_rows(&design, &upper));
        design.ledger = seated(design.ledger, LOWER, 17.8, 18.0);
        let Change::KnuckleSwap(both) = taken(&design, plan, LOWER) else { panic!() };
        near(both.balls_mm, -4.8, 1e-9);
        design = design.edited(&take_over(&design, plan, LOWER).unwrap()).unwrap();
        assert_eq!(design.proposals[0].every().len(), 1, "in the place of the first");
        assert_eq!(take_over(&design, plan, UPPER), None);
        let typed = Change::KnuckleSwap(KnuckleSwap { balls_mm: -3.0, ..both });
        let typed = design.edited(&Edit::Set(plan, typed)).unwrap();
        assert_eq!(take_over(&typed, plan, LOWER), None);
        assert!(!typed.proposals[0].every().iter().any(|(_, change)| is_by_rows(&typed, change)));
    }

    /// A hat of 12 where one of 9 was, and a flange 2 mm nearer to its race: the wheel is clamped 3 − 2 = 1 mm
    /// farther out, as one of 1 mm less offset; all else of it is as it was.
    #[test]
    fn another_hat_and_flange_move_the_wheel_out() {
        let tool = Tool::Caliper;
        let hat = [(circle::HAT, 12.0, tool), (circle::HAT_OLD, 9.0, tool)];
        let face = [(running_fit::FACE, 70.0, tool), (running_fit::FACE_OLD, 72.0, tool)];
        let ledger = with(with(Ledger::EMPTY, ROTOR, &hat), HUB, &face);
        let found = moved(&ledger, ROTOR).unwrap();
        near(found.by, 3.0, 1e-9);
        // Two readings of a twentieth: √2 · 0.05 · 2/√3.
        near(found.within, 0.0816, 1e-3);
        near(moved(&ledger, HUB).unwrap().by, -2.0, 1e-9);
        let (design, plan) = plain(ledger);
        let Change::TireSwap(swap) = taken(&design, plan, HUB) else { panic!() };
        let Some(Change::TireSwap(was)) = ChangeKind::TireSwap.first(None, &design.truck) else { panic!() };
        near(swap.offset_mm, was.offset_mm - 1.0, 1e-9);
        assert_eq!(swap, TireSwap { offset_mm: swap.offset_mm, ..was });
    }

    #[test]
    fn another_strut_rod_is_longer_by_what_it_reaches_farther() {
        let tool = Tool::Caliper;
        let (design, plan) =
            plain(with(Ledger::EMPTY, STRUT, &[(REACH, 512.5, tool), (REACH_OLD, 509.0, tool)]));
        assert_eq!(taken(&design, plan, STRUT), Change::StrutRod(StrutRodChange { longer_mm: 3.5 }));
    }

    /// By hand, tan⁻¹ (1/90) is 0.63659°. Turned as the arm goes in bump it winds the bar up, which raises, as an anchor
    /// does that is turned by as much; the other way it lowers. A truck on coils has no such bar.
    #[test]
    fn a_millimeter_off_at_ninety_turns_the_bar_by_two_thirds_of_a_degree() {
        let tool = Tool::Caliper;
        let pattern = [
            (FIRST_OVER_12, 103.0, tool),
            (FIRST_HOLE_1, 13.0, tool),
            (FIRST_HOLE_2, 13.0, tool),
            (SECOND_OVER_12, 103.0, tool),
            (SECOND_HOLE_1, 13.0, tool),
            (SECOND_HOLE_2, 13.0, tool),
            (BOLT, 12.0, tool),
            (COUNT, 2.0, Tool::Counted),
            (HELD, 0.0, Tool::Counted),
            (SQUARE, 1.0, tool),
        ];
        let ledger = with(Ledger::EMPTY, BRACKET, &pattern);
        assert_eq!(moved(&ledger, BRACKET), None, "which way it turns is not said");
        for (way, degrees) in [(1.0, 0.63659), (0.0, -0.63659)] {
            let (design, plan) = plain(with(ledger.clone(), BRACKET, &[(TURNS, way, Tool::Counted)]));
            near(moved(&design.ledger, BRACKET).unwrap().by.to_degrees(), degrees, 1e-4);
            let change = taken(&design, plan, BRACKET);
            let fitted = truck::Fitted::both(&design.truck, truck::Overlay::from(&[change])).unwrap();
            // An angle is kept to a hundredth of a degree.
            near(fitted[0].anchor_turn_rad.to_degrees(), degrees, 0.006);
            let was = design.truck.spring.bar;
            let bar = fitted[0].spring.bar;
            near(bar.lever_mm, was.lever_mm, 0.01);
            near(bar.lever_angle_rad, was.lever_angle_rad, 1e-4);
            near(bar.thread_pitch_mm, was.thread_pitch_mm, 0.01);
            let mut coils = design.clone();
            coils.truck.spring.kind = SpringKind::Coil;
            assert_eq!(take_over(&coils, plan, BRACKET), None);
        }
    }

    /// An arm whose pivots stand 40 mm ahead of a mark where the old one's stood 37 sits 3 mm farther forward. The
    /// lower arm's own pivot is the nearer one to its ball where a strut rod is measured, and both are where none is.
    #[test]
    fn an_arm_that_sits_farther_forward_takes_its_pivots_along() {
        let ahead = |id, new, old| {
            let numbers = [(width::AHEAD, new, Tool::Caliper), (width::AHEAD_OLD, old, Tool::Caliper)];
            with(Ledger::EMPTY, id, &numbers)
        };
        let (design, plan) = plain(ahead(SHAFT, 40.0, 37.0));
        assert_eq!(pivot(&taken(&design, plan, SHAFT)), (Place::UpperArm, [3.0, 0.0, 0.0]));
        let fitted =
            truck::Fitted::both(&design.truck, truck::Overlay::from(&[taken(&design, plan, SHAFT)])).unwrap();
        let was = design.truck.points.upper;
        near(fitted[0].mounts.upper.front.x - was.front.x, 3.0, 1e-9);
        near(fitted[0].mounts.upper.rear.x - was.rear.x, 3.0, 1e-9);

        let (mut design, plan) = plain(ahead(FORK, 37.0, 40.0));
        let lower = design.truck.points.lower;
        let front_is_its_own = (lower.front.x - lower.ball.x).abs() < (lower.rear.x - lower.ball.x).abs();
        let own = if front_is_its_own { Place::LowerFront } else { Place::LowerRear };
        assert!(design.truck.strut.arm.stated().is_some());
        assert_eq!(pivot(&taken(&design, plan, FORK)), (own, [-3.0, 0.0, 0.0]));
        design.truck.strut.arm = truck::StrutRod::default().arm;
        assert_eq!(pivot(&taken(&design, plan, FORK)), (Place::LowerArm, [-3.0, 0.0, 0.0]));
    }

    /// The four ways that a bushing can be put in, and its move beside the fork's: one change of one pivot. A plan that
    /// has the first takes the second in its place; a pivot of the other arm is another change.
    #[test]
    fn a_bushing_whose_hole_is_off_its_middle_moves_the_pivot_there() {
        let put_in = |ledger, way| {
            let numbers = [(press_fit::OFFSET, 3.2, Tool::Caliper), (press_fit::LIES, way, Tool::Counted)];
            with(ledger, BUSHING, &numbers)
        };
        for (way, y, z) in [(0.0, -3.2, 0.0), (1.0, 3.2, 0.0), (2.0, 0.0, -3.2), (3.0, 0.0, 3.2)] {
            let (design, plan) = plain(put_in(Ledger::EMPTY, way));
            assert_eq!(
                pivot(&taken(&design, plan, BUSHING)),
                (lower_pivot(&design.truck), [0.0, y, z]),
                "{way}"
            );
        }
        let ahead = [(width::AHEAD, 40.0, Tool::Caliper), (width::AHEAD_OLD, 38.0, Tool::Caliper)];
        let (mut design, plan) = plain(put_in(Ledger::EMPTY, 2.0));
        design = design.edited(&take_over(&design, plan, BUSHING).unwrap()).unwrap();
        let lower = design.proposals[0].every()[0].1;
        assert!(is_by_rows(&design, &lower));
        design.ledger = with(with(design.ledger, FORK, &ahead), SHAFT, &ahead);
        assert_eq!(pivot(&taken(&design, plan, FORK)), (lower_pivot(&design.truck), [2.0, 0.0, -3.2]));
        design = design.edited(&take_over(&design, plan, FORK).unwrap()).unwrap();
        assert_eq!(design.proposals[0].every().len(), 1);
        design = design.edited(&take_over(&design, plan, SHAFT).unwrap()).unwrap();
        assert_eq!(design.proposals[0].every().len(), 2, "of the upper arm, beside it");
        assert!(design.proposals[0].every().iter().all(|(_, change)| is_by_rows(&design, change)));
        assert_eq!(take_over(&design, plan, FORK), None);
        // A dead end: which way it lies nobody said.
        let unsaid = with(Ledger::EMPTY, BUSHING, &[(press_fit::OFFSET, 3.2, Tool::Caliper)]);
        assert_eq!(moved(&unsaid, BUSHING), None);
    }

    /// Taken over while no strut rod was measured, both pivots are moved; once one is, the change is still the row's, and
    /// is laid no second time beside it. Nor is one over a pivot of that arm that was typed.
    #[test]
    fn a_pivot_is_moved_once_whichever_is_the_arm_s_own() {
        let ahead = [(width::AHEAD, 40.0, Tool::Caliper), (width::AHEAD_OLD, 37.0, Tool::Caliper)];
        let (mut design, plan) = plain(with(Ledger::EMPTY, FORK, &ahead));
        let strut = std::mem::take(&mut design.truck.strut.arm);
        design = design.edited(&take_over(&design, plan, FORK).unwrap()).unwrap();
        design.truck.strut.arm = strut;
        let laid = design.proposals[0].every()[0].1;
        assert_eq!(pivot(&laid), (Place::LowerArm, [3.0, 0.0, 0.0]));
        assert!(is_by_rows(&design, &laid));
        assert_eq!(take_over(&design, plan, FORK), None);
        let mut typed = ChangeKind::MovedPivot.first(Some(Place::UpperFront), &design.truck).unwrap();
        let Change::MovedPivot(front) = &mut typed else { panic!() };
        front.by_mm.x = 5.0;
        let (design, plan) = plain(with(Ledger::EMPTY, SHAFT, &ahead));
        let design = design.edited(&Edit::Set(plan, typed)).unwrap();
        assert!(!is_by_rows(&design, &typed));
        assert_eq!(take_over(&design, plan, SHAFT), None);
    }
}
