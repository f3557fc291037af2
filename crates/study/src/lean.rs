//! How far a truck leans, and what of its load goes from wheel to wheel.
//!
//! The frame is rigid and stands on four wheels: what one front corner's spring does reaches the
//! other corner through the frame, since the leaves at their pads and the front anti-roll bar hold it
//! level. Everything is against as it sits: what leaves and bar carry across there, no tape tells,
//! and four scales alone do.
//!
//! The load of the front axle stays: by moments about the rear axle it is given by where the center
//! of gravity is, which neither lean nor rake moves along the truck by anything that counts. For the
//! same reason the mean height of the front does nothing to the lean: the axles are square to the
//! frame, so a nose that comes down turns the rear about its own axle and loads both leaves alike.

use crate::figure::Figure;
use crate::quantity::Quantity;
use crate::rest::{HeldBy, Rest, settled_from};
use crate::spring_state::out_on_lower_arm;
use crate::stance::Stance;
use linkage::{Unreached, Vector3};
use std::f64::consts::PI;
use std::fmt;
use truck::{RearAxle, RearField, RearParts, Side};

/// How a truck leans against as it sits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lean {
    /// Lean, rad, + left low.
    pub left_low_rad: f64,
    /// What the lean would be were each front corner alone with what it carried as it sits, and nothing
    /// held the frame level, rad.
    pub alone_rad: f64,
    /// The left front corner.
    pub left: LeanCorner,
    /// The right front corner.
    pub right: LeanCorner,
    /// How far apart the front tires meet the ground, mm.
    pub track_mm: f64,
    /// What the rear makes of it; `None` where nobody has measured how far its tires are apart.
    pub rear: Option<LeanRear>,
    /// Whether a front anti-roll bar is counted.
    pub anti_roll_bar: bool,
}

/// A front corner of a truck that leans.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeanCorner {
    /// How far the frame comes down over the wheel against as it sits, mm, + down.
    pub down_mm: f64,
    /// What the wheel carries more than as it sits, N.
    pub more_n: f64,
    /// What holds the corner up.
    pub held_by: HeldBy,
    /// Whether the wheel is in the air.
    pub is_lifted: bool,
}

/// What a lean does at the rear.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeanRear {
    /// What the left rear wheel carries more than as it sits, and the right one less, N.
    pub left_more_n: f64,
    /// What left front and right rear carry more together, and the other two less: the change of
    /// cross weight, N.
    pub cross_more_n: f64,
    /// The change of cross weight as a share of the whole truck; `None` where the load of a rear wheel is not stated.
    pub cross_share: Option<f64>,
    /// Whether a rear wheel is in the air, as far as its load is stated.
    pub is_lifted: bool,
}

/// Why nothing is told of how a truck leans.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoLean {
    /// A number that it hangs on is not stated.
    NotStated(RearField),
    /// The plan shapes its rear springs otherwise, which are softer or stiffer then, and does not say
    /// their rate.
    OtherSprings,
    /// The front corners find no place to stand with each other.
    NoBalance,
}

impl fmt::Display for NoLean {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotStated(field) => {
                f.write_str("The lean is open until this is measured: ")?;
                f.write_str(field.label())
            }
            Self::OtherSprings => {
                f.write_str("The lean is open until the plan says the rate of its rear springs")
            }
            Self::NoBalance => f.write_str("Left and right find no height to stand at together"),
        }
    }
}

impl std::error::Error for NoLean {}

impl Lean {
    /// What a lean may rest on: the heights of both sides, and what their springs do. The numbers of the
    /// rear are never guesses.
    pub const RESTS_ON: [Figure; 3] =
        [Figure::at_left(Quantity::RideHeight), Figure::at_right(Quantity::RideHeight), Figure::WHEEL_RATE];

    /// How far the frame comes down at so far left of the middle, over the front axle, mm, + down.
    #[must_use]
    pub fn down_at_mm(&self, left_mm: f64) -> f64 {
        let middle_mm = f64::midpoint(self.left.down_mm, self.right.down_mm);
        middle_mm + left_mm * (self.left.down_mm - self.right.down_mm) / self.track_mm
    }

    /// The share of [`Lean::alone_rad`] that the rear, the bar and the other corner's load hold back;
    /// `None` where there is no lean to hold.
    #[must_use]
    pub fn held_back(&self) -> Option<f64> {
        (self.alone_rad.abs() > LEVEL_RAD).then(|| 1.0 - self.left_low_rad / self.alone_rad)
    }
}

/// A lean this small is rounding, rad: a thousandth of a millimetre over a track.
const LEVEL_RAD: f64 = 1e-6;

/// How a truck leans that stands on all four wheels, against as it sits.
///
/// The body's own weight is taken to stay over the centreline: how high its center is, is not
/// stated. It leans out over the low side, and adds something like a tenth to a lean.
///
/// # Errors
/// [`NoLean`] names the first number that is not stated: the rate of the rear springs, how far they
/// are apart, and of an anti-roll bar what is open where some of it is stated. A bar of which nothing
/// is stated is none. A plan with a leaf out, or another spring, has to say its rate.
///
/// # Accuracy
/// The frame taken as stiff, the tires too. The arms' angles at balance are met within 1e-13 rad.
///
/// # Source
/// By hand, virtual work of a frame that comes down by `h` in its middle and leans by `s`: of each
/// front corner as in [`Rest::of`], of the leaves `½ (k a²/2) s²` for two springs of `k` that are `a`
/// apart, of the bar `½ (G π d⁴ / 32 L) ((z − z′) / lever)²` for links at the heights `z` and `z′`.
/// Torsion of solid bars: Gere, *Mechanics of Materials*. The bending of the bar's arms is left out,
/// so a real bar is softer; its links are taken upright, and slack as it sits. Checked against
/// `tests/reference/scipy/leans.py`.
///
/// ```
/// use study::{Rear, Stance, lean};
/// use truck::{BarAdjuster, Change, Fitted, RearField, Side, demo};
///
/// let mut truck = demo().truck;
/// truck.rear = truck.rear.with(RearField::Rate, 30.0).with(RearField::SpringsApart, 1000.0);
/// let [left, right] = Side::ALL.map(|side| Fitted::as_measured(truck.on(side)));
/// // One anchor let down: that corner comes down and carries less.
/// let left = left.with(&Change::BarAdjuster(BarAdjuster { turns: -3.0 }));
/// let lean = lean(&Stance::of(left, right, Rear::AS_MEASURED)?).expect("all of it is stated");
/// assert!(lean.left_low_rad > 0.0 && lean.left_low_rad < lean.alone_rad);
/// assert!(lean.left.more_n < 0.0 && lean.right.down_mm > 0.0);
/// # Ok::<(), study::NoStance>(())
/// ```
pub fn lean(stance: &Stance) -> Result<Lean, NoLean> {
    let frame = Frame::of(stance)?;
    frame.leans(stance).ok_or(NoLean::NoBalance)
}

/// How a truck would lean with nothing to hold its frame level but the front springs, each under
/// what it carries as it sits, rad, + left low: the most that it can lean by its springs.
#[must_use]
pub fn lean_alone_rad(stance: &Stance) -> f64 {
    let [left, right] = Side::ALL.map(|side| stance.corner(side));
    libm::atan((left.ground_mm - right.ground_mm) / track_mm(left, right))
}

impl Stance {
    /// The same truck on both its springs together: each corner under the load that keeps it where the
    /// frame, held by the rear leaves and an anti-roll bar, stands over it, and every number of it read there.
    ///
    /// # Errors
    /// As [`lean`](fn@crate::lean): what holds it level is not stated, or it finds no place to stand; with a
    /// front wheel in the air too.
    pub fn together(&self) -> Result<Self, NoLean> {
        let loads = loads_alike(self, [None; 2])?;
        let both = Side::ALL.map(|side| &self.corner(side).fitted);
        Self::under(both, loads, self.rear()).map_err(|_| NoLean::NoBalance)
    }
}

/// The loads under which each front corner alone would stand where it does with the other, N, the left one
/// first: what its wheel carries, less what the bar's link takes of it. A corner stands where its lower
/// arm is held, or in balance where it is not.
///
/// # Errors
/// As [`lean`]; [`NoLean::NoBalance`] too where a front wheel would be in the air.
pub(crate) fn loads_alike(stance: &Stance, held_rad: [Option<f64>; 2]) -> Result<[f64; 2], NoLean> {
    Frame::of(stance)?.loads_alike(held_rad).ok_or(NoLean::NoBalance)
}

/// Between the places where the front tires meet the ground, each corner standing alone, mm.
fn track_mm(left: &Rest, right: &Rest) -> f64 {
    [left, right].map(|rest| rest.pose.contact(rest.corner.loaded_radius_mm()).y).iter().sum()
}

/// What holds a frame level that stands on two front corners.
#[derive(Clone, Copy, Debug)]
struct Frame<'a> {
    rests: [&'a Rest; 2],
    track_mm: f64,
    leaves: Leaves,
    bar: Option<AntiRollBar>,
}

/// The rear leaves at their pads.
#[derive(Clone, Copy, Debug)]
struct Leaves {
    /// N·mm for a radian.
    rate: f64,
    /// With one rear wheel in the air there is no more to be had, N·mm; infinite where it is not known.
    most: f64,
}

impl Leaves {
    fn of(rear: &RearAxle, parts: &RearParts) -> Result<Self, NoLean> {
        let number = |field| rear.get(field).ok_or(NoLean::NotStated(field));
        let rate_n_per_mm = match parts.rate_n_per_mm {
            Some(rate) => rate,
            // A leaf out is softer, and nobody has said by how much.
            None if parts.flatter_mm != 0.0 => return Err(NoLean::OtherSprings),
            None => number(RearField::Rate)?,
        };
        let apart_mm = number(RearField::SpringsApart)?;
        let lifts = rear.get(RearField::Load).zip(rear.get(RearField::TiresApart));
        Ok(Self {
            rate: rate_n_per_mm * apart_mm * apart_mm / 2.0,
            most: lifts.map_or(f64::INFINITY, |(load_n, apart_mm)| load_n * apart_mm),
        })
    }

    /// What they resist a slope of the frame by, N·mm.
    fn moment(&self, slope: f64) -> f64 {
        (self.rate * slope).clamp(-self.most, self.most)
    }
}

/// The front anti-roll bar at the ends of its links.
#[derive(Clone, Copy, Debug)]
struct AntiRollBar {
    /// Force at a link for a millimetre that one link is up against the other, N/mm.
    rate_n_per_mm: f64,
    /// Where each link takes hold, in its lower arm's frame, and its height as it sits, mm.
    links: [(Vector3<f64>, f64); 2],
}

impl AntiRollBar {
    fn of(rests: [&Rest; 2]) -> Result<Option<Self>, NoLean> {
        let truck = &rests[0].fitted.measured;
        let fields = [
            RearField::AntiRollDiameter,
            RearField::AntiRollLength,
            RearField::AntiRollLever,
            RearField::AntiRollLink,
        ];
        if fields.iter().all(|field| truck.rear.get(*field).is_none()) {
            return Ok(None);
        }
        let number = |field| truck.rear.get(field).ok_or(NoLean::NotStated(field));
        let [d, length, lever, link_mm] = fields.map(number);
        let (d, length, lever, link_mm) = (d?, length?, lever?, link_mm?);
        // The steel is that of the springs, so far as anybody has said.
        let twist = PI * d * d * d * d * truck.spring.shear_modulus_n_per_mm2 / (32.0 * length);
        let [left, right] =
            rests.map(|rest| out_on_lower_arm(&rest.fitted, link_mm).map_err(|_| NoLean::NoBalance));
        Ok(Some(Self { rate_n_per_mm: twist / (lever * lever), links: [left?, right?] }))
    }
}

/// A corner at an angle of its lower arm.
#[derive(Clone, Copy, Debug)]
struct At {
    /// The contact's height, mm, body axes: how far the frame is down over it.
    down_mm: f64,
    /// And its rise for a radian of the arm.
    down_per_rad: f64,
    /// Spring and what does not hang on it, as a moment about the arm's axis, N·mm.
    moment: f64,
    /// The link's height against as it sits, mm.
    link_mm: f64,
    /// And its rise for a radian of the arm.
    link_per_rad: f64,
}

impl<'a> Frame<'a> {
    #[inline(never)]
    fn of(stance: &'a Stance) -> Result<Self, NoLean> {
        let rests = Side::ALL.map(|side| stance.corner(side));
        let fitted = &rests[0].fitted;
        Ok(Self {
            rests,
            track_mm: track_mm(rests[0], rests[1]),
            leaves: Leaves::of(&fitted.measured.rear, &RearParts::of(&fitted.rear))?,
            bar: AntiRollBar::of(rests)?,
        })
    }

    #[inline(never)]
    fn at(&self, side: usize, angle: f64) -> Result<At, Unreached> {
        let rest = self.rests[side];
        let (corner, fitted) = (&rest.corner, &rest.fitted);
        let pose = corner.pose(angle, Vector3::zeros())?;
        let rates = corner.arm_rates(&pose)?;
        let spring = rest.spring_state.at_pose(corner, &pose)?.moment;
        let (link_mm, link_per_rad) = match self.bar {
            Some(AntiRollBar { links, .. }) => {
                let (arm, (local, was_mm)) = (corner.lower_arm(&pose), links[side]);
                let out = arm.carry_direction(&local);
                (arm.origin.z + out.z - was_mm, arm.along.cross(&out).z)
            }
            None => (0.0, 0.0),
        };
        Ok(At {
            down_mm: pose.contact(corner.loaded_radius_mm()).z,
            down_per_rad: rates.contact_mm.z,
            moment: spring + fitted.measured.load.unsprung_n * rates.wheel_centre_mm.z,
            link_mm,
            link_per_rad,
        })
    }

    /// What each front wheel carries where the frame has a slope, N: the leaves take from the low
    /// side what the other gets, until a wheel has none left.
    fn loads(&self, slope: f64) -> [f64; 2] {
        let [left_n, right_n] = self.rests.map(|rest| rest.fitted.corner_n);
        let to_right_n = (self.leaves.moment(slope) / self.track_mm).clamp(-right_n, left_n);
        [left_n - to_right_n, right_n + to_right_n]
    }

    fn slope(&self, [left, right]: [&At; 2]) -> f64 {
        (left.down_mm - right.down_mm) / self.track_mm
    }

    /// By how much the bar's link pushes the left arm down, and the right one up, N.
    fn link_n(&self, [left, right]: [&At; 2]) -> f64 {
        self.bar.map_or(0.0, |bar| bar.rate_n_per_mm * (left.link_mm - right.link_mm))
    }

    /// Moment by which a corner's spring and the bar outweigh its load, about the lower arm's axis, N·mm.
    fn surplus_moment(&self, side: usize, both: [&At; 2]) -> f64 {
        let at = both[side];
        let load_n = self.loads(self.slope(both))[side];
        let link_n = if side == 0 { self.link_n(both) } else { -self.link_n(both) };
        at.moment + link_n * at.link_per_rad - load_n * at.down_per_rad
    }

    /// The right arm's angle where the left one stands at an angle, and what holds the right up.
    fn right_beside(&self, left: &At) -> Option<(f64, HeldBy)> {
        let rest = self.rests[1];
        let surplus = |angle: f64| Some(self.surplus_moment(1, [left, &self.at(1, angle).ok()?]));
        settled_from(surplus, rest.pose.lower_arm_rad, &rest.stops)
    }

    /// Both corners, and what holds each up: at the angle of its lower arm that it is held at, otherwise
    /// in balance.
    ///
    /// Both arms in balance, one inside the other: with the left one held, the right one rises with
    /// its load; with the right one in balance, the left one does.
    #[inline(never)]
    fn stands(&self, held_rad: [Option<f64>; 2]) -> Option<[(At, HeldBy); 2]> {
        let right_beside = |left: &At| match held_rad[1] {
            Some(angle) => Some((angle, HeldBy::Spring)),
            None => self.right_beside(left),
        };
        let rest = self.rests[0];
        let surplus = |angle: f64| {
            let left = self.at(0, angle).ok()?;
            let right = self.at(1, right_beside(&left)?.0).ok()?;
            Some(self.surplus_moment(0, [&left, &right]))
        };
        let (left_rad, left_by) = match held_rad[0] {
            Some(angle) => (angle, HeldBy::Spring),
            None => settled_from(surplus, rest.pose.lower_arm_rad, &rest.stops)?,
        };
        let left = self.at(0, left_rad).ok()?;
        let (right_rad, right_by) = right_beside(&left)?;
        Some([(left, left_by), (self.at(1, right_rad).ok()?, right_by)])
    }

    /// As [`loads_alike`].
    fn loads_alike(&self, held_rad: [Option<f64>; 2]) -> Option<[f64; 2]> {
        let [(left, _), (right, _)] = self.stands(held_rad)?;
        let loads = self.loads(self.slope([&left, &right]));
        let link_n = self.link_n([&left, &right]);
        let alike = [
            loads[0] - link_n * left.link_per_rad / left.down_per_rad,
            loads[1] + link_n * right.link_per_rad / right.down_per_rad,
        ];
        (loads.iter().all(|load_n| *load_n > 0.0) && alike.iter().all(|load_n| load_n.is_finite()))
            .then_some(alike)
    }

    fn leans(&self, stance: &Stance) -> Option<Lean> {
        let [(left, left_by), (right, right_by)] = self.stands([None; 2])?;
        let standing = self.slope([&left, &right]);
        let loads = self.loads(standing);
        let is_lifted = loads.map(|load_n| load_n <= 0.0);
        // A wheel in the air holds nothing up: how far the frame leans is then the leaves' to say.
        let [left_n, right_n] = self.rests.map(|rest| rest.fitted.corner_n);
        let moment = (left_n - loads[0]) * self.track_mm;
        let slope = if is_lifted.contains(&true) { moment / self.leaves.rate } else { standing };
        let across_mm = slope * self.track_mm;
        let down_mm = if is_lifted[0] {
            [right.down_mm + across_mm, right.down_mm]
        } else if is_lifted[1] {
            [left.down_mm, left.down_mm - across_mm]
        } else {
            [left.down_mm, right.down_mm]
        };
        let corner = |side: usize, alone_n: f64, held_by| LeanCorner {
            down_mm: down_mm[side],
            more_n: loads[side] - alone_n,
            held_by,
            is_lifted: is_lifted[side],
        };
        let lean = Lean {
            left_low_rad: libm::atan(slope),
            alone_rad: lean_alone_rad(stance),
            left: corner(0, left_n, left_by),
            right: corner(1, right_n, right_by),
            track_mm: self.track_mm,
            rear: self.rear(moment, slope, loads),
            anti_roll_bar: self.bar.is_some(),
        };
        let finite = [lean.left_low_rad, lean.alone_rad, lean.left.down_mm, lean.right.down_mm, moment];
        (self.track_mm > 0.0 && finite.iter().all(|value| value.is_finite())).then_some(lean)
    }

    /// What the rear makes of the moment that its leaves resist a slope by, N·mm, + left low.
    fn rear(&self, moment: f64, slope: f64, fronts: [f64; 2]) -> Option<LeanRear> {
        let rear = &self.rests[0].fitted.measured.rear;
        let left_more_n = moment / rear.get(RearField::TiresApart)?;
        // The right rear carries so much less, and the left front as much as the leaves took from it.
        let cross_more_n = -moment / self.track_mm - left_more_n;
        let load_n = rear.get(RearField::Load);
        let whole_n = load_n.map(|load_n| 2.0 * load_n + fronts[0] + fronts[1]);
        Some(LeanRear {
            left_more_n,
            cross_more_n,
            cross_share: whole_n.map(|whole_n| cross_more_n / whole_n),
            is_lifted: (self.leaves.rate * slope).abs() >= self.leaves.most,
        })
    }
}
