//! Every number of a pose by its name: one row gives it a key, words, a unit and how it is read.

use crate::stance::StandingSide;
use linkage::{Attitude, InstantCentre, Pose, Rates, Unreached, drawing_board};
use truck::SpringKind;

/// The unit of a quantity in the core.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// mm; inches at the edges where the person prefers them.
    Length,
    /// rad; degrees at the edges.
    Angle,
    /// rad/mm; degrees a millimetre or an inch at the edges.
    AnglePerLength,
    /// A ratio of two lengths.
    Ratio,
}

/// What a gauge would read of a pose, had once for every quantity that is asked of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Gauged {
    /// The pose.
    pub pose: Pose,
    /// What a gauge reads.
    pub attitude: Attitude,
    /// Rates with respect to travel.
    pub rates: Rates,
    /// Instant centre and roll centre from the true motion.
    pub centre: InstantCentre,
    /// Instant centre and roll centre as drawn on a board from the planes of the arms.
    pub board: InstantCentre,
    /// Nose-down angle of the body, rad.
    pub nose_down_rad: f64,
    /// Ground under the body at this pose, mm, body axes.
    pub ground_mm: f64,
    /// Movement of the spring for a millimetre of travel, rad/mm or mm/mm.
    pub spring_per_mm: f64,
    /// What that movement is of.
    pub spring_kind: SpringKind,
    /// Height of the rail's bottom, mm, body axes.
    rail_mm: f64,
    /// Caster against the ground, rad.
    caster_ground_rad: f64,
    /// Trail against the ground, mm.
    trail_ground_mm: f64,
}

impl Gauged {
    /// Reads a pose of a truck.
    ///
    /// # Errors
    /// [`Unreached::DeadCentre`] where two members stand in one line.
    pub fn of(rest: &StandingSide, pose: Pose) -> Result<Self, Unreached> {
        let corner = &rest.corner;
        let mounts = corner.mounts();
        let attitude = corner.attitude(&pose);
        let nose_down_rad = rest.nose_down_rad();
        let on_ground = corner.attitude(&pose.nose_down(nose_down_rad));
        Ok(Self {
            rates: corner.travel_rates(&pose)?,
            centre: corner.instant_centre(&pose)?,
            board: drawing_board(&pose, &mounts.lower, &mounts.upper, corner.loaded_radius_mm()),
            nose_down_rad,
            ground_mm: attitude.contact.z,
            spring_per_mm: rest.spring_at(&pose)?.1,
            spring_kind: rest.fitted.spring.kind,
            rail_mm: rest.fitted.measured.body.rail.bottom_z_mm,
            caster_ground_rad: on_ground.caster_rad,
            trail_ground_mm: on_ground.trail_mm,
            attitude,
            pose,
        })
    }

    /// Caster against the ground, rad.
    #[must_use]
    pub const fn caster_ground_rad(&self) -> f64 {
        self.caster_ground_rad
    }

    /// Mechanical trail against the ground, mm.
    #[must_use]
    pub const fn trail_ground_mm(&self) -> f64 {
        self.trail_ground_mm
    }
}

macro_rules! quantities {
    ($($name:ident $key:literal $unit:ident $label:literal |$r:ident| $value:expr;)*) => {
        /// A number that can be read off a pose.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Quantity { $(#[doc = $label] $name,)* }

        impl Quantity {
            /// Every quantity, in the order of the columns.
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];

            truck::words! {
                /// The name in tables: lower case, words joined by underscores.
                pub key = $($name => $key),*;

                /// What people call it.
                pub label = $($name => $label),*;
            }

            /// Whether it hangs on the rake, and so on how far the rear comes down.
            #[must_use]
            pub const fn is_against_ground(self) -> bool {
                matches!(self, Self::CasterGround | Self::TrailGround)
            }

            truck::columns! {
                /// Its unit.
                pub unit: Unit = $($name => Unit::$unit),*;
            }

            /// Its value, in the core's unit; `None` where it lies at infinity.
            #[must_use]
            pub fn read(self, gauged: &Gauged) -> Option<f64> {
                match self { $(Self::$name => { let $r = gauged; $value })* }
            }
        }
    };
}

quantities! {
    LowerArm "lower_arm" Angle "Lower arm above horizontal" |r| Some(r.pose.lower_arm_rad);
    Camber "camber" Angle "Camber" |r| Some(r.attitude.camber_rad);
    Toe "toe" Angle "Toe of this wheel" |r| Some(r.attitude.toe_rad);
    Caster "caster" Angle "Caster, against the frame" |r| Some(r.attitude.caster_rad);
    CasterGround "caster_ground" Angle "Caster, against the ground" |r| Some(r.caster_ground_rad);
    Inclination "inclination" Angle "Steering-axis inclination" |r| Some(r.attitude.inclination_rad);
    ScrubRadius "scrub_radius" Length "Scrub radius" |r| Some(r.attitude.scrub_radius_mm);
    Trail "trail" Length "Mechanical trail, against the frame" |r| Some(r.attitude.trail_mm);
    TrailGround "trail_ground" Length "Mechanical trail, against the ground" |r| Some(r.trail_ground_mm);
    HalfTrack "half_track" Length "Half of the track" |r| Some(r.attitude.contact.y);
    RideHeight "ride_height" Length "Frame height" |r| Some(r.rail_mm - r.ground_mm);
    RollCentre "roll_centre" Length "Roll center" |r| r.centre.roll_centre_mm;
    RollCentreBoard "roll_centre_board" Length "Roll center, drawn from the arms" |r| r.board.roll_centre_mm;
    InstantCentreY "instant_centre_y" Length "Instant center, from the centerline" |r| r.centre.centre.map(|p| p.y);
    InstantCentreZ "instant_centre_z" Length "Instant center, above the ground"
        |r| r.centre.centre.map(|p| p.z - r.ground_mm);
    CamberRate "camber_rate" AnglePerLength "Camber, for a unit of travel" |r| Some(r.rates.camber_rad);
    ToeRate "toe_rate" AnglePerLength "Toe, for a unit of travel" |r| Some(r.rates.toe_rad);
    CasterRate "caster_rate" AnglePerLength "Caster, for a unit of travel" |r| Some(r.rates.caster_rad);
    TrackRate "track_rate" Ratio "Contact, sideways for a unit of travel" |r| Some(r.rates.contact_mm.y);
    PathAngle "path_angle" Angle "Contact's path in side view, + back in bump"
        |r| Some(libm::atan2(-r.rates.contact_mm.x, r.rates.contact_mm.z));
    WheelX "wheel_x" Length "Wheel center, forward" |r| Some(r.pose.wheel_centre.x);
    WheelY "wheel_y" Length "Wheel center, out" |r| Some(r.pose.wheel_centre.y);
    WheelZ "wheel_z" Length "Wheel center, up, body" |r| Some(r.pose.wheel_centre.z);
    CoilRatio "motion_ratio" Ratio "Motion ratio, coil over wheel"
        |r| (r.spring_kind == SpringKind::Coil).then_some(-r.spring_per_mm);
    BarRatio "bar_ratio" AnglePerLength "Motion ratio, bar twist over wheel"
        |r| (r.spring_kind == SpringKind::TorsionBar).then_some(r.spring_per_mm);
}
