//! Every number of a truck by its name: one row here gives a number its id,
//! key, words, sort, limits and place. Forms, links, files and studies of the
//! tape's spread all read this table.

use crate::kind::Kind;
use crate::source::Source;
use crate::{columns, words};

/// What a tape is good for, either way: a sixteenth of an inch. Common practice, no source.
pub const TAPE_MM: f64 = 1.5875;
/// What an angle gauge is good for, either way: a tenth of a degree. Common practice, no source.
pub(crate) const GAUGE_RAD: f64 = 0.1_f64.to_radians();

/// What a number belongs to: one group is one picture of the measuring guide.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// Pivots of the lower arm.
    LowerArm,
    /// Pivots of the upper arm.
    UpperArm,
    /// Balls, wheel centre, camber, toe.
    Knuckle,
    /// Tie rod.
    TieRod,
    /// Bump and droop.
    Stops,
    /// What the corner carries.
    Load,
    /// Torsion bar.
    Bar,
    /// Coil.
    Coil,
    /// Rate at the wheel.
    WheelRate,
    /// Tire and wheel.
    Tire,
    /// Frame rail and wheelbase.
    Frame,
    /// Fender.
    Fender,
    /// What turns the wheels, and how far.
    Steering,
    /// Strut rod.
    StrutRod,
    /// How far the ball joints swing.
    Joints,
    /// Shims under the upper arm's shaft.
    Shims,
    /// Shock.
    Shock,
    /// Brake and rim barrel.
    Brake,
    /// How thick arms and rods are.
    Thickness,
    /// What hangs lowest.
    LowPoints,
}

/// The plane of a truck from which a place on it is measured, square to the plane: of the three
/// numbers of a point each has its own. A size, an angle, or a length from one part to another has
/// none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Datum {
    /// The front axle as it sits, across the truck: `x`, plus forward, mm.
    Axle,
    /// The middle of the truck: `y`, plus towards the wheel on either side, mm.
    Centreline,
    /// The ground as the truck sits: `z`, plus up, mm.
    Ground,
}

impl Datum {
    /// Which of a point's coordinates is counted from it: 0 of `x`, 1 of `y`, 2 of `z`.
    #[must_use]
    pub const fn axis(self) -> usize {
        self as usize
    }
}

/// How well a number is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Precision {
    /// By a tape, to a sixteenth of an inch.
    Tape,
    /// A centre hidden in its boot, to a quarter of an inch.
    Boot,
    /// An angle, to a tenth of a degree.
    Gauge,
    /// By calipers, on rust or paint.
    Caliper,
    /// By a scale, to three per cent.
    Scale,
    /// Threads counted over an inch.
    Counted,
    /// Read off the part, or chosen.
    Exact,
}

/// By how much trucks of one class differ.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Guessed {
    /// Any other of the list.
    Other,
    /// A place: an inch.
    Inch,
    /// A section of steel: an eighth of what it is under 60 mm, an inch beyond.
    Steel,
    /// A size: half of it under a centimetre, an inch beyond.
    Small,
    /// The wheelbase: short bed or long cab, six inches.
    Class,
    /// A wheel's angle: a degree.
    Degree,
    /// A part's angle: five degrees.
    FiveDegrees,
    /// An alloy's stiffness: three per cent.
    Alloy,
    /// A size of rim.
    RimSize,
    /// A step of a tire's section or aspect.
    Section,
    /// Splines.
    Teeth,
    /// Coils, turns: a fifth, of one at least.
    Turns,
    /// Loads, rates and strengths: a fifth.
    Fifth,
}

/// Whether every truck states it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stated {
    /// Yes.
    Must,
    /// It may be open: what came after the first links, whose absence means not stated.
    May,
}

/// Whether each side has its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Sides {
    /// Yes.
    Own,
    /// Both share it, or are alike by their kind.
    Both,
}

/// The plane that a row names, if it names one.
macro_rules! datum {
    (Plain) => {
        None
    };
    ($from:ident) => {
        Some(Datum::$from)
    };
}

macro_rules! names {
    ($($id:literal $name:ident $key:literal $group:ident $kind:ident $low:literal..$high:literal
        $need:ident $side:ident $precision:ident $guess:ident $from:ident $label:literal
        $($part:ident).+;)*) => {
        /// A number of a truck. The discriminant is its id in links: never reused.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        #[repr(u8)]
        pub enum Field {
            $(#[doc = $label] $name = $id,)*
        }

        impl Field {
            /// Every field, in the order of the forms.
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];

            words! {
                /// The name in files: lower case, words joined by underscores.
                pub key = $($name => $key),*;

                /// What the forms call it.
                pub label = $($name => $label),*;
            }

            columns! {
                /// What it belongs to.
                pub group: Group = $($name => Group::$group),*;

                /// What sort of number it is.
                pub kind: Kind = $($name => Kind::$kind),*;

                /// Least and greatest value; mm, **degrees**, N, N/mm, N/mm² or a plain number.
                pub limits: (f64, f64) = $($name => ($low as f64, $high as f64)),*;

                /// Whether it may be left open.
                pub is_optional: bool = $($name => matches!(Stated::$need, Stated::May)),*;

                /// Whether each side has its own: not what both wheels share, and not what parts are by
                /// their kind.
                pub is_sided: bool = $($name => matches!(Sides::$side, Sides::Own)),*;

                /// The plane that it is a distance from; `None` of what is no place on the truck.
                pub datum: Option<Datum> = $($name => datum!($from)),*;

                precision: Precision = $($name => Precision::$precision),*;

                guess: Guessed = $($name => Guessed::$guess),*;
            }
        }
    };
}

/// The table: each row is id, name, key, group, kind, limits, whether it must be there or may be
/// open, whether each side has its own, how well it is measured, how well it is
/// guessed, from which plane it is measured (or that it is plain: from none), words, and where it
/// stands on a truck.
macro_rules! fields {
    ($with:ident) => {
        $with! {
            0 LowerFrontX "lower_front_x" LowerArm Length -1500..1500 Must Own Tape Inch Axle "Lower arm, front pivot, forward of the axle" points.lower.front.x;
            1 LowerFrontY "lower_front_y" LowerArm Length 20..1200 Must Own Tape Inch Centreline "Lower arm, front pivot, from the centerline" points.lower.front.y;
            2 LowerFrontZ "lower_front_z" LowerArm Length 20..1500 Must Own Tape Inch Ground "Lower arm, front pivot, above the ground" points.lower.front.z;
            3 LowerRearX "lower_rear_x" LowerArm Length -1500..1500 Must Own Tape Inch Axle "Lower arm, rear pivot, forward of the axle" points.lower.rear.x;
            4 LowerRearY "lower_rear_y" LowerArm Length 20..1200 Must Own Tape Inch Centreline "Lower arm, rear pivot, from the centerline" points.lower.rear.y;
            5 LowerRearZ "lower_rear_z" LowerArm Length 20..1500 Must Own Tape Inch Ground "Lower arm, rear pivot, above the ground" points.lower.rear.z;
            6 LowerBallX "lower_ball_x" Knuckle Length -500..500 Must Own Boot Inch Axle "Lower ball, forward of the axle" points.lower.ball.x;
            7 LowerBallY "lower_ball_y" Knuckle Length 100..1300 Must Own Boot Inch Centreline "Lower ball, from the centerline" points.lower.ball.y;
            8 LowerBallZ "lower_ball_z" Knuckle Length 20..1500 Must Own Boot Inch Ground "Lower ball, above the ground" points.lower.ball.z;
            9 UpperFrontX "upper_front_x" UpperArm Length -1500..1500 Must Own Tape Inch Axle "Upper arm, front pivot, forward of the axle" points.upper.front.x;
            10 UpperFrontY "upper_front_y" UpperArm Length 20..1200 Must Own Tape Inch Centreline "Upper arm, front pivot, from the centerline" points.upper.front.y;
            11 UpperFrontZ "upper_front_z" UpperArm Length 20..1500 Must Own Tape Inch Ground "Upper arm, front pivot, above the ground" points.upper.front.z;
            12 UpperRearX "upper_rear_x" UpperArm Length -1500..1500 Must Own Tape Inch Axle "Upper arm, rear pivot, forward of the axle" points.upper.rear.x;
            13 UpperRearY "upper_rear_y" UpperArm Length 20..1200 Must Own Tape Inch Centreline "Upper arm, rear pivot, from the centerline" points.upper.rear.y;
            14 UpperRearZ "upper_rear_z" UpperArm Length 20..1500 Must Own Tape Inch Ground "Upper arm, rear pivot, above the ground" points.upper.rear.z;
            15 UpperBallX "upper_ball_x" Knuckle Length -500..500 Must Own Boot Inch Axle "Upper ball, forward of the axle" points.upper.ball.x;
            16 UpperBallY "upper_ball_y" Knuckle Length 100..1300 Must Own Boot Inch Centreline "Upper ball, from the centerline" points.upper.ball.y;
            17 UpperBallZ "upper_ball_z" Knuckle Length 20..1500 Must Own Boot Inch Ground "Upper ball, above the ground" points.upper.ball.z;
            18 WheelCentreX "wheel_centre_x" Knuckle Length -500..500 Must Own Boot Inch Axle "Wheel center, forward of the axle" points.wheel_centre.x;
            19 WheelCentreY "wheel_centre_y" Knuckle Length 200..1400 Must Own Tape Inch Centreline "Wheel center, from the centerline" points.wheel_centre.y;
            20 WheelCentreZ "wheel_centre_z" Knuckle Length 100..800 Must Own Tape Inch Ground "Wheel center, above the ground" points.wheel_centre.z;
            21 TieInnerX "tie_inner_x" TieRod Length -800..800 Must Own Tape Inch Axle "Tie rod, inner end, forward of the axle" points.tie_inner.x;
            22 TieInnerY "tie_inner_y" TieRod Length 0..1200 Must Own Tape Small Centreline "Tie rod, inner end, from the centerline" points.tie_inner.y;
            23 TieInnerZ "tie_inner_z" TieRod Length 20..1500 Must Own Tape Inch Ground "Tie rod, inner end, above the ground" points.tie_inner.z;
            24 TieOuterX "tie_outer_x" TieRod Length -800..800 Must Own Tape Inch Axle "Tie rod, outer end, forward of the axle" points.tie_outer.x;
            25 TieOuterY "tie_outer_y" TieRod Length 100..1300 Must Own Tape Inch Centreline "Tie rod, outer end, from the centerline" points.tie_outer.y;
            26 TieOuterZ "tie_outer_z" TieRod Length 20..1500 Must Own Tape Inch Ground "Tie rod, outer end, above the ground" points.tie_outer.z;
            27 Camber "camber" Knuckle Angle -15..15 Must Own Gauge Degree Plain "Camber, + top out" points.camber_rad;
            28 Toe "toe" Knuckle Angle -15..15 Must Own Gauge Degree Plain "Toe of this wheel, + front in" points.toe_rad;
            29 BumpGap "bump_gap" Stops Length 0..300 Must Own Tape Small Plain "Daylight at the bump stop, at rest" stops.bump_gap_mm;
            30 BumpSquash "bump_squash" Stops Length 0..150 Must Own Tape Small Plain "Bump stop, squeeze until solid" stops.bump_squash_mm;
            31 BumpRadius "bump_radius" Stops Length 30..800 Must Own Tape Inch Plain "Bump stop, from the lower pivot axis" stops.bump_radius_mm;
            32 Droop "droop" Stops Length 0..400 Must Own Tape Small Plain "Droop, wheel hanging below rest" stops.droop_mm;
            33 CornerLoad "corner_load" Load Force 500..30000 Must Own Scale Fifth Plain "Load of the corner at the ground" load.corner_n;
            34 UnsprungWeight "unsprung_weight" Load Force 0..3000 Must Own Scale Fifth Plain "Unsprung weight of the corner" load.unsprung_n;
            35 BarDiameter "bar_diameter" Bar Length 5..80 Must Own Caliper Steel Plain "Bar, diameter" spring.bar.diameter_mm;
            36 BarLength "bar_length" Bar Length 100..3000 Must Own Tape Steel Plain "Bar, length that twists" spring.bar.length_mm;
            37 BarLever "bar_lever" Bar Length 20..500 Must Own Tape Steel Plain "Anchor lever, center to bolt" spring.bar.lever_mm;
            38 BarLeverAngle "bar_lever_angle" Bar Angle 20..160 Must Own Gauge FiveDegrees Plain "Between lever and bolt" spring.bar.lever_angle_rad;
            39 BarThread "bar_thread" Bar Length 0.3..5 Must Both Counted Steel Plain "Bolt, thread pitch" spring.bar.thread_pitch_mm;
            40 BarTurnsIn "bar_turns_in" Bar Count 0..100 Must Own Exact Turns Plain "Bolt, turns left in" spring.bar.turns_in;
            41 BarTurnsOut "bar_turns_out" Bar Count 0..100 Must Own Exact Turns Plain "Bolt, turns left out" spring.bar.turns_out;
            42 ShearModulus "shear_modulus" Bar Modulus 10000..150000 Must Both Exact Alloy Plain "Steel, shear modulus" spring.shear_modulus_n_per_mm2;
            43 CoilWire "coil_wire" Coil Length 3..50 Must Own Caliper Steel Plain "Coil, wire" spring.coil.wire_mm;
            44 CoilMean "coil_mean" Coil Length 20..400 Must Own Caliper Steel Plain "Coil, mean diameter" spring.coil.mean_mm;
            45 CoilActive "coil_active" Coil Count 1..40 Must Own Exact Turns Plain "Coil, active coils" spring.coil.active;
            46 CoilPitch "coil_pitch" Coil Length 3..200 Must Own Tape Steel Plain "Coil, one coil to the next at rest" spring.coil.loaded_pitch_mm;
            47 CoilArmX "coil_arm_x" Coil Length -1000..1000 Must Own Tape Inch Axle "Coil, seat on the arm, forward of the axle" spring.coil.arm_seat.x;
            48 CoilArmY "coil_arm_y" Coil Length 20..1300 Must Own Tape Steel Centreline "Coil, seat on the arm, from the centerline" spring.coil.arm_seat.y;
            49 CoilArmZ "coil_arm_z" Coil Length 20..1500 Must Own Tape Steel Ground "Coil, seat on the arm, above the ground" spring.coil.arm_seat.z;
            50 CoilBodyX "coil_body_x" Coil Length -1000..1000 Must Own Tape Inch Axle "Coil, seat on the body, forward of the axle" spring.coil.body_seat.x;
            51 CoilBodyY "coil_body_y" Coil Length 20..1300 Must Own Tape Steel Centreline "Coil, seat on the body, from the centerline" spring.coil.body_seat.y;
            52 CoilBodyZ "coil_body_z" Coil Length 20..1800 Must Own Tape Steel Ground "Coil, seat on the body, above the ground" spring.coil.body_seat.z;
            53 WheelRate "wheel_rate" WheelRate Rate 1..500 Must Own Scale Fifth Plain "Rate at the wheel" spring.wheel_rate_n_per_mm;
            54 TireSection "tire_section" Tire Whole 95..455 Must Own Exact Section Plain "Tire, section width" tire.size.section_mm;
            55 TireAspect "tire_aspect" Tire Whole 20..100 Must Own Exact Section Plain "Tire, aspect" tire.size.aspect_percent;
            56 TireRim "tire_rim" Tire RimCode 8..30 Must Own Exact RimSize Plain "Tire, rim code" tire.size.rim_code;
            57 TireShoulder "tire_shoulder" Tire Length 2..120 Must Own Tape Small Plain "Tire, shoulder radius" tire.shoulder_mm;
            58 RimWidth "rim_width" Tire Length 50..500 Must Own Tape Inch Plain "Rim, width between flanges" wheel.rim_width_mm;
            59 WheelOffset "wheel_offset" Tire Length -200..200 Must Own Tape Inch Plain "Wheel, offset, + face outboard" wheel.offset_mm;
            60 Wheelbase "wheelbase" Frame Length 1000..6000 Must Both Tape Class Plain "Wheelbase" body.wheelbase_mm;
            61 RailOuterY "rail_outer_y" Frame Length 20..1200 Must Own Tape Inch Centreline "Rail, face towards the wheel, from the centerline" body.rail.outer_y_mm;
            62 RailWidth "rail_width" Frame Length 10..500 Must Own Tape Inch Plain "Rail, width" body.rail.width_mm;
            63 RailBottomZ "rail_bottom_z" Frame Length 20..1500 Must Own Tape Inch Ground "Frame height, above the ground" body.rail.bottom_z_mm;
            64 RailHeight "rail_height" Frame Length 10..600 Must Own Tape Inch Plain "Rail, height" body.rail.height_mm;
            65 RailFrontX "rail_front_x" Frame Length -1500..2500 Must Own Tape Inch Axle "Rail, front end beside the wheel, forward of the axle" body.rail.front_x_mm;
            66 RailRearX "rail_rear_x" Frame Length -2500..1500 Must Own Tape Inch Axle "Rail, rear end beside the wheel, forward of the axle" body.rail.rear_x_mm;
            67 FenderY "fender_y" Fender Length 200..1500 Must Own Tape Inch Centreline "Fender lip, inner edge, from the centerline" body.fender.lip_y_mm;
            68 FenderZ "fender_z" Fender Length 200..2000 Must Own Tape Inch Ground "Fender lip, lower edge, above the ground" body.fender.lip_z_mm;
            69 FenderHalfLength "fender_half_length" Fender Length 0..600 Must Own Tape Small Plain "Fender lip, half of its level length" body.fender.half_length_mm;
            71 TireDiameter "tire_diameter" Tire Length 300..1200 May Own Tape Inch Plain "Tire, overall diameter where measured" tire.measured_diameter_mm;
            72 SteeringKind "steering_kind" Steering STEERING 0..1 May Both Exact Other Plain "Steering" steering.kind;
            73 PitmanLength "pitman_length" Steering Length 30..400 May Both Tape Inch Plain "Pitman and idler arm, pivot to link" steering.pitman_mm;
            74 PitmanSide "pitman_side" Steering PITMAN 0..1 May Both Exact Other Plain "Pitman and idler arm" steering.pitman_side;
            75 LockLeft "lock_left" Steering Angle 1..60 May Both Gauge FiveDegrees Plain "Left wheel's turn at full lock to the left" steering.lock_left_rad;
            76 LockRight "lock_right" Steering Angle 1..60 May Both Gauge FiveDegrees Plain "Left wheel's turn at full lock to the right" steering.lock_right_rad;
            77 StrutArmX "strut_arm_x" StrutRod Length -800..800 May Own Tape Inch Axle "Strut rod on the arm, forward of the axle" strut.arm.x;
            78 StrutArmY "strut_arm_y" StrutRod Length 20..1300 May Own Tape Inch Centreline "Strut rod on the arm, from the centerline" strut.arm.y;
            79 StrutArmZ "strut_arm_z" StrutRod Length 20..1500 May Own Tape Inch Ground "Strut rod on the arm, above the ground" strut.arm.z;
            80 StrutThread "strut_thread" StrutRod Length 0.3..5 May Both Counted Small Plain "Strut rod, thread pitch" strut.thread_pitch_mm;
            81 TieThread "tie_thread" TieRod Length 0.3..5 May Both Counted Small Plain "Tie-rod sleeve, thread pitch" steering.tie_thread_pitch_mm;
            83 LowerSwing "lower_swing" Joints Angle 2..60 May Own Gauge FiveDegrees Plain "Lower joint, swing each way from its middle" joints.lower.limit_rad;
            84 LowerSwingRest "lower_swing_rest" Joints Angle -45..45 May Own Gauge FiveDegrees Plain "Lower joint at rest, from its middle, + towards bump" joints.lower.rest_rad;
            85 UpperSwing "upper_swing" Joints Angle 2..60 May Own Gauge FiveDegrees Plain "Upper joint, swing each way from its middle" joints.upper.limit_rad;
            86 UpperSwingRest "upper_swing_rest" Joints Angle -45..45 May Own Gauge FiveDegrees Plain "Upper joint at rest, from its middle, + towards bump" joints.upper.rest_rad;
            87 ShaftSide "shaft_side" Shims SHAFT 0..1 May Both Exact Other Plain "Upper arm's shaft" shims.side;
            88 ShimFrontX "shim_front_x" Shims Length -1500..1500 May Own Tape Inch Axle "Shaft's front bolt, forward of the axle" shims.front_x_mm;
            89 ShimRearX "shim_rear_x" Shims Length -1500..1500 May Own Tape Inch Axle "Shaft's rear bolt, forward of the axle" shims.rear_x_mm;
            90 ShimFront "shim_front" Shims Length 0..60 May Own Caliper Small Plain "Shims at the front bolt now" shims.front_mm;
            91 ShimRear "shim_rear" Shims Length 0..60 May Own Caliper Small Plain "Shims at the rear bolt now" shims.rear_mm;
            92 ShimMost "shim_most" Shims Length 0..60 May Own Tape Small Plain "Thickest pack that the bolts take" shims.most_mm;
            93 BarSplinesAnchor "bar_splines_anchor" Bar Whole 6..120 May Own Exact Teeth Plain "Splines at the anchor" spring.bar.splines_anchor;
            94 BarSplinesArm "bar_splines_arm" Bar Whole 6..120 May Own Exact Teeth Plain "Splines at the arm" spring.bar.splines_arm;
            126 BarBlindAnchor "bar_blind_anchor" Bar BLIND 0..1 May Both Exact Other Plain "Blind tooth at the anchor" spring.bar.blind_anchor;
            127 BarBlindArm "bar_blind_arm" Bar BLIND 0..1 May Both Exact Other Plain "Blind tooth at the arm" spring.bar.blind_arm;
            95 BarAllowable "bar_allowable" Bar Stress 100..2500 May Both Exact Fifth Plain "Bar, allowable shear stress" spring.bar.allowable_n_per_mm2;
            96 BarInward "bar_inward" Bar Angle -45..45 May Own Gauge FiveDegrees Plain "Bar, points inward to the rear" spring.bar.inward_rad;
            97 BarDownward "bar_downward" Bar Angle -45..45 May Own Gauge FiveDegrees Plain "Bar, points down to the rear" spring.bar.downward_rad;
            98 CoilEnds "coil_ends" Coil ENDS 0..3 May Both Exact Other Plain "Coil, ends" spring.coil.ends;
            99 CoilAllowable "coil_allowable" Coil Stress 100..2500 May Both Exact Fifth Plain "Coil, allowable shear stress" spring.coil.allowable_n_per_mm2;
            100 ShockArmX "shock_arm_x" Shock Length -800..800 May Own Tape Inch Axle "Shock on the lower arm, forward of the axle" shock.arm.x;
            101 ShockArmY "shock_arm_y" Shock Length 20..1300 May Own Tape Inch Centreline "Shock on the lower arm, from the centerline" shock.arm.y;
            102 ShockArmZ "shock_arm_z" Shock Length 20..1500 May Own Tape Inch Ground "Shock on the lower arm, above the ground" shock.arm.z;
            103 ShockBodyX "shock_body_x" Shock Length -800..800 May Own Tape Inch Axle "Shock on the body, forward of the axle" shock.body.x;
            104 ShockBodyY "shock_body_y" Shock Length 20..1300 May Own Tape Inch Centreline "Shock on the body, from the centerline" shock.body.y;
            105 ShockBodyZ "shock_body_z" Shock Length 20..1800 May Own Tape Inch Ground "Shock on the body, above the ground" shock.body.z;
            106 ShockShort "shock_short" Shock Length 50..900 May Own Tape Inch Plain "Shock, pushed in, mount to mount" shock.short_mm;
            107 ShockLong "shock_long" Shock Length 50..1200 May Own Tape Inch Plain "Shock, pulled out, mount to mount" shock.long_mm;
            108 RimBarrel "rim_barrel" Brake Length 50..400 May Own Tape Inch Plain "Rim, radius inside the barrel where it is narrowest" wheel.barrel_mm;
            109 CaliperRadius "caliper_radius" Brake Length 40..400 May Own Tape Inch Plain "Caliper, farthest from the spindle's line" brake.caliper_radius_mm;
            110 CaliperIn "caliper_in" Brake Length -200..300 May Own Tape Inch Plain "Caliper, inboard end, inboard of the wheel's face" brake.caliper_in_mm;
            111 CaliperOut "caliper_out" Brake Length -200..300 May Own Tape Inch Plain "Caliper, outboard end, inboard of the wheel's face" brake.caliper_out_mm;
            112 RotorDiameter "rotor_diameter" Brake Length 100..500 May Own Tape Inch Plain "Rotor, diameter" brake.rotor_diameter_mm;
            113 RotorThickness "rotor_thickness" Brake Length 3..60 May Own Caliper Small Plain "Rotor, thickness" brake.rotor_thickness_mm;
            114 LowerArmThickness "lower_arm_thickness" Thickness Length 2..120 May Own Tape Steel Plain "Lower arm, half of its height" thickness.lower_arm_mm;
            115 UpperArmThickness "upper_arm_thickness" Thickness Length 2..120 May Own Tape Steel Plain "Upper arm, half of its height" thickness.upper_arm_mm;
            116 TieRodThickness "tie_rod_thickness" Thickness Length 2..60 May Own Caliper Steel Plain "Tie rod, radius" thickness.tie_rod_mm;
            117 StrutRodThickness "strut_rod_thickness" Thickness Length 2..60 May Own Caliper Steel Plain "Strut rod, radius" thickness.strut_rod_mm;
            118 LowPointY "low_point_y" LowPoints Length 0..1200 May Both Tape Small Centreline "Lowest fixed point, from the centerline" low.y_mm;
            119 LowPointZ "low_point_z" LowPoints Length 10..800 May Both Tape Inch Ground "Lowest fixed point, above the ground" low.z_mm;
            120 BallNut "ball_nut" LowPoints Length 0..150 May Own Tape Small Plain "Lower ball's nut, below the ball's center" low.nut_mm;
            121 DriverLoad "driver_load" Load Force 0..3000 May Own Scale Fifth Plain "Driver's share on this corner" load.driver_n;
            122 BedLoad "bed_load" Load Force 0..30000 May Both Scale Fifth Plain "Load in the bed" load.bed_n;
            123 BedBehind "bed_behind" Load Length -2500..3000 May Both Tape Inch Plain "Load in the bed, behind the rear axle" load.bed_behind_mm;
        }
    };
}
pub(crate) use fields;

fields!(names);

impl Field {
    /// The id in links. Never reused.
    #[must_use]
    pub const fn id(self) -> u8 {
        self as u8
    }

    /// The field with an id.
    #[must_use]
    pub fn from_id(id: u8) -> Option<Self> {
        Self::ALL.iter().copied().find(|field| field.id() == id)
    }

    /// The field with a key.
    #[must_use]
    pub fn from_key(key: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|field| field.key() == key)
    }

    /// The half-width within which the true value is taken to lie when the
    /// number was measured, in the core's unit.
    ///
    /// A tape is read to a sixteenth of an inch, a ball's centre hidden in its
    /// boot to a quarter, calipers on rust or paint to 0.2 mm, an angle gauge to a
    /// tenth of a degree, a scale to three per cent; threads are counted over an inch
    /// to half of one, which is about as much. Common practice, no source.
    #[must_use]
    pub fn tolerance(self, value: f64) -> f64 {
        match self.precision() {
            Precision::Tape => TAPE_MM,
            Precision::Boot => 6.35,
            Precision::Gauge => GAUGE_RAD,
            Precision::Caliper => 0.2,
            Precision::Scale | Precision::Counted => 0.03 * value.abs(),
            Precision::Exact => 0.0,
        }
    }

    /// The half-width within which the true value is taken to lie where the number is a
    /// guess, in the core's unit; zero of a choice, of which any other word can be true.
    ///
    /// Trucks of one class differ by about so much: a point by an inch, a section of steel by
    /// an eighth, a load by a fifth. Common practice, no source.
    #[must_use]
    pub fn guess_width(self, value: f64) -> f64 {
        let size = value.abs();
        match self.guess() {
            Guessed::Other => 0.0,
            Guessed::Steel if size < 60.0 => 0.125 * size,
            Guessed::Small if size < 10.0 => 0.5 * size.max(2.0),
            Guessed::Inch | Guessed::Steel | Guessed::Small => 25.4,
            Guessed::Class => 150.0,
            Guessed::Degree => 1.0_f64.to_radians(),
            Guessed::FiveDegrees => 5.0_f64.to_radians(),
            Guessed::Alloy => 0.03 * size,
            Guessed::RimSize => 1.0,
            Guessed::Section => 10.0,
            Guessed::Teeth => 4.0,
            Guessed::Turns => 0.2 * size.max(1.0),
            Guessed::Fifth => 0.2 * size,
        }
    }

    /// The value that can be kept nearest to one, within the limits; `None` of what is not finite.
    #[must_use]
    pub fn nearest(self, value: f64) -> Option<f64> {
        nearest(self.kind(), self.limits(), value)
    }

    /// The nearest value within the limits, in the core's unit, as fine as it is given.
    #[must_use]
    pub fn within(self, value: f64) -> f64 {
        let edge = |limit: f64| if self.kind() == Kind::Angle { limit.to_radians() } else { limit };
        let (low, high) = self.limits();
        value.clamp(edge(low), edge(high))
    }

    /// Where a number came from that a person has just entered.
    pub(crate) const fn source_when_entered(self) -> Source {
        match self.kind() {
            Kind::Whole | Kind::RimCode | Kind::Modulus | Kind::Stress => Source::Typed,
            _ => Source::Measured,
        }
    }

    /// The value rounded to what can be kept, if it lies within the limits.
    #[must_use]
    pub fn accept(self, value: f64) -> Option<f64> {
        accept(self.kind(), self.limits(), value)
    }
}

/// A value in the core's unit, rounded, if it lies within limits given as in [`Field::limits`].
pub(crate) fn accept(kind: Kind, (low, high): (f64, f64), value: f64) -> Option<f64> {
    let kept = kind.rounded(value)?;
    let steps = kind.steps(kept)?;
    let edge = |limit: f64| if kind == Kind::Angle { limit.to_radians() } else { limit };
    let inside = kind.steps(edge(low))? <= steps && steps <= kind.steps(edge(high))?;
    inside.then_some(kept)
}

/// The nearest value, in the core's unit, that can be kept within limits given as in [`Field::limits`].
pub(crate) fn nearest(kind: Kind, (low, high): (f64, f64), value: f64) -> Option<f64> {
    let edge = |limit: f64| if kind == Kind::Angle { limit.to_radians() } else { limit };
    value.is_finite().then(|| accept(kind, (low, high), value.clamp(edge(low), edge(high))))?
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;
    use crate::truck::{OpenPoint, Truck};
    use linkage::Point3;

    /// A guess is worth less than a tape, and its ends can be kept: what nobody has measured
    /// is known no better than what somebody has. Of a choice there is no half.
    #[test]
    fn a_guess_is_wider_than_a_measurement_and_its_ends_can_be_kept() {
        let truck = demo().truck;
        for field in Field::ALL.iter().copied() {
            let Some(value) = field.get(&truck) else { continue };
            let width = field.guess_width(value);
            if field.kind().choices().is_some() {
                assert!(width == 0.0, "{field:?}");
                continue;
            }
            // Hidden ball centres are the tape's worst, a quarter of an inch.
            assert!(width > 0.0 && width >= field.tolerance(value).min(0.06 * value.abs()), "{field:?}");
            for end in [value - width, value + width] {
                let kept = field.nearest(end).unwrap();
                assert_eq!(field.accept(kept), Some(kept), "{field:?}");
                assert!((kept - value).abs() > 0.0, "{field:?} cannot move from {value}");
            }
        }
        assert_eq!(Field::Wheelbase.nearest(f64::NAN), None);
        assert_eq!(
            Field::Camber.nearest(9.0).map(f64::to_degrees).map(f64::round),
            Some(Field::Camber.limits().1)
        );
        assert_eq!(Field::LowerBallX.guess_width(0.0).to_bits(), 25.4_f64.to_bits());
    }

    #[test]
    fn ids_and_keys_are_one_to_one() {
        for (place, field) in Field::ALL.iter().enumerate() {
            assert_eq!(Field::from_id(field.id()), Some(*field));
            assert_eq!(Field::from_key(field.key()), Some(*field));
            assert!(Field::ALL[..place].iter().all(|other| other.label() != field.label()));
        }
    }

    #[test]
    fn what_is_put_is_what_is_got_and_nothing_else_moves() {
        for field in Field::ALL {
            let before = demo().truck;
            let mut after = before.clone();
            let (low, high) = field.limits();
            let middle = field.kind().rounded(if field.kind() == Kind::Angle {
                (low * 0.4 + high * 0.6).to_radians()
            } else {
                low * 0.4 + high * 0.6
            });
            field.put(&mut after, middle);
            assert_eq!(field.get(&after), middle, "{field:?}");
            for other in Field::ALL.iter().filter(|other| *other != field) {
                assert_eq!(other.get(&after), other.get(&before), "{field:?} moved {other:?}");
            }
            field.put(&mut after, None);
            assert_eq!(field.get(&after).is_none(), field.is_optional(), "{field:?}");
        }
    }

    /// The places on a truck, each by its coordinates in their order, so far as it has its own.
    fn places(truck: &Truck) -> [[Option<f64>; 3]; 20] {
        let whole = |point: &Point3<f64>| [point.x, point.y, point.z].map(Some);
        let open = |point: &OpenPoint| [point.x, point.y, point.z];
        let (points, coil, shock) = (&truck.points, &truck.spring.coil, &truck.shock);
        let (rail, fender) = (&truck.body.rail, &truck.body.fender);
        [
            whole(&points.lower.front),
            whole(&points.lower.rear),
            whole(&points.lower.ball),
            whole(&points.upper.front),
            whole(&points.upper.rear),
            whole(&points.upper.ball),
            whole(&points.wheel_centre),
            whole(&points.tie_inner),
            whole(&points.tie_outer),
            whole(&coil.arm_seat),
            whole(&coil.body_seat),
            open(&truck.strut.arm),
            open(&shock.arm),
            open(&shock.body),
            [rail.front_x_mm, rail.outer_y_mm, rail.bottom_z_mm].map(Some),
            [Some(rail.rear_x_mm), None, None],
            [None, Some(fender.lip_y_mm), Some(fender.lip_z_mm)],
            [None, truck.low.y_mm, truck.low.z_mm],
            [truck.shims.front_x_mm, None, None],
            [truck.shims.rear_x_mm, None, None],
        ]
    }

    /// What is measured from the axle moves an `x`, from the centreline a `y`, from the ground a
    /// `z`, and nothing else moves any; the words of the form and the key's last letter say the
    /// same.
    #[test]
    fn a_datum_is_that_of_the_coordinate_and_of_the_words() {
        let said = [
            (Datum::Axle, ", forward of the axle", "_x"),
            (Datum::Centreline, ", from the centerline", "_y"),
            (Datum::Ground, ", above the ground", "_z"),
        ];
        let truck = demo().truck;
        for field in Field::ALL.iter().copied() {
            let mut other = truck.clone();
            field.put(&mut other, Some(field.get(&truck).map_or(1.0, |value| value + 1.0)));
            let moved: Vec<usize> = places(&truck)
                .iter()
                .zip(&places(&other))
                .flat_map(|(was, is)| (0..3).filter(|axis| was[*axis] != is[*axis]))
                .collect();
            assert_eq!(moved, field.datum().map(Datum::axis).into_iter().collect::<Vec<_>>(), "{field:?}");
            for (datum, words, letter) in said {
                let is = field.datum() == Some(datum);
                assert_eq!(field.label().ends_with(words), is, "{field:?}");
                assert_eq!(field.key().ends_with(letter), is, "{field:?}");
            }
        }
    }

    #[test]
    fn the_demo_lies_within_its_own_limits() {
        let truck = demo().truck;
        for field in Field::ALL {
            if let Some(value) = field.get(&truck) {
                assert_eq!(field.accept(value), Some(value), "{field:?}");
            }
        }
    }
}
