//! Where on the truck a change applies.

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
            Self::LowerJointUp => "lower_joint_up",
            Self::LowerJointDown => "lower_joint_down",
            Self::UpperJointUp => "upper_joint_up",
            Self::UpperJointDown => "upper_joint_down",
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
            Self::LowerJointUp => "lower ball joint, to the top of its plate",
            Self::LowerJointDown => "lower ball joint, to the underside of its plate",
            Self::UpperJointUp => "upper ball joint, to the top of its plate",
            Self::UpperJointDown => "upper ball joint, to the underside of its plate",
        }
    }

    /// The id in links. Never reused.
    #[must_use]
    pub const fn id(self) -> u8 {
        self as u8
    }
}
