//! The defaults of version 1: frozen with it, for ever.
//!
//! They were the demo truck's numbers when the version was made. Whoever
//! changes the demo truck leaves this file alone: every link that was ever
//! shared is written as the difference from these numbers.

use truck::{
    Change, ChangeKind, DroppedSpindle, Field, Proposal, ProposalId, RearBlock, RearField, RearStop, Source,
    SpringKind,
};

/// The title.
pub(crate) const TITLE: &str = "Juniper pickup";
/// The source of every number.
pub(crate) const RULE: Source = Source::Measured;
/// The kind of spring.
pub(crate) const SPRING_KIND: SpringKind = SpringKind::TorsionBar;
/// The arm that carries it.
pub(crate) const SPRING_ARM: truck::Arm = truck::Arm::Lower;

/// The numbers in whole steps. Optional ones are open unless stated, and here is
/// what they are written as a difference from.
///
/// A field that came later has no line here: it is optional, and its absence
/// means that it is not stated.
const NUMBERS: [(Field, i32); 71] = [
    (Field::LowerFrontX, 43000),
    (Field::LowerFrontY, 31800),
    (Field::LowerFrontZ, 22900),
    (Field::LowerRearX, -800),
    (Field::LowerRearY, 28700),
    (Field::LowerRearZ, 22400),
    (Field::LowerBallX, 300),
    (Field::LowerBallY, 65500),
    (Field::LowerBallZ, 19600),
    (Field::UpperFrontX, 8800),
    (Field::UpperFrontY, 40400),
    (Field::UpperFrontZ, 46200),
    (Field::UpperRearX, -11200),
    (Field::UpperRearY, 40600),
    (Field::UpperRearZ, 45500),
    (Field::UpperBallX, -500),
    (Field::UpperBallY, 61700),
    (Field::UpperBallZ, 44800),
    (Field::WheelCentreX, 0),
    (Field::WheelCentreY, 70200),
    (Field::WheelCentreZ, 31200),
    (Field::TieInnerX, -11800),
    (Field::TieInnerY, 32400),
    (Field::TieInnerZ, 26800),
    (Field::TieOuterX, -13200),
    (Field::TieOuterY, 64000),
    (Field::TieOuterZ, 24600),
    (Field::Camber, 0),
    (Field::Toe, 0),
    (Field::BumpGap, 2860),
    (Field::BumpSquash, 950),
    (Field::BumpRadius, 16500),
    (Field::Droop, 7000),
    (Field::CornerLoad, 3900),
    (Field::UnsprungWeight, 420),
    (Field::BarDiameter, 2540),
    (Field::BarLength, 109000),
    (Field::BarLever, 15200),
    (Field::BarLeverAngle, 9000),
    (Field::BarThread, 150),
    (Field::BarTurnsIn, 1200),
    (Field::BarTurnsOut, 1400),
    (Field::ShearModulus, 793),
    (Field::CoilWire, 1550),
    (Field::CoilMean, 10800),
    (Field::CoilActive, 700),
    (Field::CoilPitch, 3300),
    (Field::CoilArmX, 0),
    (Field::CoilArmY, 50000),
    (Field::CoilArmZ, 21500),
    (Field::CoilBodyX, -500),
    (Field::CoilBodyY, 45500),
    (Field::CoilBodyZ, 45500),
    (Field::WheelRate, 2100),
    (Field::TireSection, 195),
    (Field::TireAspect, 75),
    (Field::TireRim, 28),
    (Field::TireShoulder, 3200),
    (Field::RimWidth, 13970),
    (Field::WheelOffset, 0),
    (Field::Wheelbase, 269000),
    (Field::RailOuterY, 35200),
    (Field::RailWidth, 7000),
    (Field::RailBottomZ, 30000),
    (Field::RailHeight, 11000),
    (Field::RailFrontX, 60000),
    (Field::RailRearX, -70000),
    (Field::FenderY, 77600),
    (Field::FenderZ, 73400),
    (Field::FenderHalfLength, 12000),
    (Field::TireDiameter, 64800),
];

/// The numbers of a change in whole steps, by kind and in the order of the
/// kind's own list. Beyond the end of a list it is zero. Optional ones are open
/// unless stated, as above.
const CHANGES: [(ChangeKind, &[i64]); 8] = [
    (ChangeKind::DroppedSpindle, &[0, 0, 0, 0, 0]),
    (ChangeKind::MovedPivot, &[0, 0, 0]),
    (ChangeKind::BarAdjuster, &[0]),
    (ChangeKind::CutCoil, &[0]),
    (ChangeKind::TireSwap, &[195, 75, 28, 13970, 0, 31200]),
    (ChangeKind::BarSwap, &[2540, 109000]),
    (ChangeKind::AnchorSwap, &[15200, 9000, 150, 0]),
    (ChangeKind::CoilSwap, &[1550, 10800, 700]),
];
/// How many lists of changes there were when the version was made.
#[cfg(test)]
const CHANGES_OF_OLD: usize = 5;

/// Numbers of the demo truck that came later, in whole steps: stated by default
/// in links that say so ([`Base::Whole`]). One that is in no other list is
/// written as a difference from it in any link. Frozen like the rest.
const LATER: [(Field, i32); 59] = [
    (Field::LowerFrontZ, 26100),
    (Field::LowerRearZ, 25600),
    (Field::LowerBallZ, 22800),
    (Field::TieInnerX, -10200),
    (Field::TieInnerZ, 29800),
    (Field::TieOuterX, -11600),
    (Field::TieOuterY, 63400),
    (Field::TieOuterZ, 27600),
    (Field::CoilArmZ, 24700),
    (Field::CoilBodyZ, 48700),
    (Field::SteeringKind, 1),
    (Field::PitmanLength, 14000),
    (Field::PitmanSide, 1),
    (Field::LockLeft, 3300),
    (Field::LockRight, 2800),
    (Field::StrutArmX, 2800),
    (Field::StrutArmY, 55500),
    (Field::StrutArmZ, 23600),
    (Field::StrutThread, 150),
    (Field::TieThread, 150),
    (Field::LowerSwing, 2200),
    (Field::LowerSwingRest, 200),
    (Field::UpperSwing, 2000),
    (Field::UpperSwingRest, 300),
    (Field::ShaftSide, 0),
    (Field::ShimFrontX, 6000),
    (Field::ShimRearX, -8400),
    (Field::ShimFront, 300),
    (Field::ShimRear, 450),
    (Field::ShimMost, 1500),
    (Field::BarSplinesAnchor, 36),
    (Field::BarSplinesArm, 35),
    (Field::BarAllowable, 880),
    (Field::CoilEnds, 3),
    (Field::CoilAllowable, 830),
    (Field::ShockArmX, 2200),
    (Field::ShockArmY, 52000),
    (Field::ShockArmZ, 24400),
    (Field::ShockBodyX, 1200),
    (Field::ShockBodyY, 45500),
    (Field::ShockBodyZ, 56000),
    (Field::ShockShort, 26200),
    (Field::ShockLong, 38500),
    (Field::RimBarrel, 16000),
    (Field::CaliperRadius, 14800),
    (Field::CaliperIn, 9800),
    (Field::CaliperOut, 1400),
    (Field::RotorDiameter, 25800),
    (Field::RotorThickness, 2200),
    (Field::LowerArmThickness, 2000),
    (Field::UpperArmThickness, 1400),
    (Field::TieRodThickness, 1100),
    (Field::StrutRodThickness, 900),
    (Field::LowPointY, 18000),
    (Field::LowPointZ, 19000),
    (Field::BallNut, 1800),
    (Field::DriverLoad, 290),
    (Field::BedLoad, 2500),
    (Field::BedBehind, 15000),
];

/// The numbers of an invented rear in whole steps, by their ids: what each is written as a
/// difference from. Frozen like the rest; a number that comes later has a line at the end.
const REAR: [i32; 51] = [
    47000, 31000, -6200, 7600, 11800, 12500, 125000, 60000, 4500, 29000, 29600, 37500, 2800, 3000, 3300, 700,
    0, 38000, 27000, 43000, 300, 350, 300, 125000, 22000, 0, 3500, 12000, 5000, 350, 76000, 48000, 2500,
    100000, 142000, 2200, 80000, 21000, 22000, 11500, 130000, 18000, 5000, 17000, 55000, 25000, 40000, 75000,
    45000, 120000, 250,
];

/// What [`Base::WithRear`] states of them: those that there were when it was made. Frozen; a number that comes
/// later is stated in no base.
const REAR_STATED: [i32; 39] = [
    51000, 31000, -6200, 11800, 16000, 12500, 125000, 60000, 4500, 29000, 29600, 37500, 2800, 3000, 3300,
    700, 0, 38000, 22000, 43000, 300, 400, 300, 125000, 22000, 0, 3500, 12000, 5000, 350, 76000, 48000, 2500,
    100000, 142000, 2200, 80000, 21000, 22000,
];

/// What a number of the rear is written as a difference from, in steps.
pub(super) fn rear_steps(field: RearField) -> i64 {
    REAR.get(usize::from(field.id())).copied().map_or(0, i64::from)
}

/// Which numbers are stated where a link says nothing of them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Base {
    /// Those that had to be, when the version was made.
    #[default]
    First,
    /// Those and the ones of [`LATER`].
    Whole,
    /// Those and the ones of [`REAR_STATED`]; its proposals are others than those of the two before.
    WithRear,
}

impl Base {
    /// Every base; its place is its code in links.
    pub(super) const ALL: [Self; 3] = [Self::First, Self::Whole, Self::WithRear];

    /// The default of a number in the core's unit; `None` where it is not stated.
    pub(crate) fn value(self, field: Field) -> Option<f64> {
        let later = if self == Self::First { None } else { later(field) };
        let first = (!field.is_optional()).then(|| steps(field));
        later.or(first).map(|steps| field.kind().value(steps))
    }

    /// The default of a number of the rear in the core's unit; `None` where it is not stated.
    pub(super) fn of_rear(self, field: RearField) -> Option<f64> {
        let steps = REAR_STATED.get(usize::from(field.id())).filter(|_| self == Self::WithRear);
        steps.map(|steps| field.kind().value(i64::from(*steps)))
    }
}

fn later(field: Field) -> Option<i64> {
    LATER.iter().find(|(other, _)| *other == field).map(|(_, steps)| i64::from(*steps))
}

/// What a number is written as a difference from, in steps.
pub(super) fn steps(field: Field) -> i64 {
    let first = NUMBERS.iter().find(|(other, _)| *other == field).map(|(_, steps)| i64::from(*steps));
    first.or_else(|| later(field)).unwrap_or(0)
}

/// The default of a number in files, in the core's unit; `None` where it is not stated.
pub(crate) fn value(field: Field) -> Option<f64> {
    Base::First.value(field)
}

/// What a number of a change is written as a difference from, in steps.
pub(super) fn change_steps(kind: ChangeKind, index: usize) -> i64 {
    let list = CHANGES.iter().find(|(other, _)| *other == kind);
    list.and_then(|(_, steps)| steps.get(index)).copied().unwrap_or(0)
}

/// The defaults of a change's numbers in the core's units.
pub(crate) fn change_values(kind: ChangeKind) -> Vec<Option<f64>> {
    let value = |(index, number): (usize, &truck::ChangeNumber)| {
        (!number.optional).then(|| number.kind.value(change_steps(kind, index)))
    };
    kind.numbers().iter().enumerate().map(value).collect()
}

/// The proposals where a link says nothing of them.
pub(super) fn proposals(base: Base) -> Vec<Proposal> {
    let spindle = Change::DroppedSpindle(DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() });
    let block = Change::RearBlock(RearBlock { height_mm: 50.8, wedge_rad: 0.0 });
    let stop = Change::RearStop(RearStop { lower_mm: 12.7 });
    let laid = |id, name, changes: &[Change]| {
        let mut proposal = Proposal::new(ProposalId(id), name);
        changes.iter().for_each(|change| proposal.set(*change));
        proposal
    };
    match base {
        Base::First | Base::Whole => vec![laid(0, "Two-inch spindle", &[spindle])],
        Base::WithRear => vec![laid(0, "", &[spindle]), laid(1, "Both ends", &[spindle, block, stop])],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The sum is that of the lists when the version was made. If this fails, a
    /// default or the sort of a field's number was changed, and every link out
    /// there means something else: put it back. The demo truck may change; this
    /// may not.
    #[test]
    fn the_defaults_are_frozen() {
        let mut sum: i64 = 0;
        let mut add = |value: i64| sum = (sum * 31 + value).rem_euclid(1_000_000_007);
        for (field, steps) in NUMBERS {
            add(i64::from(field.id()));
            add(i64::from(steps));
            format!("{:?}", field.kind()).bytes().for_each(|byte| add(i64::from(byte)));
        }
        for (kind, list) in CHANGES.into_iter().take(CHANGES_OF_OLD) {
            add(i64::from(kind.id()));
            list.iter().for_each(|steps| add(*steps));
        }
        assert_eq!(sum, SUM);
        assert_eq!((TITLE, RULE, SPRING_KIND, SPRING_ARM), FROZEN);
    }

    /// As above, for what came later: a line may be added, and the sum with it; none may change.
    #[test]
    fn what_came_later_is_frozen_too() {
        let mut sum: i64 = 0;
        let mut add = |value: i64| sum = (sum * 31 + value).rem_euclid(1_000_000_007);
        for (field, steps) in LATER {
            add(i64::from(field.id()));
            add(i64::from(steps));
        }
        for (kind, list) in CHANGES.into_iter().skip(CHANGES_OF_OLD) {
            add(i64::from(kind.id()));
            list.iter().for_each(|steps| add(*steps));
        }
        assert_eq!(sum, 261916144);
        let sum = |list: &[i32]| {
            list.iter().fold(0_i64, |sum, steps| (sum * 31 + i64::from(*steps)).rem_euclid(1_000_000_007))
        };
        assert_eq!((sum(&REAR), sum(&REAR_STATED)), (867_989_873, 644_877_470));
    }

    const SUM: i64 = 731227178;
    const FROZEN: (&str, Source, SpringKind, truck::Arm) =
        ("Juniper pickup", Source::Measured, SpringKind::TorsionBar, truck::Arm::Lower);

    #[test]
    fn a_field_has_a_default_or_may_be_left_open() {
        for field in Field::ALL.iter().copied() {
            let listed = NUMBERS.iter().any(|(other, _)| *other == field);
            assert!(listed || field.is_optional(), "{field:?}");
            assert!(field.accept(field.kind().value(steps(field))).is_some(), "{field:?}");
        }
    }

    #[test]
    fn every_number_of_the_rear_can_be_what_it_is_written_from() {
        for field in RearField::ALL {
            assert!(field.accept(field.kind().value(rear_steps(field))).is_some(), "{field:?}");
        }
    }

    /// A link gives a number of its base another value and cannot take it out: which are there is frozen too.
    #[test]
    fn one_base_states_the_first_numbers_of_the_rear() {
        for field in RearField::ALL {
            let first = REAR_STATED.get(usize::from(field.id())).filter(|_| field.id() <= 38);
            let steps = |base: Base| base.of_rear(field).and_then(|value| field.kind().steps(value));
            assert_eq!(steps(Base::WithRear), first.map(|steps| i64::from(*steps)), "{field:?}");
            assert_eq!((steps(Base::First), steps(Base::Whole)), (None, None), "{field:?}");
        }
        for field in Field::ALL.iter().copied() {
            assert_eq!(Base::WithRear.value(field), Base::Whole.value(field), "{field:?}");
        }
        assert_eq!(proposals(Base::First), proposals(Base::Whole));
    }

    /// Links say by which rule guesses follow and not where they start: where rule 1 starts is frozen too. If this
    /// fails the demo truck was changed: give `truck::guesses` the numbers of old as a list of its own.
    #[test]
    fn guesses_by_rule_1_start_from_the_frozen_defaults() {
        let own = truck::demo().edited(&truck::Edit::OwnTruck).unwrap().truck;
        let size = [Field::TireSection, Field::TireAspect, Field::TireRim, Field::TireDiameter];
        let starts = truck::guesses(&own).into_iter().map(|(field, value)| (field, Some(value)));
        let starts: Vec<_> = starts.chain(size.map(|field| (field, field.get(&own)))).collect();
        assert!(starts.len() > 30);
        for (field, value) in starts {
            let steps = |value: Option<f64>| value.and_then(|value| field.kind().steps(value));
            assert_eq!(steps(value), steps(Base::Whole.value(field)), "{field:?}");
        }
    }

    #[test]
    fn the_defaults_of_every_change_can_be_entered() {
        for kind in ChangeKind::ALL {
            assert!(kind.with(kind.places().first().copied(), &change_values(kind)).is_some(), "{kind:?}");
        }
    }
}
