//! One front corner as pure geometry: points in, poses and rates out.
//!
//! Two arms on skewed axes, a knuckle and a tie rod, on the **left** side
//! (`y > 0`). The crate knows no truck, no spring, no unit but the millimetre
//! and the radian, and no page. A planar corner is the special case of pivot
//! axes along `x`; there is no second solver for it.
//!
//! The road from points to numbers is short:
//!
//! ```
//! use linkage::{ArmPoints, Corner, Hardpoints, Point3, Vector3};
//! let points = Hardpoints {
//!     lower: ArmPoints {
//!         front: Point3::new(100.0, 300.0, 250.0),
//!         rear: Point3::new(-100.0, 300.0, 250.0),
//!         ball: Point3::new(0.0, 650.0, 220.0),
//!     },
//!     upper: ArmPoints {
//!         front: Point3::new(80.0, 400.0, 480.0),
//!         rear: Point3::new(-80.0, 400.0, 480.0),
//!         ball: Point3::new(-10.0, 610.0, 470.0),
//!     },
//!     wheel_centre: Point3::new(0.0, 700.0, 310.0),
//!     camber_rad: 0.0,
//!     toe_rad: 0.0,
//!     tie_inner: Point3::new(-150.0, 330.0, 300.0),
//!     tie_outer: Point3::new(-140.0, 660.0, 290.0),
//! };
//! let corner = Corner::of(&points, 310.0)?;
//! let rest = corner.pose(corner.measured_angle_rad(), Vector3::zeros())?;
//! let up = corner.at_height(rest.wheel_centre.z + 25.0, Vector3::zeros())?;
//! assert!(corner.attitude(&up).camber_rad < corner.attitude(&rest).camber_rad);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! Axes and signs are set once, in [`axes`].

pub mod angle;
pub mod axes;
mod construction;
mod corner;
#[cfg(feature = "count-poses")]
pub mod count;
mod error;
mod follow;
mod hardpoints;
mod members;
mod motion;
mod pivot;
mod pose;
pub mod root;
mod travel;

pub use construction::{FrontPoint, InstantCentre, drawing_board, from_motion};
pub use corner::{Assembly, Corner, End, Range};
pub use error::{BuildError, Joint, Member, Unreached};
pub use hardpoints::{ArmPoints, Hardpoints};
pub use members::{ArmShape, Axis, KnuckleShape, Members, Mounts};
pub use motion::{Motion, Rates};
pub use nalgebra::{Point3, Vector3};
pub use pose::{Attitude, MemberFrame, Pose};
