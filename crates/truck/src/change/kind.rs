//! The sorts of changes and the numbers of each: forms, links and files are built from these lists.

use super::{
    AnchorSwap, ArmSwap, BarAdjuster, BarReindex, BarSwap, Change, CoilSwap, CutCoil, DroppedSpindle,
    JointTurned, MovedPivot, Place, SeatSpacer, ShimChange, ShockChange, StopTrim, StrutRodChange,
    TieRodChange, TireSwap,
};
use crate::field::accept;
use crate::kind::Kind;
use crate::spring::SpringKind;
use crate::tire::TireSize;
use crate::truck::{Brake, Truck};
use linkage::Vector3;

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
    /// [`JointTurned`]
    JointTurned = 5,
    /// [`ArmSwap`]
    ArmSwap = 6,
    /// [`BarReindex`]
    BarReindex = 7,
    /// [`BarSwap`]
    BarSwap = 8,
    /// [`AnchorSwap`]
    AnchorSwap = 9,
    /// [`CoilSwap`]
    CoilSwap = 10,
    /// [`SeatSpacer`]
    SeatSpacer = 11,
    /// [`ShimChange`]
    Shims = 12,
    /// [`StrutRodChange`]
    StrutRod = 13,
    /// [`TieRodChange`]
    TieRod = 14,
    /// [`StopTrim`]
    StopTrim = 15,
    /// [`ShockChange`]
    Shock = 16,
    /// [`Brake`]
    Brake = 17,
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

const fn open(key: &'static str, label: &'static str, kind: Kind, limits: (f64, f64)) -> ChangeNumber {
    ChangeNumber { key, label, kind, limits, optional: true }
}

/// Most numbers of a change.
const MOST_NUMBERS: usize = 8;
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
    open("loaded_radius", "Wheel centre to ground, if measured", Kind::Length, (100.0, 800.0)),
    open("barrel", "Rim, radius inside the barrel, if measured", Kind::Length, (50.0, 400.0)),
];
const JOINT_TURNED: &[ChangeNumber] = &[
    number("plate", "Plate of the arm, thickness", Kind::Length, (0.0, 60.0)),
    number("flange", "Flange of the joint, thickness", Kind::Length, (0.0, 60.0)),
    open("shift", "Shift of the ball, if measured", Kind::Length, (0.0, 120.0)),
];
const ARM_SWAP: &[ChangeNumber] = &[
    number("longer", "Axis to ball, longer", Kind::Length, NEAR),
    number("higher", "Ball higher on the arm", Kind::Length, NEAR),
    number("forward", "Ball farther forward", Kind::Length, NEAR),
    number("stop", "More room to the bump stop", Kind::Length, (-100.0, 100.0)),
    open("spacing", "Its pivots, one to the other", Kind::Length, (10.0, 2000.0)),
];
const SPLINES: (f64, f64) = (-60.0, 60.0);
const BAR_REINDEX: &[ChangeNumber] = &[
    number("anchor", "Splines at the anchor, + raises", Kind::Whole, SPLINES),
    number("arm", "Splines at the arm, + raises", Kind::Whole, SPLINES),
];
const BAR_SWAP: &[ChangeNumber] = &[
    number("diameter", "Diameter", Kind::Length, (5.0, 80.0)),
    number("length", "Length that twists", Kind::Length, (100.0, 3000.0)),
];
const ANCHOR_SWAP: &[ChangeNumber] = &[
    number("lever", "Lever, centre to bolt", Kind::Length, (20.0, 500.0)),
    number("lever_angle", "Between lever and bolt", Kind::Angle, (20.0, 160.0)),
    number("thread", "Bolt, thread pitch", Kind::Length, (0.3, 5.0)),
    number("clocking", "Turned against the old one, + raises", Kind::Angle, (-90.0, 90.0)),
];
const COIL_SWAP: &[ChangeNumber] = &[
    number("wire", "Wire", Kind::Length, (3.0, 50.0)),
    number("mean", "Mean diameter", Kind::Length, (20.0, 400.0)),
    number("active", "Active coils", Kind::Count, (1.0, 40.0)),
    open("free", "Free length, if known", Kind::Length, (50.0, 1500.0)),
];
const SEAT_SPACER: &[ChangeNumber] =
    &[number("thickness", "Thickness, + raises", Kind::Length, (-150.0, 150.0))];
const SHIMS: &[ChangeNumber] = &[
    number("front", "Front bolt, + added", Kind::Length, (-60.0, 60.0)),
    number("rear", "Rear bolt, + added", Kind::Length, (-60.0, 60.0)),
];
const STRUT_ROD: &[ChangeNumber] = &[number("longer", "Longer", Kind::Length, (-100.0, 100.0))];
const TIE_ROD: &[ChangeNumber] = &[
    number("longer", "Longer", Kind::Length, (-100.0, 100.0)),
    number("inner_x", "Inner end, farther forward", Kind::Length, NEAR),
    number("inner_y", "Inner end, farther out", Kind::Length, NEAR),
    number("inner_z", "Inner end, higher", Kind::Length, NEAR),
];
const STOP_TRIM: &[ChangeNumber] = &[
    number("lower", "Lower", Kind::Length, (-100.0, 100.0)),
    number("less_squash", "Squeezes less until solid", Kind::Length, (-100.0, 100.0)),
];
const SHOCK: &[ChangeNumber] = &[
    open("short", "Pushed in, mount to mount", Kind::Length, (50.0, 900.0)),
    open("long", "Pulled out, mount to mount", Kind::Length, (50.0, 1200.0)),
    number("body_x", "Mount on the body, farther forward", Kind::Length, NEAR),
    number("body_y", "Mount on the body, farther out", Kind::Length, NEAR),
    number("body_z", "Mount on the body, higher", Kind::Length, NEAR),
];
const BRAKE: &[ChangeNumber] = &[
    open("caliper_radius", "Caliper, farthest from the spindle's line", Kind::Length, (40.0, 400.0)),
    open("caliper_in", "Caliper, inboard end, inboard of the face", Kind::Length, (-200.0, 300.0)),
    open("caliper_out", "Caliper, outboard end, inboard of the face", Kind::Length, (-200.0, 300.0)),
    open("rotor_diameter", "Rotor, diameter", Kind::Length, (100.0, 500.0)),
    open("rotor_thickness", "Rotor, thickness", Kind::Length, (3.0, 60.0)),
];

impl ChangeKind {
    /// Every kind, in the order in which [`crate::fit`] works and lists are shown.
    pub const ALL: [Self; 18] = [
        Self::DroppedSpindle,
        Self::ArmSwap,
        Self::JointTurned,
        Self::MovedPivot,
        Self::Shims,
        Self::StrutRod,
        Self::TieRod,
        Self::BarSwap,
        Self::AnchorSwap,
        Self::BarReindex,
        Self::BarAdjuster,
        Self::CoilSwap,
        Self::CutCoil,
        Self::SeatSpacer,
        Self::StopTrim,
        Self::Shock,
        Self::TireSwap,
        Self::Brake,
    ];

    /// The name in files.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::DroppedSpindle => "dropped_spindle",
            Self::MovedPivot => "moved_pivot",
            Self::BarAdjuster => "bar_adjuster",
            Self::CutCoil => "cut_coil",
            Self::TireSwap => "tire_swap",
            Self::JointTurned => "joint_turned",
            Self::ArmSwap => "arm_swap",
            Self::BarReindex => "bar_reindex",
            Self::BarSwap => "bar_swap",
            Self::AnchorSwap => "anchor_swap",
            Self::CoilSwap => "coil_swap",
            Self::SeatSpacer => "seat_spacer",
            Self::Shims => "shims",
            Self::StrutRod => "strut_rod",
            Self::TieRod => "tie_rod",
            Self::StopTrim => "stop_trim",
            Self::Shock => "shock",
            Self::Brake => "brake",
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
            Self::JointTurned => "Ball joint turned over",
            Self::ArmSwap => "Arm swap",
            Self::BarReindex => "Bar re-index",
            Self::BarSwap => "Bar swap",
            Self::AnchorSwap => "Anchor swap",
            Self::CoilSwap => "Coil swap",
            Self::SeatSpacer => "Seat spacer",
            Self::Shims => "Upper-arm shims",
            Self::StrutRod => "Strut rod",
            Self::TieRod => "Tie rod",
            Self::StopTrim => "Bump stop",
            Self::Shock => "Shock",
            Self::Brake => "Brake",
        }
    }

    /// Whether its numbers are those of a part, which can be guessed; what is set or cut is chosen.
    #[must_use]
    pub const fn is_part(self) -> bool {
        matches!(
            self,
            Self::DroppedSpindle
                | Self::JointTurned
                | Self::ArmSwap
                | Self::BarSwap
                | Self::AnchorSwap
                | Self::CoilSwap
                | Self::TireSwap
                | Self::Shock
                | Self::Brake
        )
    }

    /// What people call it at a place.
    #[must_use]
    pub fn title(self, place: Option<Place>) -> String {
        let Some(place) = place else { return self.label().to_owned() };
        let does = match self {
            Self::JointTurned => "Turn ",
            Self::ArmSwap if place == Place::UpperArm => return "Another upper arm".to_owned(),
            Self::ArmSwap => return "Another lower arm".to_owned(),
            _ => "Move ",
        };
        does.to_owned() + place.label()
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
            Self::JointTurned => JOINT_TURNED,
            Self::ArmSwap => ARM_SWAP,
            Self::BarReindex => BAR_REINDEX,
            Self::BarSwap => BAR_SWAP,
            Self::AnchorSwap => ANCHOR_SWAP,
            Self::CoilSwap => COIL_SWAP,
            Self::SeatSpacer => SEAT_SPACER,
            Self::Shims => SHIMS,
            Self::StrutRod => STRUT_ROD,
            Self::TieRod => TIE_ROD,
            Self::StopTrim => STOP_TRIM,
            Self::Shock => SHOCK,
            Self::Brake => BRAKE,
        }
    }

    /// Where it can apply; empty where there is only one place.
    #[must_use]
    pub const fn places(self) -> &'static [Place] {
        match self {
            Self::MovedPivot => Place::PIVOTS,
            Self::JointTurned => Place::JOINTS,
            Self::ArmSwap => Place::ARMS,
            _ => &[],
        }
    }

    /// The kind of spring that it works on; nothing where any will do.
    #[must_use]
    pub const fn spring(self) -> Option<SpringKind> {
        match self {
            Self::BarReindex | Self::BarSwap | Self::AnchorSwap | Self::BarAdjuster => {
                Some(SpringKind::TorsionBar)
            }
            Self::CoilSwap | Self::CutCoil | Self::SeatSpacer => Some(SpringKind::Coil),
            _ => None,
        }
    }

    /// The change as it starts out when it is added to a truck: as the truck is,
    /// or a step that people often take.
    #[must_use]
    pub fn first(self, place: Option<Place>, truck: &Truck) -> Option<Change> {
        let Truck { tire, wheel, spring, .. } = truck;
        let (bar, coil) = (&spring.bar, &spring.coil);
        let values: &[f64] = &match self {
            Self::DroppedSpindle => [50.8, 0.0, 0.0, 0.0, 0.0],
            Self::BarAdjuster => [-4.0, 0.0, 0.0, 0.0, 0.0],
            Self::CutCoil => [0.5, 0.0, 0.0, 0.0, 0.0],
            Self::TireSwap => [
                tire.size.section_mm,
                tire.size.aspect_percent,
                tire.size.rim_code,
                wheel.rim_width_mm,
                wheel.offset_mm,
            ],
            Self::JointTurned => [6.35, 9.52, 0.0, 0.0, 0.0],
            Self::BarReindex => [-1.0, 0.0, 0.0, 0.0, 0.0],
            Self::BarSwap => [bar.diameter_mm, bar.length_mm, 0.0, 0.0, 0.0],
            Self::AnchorSwap => [bar.lever_mm, bar.lever_angle_rad, bar.thread_pitch_mm, 0.0, 0.0],
            Self::CoilSwap => [coil.wire_mm, coil.mean_mm, coil.active, 0.0, 0.0],
            Self::StopTrim => [9.52, 0.0, 0.0, 0.0, 0.0],
            _ => [0.0; 5],
        };
        let given: Vec<Option<f64>> = self
            .numbers()
            .iter()
            .zip(values)
            .map(|(number, value)| (!number.optional).then_some(*value))
            .collect();
        self.with(place, &given)
    }

    /// What one of its open numbers comes to on a truck, in the core's unit: where a
    /// person starts who wants to state it.
    #[must_use]
    pub fn open_value(self, index: usize, truck: &Truck) -> Option<f64> {
        let Truck { shock, brake, spring, points, .. } = truck;
        match (self, index) {
            (Self::TireSwap, 5) => Some(truck.loaded_radius_mm()),
            (Self::TireSwap, 6) => truck.wheel.barrel_mm,
            (Self::JointTurned, 2) => Some(15.88),
            (Self::ArmSwap, 4) => Some(linkage::frame::length(&(points.lower.front - points.lower.rear))),
            (Self::CoilSwap, 3) => {
                Some(linkage::frame::length(&(spring.coil.body_seat - spring.coil.arm_seat)))
            }
            (Self::Shock, 0) => shock.short_mm,
            (Self::Shock, 1) => shock.long_mm,
            (Self::Brake, 0) => brake.caliper_radius_mm,
            (Self::Brake, 1) => brake.caliper_in_mm,
            (Self::Brake, 2) => brake.caliper_out_mm,
            (Self::Brake, 3) => brake.rotor_diameter_mm,
            (Self::Brake, 4) => brake.rotor_thickness_mm,
            _ => None,
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
        let mut kept = [None; MOST_NUMBERS];
        for (at, number) in numbers.iter().enumerate() {
            kept[at] = match values.get(at).copied().flatten() {
                Some(value) => Some(accept(number.kind, number.limits, value)?),
                None if number.optional => None,
                None => Some(accept(number.kind, number.limits, 0.0)?),
            };
        }
        let placed = place.filter(|place| self.places().contains(place));
        if placed == place { self.made(placed, &kept) } else { None }
    }

    /// The change with all of its numbers, at one of its places.
    fn made(self, placed: Option<Place>, kept: &[Option<f64>; MOST_NUMBERS]) -> Option<Change> {
        let at = |index: usize| kept[index].unwrap_or(0.0);
        let vector = |first: usize| Vector3::new(at(first), at(first + 1), at(first + 2));
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
                barrel_mm: kept[6],
            }),
            Self::JointTurned => Change::JointTurned(JointTurned {
                place: placed?,
                plate_mm: at(0),
                flange_mm: at(1),
                shift_mm: kept[2],
            }),
            Self::ArmSwap => Change::ArmSwap(ArmSwap {
                place: placed?,
                longer_mm: at(0),
                higher_mm: at(1),
                forward_mm: at(2),
                stop_mm: at(3),
                spacing_mm: kept[4],
            }),
            Self::BarReindex => Change::BarReindex(BarReindex { anchor: at(0), arm: at(1) }),
            Self::BarSwap => Change::BarSwap(BarSwap { diameter_mm: at(0), length_mm: at(1) }),
            Self::AnchorSwap => Change::AnchorSwap(AnchorSwap {
                lever_mm: at(0),
                lever_angle_rad: at(1),
                thread_pitch_mm: at(2),
                clocking_rad: at(3),
            }),
            Self::CoilSwap => {
                Change::CoilSwap(CoilSwap { wire_mm: at(0), mean_mm: at(1), active: at(2), free_mm: kept[3] })
            }
            Self::SeatSpacer => Change::SeatSpacer(SeatSpacer { thickness_mm: at(0) }),
            Self::Shims => Change::Shims(ShimChange { front_mm: at(0), rear_mm: at(1) }),
            Self::StrutRod => Change::StrutRod(StrutRodChange { longer_mm: at(0) }),
            Self::TieRod => Change::TieRod(TieRodChange { longer_mm: at(0), inner_mm: vector(1) }),
            Self::StopTrim => Change::StopTrim(StopTrim { lower_mm: at(0), less_squash_mm: at(1) }),
            Self::Shock => {
                Change::Shock(ShockChange { short_mm: kept[0], long_mm: kept[1], body_mm: vector(2) })
            }
            Self::Brake => Change::Brake(Brake {
                caliper_radius_mm: kept[0],
                caliper_in_mm: kept[1],
                caliper_out_mm: kept[2],
                rotor_diameter_mm: kept[3],
                rotor_thickness_mm: kept[4],
            }),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;

    #[test]
    fn every_kind_is_listed_and_can_be_added() {
        let truck = demo().truck;
        for kind in ChangeKind::ALL {
            assert_eq!(ChangeKind::ALL.iter().filter(|other| other.id() == kind.id()).count(), 1);
            let first = kind.first(kind.places().first().copied(), &truck).expect("it can be added");
            assert_eq!(first.kind(), kind);
            assert_eq!(first.values().len(), kind.numbers().len(), "{kind:?}");
            // Every number has a place of its own in the change.
            for (at, number) in kind.numbers().iter().enumerate() {
                let value = number.kind.rounded(match number.kind {
                    Kind::Angle => number.limits.1.to_radians(),
                    _ => number.limits.1,
                });
                let other = first.with_value(at, value).expect("the limit can be entered");
                let expected: Vec<_> = first
                    .values()
                    .into_iter()
                    .enumerate()
                    .map(|(index, was)| if index == at { value } else { was })
                    .collect();
                assert_eq!(other.values(), expected, "{kind:?} {}", number.key);
            }
        }
        // The ids are those from 0 on, so none is missing from the list.
        assert!((0..18).all(|id| ChangeKind::ALL.iter().any(|kind| kind.id() == id)));
    }
}
