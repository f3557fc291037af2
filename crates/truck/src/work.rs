//! What there is to do on a truck, and what is written down of it while it is done.
//!
//! A [`Task`] is there when one of its [`Job`]s is; in which order they come is `mating`'s to say.

mod fastener;
mod log;

pub use fastener::Fastener;
pub use log::{Asked, SETTINGS, Torque, WorkEdit, WorkLog};

/// What a proposal touches.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Job {
    /// A torsion bar let down, and out.
    Bar,
    /// A torsion bar let down, and left in.
    LetDown,
    /// The bar's bolt alone.
    BarBolt,
    /// A coil out.
    Coil,
    /// A spring that nobody has told the kind of.
    Spring,
    /// The bar's bracket.
    Bracket,
    /// The lower arm off.
    LowerArm,
    /// The upper arm off.
    UpperArm,
    /// A ball joint parted.
    Joint,
    /// The knuckle off.
    Knuckle,
    /// The hub off.
    Hub,
    /// Caliper or rotor.
    Brake,
    /// A brake hose.
    Hose,
    /// The tie rod.
    TieRod,
    /// The strut rod.
    StrutRod,
    /// A bushing pressed.
    Bushing,
    /// A new hole, and its sleeve.
    NewHole,
    /// The bump stop.
    Stop,
    /// The shock.
    Shock,
    /// Shims.
    Shims,
    /// The anti-roll link at the lower arm.
    AntiRoll,
    /// Wheels and tires.
    Wheels,
    /// The rear.
    Rear,
}

impl Job {
    /// All of them.
    pub const ALL: [Self; 23] = [
        Self::Bar,
        Self::LetDown,
        Self::BarBolt,
        Self::Coil,
        Self::Spring,
        Self::Bracket,
        Self::LowerArm,
        Self::UpperArm,
        Self::Joint,
        Self::Knuckle,
        Self::Hub,
        Self::Brake,
        Self::Hose,
        Self::TieRod,
        Self::StrutRod,
        Self::Bushing,
        Self::NewHole,
        Self::Stop,
        Self::Shock,
        Self::Shims,
        Self::AntiRoll,
        Self::Wheels,
        Self::Rear,
    ];
}

macro_rules! tasks {
    ($($id:literal $name:ident $key:literal $label:literal $why:literal [$($job:ident)*] [$($after:ident)*];)*) => {
        /// Something to do. The order of the list is that of the truck, and settles what no
        /// edge does; the id is what a browser keeps of one, and never reused.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        #[repr(u8)]
        pub enum Task {
            $(#[doc = $label] $name = $id,)*
        }

        impl Task {
            /// Every task, in the order of the list.
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];

            $crate::words! {
                /// The name in files.
                pub key = $($name => $key),*;

                /// What is done.
                pub label = $($name => $label),*;

                /// Why now.
                pub why = $($name => $why),*;
            }

            $crate::columns! {
                /// The jobs that bring it along; none, it is always there.
                pub jobs: &'static [Job] = $($name => &[$(Job::$job,)*]),*;

                /// What must be done before it, where it is done at all.
                pub after: &'static [Self] = $($name => &[$(Self::$after,)*]),*;
            }
        }
    };
}

tasks! {
    0 Heights "heights" "Write down heights, camber and toe; paint marks on bar, anchor, bolt and shims"
        "nothing of it can be read any more once it is apart; paint, never a scratch or a punch" [] [];
    1 Stands "stands" "Truck on stands under the frame, wheels chocked, front wheels off"
        "a jack lifts and never holds" [] [Heights];
    2 BarDown "bar_down" "Let the bar down at its bolt, all of it"
        "it stores enough to kill, and nothing that holds it is undone before" [Bar LetDown] [Heights Stands];
    3 CoilHeld "coil_held" "Chain the coil and take its load with a jack under the arm"
        "a joint that is parted lets it go" [Coil] [Heights Stands];
    4 SpringHeld "spring_held" "The spring let down or contained, by its own manual"
        "a joint that is parted lets it go" [Spring] [Heights Stands];
    5 RearWork "rear_work" "The rear: blocks or shackles, new U-bolts snug"
        "the front is set to where the rear stands" [Rear] [Heights Stands];
    6 CaliperOff "caliper_off" "Caliper off, hung up by a wire"
        "it never hangs by its hose" [Brake Knuckle Hub] [Stands];
    7 HubOff "hub_off" "Hub and rotor off"
        "the knuckle comes without them" [Hub Knuckle] [CaliperOff];
    8 TieParted "tie_parted" "Tie rod parted from the steering arm"
        "the knuckle cannot come with it on" [TieRod Knuckle] [Stands];
    9 ShockOff "shock_off" "Shock off" "it would hold the arm up" [Shock LowerArm]
        [Stands BarDown CoilHeld SpringHeld];
    10 AntiRollOff "anti_roll_off" "Anti-roll link off the lower arm, if there is one"
        "it holds the arm to the other side's, and lets go with the joint" [AntiRoll LowerArm Coil]
        [Stands BarDown CoilHeld SpringHeld];
    11 JointsParted "joints_parted" "Ball joints parted, nuts left on by a few threads until they let go"
        "the spring is down or held" [Joint Knuckle LowerArm UpperArm Coil]
        [BarDown CoilHeld SpringHeld CaliperOff AntiRollOff];
    12 BarOut "bar_out" "Bar and anchor out" "the arm cannot come with the bar in it" [Bar] [BarDown JointsParted];
    13 CoilOut "coil_out" "Coil out" "slowly, on the jack" [Coil] [CoilHeld JointsParted];
    14 KnuckleOff "knuckle_off" "Knuckle off" "its joints and rod are parted" [Knuckle] [JointsParted TieParted HubOff];
    15 StrutOff "strut_off" "Strut rod off" "its nuts are turned from marks" [StrutRod LowerArm]
        [Heights Stands BarDown CoilHeld SpringHeld];
    16 ArmOff "arm_off" "Lower arm off" "what it carried is off" [LowerArm Bracket Bushing NewHole]
        [BarOut CoilOut JointsParted ShockOff StrutOff];
    17 UpperOff "upper_off" "Upper arm off, shims kept by bolt" "each pack belongs to its bolt" [UpperArm] [JointsParted];
    18 BushingIn "bushing_in" "Bench: bushing pressed in" "before the arm is in its way" [Bushing] [ArmOff];
    19 HoleDrilled "hole_drilled" "Bench: new hole drilled, sleeve fitted"
        "no drill reaches it on the truck, and the stop covers it" [NewHole] [ArmOff];
    20 StopOn "stop_on" "Bump stop on" "the bracket covers its bolts" [Stop Bracket LowerArm] [ArmOff BushingIn HoleDrilled];
    21 BracketOn "bracket_on" "Bracket on the arm" "it goes on over the stop, and the arm hides its nuts" [Bracket]
        [StopOn HoleDrilled];
    22 ArmOn "arm_on" "Lower arm on, pivot bolts snug" "rubber is tightened at its height" [LowerArm Bracket Bushing NewHole]
        [BushingIn HoleDrilled StopOn BracketOn];
    23 UpperOn "upper_on" "Upper arm on with its shims, pivots snug" "rubber is tightened at its height" [UpperArm] [UpperOff];
    24 StrutOn "strut_on" "Strut rod on, nuts snug" "it places the arm" [StrutRod LowerArm] [StrutOff ArmOn];
    25 JointsIn "joints_in" "Ball joints in their arms" "the knuckle hangs on them" [Joint LowerArm UpperArm] [ArmOn UpperOn];
    26 CoilIn "coil_in" "Coil in its seats, held as before" "it goes in before the joint is closed" [Coil] [CoilOut ArmOn JointsIn];
    27 KnuckleOn "knuckle_on" "Knuckle on its joints" "arm, then joint, then knuckle" [Knuckle] [KnuckleOff JointsIn CoilIn];
    28 JointsPinned "joints_pinned" "Both joints' nuts torqued and pinned, never backed off for the pin"
        "nothing is loaded on a joint that can come off" [Joint Knuckle LowerArm UpperArm Coil]
        [JointsParted KnuckleOn JointsIn CoilIn];
    29 TieOn "tie_on" "Tie rod on, torqued and pinned" "it has its knuckle" [TieRod Knuckle] [TieParted KnuckleOn];
    30 SealIn "seal_in" "Races and seal in the hub" "the seal goes in before the hub goes on" [Hub Knuckle] [HubOff];
    31 HubOn "hub_on" "Hub on: seated turning, backed right off, set by its own manual, then the pin"
        "the seating torque is never the final one" [Hub Knuckle] [SealIn KnuckleOn];
    32 CaliperOn "caliper_on" "Caliper on" "the rotor runs true" [Brake Knuckle Hub] [CaliperOff HubOn];
    33 HoseOn "hose_on" "Hose on, looked at hanging and at both locks" "as long as its longest path by itself, never by an extension" [Hose] [CaliperOn];
    34 Bleed "bleed" "Brakes bled, pedal firm" "caliper and hose are on" [Hose Brake] [CaliperOn HoseOn];
    35 ShockOn "shock_on" "Shock on" "it ends the droop" [Shock LowerArm] [ShockOff ArmOn];
    36 AntiRollOn "anti_roll_on" "Anti-roll link on, nuts snug" "its rubber is tightened at its height" [AntiRoll LowerArm Coil]
        [AntiRollOff ArmOn JointsPinned];
    37 BarIn "bar_in" "Bar in on its marks, each on its own side, anchor and bolt snug" "the arm is on" [Bar]
        [BarOut BracketOn ArmOn];
    38 BarLoaded "bar_loaded" "Load the bar at its bolt" "joints are pinned and the stop is on: it can come off nothing" [Bar LetDown]
        [BarIn JointsPinned StopOn TieOn StrutOn ShockOn];
    39 WheelsOn "wheels_on" "Wheels on, down on the ground, nuts torqued"
        "all that holds a wheel is on" [] [Stands BarLoaded CoilIn JointsPinned TieOn HubOn CaliperOn Bleed ShockOn StrutOn
        AntiRollOn RearWork UpperOn];
    40 Rolled "rolled" "Roll the truck ten feet and bounce it" "tires scrub, and no height is true before" [] [WheelsOn];
    41 RearTorqued "rear_torqued" "U-bolts torqued, the truck on its wheels" "they settle under load" [Rear] [Rolled];
    42 HeightSet "height_set" "Driver's weight in; set the height, both sides" "it is read as it is driven" [] [Rolled RearTorqued];
    43 Rubber "rubber" "Rubber tightened at this height: pivots, strut rods, shocks, anti-roll links" "tightened hanging it tears" []
        [HeightSet];
    44 RearAligned "rear_aligned" "Rear axle square to the frame" "the front is aligned to where the rear points" [Rear]
        [RearTorqued HeightSet Rubber];
    45 ShimsSet "shims_set" "Camber and caster, by shims and strut rods" "they move toe" [] [Rubber RearAligned];
    46 ToeSet "toe_set" "Toe, wheel straight" "last of the three" [] [ShimsSet TieOn];
    47 Headlamps "headlamps" "Headlamps aimed" "the nose has come down" [] [HeightSet ToeSet];
    48 RearValve "rear_valve" "Rear brake valve's rod" "it reads a lowered rear as a loaded one" [Rear] [HeightSet];
    49 Final "final" "Each final torque by its own manual, cotter pin, paint stripe" "what has a stripe is done" [] [ToeSet];
    50 Inspected "inspected" "Aligned and inspected by someone licensed to" "your local rules decide" []
        [Final Headlamps RearValve Bleed];
    51 Again "again" "After 100 miles: heights, wheel nuts, strut-rod nuts, U-bolts" "everything settles once" [] [Inspected];
}

impl Task {
    /// How tight, or at which moment, where the task says so.
    #[must_use]
    pub const fn when(self) -> &'static str {
        match self {
            Self::RearWork | Self::ArmOn | Self::UpperOn | Self::StrutOn | Self::AntiRollOn | Self::BarIn => {
                "snug"
            }
            Self::HeightSet | Self::Rubber => "at height",
            Self::Again => "after 100 miles",
            _ => "",
        }
    }

    /// What is open until it is done, on the list that must be empty before the truck drives.
    #[must_use]
    pub const fn open_item(self) -> Option<&'static str> {
        Some(match self {
            Self::JointsIn => "ball joints' bolts to their arms",
            Self::KnuckleOn => "steering arms' bolts, where they are bolted",
            Self::JointsPinned => "ball-joint nuts and their pins",
            Self::TieOn => "tie-rod nuts and their pins",
            Self::HubOn => "hub nuts and their pins",
            Self::StopOn => "bump-stop bolts",
            Self::CaliperOn => "caliper bolts",
            Self::HoseOn => "hose ends",
            Self::Bleed => "air in the brakes",
            Self::StrutOn => "strut-rod nuts, snug",
            Self::ShockOn => "shock nuts",
            Self::AntiRollOn => "anti-roll link nuts, snug",
            Self::BracketOn => "bracket nuts",
            Self::WheelsOn => "wheel nuts",
            Self::RearTorqued => "U-bolts, snug",
            Self::Rubber => "pivot bolts, snug",
            Self::ShimsSet => "upper arms' nuts, over the shims",
            Self::ToeSet => "toe, and the sleeves' clamps",
            Self::Final => "final torques",
            _ => return None,
        })
    }
}
