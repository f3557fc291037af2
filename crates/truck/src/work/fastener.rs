//! What is tightened by a manual. Which torque is the manual's to say: none is known here.

use super::Task;

macro_rules! fasteners {
    ($($id:literal $name:ident $key:literal $label:literal $on:ident [$($due:ident)*];)*) => {
        /// Nuts or bolts that have a torque of their own. The id is what a browser keeps of one, and
        /// never reused.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        #[repr(u8)]
        pub enum Fastener {
            $(#[doc = $label] $name = $id,)*
        }

        impl Fastener {
            /// All of them, in the order of the truck.
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];

            $crate::words! {
                /// The name in files.
                pub key = $($name => $key),*;

                /// What it is called, as a line begins.
                pub label = $($name => $label),*;
            }

            $crate::columns! {
                /// The task with which it is there.
                pub on: Task = $($name => Task::$on),*;

                /// The tasks that torque it.
                pub due: &'static [Task] = $($name => &[$(Task::$due,)*]),*;
            }
        }
    };
}

// What holds rubber is torqued at its height; what settles, again after 100 miles. Common practice, no source.
fasteners! {
    0 UpperJoint "upper_joint" "Upper ball-joint nut" JointsPinned [JointsPinned];
    1 LowerJoint "lower_joint" "Lower ball-joint nut" JointsPinned [JointsPinned];
    2 TieRod "tie_rod" "Tie-rod nut" TieOn [TieOn];
    3 Stop "stop" "Bump stop" StopOn [StopOn];
    4 Bracket "bracket" "Bracket nuts" BracketOn [BracketOn];
    5 LowerPivots "lower_pivots" "Lower arm's pivot bolts" ArmOn [Rubber];
    6 UpperPivots "upper_pivots" "Upper arm's pivot bolts" UpperOn [Rubber];
    7 StrutAtArm "strut_at_arm" "Strut rod at the arm" StrutOn [Rubber];
    8 StrutNuts "strut_nuts" "Strut-rod nuts" StrutOn [Rubber Again];
    9 Shock "shock" "Shock nuts" ShockOn [Rubber];
    10 AntiRoll "anti_roll" "Anti-roll link nuts" AntiRollOn [Rubber];
    11 HubSeating "hub_seating" "Hub nut, to seat it turning" HubOn [HubOn];
    12 Hub "hub" "Hub nut, set" HubOn [HubOn];
    13 Caliper "caliper" "Caliper bolts" CaliperOn [CaliperOn];
    14 Hose "hose" "Brake hose" HoseOn [HoseOn];
    // Never the adjuster itself: tightened to a torque it would wind the bar up.
    15 LockNut "lock_nut" "Lock nut of the bar's adjuster" BarIn [HeightSet];
    16 Wheel "wheel" "Wheel nuts" WheelsOn [WheelsOn Again];
    17 UBolts "u_bolts" "U-bolts" RearTorqued [RearTorqued Again];
    18 RearPivots "rear_pivots" "Rear spring and shackle bolts" RearWork [Rubber];
    19 UpperShaft "upper_shaft" "Upper arm's shaft, over its shims" ShimsSet [ShimsSet];
    20 Sleeves "sleeves" "Tie-rod sleeve clamps" ToeSet [ToeSet];
    21 UpperJointBolts "upper_joint_bolts" "Upper ball joint to its arm" JointsIn [JointsIn];
    22 LowerJointBolts "lower_joint_bolts" "Lower ball joint to its arm" JointsIn [JointsIn];
    23 SteeringArm "steering_arm" "Steering arm to the knuckle, where it is bolted" KnuckleOn [KnuckleOn];
}
