//! In which order a truck is best measured: five stages, each good for something by itself.
//!
//! The first is taken in a driveway; who stops after any of them has what it is good for, and
//! the rest of the numbers stay guesses. `tests/tests/stages.rs` says which answers each
//! stage makes sure.

use crate::field::{Field, Group};
use crate::field_set::FieldSet;
use crate::reading::Readable;
use crate::side::Side;
use crate::source::Source;
use crate::spring::SpringKind;
use crate::truck::Truck;

/// The tire's size, one text on the sidewall, and what is seen of the stop with the wheel on.
const OUTSIDE: &[Field] = &[Field::TireSection, Field::TireAspect, Field::TireRim, Field::BumpGap];

/// Across and up: every one is seen from in front of the wheel.
const ARMS: &[Field] = &[
    Field::LowerBallY,
    Field::LowerBallZ,
    Field::UpperBallY,
    Field::UpperBallZ,
    Field::WheelCentreY,
    Field::WheelCentreZ,
    Field::Camber,
    Field::LowerFrontY,
    Field::LowerFrontZ,
    Field::LowerRearY,
    Field::LowerRearZ,
    Field::UpperFrontY,
    Field::UpperFrontZ,
    Field::UpperRearY,
    Field::UpperRearZ,
    Field::BumpRadius,
    Field::FenderZ,
    Field::FenderY,
    Field::RimWidth,
    Field::TireShoulder,
];

/// Of every kind; a truck has one.
const SPRING: &[Field] = &[
    Field::CornerLoad,
    Field::UnsprungWeight,
    Field::BarDiameter,
    Field::BarLength,
    Field::BarLever,
    Field::BarLeverAngle,
    Field::BarThread,
    Field::BarTurnsIn,
    Field::BarTurnsOut,
    Field::BarSplinesAnchor,
    Field::BarSplinesArm,
    Field::BarBlindAnchor,
    Field::BarBlindArm,
    Field::BarAllowable,
    Field::BarInward,
    Field::BarDownward,
    Field::ShearModulus,
    Field::CoilWire,
    Field::CoilMean,
    Field::CoilActive,
    Field::CoilPitch,
    Field::CoilArmX,
    Field::CoilArmY,
    Field::CoilArmZ,
    Field::CoilBodyX,
    Field::CoilBodyY,
    Field::CoilBodyZ,
    Field::CoilEnds,
    Field::CoilAllowable,
    Field::WheelRate,
    Field::DriverLoad,
    Field::BedLoad,
    Field::BedBehind,
];

/// Along the truck, the tie rod, and what a steered wheel comes near.
const FORE_AFT: &[Field] = &[
    Field::LowerBallX,
    Field::UpperBallX,
    Field::WheelCentreX,
    Field::Toe,
    Field::LowerFrontX,
    Field::LowerRearX,
    Field::UpperFrontX,
    Field::UpperRearX,
    Field::TieInnerX,
    Field::TieInnerY,
    Field::TieInnerZ,
    Field::TieOuterX,
    Field::TieOuterY,
    Field::TieOuterZ,
    Field::TieThread,
    Field::LockLeft,
    Field::LockRight,
    Field::SteeringKind,
    Field::PitmanLength,
    Field::PitmanSide,
    Field::Wheelbase,
    Field::RailOuterY,
    Field::RailBottomZ,
    Field::RailWidth,
    Field::RailHeight,
    Field::RailFrontX,
    Field::RailRearX,
    Field::FenderHalfLength,
    Field::BumpSquash,
    Field::Droop,
    Field::WheelOffset,
    Field::TireDiameter,
];

/// What is taken for one job, and what has its own tools.
const PARTS: &[Field] = &[
    Field::ShockArmX,
    Field::ShockArmY,
    Field::ShockArmZ,
    Field::ShockBodyX,
    Field::ShockBodyY,
    Field::ShockBodyZ,
    Field::ShockShort,
    Field::ShockLong,
    Field::RimBarrel,
    Field::CaliperRadius,
    Field::CaliperIn,
    Field::CaliperOut,
    Field::RotorDiameter,
    Field::RotorThickness,
    Field::LowerSwing,
    Field::LowerSwingRest,
    Field::UpperSwing,
    Field::UpperSwingRest,
    Field::StrutArmX,
    Field::StrutArmY,
    Field::StrutArmZ,
    Field::StrutThread,
    Field::ShaftSide,
    Field::ShimFrontX,
    Field::ShimRearX,
    Field::ShimFront,
    Field::ShimRear,
    Field::ShimMost,
    Field::LowerArmThickness,
    Field::UpperArmThickness,
    Field::TieRodThickness,
    Field::StrutRodThickness,
    Field::LowPointY,
    Field::LowPointZ,
    Field::BallNut,
];

/// What a truck can do without: where it is open, something else stands for it.
const MAY_STAY_OPEN: [Field; 5] =
    [Field::TireDiameter, Field::BarBlindAnchor, Field::BarBlindArm, Field::BarInward, Field::BarDownward];

/// A stage of measuring a truck.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// From outside, the truck on its wheels.
    Outside,
    /// The arms from the front: across and up, nothing fore and aft.
    Arms,
    /// The spring, and what it carries.
    Spring,
    /// Fore and aft, the tie rod, the lock.
    ForeAft,
    /// Shock, brake, joints, strut rod, shims and what is left.
    Parts,
}

/// How far one is with a stage.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Progress {
    /// How many of its numbers are one's own.
    pub given: usize,
    /// How many it asks for.
    pub asked: usize,
}

impl Progress {
    /// How many are still to be had.
    #[must_use]
    pub const fn left(self) -> usize {
        self.asked - self.given
    }
}

impl Stage {
    /// Every stage, in order.
    pub const ALL: [Self; 5] = [Self::Outside, Self::Arms, Self::Spring, Self::ForeAft, Self::Parts];

    /// What is read off the truck as it sits, in the order in which it is taken.
    #[must_use]
    pub const fn readables(self) -> &'static [Readable] {
        match self {
            Self::Outside => &[Readable::FrameHeight, Readable::FenderAbove, Readable::Droop],
            _ => &[],
        }
    }

    /// Its numbers in the order in which they are taken, those of every kind of spring.
    const fn all_fields(self) -> &'static [Field] {
        match self {
            Self::Outside => OUTSIDE,
            Self::Arms => ARMS,
            Self::Spring => SPRING,
            Self::ForeAft => FORE_AFT,
            Self::Parts => PARTS,
        }
    }

    /// The numbers that it asks for on a truck with a kind of spring, in the order in which they are taken.
    pub fn fields(self, kind: SpringKind) -> impl Iterator<Item = Field> {
        self.all_fields().iter().copied().filter(move |field| is_of(*field, kind))
    }

    /// The stage that asks for a number; `None` where a truck with that kind of spring does not have it.
    #[must_use]
    pub fn of(field: Field, kind: SpringKind) -> Option<Self> {
        let asks = |stage: &Self| stage.all_fields().contains(&field);
        Self::ALL.into_iter().find(asks).filter(|_| is_of(field, kind))
    }

    /// Of some numbers the one that is best taken first; `None` where no stage asks for any of them.
    #[must_use]
    pub fn first(of: FieldSet, kind: SpringKind) -> Option<Field> {
        Self::ALL.into_iter().find_map(|stage| stage.fields(kind).find(|field| of.contains(*field)))
    }

    /// How far one is with it at a side; the tire's size is one number, and which spring it has is asked with the left's.
    #[must_use]
    pub fn progress(self, truck: &Truck, side: Side) -> Progress {
        let mut of = Progress { given: 0, asked: 0 };
        let mut count = |is_given: bool| {
            of.asked += 1;
            of.given += usize::from(is_given);
        };
        if self == Self::Outside && side == Side::Left {
            count(truck.spring_is_known());
        }
        for readable in self.readables() {
            count(truck.readings.get(*readable, side).is_some());
        }
        for field in self.fields(truck.spring.kind) {
            let is_stated = field.get(truck).is_some();
            let is_asked = is_stated || !MAY_STAY_OPEN.contains(&field);
            if is_asked && !matches!(field, Field::TireAspect | Field::TireRim) {
                count(is_stated && truck.sources.of(field) != Source::Assumed);
            }
        }
        of
    }
}

/// Whether a truck with a kind of spring has a number.
fn is_of(field: Field, kind: SpringKind) -> bool {
    match (field, field.group()) {
        // Bar and coil are made of the same steel.
        (Field::ShearModulus, _) => kind != SpringKind::WheelRate,
        (_, Group::Bar) => kind == SpringKind::TorsionBar,
        (_, Group::Coil) => kind == SpringKind::Coil,
        (_, Group::WheelRate) => kind == SpringKind::WheelRate,
        _ => true,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use crate::design::Design;
    use crate::edit::Edit;
    use crate::reading::{ReadWith, Reading};

    const KINDS: [SpringKind; 3] = [SpringKind::TorsionBar, SpringKind::Coil, SpringKind::WheelRate];

    /// Each number of a truck is asked for once, and of a spring that it does not have none is.
    #[test]
    fn every_number_is_of_one_stage() {
        let (mut bar, mut coil, mut rate) = (0, 0, 0);
        for kind in KINDS {
            for field in Field::ALL.iter().copied() {
                let asks = |stage: &Stage| stage.fields(kind).filter(|other| *other == field).count();
                let times: usize = Stage::ALL.iter().map(asks).sum();
                let at = Stage::ALL.into_iter().find(|stage| asks(stage) > 0);
                assert_eq!(Stage::of(field, kind), at, "{field:?}");
                let other = match field.group() {
                    Group::Bar => {
                        bar += times;
                        kind != SpringKind::TorsionBar
                    }
                    Group::Coil => {
                        coil += times;
                        kind != SpringKind::Coil
                    }
                    Group::WheelRate => {
                        rate += times;
                        kind != SpringKind::WheelRate
                    }
                    _ => false,
                };
                let shared = field == Field::ShearModulus && kind == SpringKind::Coil;
                assert_eq!(times, usize::from(!other || shared), "{field:?} of {kind:?}");
            }
        }
        // Fifteen of a bar and once more the coil's steel, twelve of a coil, one rate.
        assert_eq!((bar, coil, rate), (16, 12, 1));
    }

    /// By hand: which spring, and five from outside, the first of which is three numbers; what is left open where
    /// something else stands for it is asked of nobody, and a guess or what is not stated is still to be had.
    #[test]
    fn how_far_one_is_is_counted() {
        let mut own = demo().edited(&Edit::OwnTruck).unwrap();
        let of = |design: &Design, stage: Stage| {
            let Progress { given, asked } = stage.progress(&design.truck, Side::Left);
            (given, asked)
        };
        assert_eq!(Stage::ALL.map(|stage| of(&own, stage)), [(0, 6), (0, 20), (0, 16), (0, 31), (0, 35)]);
        let size = [(Field::TireSection, 205.0), (Field::TireAspect, 70.0), (Field::TireRim, 14.0)];
        let height = Reading::by(Readable::FrameHeight, 292.0, ReadWith::Tape);
        for edit in [
            Edit::MeasureAll(size.to_vec()),
            Edit::Read(Readable::FrameHeight, Side::Left, Some(height)),
            Edit::Measure { field: Field::ShockLong, value: Some(380.0) },
            Edit::Measure { field: Field::TireDiameter, value: Some(655.0) },
        ] {
            own = own.edited(&edit).unwrap();
        }
        assert_eq!(Stage::ALL.map(|stage| of(&own, stage)), [(2, 6), (0, 20), (0, 16), (1, 32), (1, 35)]);
        assert_eq!(Stage::Outside.progress(&own.truck, Side::Right), Progress { given: 1, asked: 5 });
        let rate = own.edited(&Edit::SpringKind(SpringKind::WheelRate)).unwrap();
        assert_eq!(of(&rate, Stage::Spring), (0, 6));
        assert_eq!(Stage::Spring.progress(&demo().truck, Side::Left).left(), 0);
    }

    /// What is reached from the front comes before what has to be looked for along the truck.
    #[test]
    fn the_first_number_is_that_of_the_first_stage() {
        let of = [Field::StrutArmX, Field::TieInnerX, Field::UpperBallZ, Field::FenderY, Field::CoilWire];
        let first = |of: &[Field]| Stage::first(of.iter().copied().collect(), SpringKind::TorsionBar);
        assert_eq!(first(&of), Some(Field::UpperBallZ));
        assert_eq!(first(&of[..2]), Some(Field::TieInnerX));
        assert_eq!(first(&of[4..]), None);
    }

    /// What is read off is asked for by one stage.
    #[test]
    fn nothing_is_read_off_twice() {
        let all: Vec<_> = Stage::ALL.iter().flat_map(|stage| stage.readables()).collect();
        assert!(all.iter().enumerate().all(|(at, of)| !all[..at].contains(of)));
        assert_eq!(all.len(), 3);
    }
}
