//! Where on the truck a change applies.

use crate::words;

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
    /// The lower joint, to the top of its plate.
    LowerJointUp = 6,
    /// The lower joint, to the underside of its plate.
    LowerJointDown = 7,
    /// The upper joint, to the top of its plate.
    UpperJointUp = 8,
    /// The upper joint, to the underside of its plate.
    UpperJointDown = 9,
}

impl Place {
    /// Every place.
    pub const ALL: [Self; 10] = [
        Self::LowerArm,
        Self::UpperArm,
        Self::LowerFront,
        Self::LowerRear,
        Self::UpperFront,
        Self::UpperRear,
        Self::LowerJointUp,
        Self::LowerJointDown,
        Self::UpperJointUp,
        Self::UpperJointDown,
    ];
    /// The pivots.
    pub const PIVOTS: &'static [Self] = Self::ALL.split_at(6).0;
    /// The joints.
    pub const JOINTS: &'static [Self] = Self::ALL.split_at(6).1;
    /// The arms.
    pub const ARMS: &'static [Self] = Self::ALL.split_at(2).0;

    words! {
        /// The name in files.
        pub key =
            LowerArm => "lower_arm",
            UpperArm => "upper_arm",
            LowerFront => "lower_front",
            LowerRear => "lower_rear",
            UpperFront => "upper_front",
            UpperRear => "upper_rear",
            LowerJointUp => "lower_joint_up",
            LowerJointDown => "lower_joint_down",
            UpperJointUp => "upper_joint_up",
            UpperJointDown => "upper_joint_down";
    }

    words! {
        /// What people call it.
        pub label =
            LowerArm => "lower arm, both pivots",
            UpperArm => "upper arm, both pivots",
            LowerFront => "lower arm, front pivot",
            LowerRear => "lower arm, rear pivot",
            UpperFront => "upper arm, front pivot",
            UpperRear => "upper arm, rear pivot",
            LowerJointUp => "lower ball joint, to the top of its plate",
            LowerJointDown => "lower ball joint, to the underside of its plate",
            UpperJointUp => "upper ball joint, to the top of its plate",
            UpperJointDown => "upper ball joint, to the underside of its plate";
    }

    /// The id in links. Never reused.
    #[must_use]
    pub const fn id(self) -> u8 {
        self as u8
    }
}
