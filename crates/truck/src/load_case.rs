//! What the truck carries when a question is asked of it.

use crate::fit::Fitted;
use crate::truck::Load;

/// What the truck carries.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum LoadCase {
    /// As it was measured.
    #[default]
    AsMeasured,
    /// With the driver.
    Driver,
    /// With a load in the bed.
    Bed,
    /// With both.
    DriverAndBed,
}

impl LoadCase {
    /// Every case.
    pub const ALL: [Self; 4] = [Self::AsMeasured, Self::Driver, Self::Bed, Self::DriverAndBed];

    /// The name in reports.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::AsMeasured => "as it sits",
            Self::Driver => "with driver",
            Self::Bed => "with load in the bed",
            Self::DriverAndBed => "with driver and load",
        }
    }

    /// What the corner carries at the ground in this case, N; `None` where a
    /// number of the case is not stated.
    ///
    /// A load behind the rear axle lifts the front: by moments about the rear
    /// axle, each front corner loses half of `W · behind / wheelbase`.
    #[must_use]
    pub fn corner_n(self, load: &Load, wheelbase_mm: f64) -> Option<f64> {
        let driver = || load.driver_n;
        let bed = || Some(-load.bed_n? * load.bed_behind_mm? / wheelbase_mm / 2.0);
        Some(
            load.corner_n
                + match self {
                    Self::AsMeasured => 0.0,
                    Self::Driver => driver()?,
                    Self::Bed => bed()?,
                    Self::DriverAndBed => driver()? + bed()?,
                },
        )
    }
}

impl Fitted {
    /// The same truck under another load; `None` where a number of the case is not
    /// stated, or where nothing would be left on the front wheels' springs.
    #[must_use]
    pub fn under(&self, case: LoadCase) -> Option<Self> {
        let corner_n = case.corner_n(&self.measured.load, self.measured.body.wheelbase_mm)?;
        (corner_n > self.measured.load.unsprung_n).then(|| Self { corner_n, ..self.clone() })
    }
}
