//! Readings: answers that were taken off the truck itself, as it sits, with the wheel on.
//!
//! What can be read off is not worked out from a tape: of the proposals the model then carries only
//! the change. A reading has its side, and belongs to the truck before any change.

mod read_with;
mod readable;

pub use read_with::ReadWith;
pub use readable::Readable;

use crate::field::accept;
use crate::kind::Kind;
use crate::side::Side;

/// What was read, by what, and how well.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// What the tool said, mm or rad; of a sweep how much more camber there is with the wheel's
    /// front turned out than with it turned in.
    pub value: f64,
    /// How far off it may be either way, in the same unit.
    pub tolerance: f64,
    /// What it was read with.
    pub tool: ReadWith,
    /// Of caster read by a sweep: how far the wheel was turned each way, rad.
    pub swept_rad: Option<f64>,
}

/// Why a reading is no reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReadingFault {
    /// It lies outside what can be read there: two things are never less than nothing apart.
    Value,
    /// It is better than any tool, or says nothing.
    Tolerance,
    /// The wheel was hardly turned, or farther than it goes; or it is not caster.
    Sweep,
    /// That tool does not read it.
    Tool,
    /// A link holds no more beside the ledger.
    Full,
}

impl ReadingFault {
    /// What is said of it, behind the name of what was read.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Value => "outside what can be read there",
            Self::Tolerance => "give or take 0.05 to 10 mm, or 0.01° to 5°",
            Self::Sweep => "a sweep is of caster, 5° to 40° each way",
            Self::Tool => "not read with that tool",
            Self::Full => "a ledger so full leaves no room for another reading",
        }
    }
}

impl Reading {
    /// Least and greatest tolerance of a length, mm.
    pub const TOLERANCE_MM: (f64, f64) = (0.05, 10.0);
    /// Least and greatest tolerance of an angle, degrees.
    pub const TOLERANCE_DEG: (f64, f64) = (0.01, 5.0);
    /// Least and greatest way that a wheel is turned in a sweep, degrees.
    pub const SWEPT_DEG: (f64, f64) = (5.0, 40.0);
    /// The way that a wheel is usually turned in a sweep, degrees. Common practice, no source.
    pub const USUALLY_SWEPT_DEG: f64 = 20.0;

    /// By a tool, as well as is usual for it.
    #[must_use]
    pub fn by(of: Readable, value: f64, tool: ReadWith) -> Self {
        Self { value, tolerance: tool.usual_tolerance(of.kind()), tool, swept_rad: None }
    }

    /// What it says of the answer, mm or rad.
    ///
    /// # Source
    /// A wheel that turns by `θ` either way about an axis with caster `τ` gains `2 tan τ sin θ` of
    /// camber from in to out, so `τ` is about the gain over `2 sin θ`; the inclination adds the
    /// same either way. At 20° that is 1.46 of the gain, of which the trade makes 1.5.
    #[must_use]
    pub fn answer(&self) -> f64 {
        self.value / self.spread_over()
    }

    /// How far the answer may be off either way, mm or rad.
    #[must_use]
    pub fn answer_tolerance(&self) -> f64 {
        self.tolerance / self.spread_over()
    }

    fn spread_over(&self) -> f64 {
        self.swept_rad.map_or(1.0, |swept_rad| 2.0 * linkage::angle::sin(swept_rad))
    }

    /// The reading as it is kept.
    ///
    /// # Errors
    /// [`ReadingFault`] where it is none of that answer.
    pub fn of(self, of: Readable) -> Result<Self, ReadingFault> {
        let kind = of.kind();
        let value = accept(kind, of.limits(), self.value).ok_or(ReadingFault::Value)?;
        let tolerance =
            accept(kind, Self::tolerances(kind), self.tolerance).ok_or(ReadingFault::Tolerance)?;
        let swept = |rad: f64| accept(Kind::Angle, Self::SWEPT_DEG, rad).filter(|_| of == Readable::Caster);
        let swept_rad = self.swept_rad.map(|rad| swept(rad).ok_or(ReadingFault::Sweep)).transpose()?;
        if !of.tools().contains(&self.tool) {
            return Err(ReadingFault::Tool);
        }
        let kept = Self { value, tolerance, tool: self.tool, swept_rad };
        accept(kind, of.limits(), kept.answer()).ok_or(ReadingFault::Value)?;
        Ok(kept)
    }

    /// Least and greatest tolerance of a kind of number, mm or degrees.
    #[must_use]
    pub const fn tolerances(kind: Kind) -> (f64, f64) {
        if matches!(kind, Kind::Angle) { Self::TOLERANCE_DEG } else { Self::TOLERANCE_MM }
    }
}

/// The readings of a truck: at most one of each answer a side, the left's first, by their ids.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Readings(Vec<(Side, Readable, Reading)>);

impl Readings {
    /// Nothing was read.
    pub(crate) const NONE: Self = Self(Vec::new());

    /// Whether nothing was read.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// How many there are.
    #[must_use]
    pub const fn len(&self) -> usize {
        self.0.len()
    }

    /// What was read of an answer at a side.
    #[must_use]
    pub fn get(&self, of: Readable, side: Side) -> Option<&Reading> {
        self.0.iter().find(|(at, other, _)| (*at, *other) == (side, of)).map(|(.., reading)| reading)
    }

    /// All of them.
    pub fn iter(&self) -> impl Iterator<Item = &(Side, Readable, Reading)> {
        self.0.iter()
    }

    /// Puts a reading, or takes it out.
    ///
    /// # Errors
    /// [`ReadingFault`] where it is none.
    pub fn set(&mut self, of: Readable, side: Side, reading: Option<Reading>) -> Result<(), ReadingFault> {
        let kept = reading.map(|reading| reading.of(of)).transpose()?;
        self.0.retain(|(at, other, _)| (*at, *other) != (side, of));
        if let Some(kept) = kept {
            let rank = |side: Side, of: Readable| (side == Side::Right, of.id());
            let at = self.0.partition_point(|(at, other, _)| rank(*at, *other) < rank(side, of));
            self.0.insert(at, (side, of, kept));
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        AddedRow, Design, Edit, EditError, LedgerEdit, Mating, PartId, RearAxle, RowId, Tool, Whose, demo,
    };

    fn read(of: Readable, reading: Reading) -> Result<Reading, EditError> {
        let design = demo().edited(&Edit::Read(of, Side::Left, Some(reading)))?;
        Ok(*design.truck.readings.get(of, Side::Left).unwrap())
    }

    /// By hand: 2 sin 20° is 0.6840, so 2° of gain are 2.924° of caster; the trade makes 3 of it.
    #[test]
    fn a_sweep_is_caster() {
        let swept = Reading {
            swept_rad: Some(20_f64.to_radians()),
            ..Reading::by(Readable::Caster, 2_f64.to_radians(), ReadWith::AngleGauge)
        };
        assert!((swept.answer().to_degrees() - 2.924).abs() < 5e-4);
        // A tenth of a degree either way in the gain is 0.146 of caster.
        assert!((swept.answer_tolerance().to_degrees() - 0.1462).abs() < 5e-5);
        let plain = Reading { swept_rad: None, ..swept };
        assert_eq!(plain.answer().to_bits(), plain.value.to_bits());
    }

    #[test]
    fn what_is_no_reading_is_refused_by_what_is_wrong() {
        let good = Reading::by(Readable::TireFender, 54.0, ReadWith::Tape);
        assert_eq!(read(Readable::TireFender, good), Ok(good));
        let refused = |of, reading, fault| assert_eq!(read(of, reading), Err(EditError::Reading(of, fault)));
        for value in [-0.01, 501.0, f64::NAN, f64::INFINITY] {
            refused(Readable::TireFender, Reading { value, ..good }, ReadingFault::Value);
        }
        assert!(read(Readable::TireFender, Reading { value: 0.0, ..good }).is_ok(), "they touch");
        for tolerance in [0.0, 0.04, -1.0, 10.01, 1000.0, f64::NAN] {
            refused(Readable::TireFender, Reading { tolerance, ..good }, ReadingFault::Tolerance);
        }
        refused(Readable::TireFender, Reading { tool: ReadWith::Shop, ..good }, ReadingFault::Tool);
        refused(Readable::TireFender, Reading { swept_rad: Some(0.35), ..good }, ReadingFault::Sweep);
        let caster = Reading::by(Readable::Caster, 0.03, ReadWith::AngleGauge);
        for degrees in [0.0_f64, 4.99, 40.01, -20.0] {
            let swept = Reading { swept_rad: Some(degrees.to_radians()), ..caster };
            refused(Readable::Caster, swept, ReadingFault::Sweep);
        }
        for degrees in [5.0_f64, 40.0] {
            assert!(
                read(Readable::Caster, Reading { swept_rad: Some(degrees.to_radians()), ..caster }).is_ok()
            );
        }
        // A gain of fifteen degrees over a sweep of five is a caster of eighty-six.
        let steep = Reading { value: 15_f64.to_radians(), swept_rad: Some(5_f64.to_radians()), ..caster };
        refused(Readable::Caster, steep, ReadingFault::Value);
    }

    /// Each limit is itself allowed, of every answer, by every tool for it and no other.
    #[test]
    fn limits_and_tools_are_those_of_the_table() {
        for of in Readable::ALL.iter().copied() {
            let core = |value: f64| if of.kind() == Kind::Angle { value.to_radians() } else { value };
            let (low, high) = of.limits();
            for tool in ReadWith::ALL {
                for value in [low, high] {
                    let reading = Reading::by(of, core(value), tool);
                    assert_eq!(read(of, reading).is_ok(), of.tools().contains(&tool), "{of:?} {tool:?}");
                }
            }
            for value in [low - 0.01, high + 0.01] {
                assert!(read(of, Reading::by(of, core(value), of.tools()[0])).is_err(), "{of:?}");
            }
        }
    }

    #[test]
    fn each_answer_has_one_reading_a_side_in_one_order() {
        let of = |value| Some(Reading::by(Readable::Camber, value, ReadWith::AngleGauge));
        let edits = [
            Edit::Read(
                Readable::TireRail,
                Side::Right,
                Some(Reading::by(Readable::TireRail, 60.0, ReadWith::Tape)),
            ),
            Edit::Read(Readable::Camber, Side::Right, of(0.01)),
            Edit::Read(Readable::Camber, Side::Left, of(0.02)),
        ];
        let all = |edits: &mut dyn Iterator<Item = &Edit>| {
            edits.fold(demo(), |design, edit| design.edited(edit).unwrap())
        };
        let design = all(&mut edits.iter());
        assert_eq!(design, all(&mut edits.iter().rev()));
        let order: Vec<_> = design.truck.readings.iter().map(|(side, of, _)| (*side, *of)).collect();
        let right = Side::Right;
        assert_eq!(
            order,
            [(Side::Left, Readable::Camber), (right, Readable::Camber), (right, Readable::TireRail)]
        );
        let again = design.edited(&Edit::Read(Readable::Camber, right, of(0.03))).unwrap();
        assert_eq!(again.truck.readings.iter().count(), 3);
        let kept = again.truck.readings.get(Readable::Camber, right).unwrap();
        assert_eq!(kept.value.to_bits(), Kind::Angle.rounded(0.03).unwrap().to_bits());
        let none = order
            .iter()
            .fold(design, |design, (side, of)| design.edited(&Edit::Read(*of, *side, None)).unwrap());
        assert_eq!(none, demo());
    }

    /// Eight are held beside any ledger; beyond them two numbers of it are worth one reading,
    /// whichever of the two comes last.
    #[test]
    fn readings_and_a_full_ledger_make_room_for_each_other() {
        // Numbers of a rear and of its parts would take room as well.
        let mut design = demo();
        design.truck.rear = RearAxle::UNKNOWN;
        design.proposals.truncate(1);
        let rows = (0..64).map(|at| RowId(128 + at));
        let added = |kind| AddedRow { name: String::new(), kind, parts: [PartId(0), PartId(1)], vital: true };
        let write = |row, callout| {
            let (tool, whose) = (Tool::Caliper, Whose::Own);
            LedgerEdit::Write { row, callout, value: 20.0, tool, whose }
        };
        for row in rows.clone() {
            design = design.ledger_edited(&LedgerEdit::Row(row, added(Mating::HolePattern))).unwrap();
            for callout in [0, 2, 4] {
                design = design.ledger_edited(&write(row, callout)).unwrap();
            }
        }
        // 192 of 256 numbers are there: room for 8 + 64 / 2 readings.
        assert_eq!(design.ledger.numbers(), 192);
        let read = |side, of: Readable| Edit::Read(of, side, Some(Reading::by(of, 0.0, of.tools()[0])));
        let all = Side::ALL.into_iter().flat_map(|side| Readable::ALL.iter().map(move |of| (side, *of)));
        let all: Vec<_> = all.filter(|(_, of)| of.limits().0 <= 0.0).collect();
        assert_eq!(all.len(), 40);
        for (side, of) in all {
            design = design.edited(&read(side, of)).unwrap();
        }
        let height = Some(Reading::by(Readable::FrameHeight, 300.0, ReadWith::Tape));
        let one_more = Edit::Read(Readable::FrameHeight, Side::Left, height);
        let full = EditError::Reading(Readable::FrameHeight, ReadingFault::Full);
        assert_eq!(design.edited(&one_more), Err(full));
        assert_eq!(design.ledger_edited(&write(RowId(128), 11)), Err(EditError::LedgerFull));
        // In the place of another, or out, is always possible; and then there is room.
        assert_eq!(design.edited(&read(Side::Left, Readable::Toe)).unwrap(), design);
        let fewer = design.edited(&Edit::Read(Readable::Toe, Side::Left, None)).unwrap();
        assert!(fewer.edited(&one_more).is_ok() && fewer.ledger_edited(&write(RowId(128), 11)).is_ok());
    }

    /// Another truck has not been read yet.
    #[test]
    fn a_truck_of_one_s_own_starts_without_readings() {
        let reading = Reading::by(Readable::FrameHeight, 300.0, ReadWith::Tape);
        for (times, edit) in [Edit::Read, Edit::ReadBuilt, Edit::ReadSettled].into_iter().enumerate() {
            let read = demo().edited(&edit(Readable::FrameHeight, Side::Left, Some(reading))).unwrap();
            let sets =
                |design: &Design| [design.truck.readings.len(), design.built.len(), design.settled.len()];
            let mut one = [0; 3];
            one[times] = 1;
            assert_eq!(sets(&read), one);
            assert_eq!((read.is_settled(Side::Left), read.is_settled(Side::Right)), (times == 2, false));
            assert_eq!(sets(&read.edited(&Edit::OwnTruck).unwrap()), [0; 3]);
        }
    }
}
