//! The changes that can be made to a truck: one variant each.
//!
//! A change's numbers are listed in [`ChangeKind::numbers`]; forms, links and
//! files are built from that list, so a new change is one variant here, one
//! function in [`crate::fit`] and, where it needs one, a view of its own.

use crate::field::accept;
use crate::kind::Kind;
use crate::tire::TireSize;
use linkage::Vector3;

/// One part swapped, moved or adjusted. Millimetres, body axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Change {
    /// A knuckle whose pin sits elsewhere.
    DroppedSpindle(DroppedSpindle),
    /// A pivot, or both pivots of an arm, moved on the body.
    MovedPivot(MovedPivot),
    /// The torsion bar's anchor bolt turned.
    BarAdjuster(BarAdjuster),
    /// Coils cut off the spring.
    CutCoil(CutCoil),
    /// Another tire and wheel.
    TireSwap(TireSwap),
}

/// A knuckle whose pin sits elsewhere.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct DroppedSpindle {
    /// How much higher the pin sits on the knuckle, along the body's vertical in
    /// the measured straight-ahead pose, mm. The truck comes down by it.
    pub drop_mm: f64,
    /// How much farther out the wheel's centre plane sits, mm.
    pub out_mm: f64,
    /// The outer tie-rod end against the old knuckle's, mm.
    pub tie_outer_mm: Vector3<f64>,
}

/// A pivot, or both pivots of an arm, moved on the body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MovedPivot {
    /// What is moved.
    pub place: Place,
    /// By how much, mm.
    pub by_mm: Vector3<f64>,
}

/// The torsion bar's anchor bolt turned.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct BarAdjuster {
    /// Turns, + in; in raises the body.
    pub turns: f64,
}

/// Coils cut off the spring.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct CutCoil {
    /// Coils removed.
    pub coils: f64,
}

/// Another tire and wheel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TireSwap {
    /// Size as on the sidewall.
    pub size: TireSize,
    /// Width between the rim's flanges, mm.
    pub rim_width_mm: f64,
    /// From the wheel's centre plane to its mounting face, + face outboard, mm.
    pub offset_mm: f64,
    /// Wheel centre to ground under load, mm; open, the measured one plus the
    /// change of nominal radius.
    pub loaded_radius_mm: Option<f64>,
}

/// Where on the truck a change applies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[repr(u8)]
pub enum Place {
    /// Both pivots of the lower arm.
    LowerArm = 0,
    /// Both pivots of the upper arm.
    UpperArm = 1,
    /// Front pivot of the lower arm.
    LowerFront = 2,
    /// Rear pivot of the lower arm.
    LowerRear = 3,
    /// Front pivot of the upper arm.
    UpperFront = 4,
    /// Rear pivot of the upper arm.
    UpperRear = 5,
}

impl Place {
    /// Every place.
    pub const ALL: [Self; 6] = [
        Self::LowerArm,
        Self::UpperArm,
        Self::LowerFront,
        Self::LowerRear,
        Self::UpperFront,
        Self::UpperRear,
    ];

    /// The name in files.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::LowerArm => "lower_arm",
            Self::UpperArm => "upper_arm",
            Self::LowerFront => "lower_front",
            Self::LowerRear => "lower_rear",
            Self::UpperFront => "upper_front",
            Self::UpperRear => "upper_rear",
        }
    }

    /// What people call it.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::LowerArm => "lower arm, both pivots",
            Self::UpperArm => "upper arm, both pivots",
            Self::LowerFront => "lower arm, front pivot",
            Self::LowerRear => "lower arm, rear pivot",
            Self::UpperFront => "upper arm, front pivot",
            Self::UpperRear => "upper arm, rear pivot",
        }
    }

    /// The id in links. Never reused.
    #[must_use]
    pub const fn id(self) -> u8 {
        self as u8
    }
}

/// A sort of change. The discriminant is its id in links: never reused.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[repr(u8)]
pub enum ChangeKind {
    /// [`DroppedSpindle`]
    DroppedSpindle = 0,
    /// [`MovedPivot`]
    MovedPivot = 1,
    /// [`BarAdjuster`]
    BarAdjuster = 2,
    /// [`CutCoil`]
    CutCoil = 3,
    /// [`TireSwap`]
    TireSwap = 4,
}

/// One number of a change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChangeNumber {
    /// The name in files.
    pub key: &'static str,
    /// What the forms call it.
    pub label: &'static str,
    /// What sort of number it is.
    pub kind: Kind,
    /// Least and greatest value; mm, degrees or a plain number.
    pub limits: (f64, f64),
    /// Whether it may be left open.
    pub optional: bool,
}

const fn number(key: &'static str, label: &'static str, kind: Kind, limits: (f64, f64)) -> ChangeNumber {
    ChangeNumber { key, label, kind, limits, optional: false }
}

const NEAR: (f64, f64) = (-300.0, 300.0);

const DROPPED_SPINDLE: &[ChangeNumber] = &[
    number("drop", "Drop, pin higher on the knuckle", Kind::Length, (-150.0, 200.0)),
    number("out", "Wheel farther out", Kind::Length, (-150.0, 150.0)),
    number("tie_outer_x", "Tie-rod end, farther forward", Kind::Length, NEAR),
    number("tie_outer_y", "Tie-rod end, farther out", Kind::Length, NEAR),
    number("tie_outer_z", "Tie-rod end, higher", Kind::Length, NEAR),
];
const MOVED_PIVOT: &[ChangeNumber] = &[
    number("forward", "Farther forward", Kind::Length, NEAR),
    number("out", "Farther out", Kind::Length, NEAR),
    number("up", "Higher", Kind::Length, NEAR),
];
const BAR_ADJUSTER: &[ChangeNumber] =
    &[number("turns", "Turns of the bolt, + in, raises", Kind::Count, (-60.0, 60.0))];
const CUT_COIL: &[ChangeNumber] = &[number("coils", "Coils cut off", Kind::Count, (0.0, 30.0))];
const TIRE_SWAP: &[ChangeNumber] = &[
    number("section", "Section width", Kind::Whole, (95.0, 455.0)),
    number("aspect", "Aspect", Kind::Whole, (20.0, 100.0)),
    number("rim", "Rim code", Kind::RimCode, (8.0, 30.0)),
    number("rim_width", "Rim, width between flanges", Kind::Length, (50.0, 500.0)),
    number("offset", "Offset, + face outboard", Kind::Length, (-200.0, 200.0)),
    ChangeNumber {
        optional: true,
        ..number("loaded_radius", "Wheel centre to ground, if measured", Kind::Length, (100.0, 800.0))
    },
];

impl ChangeKind {
    /// Every kind, in the order in which [`crate::fit`] works and lists are shown.
    pub const ALL: [Self; 5] =
        [Self::DroppedSpindle, Self::MovedPivot, Self::BarAdjuster, Self::CutCoil, Self::TireSwap];

    /// The name in files.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::DroppedSpindle => "dropped_spindle",
            Self::MovedPivot => "moved_pivot",
            Self::BarAdjuster => "bar_adjuster",
            Self::CutCoil => "cut_coil",
            Self::TireSwap => "tire_swap",
        }
    }

    /// What people call it.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::DroppedSpindle => "Dropped spindle",
            Self::MovedPivot => "Moved pivot",
            Self::BarAdjuster => "Bar adjuster",
            Self::CutCoil => "Cut coil",
            Self::TireSwap => "Tire and wheel",
        }
    }

    /// The id in links. Never reused.
    #[must_use]
    pub const fn id(self) -> u8 {
        self as u8
    }

    /// Its numbers, in the order of their ids in links: only ever added to at the end.
    #[must_use]
    pub const fn numbers(self) -> &'static [ChangeNumber] {
        match self {
            Self::DroppedSpindle => DROPPED_SPINDLE,
            Self::MovedPivot => MOVED_PIVOT,
            Self::BarAdjuster => BAR_ADJUSTER,
            Self::CutCoil => CUT_COIL,
            Self::TireSwap => TIRE_SWAP,
        }
    }

    /// Where it can apply; empty where there is only one place.
    #[must_use]
    pub const fn places(self) -> &'static [Place] {
        match self {
            Self::MovedPivot => &Place::ALL,
            _ => &[],
        }
    }

    /// The change with these numbers, each rounded to what can be kept.
    ///
    /// `values` are in the order of [`ChangeKind::numbers`], in the core's
    /// units; a missing one is zero, or open where it may be.
    ///
    /// Nothing where a value lies outside its limits, or where the place is not
    /// one of [`ChangeKind::places`].
    #[must_use]
    pub fn with(self, place: Option<Place>, values: &[Option<f64>]) -> Option<Change> {
        let numbers = self.numbers();
        let mut kept = [None; 8];
        for (at, number) in numbers.iter().enumerate() {
            kept[at] = match values.get(at).copied().flatten() {
                Some(value) => Some(accept(number.kind, number.limits, value)?),
                None if number.optional => None,
                None => Some(accept(number.kind, number.limits, 0.0)?),
            };
        }
        let at = |index: usize| kept[index].unwrap_or(0.0);
        let vector = |first: usize| Vector3::new(at(first), at(first + 1), at(first + 2));
        let placed = place.filter(|place| self.places().contains(place));
        if placed != place {
            return None;
        }
        Some(match self {
            Self::DroppedSpindle => Change::DroppedSpindle(DroppedSpindle {
                drop_mm: at(0),
                out_mm: at(1),
                tie_outer_mm: vector(2),
            }),
            Self::MovedPivot => Change::MovedPivot(MovedPivot { place: placed?, by_mm: vector(0) }),
            Self::BarAdjuster => Change::BarAdjuster(BarAdjuster { turns: at(0) }),
            Self::CutCoil => Change::CutCoil(CutCoil { coils: at(0) }),
            Self::TireSwap => Change::TireSwap(TireSwap {
                size: TireSize { section_mm: at(0), aspect_percent: at(1), rim_code: at(2) },
                rim_width_mm: at(3),
                offset_mm: at(4),
                loaded_radius_mm: kept[5],
            }),
        })
    }
}

impl Change {
    /// Its kind.
    #[must_use]
    pub const fn kind(&self) -> ChangeKind {
        match self {
            Self::DroppedSpindle(_) => ChangeKind::DroppedSpindle,
            Self::MovedPivot(_) => ChangeKind::MovedPivot,
            Self::BarAdjuster(_) => ChangeKind::BarAdjuster,
            Self::CutCoil(_) => ChangeKind::CutCoil,
            Self::TireSwap(_) => ChangeKind::TireSwap,
        }
    }

    /// Where it applies, for the kinds that have a choice.
    #[must_use]
    pub const fn place(&self) -> Option<Place> {
        match self {
            Self::MovedPivot(moved) => Some(moved.place),
            _ => None,
        }
    }

    /// Its slot in a proposal: at most one change may stand in each.
    #[must_use]
    pub const fn slot(&self) -> (ChangeKind, Option<Place>) {
        (self.kind(), self.place())
    }

    /// Its numbers, in the order of [`ChangeKind::numbers`], in the core's units.
    #[must_use]
    pub fn values(&self) -> Vec<Option<f64>> {
        let triple = |v: &Vector3<f64>| [Some(v.x), Some(v.y), Some(v.z)];
        match self {
            Self::DroppedSpindle(change) => {
                let mut values = vec![Some(change.drop_mm), Some(change.out_mm)];
                values.extend(triple(&change.tie_outer_mm));
                values
            }
            Self::MovedPivot(change) => triple(&change.by_mm).to_vec(),
            Self::BarAdjuster(change) => vec![Some(change.turns)],
            Self::CutCoil(change) => vec![Some(change.coils)],
            Self::TireSwap(change) => vec![
                Some(change.size.section_mm),
                Some(change.size.aspect_percent),
                Some(change.size.rim_code),
                Some(change.rim_width_mm),
                Some(change.offset_mm),
                change.loaded_radius_mm,
            ],
        }
    }

    /// The same change with one number set; nothing where it lies outside its limits.
    #[must_use]
    pub fn with_value(&self, index: usize, value: Option<f64>) -> Option<Self> {
        let mut values = self.values();
        *values.get_mut(index)? = value;
        self.kind().with(self.place(), &values)
    }

    /// The same change as it is kept: every number rounded and within its limits.
    #[must_use]
    pub fn kept(&self) -> Option<Self> {
        self.kind().with(self.place(), &self.values())
    }
}
