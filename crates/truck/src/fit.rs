//! A proposal's changes laid over the truck as measured.

use crate::change::{BarAdjuster, Change, ChangeKind, CutCoil, DroppedSpindle, MovedPivot, Place, TireSwap};
use crate::spring::{Spring, SpringKind};
use crate::tire::Tire;
use crate::truck::{Truck, Wheel};
use linkage::{BuildError, Corner, Hardpoints, Mounts};
use std::fmt;

/// A truck with a proposal's parts on it: what every study reads.
///
/// With no changes it is the truck as measured.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitted {
    /// The truck as measured, whose height and load give the spring its free state.
    pub measured: Truck,
    /// The points in the measured pose, with the new knuckle's own in place of the old.
    pub points: Hardpoints,
    /// Where the parts are hung.
    pub mounts: Mounts,
    /// Wheel centre to ground in the wheel's plane, mm.
    pub loaded_radius_mm: f64,
    /// The spring's numbers.
    pub spring: Spring,
    /// How far the bar's anchor is turned against as measured, + raises, rad.
    pub anchor_turn_rad: f64,
    /// Coils cut off the spring.
    pub coils_cut: f64,
    /// Tire.
    pub tire: Tire,
    /// Wheel.
    pub wheel: Wheel,
    /// What is to be said of the changes.
    pub remarks: Vec<Remark>,
}

impl Fitted {
    /// The truck as measured, with nothing changed.
    #[must_use]
    pub fn as_measured(truck: &Truck) -> Self {
        Self {
            points: truck.points,
            mounts: truck.points.mounts(),
            loaded_radius_mm: truck.loaded_radius_mm(),
            spring: truck.spring,
            anchor_turn_rad: 0.0,
            coils_cut: 0.0,
            tire: truck.tire,
            wheel: truck.wheel,
            remarks: Vec::new(),
            measured: truck.clone(),
        }
    }

    /// The corner as geometry.
    ///
    /// # Errors
    /// [`BuildError`] names the member whose points cannot be a part.
    pub fn corner(&self) -> Result<Corner, BuildError> {
        Corner::on(&self.points, self.points.parts()?, &self.mounts, self.loaded_radius_mm)
    }

    /// The corner as measured, before any change.
    ///
    /// # Errors
    /// As [`Fitted::corner`].
    pub fn measured_corner(&self) -> Result<Corner, BuildError> {
        Corner::of(&self.measured.points, self.measured.loaded_radius_mm())
    }
}

/// Why a truck cannot be fitted at all.
pub type FitError = BuildError;

/// What is to be said of a change that was fitted, or could not be.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Remark {
    /// The change needs another kind of spring than the truck has; it was left out.
    NeedsSpring(ChangeKind, SpringKind),
    /// More coils than the spring can lose; none was cut.
    TooManyCoils {
        /// Active coils of the spring.
        active: f64,
    },
    /// The bolt has fewer turns left than asked for.
    PastThread {
        /// Turns left that way.
        left: f64,
    },
}

impl fmt::Display for Remark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NeedsSpring(change, SpringKind::TorsionBar) => {
                write!(f, "{}: left out, the truck has no torsion bar.", change.label())
            }
            Self::NeedsSpring(change, _) => {
                write!(f, "{}: left out, the truck has no coil.", change.label())
            }
            Self::TooManyCoils { .. } => f.write_str("Cut coil: left out, fewer than one coil would remain."),
            Self::PastThread { .. } => f.write_str(
                "Bar adjuster: the bolt has fewer turns left than that. Re-index the bar instead.",
            ),
        }
    }
}

/// Lays changes over a truck.
///
/// The order of the list does not matter: the work goes by the order of
/// [`ChangeKind::ALL`] and, within a kind, of [`Place::ALL`]. Of two changes in
/// one slot the last stands.
///
/// # Errors
/// [`FitError`] names the member of the measured corner whose points cannot be a part.
pub fn fit(truck: &Truck, changes: &[Change]) -> Result<Fitted, FitError> {
    let mut fitted = Fitted::as_measured(truck);
    for kind in ChangeKind::ALL {
        let places = kind.places().iter().copied().map(Some);
        let slots = places.chain(kind.places().is_empty().then_some(None));
        for change in slots.filter_map(|place| changes.iter().rfind(|change| change.slot() == (kind, place)))
        {
            match change {
                Change::DroppedSpindle(change) => dropped_spindle(&mut fitted, change),
                Change::MovedPivot(change) => moved_pivot(&mut fitted, change),
                Change::BarAdjuster(change) => bar_adjuster(&mut fitted, change),
                Change::CutCoil(change) => cut_coil(&mut fitted, change),
                Change::TireSwap(change) => tire_swap(&mut fitted, change),
            }
        }
    }
    fitted.points.parts()?;
    Ok(fitted)
}

/// The pin rises along the body's vertical in the measured straight-ahead pose,
/// so at unchanged load and loaded radius the body comes down by just that.
fn dropped_spindle(fitted: &mut Fitted, change: &DroppedSpindle) {
    fitted.points.wheel_centre.z += change.drop_mm;
    fitted.points.wheel_centre.y += change.out_mm;
    fitted.points.tie_outer += change.tie_outer_mm;
    // The rod is screwed to the length that keeps the measured toe.
}

fn moved_pivot(fitted: &mut Fitted, change: &MovedPivot) {
    let mounts = &mut fitted.mounts;
    match change.place {
        Place::LowerArm => {
            mounts.lower.front += change.by_mm;
            mounts.lower.rear += change.by_mm;
        }
        Place::UpperArm => {
            mounts.upper.front += change.by_mm;
            mounts.upper.rear += change.by_mm;
        }
        Place::LowerFront => mounts.lower.front += change.by_mm,
        Place::LowerRear => mounts.lower.rear += change.by_mm,
        Place::UpperFront => mounts.upper.front += change.by_mm,
        Place::UpperRear => mounts.upper.rear += change.by_mm,
    }
}

fn bar_adjuster(fitted: &mut Fitted, change: &BarAdjuster) {
    if fitted.spring.kind != SpringKind::TorsionBar {
        let remark = Remark::NeedsSpring(ChangeKind::BarAdjuster, SpringKind::TorsionBar);
        fitted.remarks.push(remark);
        return;
    }
    let bar = &fitted.spring.bar;
    let left = if change.turns > 0.0 { bar.turns_in } else { bar.turns_out };
    if change.turns.abs() > left {
        fitted.remarks.push(Remark::PastThread { left });
    }
    fitted.anchor_turn_rad += bar.anchor_turn_rad(change.turns);
}

fn cut_coil(fitted: &mut Fitted, change: &CutCoil) {
    if fitted.spring.kind != SpringKind::Coil {
        fitted.remarks.push(Remark::NeedsSpring(ChangeKind::CutCoil, SpringKind::Coil));
        return;
    }
    let active = fitted.spring.coil.active;
    if active - change.coils < 1.0 {
        fitted.remarks.push(Remark::TooManyCoils { active });
        return;
    }
    fitted.coils_cut += change.coils;
    fitted.spring.coil.active -= change.coils;
}

fn tire_swap(fitted: &mut Fitted, change: &TireSwap) {
    let before = fitted.tire.size.diameter_mm();
    // A wheel with less offset stands farther out along the spin axis.
    let out_mm = fitted.wheel.offset_mm - change.offset_mm;
    let spin = linkage::frame::spin_axis(fitted.points.camber_rad, fitted.points.toe_rad);
    fitted.points.wheel_centre += spin * out_mm;
    let grown = (change.size.diameter_mm() - before) / 2.0;
    fitted.loaded_radius_mm = change.loaded_radius_mm.unwrap_or(fitted.loaded_radius_mm + grown).max(50.0);
    if change.size != fitted.tire.size {
        // What was measured was the old tire; another wheel under the same one leaves it true.
        fitted.tire.measured_diameter_mm = None;
    }
    fitted.tire.size = change.size;
    fitted.wheel = Wheel { rim_width_mm: change.rim_width_mm, offset_mm: change.offset_mm };
}
