//! What a reading is taken with, and how well it reads.

use crate::kind::Kind;
use crate::{columns, words};

macro_rules! tools {
    ($($id:literal $name:ident $key:literal $mm:literal $degrees:literal $label:literal;)*) => {
        /// What a reading is taken with. The discriminant is its id in links: never reused.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[repr(u8)]
        pub enum ReadWith { $(#[doc = $label] $name = $id,)* }

        impl ReadWith {
            /// Every one, by its id.
            pub const ALL: [Self; 9] = [$(Self::$name,)*];

            words! {
                /// The name in files.
                pub key = $($name => $key),*;

                /// What people call it.
                pub label = $($name => $label),*;
            }

            columns! {
                /// How far off it usually reads either way, mm or degrees.
                usual: (f64, f64) = $($name => ($mm, $degrees)),*;
            }
        }
    };
}

// How far off each reads: common practice, no source. What reads no angle has a tape's.
tools! {
    0 Tape "tape" 1.6 0.15 "tape";
    1 Rule "rule" 0.8 0.15 "steel rule";
    2 DrillShank "drill_shank" 0.4 0.15 "drill shank";
    3 Clay "clay" 0.8 0.15 "clay, pressed and measured";
    4 Feeler "feeler" 0.05 0.15 "feeler gauge";
    5 Caliper "caliper" 0.2 0.15 "caliper";
    6 AngleGauge "angle_gauge" 1.6 0.1 "angle gauge or level";
    7 String "string" 1.6 0.1 "string or toe plates";
    8 Shop "shop" 1.6 0.1 "alignment shop";
}

impl ReadWith {
    /// How far off it usually reads either way, mm or rad.
    #[must_use]
    pub fn usual_tolerance(self, kind: Kind) -> f64 {
        let (mm, degrees) = self.usual();
        if kind == Kind::Angle { Kind::Angle.rounded(degrees.to_radians()).unwrap_or(mm) } else { mm }
    }
}
