//! How long codes are, and what is said of bad ones.

use crate::generate::{edited, eight_readings, shared, typed_in};
use measure::Units;
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use sharing::{LONGEST_CODE, LinkError, Opening, Shared, from_code, from_tree, print_json, to_code, to_tree};
use truck::{
    AddedRow, Change, ChangeKind, Design, DroppedSpindle, Edit, Field, Kind, LedgerEdit, Mating, Of, Origin,
    Part, PartId, Proposal, ProposalId, ROWS, ReadWith, Readable, Reading, RearField, RowId, Side,
    SpringKind, TireSize, TireSwap, Tool, Whose, demo,
};
use yardstick::cases;

fn dropped(drop_mm: f64) -> Design {
    let change = Change::DroppedSpindle(DroppedSpindle { drop_mm, ..DroppedSpindle::default() });
    edited(&demo(), [Edit::Set(ProposalId(0), change)])
}

#[test]
fn the_demo_with_a_spindle_is_short() {
    for drop_mm in [50.8, 38.1, 63.5, 76.2] {
        let seen = Opening {
            proposal: Some(ProposalId(0)),
            travel_mm: -31.75,
            units: Some(Units::Inches),
            ..Opening::default()
        };
        let code = to_code(&Shared { design: dropped(drop_mm), opening: seen });
        assert!(code.len() <= 60, "{} characters: {code}", code.len());
        assert!(code.bytes().all(|byte| byte.is_ascii_alphanumeric()), "{code}");
    }
}

/// What the page opens with fits any message: a truck with a whole rear and two plans.
#[test]
fn the_demo_is_under_thirty_characters() {
    let code = to_code(&shared(demo()));
    assert!(code.len() < 30, "{} characters: {code}", code.len());
    assert_eq!(from_code(&code), Ok(shared(demo())));
}

/// Every number of the rear as far from what it is written from as it may be.
#[test]
fn a_truck_with_every_number_of_the_rear_is_under_seven_hundred_characters() {
    for low in [true, false] {
        let edits = RearField::ALL.map(|field| {
            let (lowest, highest) = field.limits();
            let value = if low { lowest } else { highest };
            let value = if field.kind() == Kind::Angle { value.to_radians() } else { value };
            Edit::MeasureRear(field, Some(value))
        });
        let code = to_code(&shared(edited(&demo(), edits)));
        assert!(code.len() < 700, "{} characters: {code}", code.len());
    }
}

/// Two hundred trucks, every number typed in: at most 480 characters, and any
/// one number costs at most four of them.
#[test]
fn a_truck_with_every_number_typed_in_is_short() {
    let mut runner = TestRunner::deterministic();
    let mut longest = 0;
    for _ in 0..200 {
        let design = typed_in().new_tree(&mut runner).unwrap().current();
        let code = to_code(&shared(design.clone()));
        longest = longest.max(code.len());
        assert!(code.len() <= 480, "{} characters", code.len());
        assert_eq!(from_code(&code), Ok(shared(design)));
    }
    assert!(longest > 200, "the trucks are not those that were meant: {longest}");
}

/// Three proposals of three changes each on a truck of one's own, every number typed in: under 900.
#[test]
fn three_proposals_on_a_truck_of_one_s_own_are_short() {
    let mut runner = TestRunner::deterministic();
    for _ in 0..50 {
        let mut design = typed_in().new_tree(&mut runner).unwrap().current();
        for (id, name) in [(1, "Bolt, shims and fifteens"), (2, "Joint over and a spacer")] {
            let changes = design.proposals[0].changes().to_vec();
            let each = Edit::SetAll(ProposalId(id), [changes.clone(), changes]);
            design = edited(&design, [Edit::AddProposal(name.to_owned()), each]);
        }
        let code = to_code(&shared(design.clone()));
        assert!(code.len() < 900, "{} characters", code.len());
        assert_eq!(from_code(&code), Ok(shared(design)));
    }
}

#[test]
fn one_number_more_costs_at_most_four_characters() {
    let mut runner = TestRunner::deterministic();
    for _ in 0..20 {
        let full = typed_in().new_tree(&mut runner).unwrap().current();
        for field in Field::ALL.iter().copied() {
            let mut less = full.clone();
            let usual = field.get(&demo().truck);
            less = edited(&less, [Edit::Measure { field, value: usual }]);
            less.truck.sources.set(field, less.truck.sources.rule());
            let (more, less) = (to_code(&shared(full.clone())).len(), to_code(&shared(less)).len());
            assert!(more <= less + 4, "{field:?}: {more} against {less}");
        }
    }
}

#[test]
fn the_longest_design_is_read_again() {
    let mut design = edited(
        &demo(),
        [
            Edit::OwnTruck,
            Edit::Title("é".repeat(Design::LONGEST_NAME / 2)),
            Edit::Note("ß".repeat(Design::LONGEST_NOTE / 2)),
        ],
    );
    for field in Field::ALL.iter().copied() {
        let high = field.limits().1;
        let value = highest(field.kind(), (0.0, high));
        design = edited(&design, [Edit::Measure { field, value: Some(value) }]);
        design = edited(&design, [Edit::Source(field, truck::Source::Typed)]);
        if field.is_sided() {
            design = edited(&design, [Edit::MeasureRight(vec![(field, Some(value))])]);
        }
    }
    for id in (0..3).map(ProposalId) {
        design = edited(&design, [Edit::AddProposal("ñ".repeat(Design::LONGEST_NAME / 2))]);
        design = edited(&design, every_change(id, false));
    }
    let code = to_code(&shared(design.clone()));
    assert!(code.len() < LONGEST_CODE * 3 / 4, "{}", code.len());
    assert_eq!(from_code(&code), Ok(shared(design.clone())));
    // The fullest ledger beside as many readings as it leaves room for, and the other way round; and
    // both again beside a whole rear, and every change of it, for which numbers of the ledger make room.
    let readings = readings_of_all_times();
    let rear =
        RearField::ALL.map(|field| Edit::MeasureRear(field, Some(highest(field.kind(), field.limits()))));
    let with_rear: Vec<_> =
        rear.into_iter().chain((0..3).flat_map(|id| every_change(ProposalId(id), true))).collect();
    // Of three other knuckles, and of the rear.
    let [of_knuckle, of_rear] = [3 * (1 + 8), 51 + 3 * (9 + 16)];
    for (more, taken) in [(&[][..], of_knuckle), (&with_rear[..], of_knuckle + of_rear)] {
        let most = 8 + (256 - taken) / 2;
        for read in [8, readings.len() / 3, readings.len().min(most)] {
            let left_out = taken + 2 * (read - 8);
            let edits: Vec<_> = fullest_ledger().collect();
            let full = ledgered(&design, &edits[..edits.len() - left_out]);
            assert_eq!(full.ledger.numbers(), 256 - left_out);
            let full = edited(&full, readings[readings.len() - read..].iter().chain(more).cloned());
            let code = to_code(&shared(full.clone()));
            assert!(code.len() < LONGEST_CODE, "{}", code.len());
            assert_eq!(from_code(&code), Ok(shared(full.clone())));
            // Not one number more.
            assert!(edits[edits.len() - left_out..].iter().all(|edit| full.ledger_edited(edit).is_err()));
        }
    }
    // As many changes that left and right do otherwise as there is room for in the place of a ledger.
    let each = |edit: Edit| match edit {
        Edit::Set(id, change) => {
            let low: Vec<_> =
                change.kind().numbers().iter().map(|row| Some(lowest(row.kind, row.limits))).collect();
            Edit::SetEach(id, [Some(change), change.kind().with(change.place(), &low)])
        }
        other => other,
    };
    let by_side = (0..3).flat_map(|id| every_change(ProposalId(id), false)).map(each);
    let full = by_side.fold(design, |design, edit| design.edited(&edit).unwrap_or(design));
    let own = |proposal: &Proposal| proposal.every().iter().filter(|(side, _)| side.is_some()).count();
    assert!(full.proposals.iter().map(own).sum::<usize>() > 40);
    let code = to_code(&shared(full.clone()));
    assert!(code.len() < LONGEST_CODE, "{}", code.len());
    assert_eq!(from_code(&code), Ok(shared(full)));
}

fn lowest(kind: Kind, (low, _): (f64, f64)) -> f64 {
    if kind == Kind::Angle { low.to_radians() } else { low }
}

fn highest(kind: Kind, (_, high): (f64, f64)) -> f64 {
    if kind == Kind::Angle { high.to_radians() } else { high }
}

/// Every change at every place with every number as high as it goes, of the rear or of all else.
fn every_change(id: ProposalId, rear: bool) -> impl Iterator<Item = Edit> {
    let kinds = ChangeKind::ALL.into_iter().filter(move |kind| kind.is_rear() == rear);
    kinds.flat_map(move |kind| {
        let numbers: Vec<_> = kind.numbers().iter().map(|row| Some(highest(row.kind, row.limits))).collect();
        let nowhere = kind.places().is_empty().then_some(None);
        let places = kind.places().iter().copied().map(Some).chain(nowhere);
        places.map(move |place| Edit::Set(id, kind.with(place, &numbers).unwrap())).collect::<Vec<_>>()
    })
}

/// The same, read once the work was done.
fn as_built(edit: Edit) -> Edit {
    match edit {
        Edit::Read(of, side, reading) => Edit::ReadBuilt(of, side, reading),
        other => other,
    }
}

/// The same, once it had settled.
fn settled(edit: Edit) -> Edit {
    match edit {
        Edit::ReadBuilt(of, side, reading) => Edit::ReadSettled(of, side, reading),
        other => other,
    }
}

/// Each of them as it sat, as built and once it had settled.
fn readings_of_all_times() -> Vec<Edit> {
    let built = every_reading().map(as_built);
    every_reading().chain(built.clone()).chain(built.map(settled)).collect()
}

/// Everything that can be read off, at both sides, as far out as it goes and by an unusual tool.
fn every_reading() -> impl Iterator<Item = Edit> + Clone {
    let sides = Side::ALL.into_iter().flat_map(|side| Readable::ALL.iter().map(move |of| (side, *of)));
    sides.map(|(side, of)| {
        let core = |value: f64| if of.kind() == Kind::Angle { value.to_radians() } else { value };
        let tool = *of.tools().last().unwrap();
        let reading = Reading {
            value: core(of.limits().1),
            tolerance: core(Reading::tolerances(of.kind()).1),
            swept_rad: (of == Readable::Caster).then(|| Reading::SWEPT_DEG.1.to_radians()),
            tool,
        };
        Edit::Read(of, side, Some(reading))
    })
}

/// A design with a ledger that is edited.
fn ledgered(design: &Design, edits: &[LedgerEdit]) -> Design {
    edits.iter().fold(design.clone(), |design, edit| design.ledger_edited(edit).unwrap())
}

/// As many added rows and parts, as much text and as many numbers as a ledger takes, the
/// numbers in rows of their own where they can be, none by its usual tool.
fn fullest_ledger() -> impl Iterator<Item = LedgerEdit> {
    let name = |at: usize| if at < 8 { "é".repeat(Design::LONGEST_NAME / 2) } else { String::new() };
    let parts = (0..64).map(move |at| {
        let part = Part { name: String::new(), origin: Origin::Bought, side: Some(Side::Right) };
        LedgerEdit::Part(PartId(128 + at), part)
    });
    let rows = (0..64).map(move |at| {
        let parts = [PartId(255), PartId(254)];
        let kind = Mating::HolePattern;
        LedgerEdit::Row(RowId(128 + at), AddedRow { name: name(usize::from(at)), kind, parts, vital: true })
    });
    let rows_of_numbers = || (0..64).map(|at| RowId(128 + at));
    let numbers = [0, 2, 4, 11].into_iter().flat_map(move |callout| {
        rows_of_numbers().map(move |row| LedgerEdit::Write {
            row,
            callout,
            value: 1500.0,
            tool: Tool::Micrometer,
            whose: Whose::Guessed,
        })
    });
    parts.chain(rows).chain(numbers)
}

/// One number a side, by caliper: what a visit to a junkyard adds, row by row.
#[test]
fn a_measured_row_is_twelve_characters_at_most_and_an_empty_ledger_none() {
    let mut design = demo();
    let empty = to_code(&shared(design.clone())).len();
    let (mut before, mut rows) = (empty, 0);
    for (row, usual) in ROWS.iter().enumerate() {
        let first = |of| {
            let found =
                usual.kind.callouts().iter().position(|callout| callout.of == of && callout.sort.is_size());
            found.map(|at| u8::try_from(at).unwrap())
        };
        for callout in [first(Of::First), first(Of::Second)].into_iter().flatten() {
            let row = RowId(u8::try_from(row).unwrap());
            let edit =
                LedgerEdit::Write { row, callout, value: 92.13, tool: Tool::Caliper, whose: Whose::Own };
            design = design.ledger_edited(&edit).unwrap();
        }
        let now = to_code(&shared(design.clone())).len();
        // The first one opens the section.
        assert!(now <= before + 12 + if rows == 0 { 3 } else { 0 }, "{}: {before} to {now}", usual.key());
        (before, rows) = (now, rows + 1);
    }
    assert!(before <= empty + 12 * rows, "{before}");
    assert!(design.ledger.written().len() == rows && rows == ROWS.len());
    for row in 0..u8::try_from(rows).unwrap() {
        design = design.ledger_edited(&LedgerEdit::Clear(RowId(row))).unwrap();
    }
    assert_eq!(to_code(&shared(design)).len(), empty);
}

/// Any eight readings, by any tool for them: at most sixty characters; without them a link is what it was.
#[test]
fn eight_readings_are_sixty_characters_at_most() {
    let mut runner = TestRunner::deterministic();
    let mut most = 0;
    for _ in 0..400 {
        let design = typed_in().new_tree(&mut runner).unwrap().current();
        let bare = to_code(&shared(design.clone()));
        let mut read = design.clone();
        for edit in eight_readings().new_tree(&mut runner).unwrap().current() {
            read = edited(&read, [edit]);
        }
        assert_eq!(read.truck.readings.iter().count(), 8);
        let code = to_code(&shared(read.clone()));
        assert_eq!(from_code(&code), Ok(shared(read.clone())));
        most = most.max(code.len() - bare.len());
        let all: Vec<_> =
            read.truck.readings.iter().map(|(side, of, _)| Edit::Read(*of, *side, None)).collect();
        assert_eq!(to_code(&shared(edited(&read, all))), bare);
        // As built they cost as much, and are no readings of the truck as it sits.
        let again =
            |(side, of, reading): &(Side, Readable, Reading)| Edit::ReadBuilt(*of, *side, Some(*reading));
        let built = edited(&design, read.truck.readings.iter().map(again));
        assert_eq!((&built.built, built.truck.readings.len()), (&read.truck.readings, 0));
        let of_built = to_code(&shared(built.clone()));
        assert_eq!(from_code(&of_built), Ok(shared(built)));
        // And once it had settled, kept apart from both.
        let again = read.truck.readings.iter().map(again).map(settled);
        let late = edited(&design, again);
        assert_eq!((&late.settled, late.built.len()), (&read.truck.readings, 0));
        let of_late = to_code(&shared(late.clone()));
        assert_eq!(from_code(&of_late), Ok(shared(late)));
        assert!(of_late.len().abs_diff(code.len()) <= 2, "{} and {}", of_late.len(), code.len());
        assert!(of_built.len().abs_diff(code.len()) <= 2, "{} and {}", of_built.len(), code.len());
    }
    assert!((40..=60).contains(&most), "{most} characters");
}

#[test]
fn what_came_by_link_counts_as_a_strangers() {
    let edit =
        LedgerEdit::Write { row: RowId(8), callout: 2, value: 25.4, tool: Tool::Caliper, whose: Whose::Own };
    let own = shared(demo().ledger_edited(&edit).unwrap());
    let whose = |given: &Shared| given.design.ledger.row(RowId(8)).unwrap().entry(2).unwrap().whose;
    let read = from_code(&to_code(&own)).unwrap();
    assert_eq!(whose(&read), Whose::Own, "as when one's own work is kept as a code");
    assert_eq!(whose(&read.came_by_link()), Whose::Stranger);
}

/// Twenty thousand codes with one character changed, left out, added, swapped
/// with its neighbour, or cut at any place: one in eleven million passes.
#[test]
fn a_mistyped_or_cut_code_is_told() {
    const LETTERS: &[u8] = b"123456789ABCDEFGHJKLMNPQRSTUVWXYZabcdefghijkmnopqrstuvwxyz0OIl";
    let mut runner = TestRunner::deterministic();
    let mut tried = 0;
    let mut check = |code: &[u8], good: &str| {
        let text = std::str::from_utf8(code).unwrap();
        if text != good {
            tried += 1;
            assert!(
                matches!(from_code(text), Err(LinkError::CutOff | LinkError::NotALink)),
                "{good} as {text}: {:?}",
                from_code(text)
            );
        }
    };
    for round in 0..6 {
        let design =
            if round == 0 { dropped(50.8) } else { typed_in().new_tree(&mut runner).unwrap().current() };
        let good = to_code(&shared(design));
        let bytes = good.as_bytes();
        for at in 0..bytes.len() {
            for letter in LETTERS.iter().skip(at % 4).step_by(4) {
                let mut changed = bytes.to_vec();
                changed[at] = *letter;
                check(&changed, &good);
                changed = bytes.to_vec();
                changed.insert(at, *letter);
                check(&changed, &good);
            }
            let mut changed = bytes.to_vec();
            changed.remove(at);
            check(&changed, &good);
            changed = bytes.to_vec();
            changed.swap(at, (at + 1) % bytes.len());
            check(&changed, &good);
            check(&bytes[..at], &good);
            check(&bytes[at + 1..], &good);
        }
    }
    assert!(tried > 20_000, "{tried}");
}

#[test]
fn equal_designs_give_equal_codes_whatever_the_order_of_the_edits() {
    let tire = TireSwap {
        size: TireSize { section_mm: 205.0, aspect_percent: 60.0, rim_code: 15.0 },
        rim_width_mm: 177.8,
        offset_mm: -6.35,
        loaded_radius_mm: None,
        barrel_mm: None,
    };
    let up = ChangeKind::MovedPivot
        .with(ChangeKind::MovedPivot.places().first().copied(), &[None, None, Some(12.7)]);
    let edits = [
        Edit::Set(ProposalId(0), Change::TireSwap(tire)),
        Edit::Set(ProposalId(0), up.unwrap()),
        Edit::MeasureAll(vec![(Field::LowerBallY, 650.0), (Field::UpperBallZ, 440.0)]),
    ];
    let one = edited(&demo(), edits.clone());
    let other = edited(&demo(), edits.into_iter().rev());
    assert_eq!(one, other);
    assert_eq!(to_code(&shared(one)), to_code(&shared(other)));
}

#[test]
fn what_cannot_be_kept_does_not_stop_a_link() {
    let mut design = demo();
    design.title = "t".repeat(1000);
    design.note = "bell \u{7} and\nline, \u{202e}turned".to_owned();
    design.truck.points.lower.ball.y = f64::NAN;
    design.truck.load.corner_n = 1e300;
    design.truck.tire.measured_diameter_mm = Some(f64::INFINITY);
    design.proposals = (0..9).map(|id| Proposal::new(ProposalId(id / 2), "n")).collect();
    let given = Shared {
        design,
        opening: Opening { proposal: Some(ProposalId(200)), travel_mm: f64::NAN, ..Opening::default() },
    };
    let arrived = from_code(&to_code(&given)).unwrap();
    assert_eq!(arrived, given.kept());
    assert_eq!(arrived.design.truck.points.lower.ball.y.to_bits(), 655_f64.to_bits());
    assert_eq!(arrived.design.truck.tire.measured_diameter_mm, None);
    assert_eq!(arrived.design.note, "bell  and\nline, turned");
    assert_eq!(arrived.design.title.len(), Design::LONGEST_NAME);
    assert_eq!(arrived.opening, Opening::default());
}

#[test]
fn what_is_said_of_a_bad_code() {
    for (code, error) in [
        ("", LinkError::NotALink),
        ("hello", LinkError::NotALink),
        ("1", LinkError::NotALink),
        ("1 1111", LinkError::NotALink),
        ("11111", LinkError::NotALink),
        ("1Zz0", LinkError::CutOff),
    ] {
        assert_eq!(from_code(code), Err(error), "{code}");
    }
    assert_eq!(from_code(&"1".repeat(LONGEST_CODE + 1)), Err(LinkError::TooLong));
}

proptest! {
    #![proptest_config(cases(300))]

    #[test]
    fn a_code_is_letters_and_digits(design in crate::generate::any_design()) {
        let code = to_code(&shared(design));
        prop_assert!(code.starts_with('1'));
        prop_assert!(code.bytes().all(|byte| byte.is_ascii_alphanumeric()));
    }
}

/// A truck of one's own of which five numbers are known: its link says them and the rule by which the others follow,
/// and so it is hardly longer than where nothing follows; the file says each.
#[test]
fn guesses_that_follow_are_told_by_their_rule() {
    let height = Reading::by(Readable::FrameHeight, 285.75, ReadWith::Tape);
    let edits = [
        Edit::OwnTruck,
        Edit::MeasureAll(vec![(Field::TireSection, 215.0), (Field::WheelCentreY, 715.0)]),
        Edit::Read(Readable::FrameHeight, Side::Left, Some(height)),
        // A guess that was put elsewhere, and a frame so high that the linkage does not follow it.
        Edit::Correct(vec![(Side::Left, Field::LowerBallZ, 240.0)]),
    ];
    let follows = edited(&demo(), edits.clone());
    let mut still = edited(&demo(), [edits[0].clone()]);
    still.truck.sources = truck::Sources::all(truck::Source::Assumed);
    let still = edited(&still, edits[1..].to_vec());
    assert!(truck::guesses(&follows.truck).len() > 25 && truck::guesses(&still.truck).is_empty());
    let [long, short] = [&follows, &still].map(|design| to_code(&shared(design.clone())).len());
    assert!(long <= short + 4, "{long} characters for {short}");
    let high = Reading::by(Readable::FrameHeight, 700.0, ReadWith::Tape);
    let high = Edit::Read(Readable::FrameHeight, Side::Left, Some(high));
    let stays = edited(&follows, [high]);
    assert_ne!(stays.truck.sources.staying(), follows.truck.sources.staying());
    for design in [follows, still, stays] {
        let whole = shared(design.clone());
        assert_eq!(from_code(&to_code(&whole)), Ok(whole.clone()));
        let tree = to_tree(&whole);
        assert_eq!(from_tree(&tree), Ok(whole));
        let text = print_json(&tree);
        assert_eq!(text.contains("guesses_by_rule_1"), design.truck.sources.staying().is_some());
    }
}

/// On a truck of one's own it is a guess which spring it has, until somebody says it, be it the one that was guessed. A
/// link says so in three characters at most, and one that says nothing leaves it a guess.
#[test]
fn that_a_spring_was_named_is_told() {
    let own = edited(&demo(), [Edit::OwnTruck]);
    assert!(!own.truck.spring_is_known() && demo().truck.spring_is_known());
    for kind in [SpringKind::TorsionBar, SpringKind::Coil, SpringKind::WheelRate] {
        let named = edited(&own, [Edit::SpringKind(kind)]);
        assert!(named.truck.spring_is_known());
        let [long, short] = [&named, &own].map(|design| to_code(&shared(design.clone())).len());
        assert!(long <= short + 3, "{long} characters for {short}");
        for design in [&own, &named] {
            let whole = shared(design.clone());
            assert_eq!(from_code(&to_code(&whole)), Ok(whole.clone()));
            assert_eq!(from_tree(&to_tree(&whole)), Ok(whole));
        }
        // Of the demo, whose numbers were measured, nothing has to be said.
        let measured = edited(&demo(), [Edit::SpringKind(kind), Edit::SpringKind(SpringKind::TorsionBar)]);
        assert_eq!(measured, demo());
    }
}
