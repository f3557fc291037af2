//! Designs to order. Every one is made by edits, as a person makes it.

use measure::Units;
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use sharing::{Opening, Shared};
use truck::{
    AddedRow, Arm, Asked, Change, ChangeKind, Design, Edit, Fastener, Field, Kind, LedgerEdit, Mating,
    Origin, PARTS, Part, PartId, Proposal, ProposalId, ROWS, Readable, Reading, RearField, RowId, SETTINGS,
    Side, Source, SpringKind, Task, TireSize, TireSwap, Whose, WorkEdit, demo,
};

/// What is shared, with nothing in particular seen of it.
pub(crate) fn shared(design: Design) -> Shared {
    Shared { design, opening: Opening::default() }
}

/// The design after edits, all of which must be taken.
pub(crate) fn edited(design: &Design, edits: impl IntoIterator<Item = Edit>) -> Design {
    edits.into_iter().fold(design.clone(), |design, edit| design.edited(&edit).unwrap())
}

/// Any design that up to forty random edits reach from [`start`], and any opening.
pub(crate) fn any_shared() -> impl Strategy<Value = Shared> {
    (start(), vec(step(), 0..40), opening()).prop_map(|(start, steps, opening)| {
        let design = steps.iter().fold(start, Step::done);
        Shared { design, opening }.kept()
    })
}

/// Any design of that sort, as the edits leave it.
pub(crate) fn any_design() -> impl Strategy<Value = Design> {
    (start(), vec(step(), 0..40)).prop_map(|(start, steps)| steps.iter().fold(start, Step::done))
}

/// What is done to a design, or to its ledger.
#[derive(Clone, Debug)]
enum Step {
    Design(Edit),
    Ledger(LedgerEdit),
}

impl Step {
    /// The design after it; what is refused leaves it as it is.
    fn done(design: Design, step: &Self) -> Design {
        let done = match step {
            Self::Design(edit) => design.edited(edit),
            Self::Ledger(edit) => design.ledger_edited(edit),
        };
        done.unwrap_or(design)
    }
}

fn step() -> impl Strategy<Value = Step> {
    prop_oneof![49 => edit().prop_map(Step::Design), 4 => ledger().prop_map(Step::Ledger)]
}

/// The demo as it is, with nothing measured of its rear, or with every number of a rear anywhere within its
/// limits: of a whole one an edit rarely leaves a number out, and of none it never states all.
fn start() -> impl Strategy<Value = Design> {
    let with = |numbers: Vec<Option<f64>>| {
        RearField::ALL.into_iter().zip(numbers).fold(demo(), |mut design, (field, share)| {
            let value = share.map(|share| within(field.kind(), field.limits(), share));
            design.truck.rear.put(field, value).unwrap();
            design
        })
    };
    let all = RearField::ALL.len();
    prop_oneof![
        2 => Just(demo()),
        1 => Just(with(vec![None; all])),
        2 => vec(share().prop_map(Some), all).prop_map(with),
    ]
}

fn opening() -> impl Strategy<Value = Opening> {
    let units = prop_oneof![Just(Units::Inches), Just(Units::Millimetres)];
    (option::of(0..4_u8), -300.0..300.0, -0.7..0.7, option::of(units), option::of(any::<u8>())).prop_map(
        |(proposal, travel_mm, steer_rad, units, lesson)| Opening {
            proposal: proposal.map(ProposalId),
            travel_mm,
            steer_rad,
            units,
            lesson,
        },
    )
}

fn field() -> impl Strategy<Value = Field> {
    proptest::sample::select(Field::ALL)
}

fn source() -> impl Strategy<Value = Source> {
    proptest::sample::select(vec![Source::Measured, Source::Typed, Source::Assumed])
}

/// Within limits as a form has them, in the core's unit.
fn within(kind: Kind, (low, high): (f64, f64), share: f64) -> f64 {
    let value = low + (high - low) * share;
    if kind == Kind::Angle { value.to_radians() } else { value }
}

/// From all the way to one limit to all the way to the other, both often.
fn share() -> impl Strategy<Value = f64> {
    prop_oneof![8 => 0.0..1.0, 1 => Just(0.0), 1 => Just(1.0)]
}

fn measure() -> impl Strategy<Value = Edit> {
    (field(), share(), any::<bool>()).prop_map(|(field, share, open)| Edit::Measure {
        field,
        value: (!open || !field.is_optional()).then(|| within(field.kind(), field.limits(), share)),
    })
}

fn right() -> impl Strategy<Value = Edit> {
    (field(), option::weighted(0.8, share())).prop_map(|(field, share)| {
        let value = share.map(|share| within(field.kind(), field.limits(), share));
        Edit::MeasureRight(vec![(field, value)])
    })
}

fn rear() -> impl Strategy<Value = Edit> {
    let field = proptest::sample::select(RearField::ALL.to_vec());
    (field, option::weighted(0.9, share())).prop_map(|(field, share)| {
        Edit::MeasureRear(field, share.map(|share| within(field.kind(), field.limits(), share)))
    })
}

fn nudge() -> impl Strategy<Value = Edit> {
    (field(), -20.0..20.0).prop_map(|(field, by)| Edit::Measure {
        field,
        value: field.get(&demo().truck).map(|value| value + by),
    })
}

pub(crate) fn change() -> impl Strategy<Value = Change> {
    let kind = proptest::sample::select(ChangeKind::ALL.to_vec());
    (kind, any::<prop::sample::Index>(), vec(option::of(share()), 8)).prop_filter_map(
        "a change needs all of its numbers within limits",
        |(kind, place, shares)| {
            let place = (!kind.places().is_empty()).then(|| kind.places()[place.index(kind.places().len())]);
            let values: Vec<_> = kind
                .numbers()
                .iter()
                .zip(shares)
                .map(|(row, share)| share.map(|share| within(row.kind, row.limits, share)))
                .collect();
            kind.with(place, &values)
        },
    )
}

/// A change on the left alone, on the right alone, or on the right with another first number.
fn by_side(change: Change, on: u8) -> [Option<Change>; 2] {
    match on {
        0 => [Some(change), None],
        1 => [None, Some(change)],
        _ => [Some(change), change.with_value(0, Some(1.0)).or(Some(change))],
    }
}

fn edit() -> impl Strategy<Value = Edit> {
    let id = || (0..3_u8).prop_map(ProposalId);
    let kinds = vec![SpringKind::TorsionBar, SpringKind::Coil, SpringKind::WheelRate];
    prop_oneof![
        8 => measure(),
        4 => nudge(),
        2 => right(),
        3 => rear(),
        2 => (field(), source()).prop_map(|(field, source)| Edit::Source(field, source)),
        1 => Just(Edit::OwnTruck),
        1 => proptest::sample::select(kinds).prop_map(Edit::SpringKind),
        1 => prop_oneof![Just(Arm::Lower), Just(Arm::Upper)].prop_map(Edit::SpringArm),
        6 => (id(), change()).prop_map(|(id, change)| Edit::Set(id, change)),
        3 => (id(), change(), 0..3_u8).prop_map(|(id, change, on)| Edit::SetEach(id, by_side(change, on))),
        2 => (id(), option::weighted(0.8, share())).prop_map(|(id, share)| {
            let limits = Proposal::REAR_DOWN_LIMITS_MM;
            Edit::RearDown(id, share.map(|share| within(Kind::Length, limits, share)))
        }),
        4 => (id(), change(), 0..8_usize, source()).prop_map(|(id, change, at, source)| {
            Edit::ChangeSource(id, (change.kind(), change.place(), at), source)
        }),
        1 => (id(), change()).prop_map(|(id, change)| Edit::Clear(id, change.kind(), change.place())),
        3 => text(20).prop_map(Edit::AddProposal),
        1 => id().prop_map(Edit::RemoveProposal),
        1 => (id(), text(20)).prop_map(|(id, name)| Edit::RenameProposal(id, name)),
        1 => text(25).prop_map(Edit::Title),
        1 => text(300).prop_map(Edit::Note),
        4 => reading(),
    ]
}

/// Something read off at either side, as it sits, as built or once it had settled, by any tool for it, or taken out again.
fn reading() -> impl Strategy<Value = Edit> {
    let side = prop_oneof![Just(Side::Left), Just(Side::Right)];
    let of = proptest::sample::select(Readable::ALL);
    let pick = any::<prop::sample::Index>();
    let more = (share(), option::of(share()), option::of(share()), any::<bool>(), 0..3_u8);
    (side, of, pick, more).prop_map(|(side, of, tool, (value, tolerance, swept, out, when))| {
        let tool = of.tools()[tool.index(of.tools().len())];
        let mut reading = Reading::by(of, within(of.kind(), of.limits(), value), tool);
        if let Some(share) = tolerance {
            reading.tolerance = within(of.kind(), Reading::tolerances(of.kind()), share);
        }
        let swept = swept.filter(|_| of == Readable::Caster);
        reading.swept_rad = swept.map(|share| within(Kind::Angle, Reading::SWEPT_DEG, share));
        let reading = (!out).then_some(reading);
        [Edit::Read, Edit::ReadBuilt, Edit::ReadSettled][usize::from(when)](of, side, reading)
    })
}

/// Something done to the ledger: to rows and parts of the usual swap and to a few added ones.
fn ledger() -> impl Strategy<Value = LedgerEdit> {
    let few = |usual: usize| prop_oneof![0..u8::try_from(usual).unwrap(), 128..132_u8];
    let row = move || few(ROWS.len()).prop_map(RowId);
    let part = move || few(PARTS.len()).prop_map(PartId);
    let side = option::of(prop_oneof![Just(Side::Left), Just(Side::Right)]);
    let origin = prop_oneof![
        2 => Just(Origin::Kept),
        1 => Just(Origin::Bought),
        1 => text(20).prop_map(Origin::Donor),
    ];
    let kind = proptest::sample::select(Mating::ALL);
    let added =
        (text(15), kind, part(), part(), any::<bool>()).prop_map(|(name, kind, first, second, vital)| {
            AddedRow { name, kind, parts: [first, second], vital }
        });
    prop_oneof![
        12 => write(row()),
        1 => (row(), 0..8_u8).prop_map(|(row, callout)| LedgerEdit::Erase(row, callout)),
        1 => (row(), 0..8_u8).prop_map(|(row, callout)| LedgerEdit::Own(row, callout)),
        4 => (row(), added).prop_map(|(row, added)| LedgerEdit::Row(row, added)),
        1 => row().prop_map(LedgerEdit::Clear),
        4 => (part(), text(15), origin, side)
            .prop_map(|(part, name, origin, side)| LedgerEdit::Part(part, Part { name, origin, side })),
        1 => part().prop_map(LedgerEdit::ClearPart),
        1 => Just(LedgerEdit::CameByLink),
    ]
}

/// A number of a row, within its limits and by a tool for it; of an added row, what is
/// right for one kind and refused for the others.
fn write(row: impl Strategy<Value = RowId>) -> impl Strategy<Value = LedgerEdit> {
    let picks = (any::<prop::sample::Index>(), any::<prop::sample::Index>(), share());
    (row, picks, proptest::sample::select(Whose::ALL.to_vec())).prop_map(
        |(row, (callout, tool, share), whose)| {
            let kind = row.usual().map_or(Mating::Width, |usual| usual.kind);
            let callout = callout.index(kind.callouts().len());
            let known = &kind.callouts()[callout];
            let ((low, high), tools) = (known.limits(), known.sort.tools());
            LedgerEdit::Write {
                row,
                callout: u8::try_from(callout).unwrap(),
                value: low + (high - low) * share,
                tool: tools[tool.index(tools.len())],
                whose,
            }
        },
    )
}

/// Eight readings as they come off a truck: different answers, at either side, each by a tool for
/// it, every other one with a tolerance of its own.
///
/// Lengths up to four inches but for the frame's height, angles up to six degrees (from memory).
pub(crate) fn eight_readings() -> impl Strategy<Value = Vec<Edit>> {
    let of = proptest::sample::subsequence(Readable::ALL, 8);
    let pick = || vec(any::<prop::sample::Index>(), 8);
    (of, pick(), vec(0.02..1.0_f64, 24), vec(any::<bool>(), 16)).prop_map(|(of, tools, shares, yes)| {
        let one = |(at, of): (usize, Readable)| {
            let tool = of.tools()[tools[at].index(of.tools().len())];
            let value = match of {
                Readable::FrameHeight | Readable::FenderAbove => 20.0 + 400.0 * shares[at],
                of if of.kind() == Kind::Angle => (6.0 * shares[at]).to_radians(),
                _ => 101.6 * shares[at],
            };
            let mut reading = Reading::by(of, value, tool);
            if yes[at] {
                let (_, high) = Reading::tolerances(of.kind());
                reading.tolerance = within(of.kind(), (0.0, high), 0.2 * shares[8 + at].max(0.05));
            }
            if of == Readable::Caster {
                reading.swept_rad = Some((10.0 + 20.0 * shares[16 + at]).to_radians());
            }
            Edit::Read(of, if yes[8 + at] { Side::Right } else { Side::Left }, Some(reading))
        };
        of.into_iter().enumerate().map(one).collect()
    })
}

/// Something written down of the work. It is in a file and in a browser, and in no link.
pub(crate) fn work() -> impl Strategy<Value = WorkEdit> {
    let of = || proptest::sample::select(Fastener::ALL);
    prop_oneof![
        3 => (proptest::sample::select(Task::ALL), any::<bool>()).prop_map(|(task, is)| WorkEdit::Done(task, is)),
        3 => (of(), option::weighted(0.8, 1.0..1000.0)).prop_map(|(of, value)| WorkEdit::Torque(of, value)),
        2 => (of(), text(20)).prop_map(|(of, name)| WorkEdit::Manual(of, name)),
        2 => (
            proptest::sample::select(&SETTINGS[..]),
            proptest::sample::select(&Asked::ALL[..]),
            option::weighted(0.8, 0.02..4.9_f64),
        )
            .prop_map(|(of, asked, degrees)| WorkEdit::Asked(of, asked, degrees.map(f64::to_radians))),
    ]
}

/// Text in any script without control characters.
fn text(most: usize) -> impl Strategy<Value = String> {
    vec(proptest::char::any(), 0..most).prop_map(|letters| {
        letters
            .into_iter()
            .filter(|letter| {
                !letter.is_control() && !matches!(letter, '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
            })
            .collect()
    })
}

/// A truck with every number typed in as its owner's own, a title of twenty
/// characters, and one proposal of three changes.
///
/// Points lie within ±80 mm of the demo truck's, other lengths too but for the
/// wheelbase and the bar, which differ by more between trucks; the rest spans
/// what light pickups have (from memory).
pub(crate) fn typed_in() -> impl Strategy<Value = Design> {
    (vec(-1.0..1.0_f64, Field::ALL.len()), vec(-1.0..1.0_f64, 12)).prop_map(|(shares, more)| {
        let mut design = edited(&demo(), [Edit::OwnTruck, Edit::Title("Grandpa's work truck".to_owned())]);
        for (field, share) in Field::ALL.iter().zip(shares) {
            let usual = field.get(&demo().truck).unwrap_or(648.0);
            let value = usual + share * reach(*field, usual);
            let (low, high) = field.limits();
            let value =
                value.clamp(within(field.kind(), (low, low), 0.0), within(field.kind(), (high, high), 0.0));
            design = edited(&design, [Edit::Measure { field: *field, value: Some(value) }]);
        }
        let id = ProposalId(0);
        let tire = TireSwap {
            size: TireSize {
                section_mm: (205.0 + 40.0 * more[0]).round(),
                aspect_percent: 60.0,
                rim_code: 15.0,
            },
            rim_width_mm: 178.0 + 30.0 * more[1],
            offset_mm: 25.0 * more[2],
            loaded_radius_mm: Some(300.0 + 25.0 * more[3]),
            barrel_mm: None,
        };
        let number = |value: f64| Some(value);
        let spindle = [number(50.0 + 20.0 * more[4]), number(8.0 * more[5])];
        let pivot = [number(10.0 * more[6]), number(15.0 * more[7]), number(20.0 * more[8])];
        let upper = ChangeKind::MovedPivot.places().get(1).copied();
        edited(
            &design,
            [
                Edit::AddProposal("Spindle and fifteens".to_owned()),
                Edit::Set(id, ChangeKind::DroppedSpindle.with(None, &spindle).unwrap()),
                Edit::Set(id, ChangeKind::MovedPivot.with(upper, &pivot).unwrap()),
                Edit::Set(id, Change::TireSwap(tire)),
            ],
        )
    })
}

fn reach(field: Field, usual: f64) -> f64 {
    match field.kind() {
        Kind::Length if matches!(field, Field::Wheelbase | Field::BarLength) => 400.0,
        Kind::Length => 80.0,
        Kind::Angle => 3_f64.to_radians(),
        Kind::RimCode => 1.5,
        _ => 0.3 * usual,
    }
}
