//! Corners to order, from points of the unit cube.
//!
//! Every generator is a plain function of numbers between 0 and 1, so that a
//! property test can shrink them and [`Dice`] can roll them, natively and in
//! the browser to the same bit. The middle of the cube is the plainest corner.

use linkage::{ArmPoints, Corner, Hardpoints, Point3, Vector3};

/// How many numbers a corner takes.
pub const CORNER_NUMBERS: usize = 24;

/// A point of the unit cube that makes a corner.
pub type Cube = [f64; CORNER_NUMBERS];

/// A corner's points and its wheel.
#[derive(Clone, Copy, Debug)]
pub struct Sample {
    /// Points of the left corner, ground at zero.
    pub points: Hardpoints,
    /// Wheel centre to ground, mm.
    pub loaded_radius_mm: f64,
}

impl Sample {
    /// The sample as a corner on its own mounts.
    ///
    /// # Panics
    /// Never for a sample made here: no two of its points fall together.
    #[must_use]
    pub fn corner(&self) -> Corner {
        Corner::of(&self.points, self.loaded_radius_mm).expect("a generated corner has its lengths")
    }
}

/// A double wishbone front corner of a pickup or a car, arms on skewed axes.
///
/// Level to 12° of slope at rest, up to 10° of caster and 14° of inclination,
/// the tie rod ahead of the axle or behind it.
#[must_use]
pub fn pickup(cube: &Cube) -> Sample {
    let mut numbers = cube.iter();
    let mut between = |low: f64, high: f64| low + (high - low) * numbers.next().copied().unwrap_or(0.5);
    let pivot_z = between(220.0, 290.0);
    let lower_ball = Point3::new(between(-20.0, 20.0), between(630.0, 690.0), pivot_z + between(-60.0, 30.0));
    let lower = ArmPoints {
        front: Point3::new(between(80.0, 200.0), between(280.0, 340.0), pivot_z + between(-15.0, 15.0)),
        rear: Point3::new(between(-260.0, -80.0), between(280.0, 340.0), pivot_z + between(-15.0, 15.0)),
        ball: lower_ball,
    };
    let upper_ball =
        lower_ball + Vector3::new(between(-45.0, 0.0), between(-65.0, -10.0), between(230.0, 300.0));
    let upper_z = upper_ball.z + between(-30.0, 25.0);
    let upper = ArmPoints {
        front: Point3::new(between(60.0, 130.0), upper_ball.y - between(180.0, 260.0), upper_z),
        rear: Point3::new(
            between(-130.0, -60.0),
            upper_ball.y - between(180.0, 260.0),
            upper_z + between(-25.0, 25.0),
        ),
        ball: upper_ball,
    };
    let wheel_centre =
        lower_ball + Vector3::new(between(-8.0, 8.0), between(35.0, 70.0), between(60.0, 110.0));
    // The lower half of this side of the cube steers from behind the axle.
    let side = between(-1.0, 1.0);
    let ahead = if side < 0.0 { -1.0 } else { 1.0 };
    let reach = ahead * (120.0 + 30.0 * side.abs());
    let tie_outer = lower_ball + Vector3::new(reach, between(-25.0, 15.0), between(20.0, 80.0));
    let tie_inner =
        Point3::new(tie_outer.x - ahead * 5.0, between(310.0, 360.0), tie_outer.z + pivot_z - lower_ball.z);
    let loaded_radius_mm = wheel_centre.z;
    Sample {
        points: Hardpoints {
            lower,
            upper,
            wheel_centre,
            camber_rad: between(-0.035, 0.035),
            toe_rad: 0.0,
            tie_inner,
            tie_outer,
        },
        loaded_radius_mm,
    }
}

/// A corner whose front view is the whole of it: pivot axes along `x`, caster
/// and toe zero, and the tie rod's line through the point in which the arms'
/// lines meet, so that in bump the knuckle turns about that point alone.
///
/// Returns the sample and that point, `(y, z)`, mm. The point lies inboard of
/// the wheel, at most 20 m from the centreline.
#[must_use]
pub fn planar(cube: &Cube) -> (Sample, (f64, f64)) {
    let mut sample = pickup(cube);
    let points = &mut sample.points;
    points.upper.ball.x = points.lower.ball.x;
    points.wheel_centre.x = points.lower.ball.x;
    for arm in [&mut points.lower, &mut points.upper] {
        arm.rear.y = arm.front.y;
        arm.rear.z = arm.front.z;
    }
    // The upper arm falls more steeply towards the truck: the lines meet inboard.
    let slope = |arm: &ArmPoints| (arm.ball.z - arm.front.z) / (arm.ball.y - arm.front.y);
    let lower_slope = slope(&points.lower);
    let upper_slope = lower_slope + 0.02 + 0.3 * cube[CORNER_NUMBERS - 1];
    let drop = upper_slope * (points.upper.ball.y - points.upper.front.y);
    points.upper.front.z = points.upper.ball.z - drop;
    points.upper.rear.z = points.upper.front.z;
    // Both lines written from the balls: z = ball.z + slope (y - ball.y).
    let (lower, upper) = (points.lower.ball, points.upper.ball);
    let y = (upper.z - lower.z + lower_slope * lower.y - upper_slope * upper.y) / (lower_slope - upper_slope);
    let z = lower.z + lower_slope * (y - lower.y);
    let towards = Vector3::new(0.0, y - points.tie_outer.y, z - points.tie_outer.z);
    points.tie_inner = points.tie_outer + towards * (330.0 / towards.norm());
    (sample, (y, z))
}

/// The corner with its upper arm so nearly in line with the knuckle that the
/// two stand `gap_rad` from their dead centre.
#[must_use]
pub fn near_upper_dead_centre(cube: &Cube, gap_rad: f64) -> Sample {
    let mut sample = pickup(cube);
    let points = &mut sample.points;
    let knuckle = points.upper.ball - points.lower.ball;
    let way = knuckle / knuckle.norm();
    // Square to the knuckle and to the axis, so a step along it opens the gap.
    let aside = Vector3::new(0.0, way.z, -way.y);
    let aside = aside / aside.norm();
    let axis = way.cross(&aside) * 90.0;
    let centre = points.upper.ball + way * 200.0 + aside * (200.0 * gap_rad);
    points.upper.front = centre - axis;
    points.upper.rear = centre + axis;
    sample
}

/// The corner with tie rod and steering arm `gap_rad` from one line.
#[must_use]
pub fn near_tie_dead_centre(cube: &Cube, gap_rad: f64) -> Sample {
    let mut sample = pickup(cube);
    let points = &mut sample.points;
    let knuckle = points.upper.ball - points.lower.ball;
    let way = knuckle / knuckle.norm();
    let arm = points.tie_outer - points.lower.ball;
    let radial = arm - way * arm.dot(&way);
    let radial = radial / radial.norm();
    let across = way.cross(&radial);
    points.tie_inner = points.tie_outer + radial * 260.0 + across * (260.0 * gap_rad);
    sample
}

/// Numbers between 0 and 1, the same on every machine for the same seed.
///
/// # Source
/// Steele, Lea & Flood, "Fast splittable pseudorandom number generators",
/// OOPSLA 2014 (the mixing constants from memory).
#[derive(Clone, Debug)]
pub struct Dice(u64);

impl Dice {
    /// Dice that roll the sequence of this seed.
    #[must_use]
    pub const fn of(seed: u64) -> Self {
        Self(seed)
    }

    /// A number in `0.0..1.0`.
    pub fn roll(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^= z >> 31;
        // Fifty-two bits behind the one of 1.0, which is then taken off.
        f64::from_bits(z >> 12 | 0x3ff0_0000_0000_0000) - 1.0
    }

    /// A number in `low..high`.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.roll()
    }

    /// A point of the unit cube for a corner.
    pub fn cube(&mut self) -> Cube {
        std::array::from_fn(|_| self.roll())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A generator that makes trash makes every property vacuous.
    #[test]
    fn pickups_can_travel() {
        let mut dice = Dice::of(1);
        for _ in 0..300 {
            let sample = pickup(&dice.cube());
            let range = *sample.corner().range();
            let rest = sample.points.wheel_centre.z;
            assert!(range.low_mm < rest - 60.0, "{sample:?} {range:?}");
            assert!(range.high_mm > rest + 60.0, "{sample:?} {range:?}");
        }
    }

    #[test]
    fn both_ways_of_steering_come_up() {
        let mut dice = Dice::of(2);
        let ahead = (0..100)
            .filter(|_| {
                let points = pickup(&dice.cube()).points;
                points.tie_outer.x > points.lower.ball.x
            })
            .count();
        assert!((30..70).contains(&ahead), "{ahead} of 100 ahead");
    }

    #[test]
    fn dead_centres_are_as_near_as_asked() {
        let mut dice = Dice::of(3);
        for power in 1..12 {
            let gap = libm::pow(10.0, -f64::from(power));
            let cube = dice.cube();
            let points = near_upper_dead_centre(&cube, gap).points;
            let centre = nalgebra::center(&points.upper.front, &points.upper.rear);
            let arm = points.upper.ball - centre;
            let knuckle = points.upper.ball - points.lower.ball;
            let sine = arm.cross(&knuckle).norm() / arm.norm() / knuckle.norm();
            assert!((sine / gap - 1.0).abs() < 0.02 + 1e-14 / gap, "{sine:e} {gap:e}");
        }
    }

    #[test]
    fn dice_fill_the_unit_interval() {
        let mut dice = Dice::of(4);
        let rolls: Vec<_> = (0..10_000).map(|_| dice.roll()).collect();
        assert!(rolls.iter().all(|roll| (0.0..1.0).contains(roll)));
        let mean = rolls.iter().sum::<f64>() / 10_000.0;
        // Standard error 0.0029; four of them.
        assert!((mean - 0.5).abs() < 0.012, "{mean}");
    }
}
