//! Numbers, trucks and corners out of bytes: close bytes give close trucks, so
//! that what drives them can feel its way.

use crate::front_alone;
use linkage::{ArmPoints, Hardpoints, Point3};
use truck::{Arm, Change, ChangeKind, Design, Edit, Field, Group, Kind, ProposalId, SpringKind};

/// Bytes that are used up from the front; zeros after their end.
#[derive(Clone, Copy, Debug)]
pub struct Bytes<'a>(&'a [u8]);

/// More edits of a truck tell nothing new.
const MOST_EDITS: usize = 120;
/// The proposal that changes are laid into.
pub const PROPOSAL: ProposalId = ProposalId(0);

impl<'a> Bytes<'a> {
    /// Starts at the first byte.
    #[must_use]
    pub const fn new(bytes: &'a [u8]) -> Self {
        Self(bytes)
    }

    /// Whether none is left.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The next byte.
    pub fn byte(&mut self) -> u8 {
        let Some((first, rest)) = self.0.split_first() else {
            return 0;
        };
        self.0 = rest;
        *first
    }

    /// One of a list, which must not be empty.
    pub fn pick<'t, T>(&mut self, list: &'t [T]) -> &'t T {
        &list[usize::from(self.byte()) % list.len()]
    }

    /// From 0 to 1; both ends and the middle have a byte of their own.
    pub fn share(&mut self) -> f64 {
        match self.byte() {
            0 => 0.0,
            255 => 1.0,
            128 => 0.5,
            high => (f64::from(high) * 256.0 + f64::from(self.byte())) / 65_535.0,
        }
    }

    /// Between two numbers.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }

    /// Any finite number, its bits as they come.
    pub fn finite(&mut self) -> f64 {
        let bits = f64::from_le_bytes(std::array::from_fn(|_| self.byte()));
        if bits.is_finite() { bits } else { f64::MAX.copysign(bits) }
    }

    /// A number near the sizes of a corner, or any finite one at all.
    fn length_mm(&mut self) -> f64 {
        match self.byte() {
            0..=2 => self.finite(),
            3 => 20_000.0,
            4 => -20_000.0,
            5 => 0.0,
            // Steps of an eighth of a millimetre within a metre: points often fall together.
            mode => {
                let steps = i16::from_le_bytes([self.byte(), mode]);
                f64::from(steps) / 32.0
            }
        }
    }

    /// Any finite points, most of them no farther apart than those of a truck.
    pub fn hardpoints(&mut self) -> Hardpoints {
        let mut point = || {
            let [x, y, z] = std::array::from_fn(|_| self.length_mm());
            Point3::new(x, y, z)
        };
        let [lower, upper] =
            std::array::from_fn(|_| ArmPoints { front: point(), rear: point(), ball: point() });
        let (wheel_centre, tie_inner, tie_outer) = (point(), point(), point());
        let mut angle = || self.length_mm() / 1000.0;
        Hardpoints { lower, upper, wheel_centre, camber_rad: angle(), toe_rad: angle(), tie_inner, tie_outer }
    }

    /// A truck that a person could have entered, and a proposal for it.
    pub fn design(&mut self) -> Design {
        let mut design = front_alone();
        for _ in 0..MOST_EDITS {
            if self.is_empty() {
                break;
            }
            let edit = self.edit(&design);
            // What is refused leaves the design as it is.
            design = design.edited(&edit).unwrap_or(design);
        }
        design
    }

    fn edit(&mut self, design: &Design) -> Edit {
        match self.byte() % 12 {
            0..=2 => {
                let field = *self.pick(Field::ALL);
                Edit::Measure { field, value: Some(self.within(field.kind(), field.limits())) }
            }
            3..=5 => {
                let field = *self.pick(Field::ALL);
                let value = field.get(&design.truck).unwrap_or_default();
                Edit::Measure { field, value: Some(value + self.nudge(field.kind())) }
            }
            6 => Edit::Measure { field: *self.pick(Field::ALL), value: None },
            7 => {
                let kinds = [SpringKind::TorsionBar, SpringKind::Coil, SpringKind::WheelRate];
                Edit::SpringKind(*self.pick(&kinds))
            }
            8 => match self.byte() {
                arm @ ..128 => Edit::SpringArm(if arm % 2 == 0 { Arm::Lower } else { Arm::Upper }),
                _ => {
                    let field = *self.pick(Field::ALL);
                    let value = field.get(&design.truck).unwrap_or_default();
                    Edit::MeasureRight(vec![(field, Some(value + self.nudge(field.kind())))])
                }
            },
            9 => self.extremes(),
            10 => self.change().map_or(Edit::OwnTruck, |change| {
                let other = change.with_value(0, Some(0.0));
                let on_the_left = self.byte().is_multiple_of(2);
                Edit::SetEach(
                    PROPOSAL,
                    if on_the_left { [Some(change), other] } else { [other, Some(change)] },
                )
            }),
            _ => self.change().map_or(Edit::OwnTruck, |change| Edit::Set(PROPOSAL, change)),
        }
    }

    /// A change with numbers within their limits, some left open where they may be.
    pub fn change(&mut self) -> Option<Change> {
        let kind = *self.pick(&ChangeKind::ALL);
        let place = (!kind.places().is_empty()).then(|| *self.pick(kind.places()));
        let open = self.byte();
        let values: Vec<_> = kind
            .numbers()
            .iter()
            .enumerate()
            .map(|(at, row)| (open >> at & 1 == 0).then(|| self.within(row.kind, row.limits)))
            .collect();
        kind.with(place, &values)
    }

    /// Many numbers at once at one end or the other of what can be entered.
    fn extremes(&mut self) -> Edit {
        let (all, group) = (self.byte().is_multiple_of(4), self.byte());
        let (first, second) = (self.byte(), self.byte());
        let mut values = Vec::new();
        for (at, field) in Field::ALL.iter().enumerate() {
            if all || field.group() as u8 == group % (Group::LowPoints as u8 + 1) {
                let pattern = if at % 16 < 8 { first } else { second };
                let (low, high) = field.limits();
                let limit = if pattern >> (at % 8) & 1 == 0 { low } else { high };
                values.push((*field, in_core(field.kind(), limit)));
            }
        }
        Edit::MeasureAll(values)
    }

    fn within(&mut self, kind: Kind, (low, high): (f64, f64)) -> f64 {
        in_core(kind, self.between(low, high))
    }

    fn nudge(&mut self, kind: Kind) -> f64 {
        let steps = f64::from(i8::from_le_bytes([self.byte()]));
        match kind {
            Kind::Length => steps * steps.abs() / 64.0,
            Kind::Angle => (steps / 20.0).to_radians(),
            Kind::Modulus | Kind::Stress | Kind::Force => steps * 100.0,
            Kind::Rate | Kind::Torque | Kind::Count | Kind::Whole | Kind::RimCode | Kind::Choice(_) => {
                steps / 4.0
            }
        }
    }
}

/// Limits of angles are degrees, the core has radians.
fn in_core(kind: Kind, value: f64) -> f64 {
    if kind == Kind::Angle { value.to_radians() } else { value }
}
