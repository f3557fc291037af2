//! The truck as measured.

use crate::choice::{PitmanSide, ShaftSide, SteeringKind};
use crate::field::{Field, Group};
use crate::field_set::FieldSet;
use crate::reading::Readings;
use crate::rear::RearAxle;
use crate::side::RightNumbers;
use crate::source::{Source, Staying};
use crate::spring::{Spring, SpringKind};
use crate::tire::Tire;
use linkage::{Axis, Hardpoints, Point3};

/// A truck as measured, standing at rest. Millimetres, radians, newtons, body axes.
#[derive(Clone, Debug)]
pub struct Truck {
    /// The left front corner's points.
    pub points: Hardpoints,
    /// What ends the travel.
    pub stops: Stops,
    /// What the corner carries.
    pub load: Load,
    /// What holds it up.
    pub spring: Spring,
    /// Tire.
    pub tire: Tire,
    /// Wheel.
    pub wheel: Wheel,
    /// Frame and fender.
    pub body: Body,
    /// What turns the wheels, and how far.
    pub steering: Steering,
    /// Strut rod.
    pub strut: StrutRod,
    /// How far the ball joints swing.
    pub joints: Joints,
    /// Shims under the upper arm's shaft.
    pub shims: Shims,
    /// Shock.
    pub shock: Shock,
    /// Brake.
    pub brake: Brake,
    /// How thick arms and rods are.
    pub thickness: Thickness,
    /// What hangs lowest.
    pub low: LowPoints,
    /// Where each number came from.
    pub sources: Sources,
    /// What was measured at the right on its own; the rest is as the left.
    pub right: RightNumbers,
    /// What was read off it as it sits, at either side.
    pub readings: Readings,
    /// The rear axle on its springs.
    pub rear: RearAxle,
}

impl Truck {
    /// Wheel centre to ground in the wheel's plane, mm: it follows from the
    /// wheel centre's measured height.
    #[must_use]
    pub fn loaded_radius_mm(&self) -> f64 {
        self.points.wheel_centre.z / linkage::angle::cos(self.points.camber_rad)
    }
}

impl Truck {
    /// Of the lower arm's pivots, hung as `axis`, the arm's own bushing and the strut
    /// rod's on the frame: the rod's is the one that was measured farther from the
    /// ball along the truck. Nothing where no strut rod is stated.
    #[must_use]
    pub fn bushings(&self, axis: &Axis) -> Option<(Point3<f64>, Point3<f64>)> {
        self.strut.arm.stated()?;
        let lower = &self.points.lower;
        let away = |pivot: &Point3<f64>| (pivot.x - lower.ball.x).abs();
        let rod_at_front = away(&lower.front) >= away(&lower.rear);
        Some(if rod_at_front { (axis.rear, axis.front) } else { (axis.front, axis.rear) })
    }
}

impl Truck {
    /// Says which kind of spring it has.
    pub(crate) fn stand_on(&mut self, kind: SpringKind) {
        self.spring.kind = kind;
        self.sources.name_spring();
    }

    /// Whether anybody has said what spring it has, or measured some of it: what is a guess else is let down in a way
    /// of its own.
    #[must_use]
    pub fn spring_is_known(&self) -> bool {
        let of_its_kind = match self.spring.kind {
            SpringKind::TorsionBar => Group::Bar,
            SpringKind::Coil => Group::Coil,
            SpringKind::WheelRate => Group::WheelRate,
        };
        let is_taken = |field: &Field| {
            field.group() == of_its_kind
                && field.get(self).is_some()
                && self.sources.of(*field) != Source::Assumed
        };
        self.sources.rule() != Source::Assumed
            || self.sources.names_spring()
            || Field::ALL.iter().any(is_taken)
    }
}

/// What ends the travel, as measured at rest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stops {
    /// Daylight between the bump stop and what it meets, mm.
    pub bump_gap_mm: f64,
    /// How far the stop squeezes from first touch until it is solid, mm.
    pub bump_squash_mm: f64,
    /// From the lower arm's pivot axis to the stop, mm.
    pub bump_radius_mm: f64,
    /// How far the wheel drops from rest until it hangs, mm.
    pub droop_mm: f64,
}

/// What a corner carries.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Load {
    /// Load of the corner at the ground, N.
    pub corner_n: f64,
    /// Weight of what does not hang on the spring: wheel, tire, knuckle, brake, half of the arms, N.
    pub unsprung_n: f64,
    /// What the driver adds to this corner, N.
    pub driver_n: Option<f64>,
    /// Weight of a load in the bed, N.
    pub bed_n: Option<f64>,
    /// How far behind the rear axle its centre is, mm.
    pub bed_behind_mm: Option<f64>,
}

/// A wheel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wheel {
    /// Width between the flanges, mm.
    pub rim_width_mm: f64,
    /// From the wheel's centre plane to its mounting face, + face outboard, mm.
    pub offset_mm: f64,
    /// Radius inside the barrel where it is narrowest, mm.
    pub barrel_mm: Option<f64>,
}

/// Frame and fender of the left side, and the wheelbase.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Body {
    /// Wheelbase, mm.
    pub wheelbase_mm: f64,
    /// The frame rail beside the tire.
    pub rail: Rail,
    /// The fender's lip over the tire.
    pub fender: Fender,
}

/// A frame rail as a box. Millimetres, body axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rail {
    /// Face towards the wheel, `y`.
    pub outer_y_mm: f64,
    /// Width, from that face towards the centreline.
    pub width_mm: f64,
    /// Bottom, `z`: ride height is measured here.
    pub bottom_z_mm: f64,
    /// Height.
    pub height_mm: f64,
    /// Front end beside the wheel, `x`.
    pub front_x_mm: f64,
    /// Rear end beside the wheel, `x`.
    pub rear_x_mm: f64,
}

/// The fender's lip over the tire, as a segment along the truck. Millimetres, body axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fender {
    /// Inner edge of the lip, `y`.
    pub lip_y_mm: f64,
    /// Lower edge of the lip over the wheel centre, `z`.
    pub lip_z_mm: f64,
    /// Half of the length over which the lip runs level.
    pub half_length_mm: f64,
}

/// A point of which each coordinate may be left open. Millimetres, body axes.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct OpenPoint {
    /// Forward of the axle.
    pub x: Option<f64>,
    /// From the centreline.
    pub y: Option<f64>,
    /// Above the ground.
    pub z: Option<f64>,
}

impl OpenPoint {
    /// The point, where all of it is stated.
    #[must_use]
    pub fn stated(&self) -> Option<Point3<f64>> {
        Some(Point3::new(self.x?, self.y?, self.z?))
    }
}

/// What turns the wheels, and how far. What is not stated is open.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Steering {
    /// What carries the inner ends of the tie rods.
    pub kind: Option<SteeringKind>,
    /// Pitman and idler arm, from the pivot to the relay rod, mm.
    pub pitman_mm: Option<f64>,
    /// Where those arms' pivots are.
    pub pitman_side: Option<PitmanSide>,
    /// Heading of the left wheel steered fully to the left, rad, > 0.
    pub lock_left_rad: Option<f64>,
    /// How far the left wheel turns to the right when steered fully that way, rad, > 0.
    pub lock_right_rad: Option<f64>,
    /// Pitch of the thread of the tie rod's sleeve, mm a turn.
    pub tie_thread_pitch_mm: Option<f64>,
}

/// The rod that holds the lower arm fore and aft. Its end on the frame is the arm's front pivot.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct StrutRod {
    /// Where it is bolted to the arm, as measured.
    pub arm: OpenPoint,
    /// Pitch of its thread, mm a turn.
    pub thread_pitch_mm: Option<f64>,
}

/// How far the ball joints swing.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Joints {
    /// Lower joint.
    pub lower: Swing,
    /// Upper joint.
    pub upper: Swing,
}

/// How far a ball joint's stud swings in its housing.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Swing {
    /// Each way from the middle of its range, rad.
    pub limit_rad: Option<f64>,
    /// From the middle as measured at rest, + towards where bump takes it, rad.
    pub rest_rad: Option<f64>,
}

/// The shims between the upper arm's shaft and its bracket.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Shims {
    /// Where the shaft is bolted.
    pub side: Option<ShaftSide>,
    /// The shaft's front bolt, `x`, mm.
    pub front_x_mm: Option<f64>,
    /// The shaft's rear bolt, `x`, mm.
    pub rear_x_mm: Option<f64>,
    /// Thickness of the pack at the front bolt as measured, mm.
    pub front_mm: Option<f64>,
    /// Thickness of the pack at the rear bolt as measured, mm.
    pub rear_mm: Option<f64>,
    /// The thickest pack that the bolts take, mm.
    pub most_mm: Option<f64>,
}

impl Shims {
    /// Least and most that can be added to a pack that is `now_mm` thick, mm: no pack
    /// is thinner than none or thicker than its bolt takes. What is not stated binds nothing.
    #[must_use]
    pub fn room_mm(&self, now_mm: Option<f64>) -> (f64, f64) {
        let Some(now) = now_mm else { return (f64::NEG_INFINITY, f64::INFINITY) };
        (-now, self.most_mm.map_or(f64::INFINITY, |most| (most - now).max(-now)))
    }
}

/// A shock and its mounts.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Shock {
    /// Its mount on the lower arm, as measured.
    pub arm: OpenPoint,
    /// Its mount on the body.
    pub body: OpenPoint,
    /// Pushed in, mount to mount, mm.
    pub short_mm: Option<f64>,
    /// Pulled out, mount to mount, mm.
    pub long_mm: Option<f64>,
}

/// A brake's envelope, about the spindle's line.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Brake {
    /// The caliper's point farthest from the spindle's line, mm.
    pub caliper_radius_mm: Option<f64>,
    /// The caliper's inboard end, inboard of the wheel's mounting face, mm.
    pub caliper_in_mm: Option<f64>,
    /// The caliper's outboard end, inboard of the wheel's mounting face, mm.
    pub caliper_out_mm: Option<f64>,
    /// Diameter of the rotor, mm.
    pub rotor_diameter_mm: Option<f64>,
    /// Thickness of the rotor, mm.
    pub rotor_thickness_mm: Option<f64>,
}

/// How thick arms and rods are, as the radius of a round bar around their middle line, mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Thickness {
    /// Lower arm.
    pub lower_arm_mm: Option<f64>,
    /// Upper arm.
    pub upper_arm_mm: Option<f64>,
    /// Tie rod.
    pub tie_rod_mm: Option<f64>,
    /// Strut rod.
    pub strut_rod_mm: Option<f64>,
}

/// What hangs lowest under the truck.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct LowPoints {
    /// The lowest point of the body, from the centreline, mm.
    pub y_mm: Option<f64>,
    /// Its height as measured, mm.
    pub z_mm: Option<f64>,
    /// How far the nut of the lower ball hangs below the ball's centre, mm.
    pub nut_mm: Option<f64>,
}

/// Where each number came from: one rule, and what departs from it.
#[derive(Clone, Debug, PartialEq)]
pub struct Sources {
    rule: Source,
    /// Where guesses follow what is known: what of them stays.
    staying: Option<Staying>,
    /// Whether somebody said which kind of spring it has, where what nobody said is a guess.
    names_spring: bool,
    /// In the order of the fields' ids. A list: it is short, and a map is
    /// several kilobytes to download.
    other: Vec<(Field, Source)>,
}

impl Sources {
    /// Every number from the same source.
    #[must_use]
    pub const fn all(rule: Source) -> Self {
        Self { rule, staying: None, names_spring: false, other: Vec::new() }
    }

    /// What of the guesses stays; `None` of a truck whose guesses follow nothing.
    #[must_use]
    pub const fn staying(&self) -> Option<Staying> {
        self.staying
    }

    /// Has guesses follow what is known, as [`guesses`](crate::guesses) says.
    pub fn follow(&mut self, staying: Staying) {
        self.staying = Some(staying);
    }

    /// Whether somebody said which kind of spring it has, on a truck of which what nobody said is a guess.
    #[must_use]
    pub const fn names_spring(&self) -> bool {
        self.names_spring
    }

    /// Says that somebody did: nothing where that is no guess anyway.
    pub fn name_spring(&mut self) {
        self.names_spring = self.rule == Source::Assumed;
    }

    /// The source of the numbers of which nothing else is said.
    #[must_use]
    pub const fn rule(&self) -> Source {
        self.rule
    }

    /// Where one number came from.
    #[must_use]
    pub fn of(&self, field: Field) -> Source {
        self.other.iter().find(|(other, _)| *other == field).map_or(self.rule, |(_, source)| *source)
    }

    /// The stated numbers of a truck with these sources that nobody has measured or read off a part.
    #[must_use]
    pub fn guessed(&self, truck: &Truck) -> FieldSet {
        let guessed = |field: &Field| self.of(*field) == Source::Assumed && field.get(truck).is_some();
        Field::ALL.iter().copied().filter(guessed).collect()
    }

    /// States where one number came from.
    pub fn set(&mut self, field: Field, source: Source) {
        self.other.retain(|(other, _)| *other != field);
        if source != self.rule {
            let at = self.other.iter().take_while(|(other, _)| *other < field).count();
            self.other.insert(at, (field, source));
        }
    }

    /// The numbers that depart from the rule, in the order of their ids.
    pub fn exceptions(&self) -> impl Iterator<Item = (Field, Source)> {
        self.other.iter().copied()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;

    #[test]
    fn the_loaded_radius_puts_the_contact_on_the_ground() {
        let mut truck = demo().truck;
        truck.points.camber_rad = 0.1;
        let spin = linkage::axes::spin_axis(0.1, 0.0);
        // Straight down in the wheel's plane, square to the spin axis.
        let down = linkage::Vector3::new(0.0, -libm::sin(0.1), -libm::cos(0.1));
        assert!(down.dot(&spin).abs() < 1e-15);
        let contact = truck.points.wheel_centre + down * truck.loaded_radius_mm();
        assert!(contact.z.abs() < 1e-12);
    }

    /// What is not stated is no guess, and what is measured or typed is none either.
    #[test]
    fn only_what_is_stated_and_assumed_is_guessed() {
        let mut truck = demo().truck;
        truck.tire.measured_diameter_mm = None;
        truck.sources = Sources::all(Source::Measured);
        for field in [Field::TireDiameter, Field::Toe, Field::FenderZ] {
            truck.sources.set(field, Source::Assumed);
        }
        truck.sources.set(Field::Camber, Source::Typed);
        assert_eq!(truck.sources.guessed(&truck), [Field::Toe, Field::FenderZ].into_iter().collect());
    }

    #[test]
    fn only_what_departs_from_the_rule_is_kept() {
        let mut sources = Sources::all(Source::Assumed);
        sources.set(Field::Toe, Source::Measured);
        sources.set(Field::Camber, Source::Typed);
        assert_eq!(sources.of(Field::Toe), Source::Measured);
        assert_eq!(sources.of(Field::CornerLoad), Source::Assumed);
        let order: Vec<_> = sources.exceptions().collect();
        assert_eq!(order, [(Field::Camber, Source::Typed), (Field::Toe, Source::Measured)]);
        sources.set(Field::Toe, Source::Assumed);
        sources.set(Field::Camber, Source::Assumed);
        assert_eq!(sources, Sources::all(Source::Assumed));
    }
}
