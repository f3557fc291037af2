//! A front corner of one's own points, moved through its travel: `cargo run -p study --example sweep`.

#![expect(clippy::print_stdout, reason = "an example shows what it found")]

use linkage::{ArmPoints, Corner, Hardpoints, Point3, Vector3};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    // Millimetres: x forward, y outward from the middle of the truck, z up from the floor.
    let points = Hardpoints {
        lower: ArmPoints {
            front: Point3::new(120.0, 300.0, 250.0),
            rear: Point3::new(-120.0, 300.0, 245.0),
            ball: Point3::new(0.0, 660.0, 225.0),
        },
        upper: ArmPoints {
            front: Point3::new(80.0, 395.0, 470.0),
            rear: Point3::new(-80.0, 400.0, 455.0),
            ball: Point3::new(-12.0, 615.0, 465.0),
        },
        wheel_centre: Point3::new(0.0, 730.0, 330.0),
        camber_rad: -0.5_f64.to_radians(),
        toe_rad: 0.0,
        tie_inner: Point3::new(-150.0, 330.0, 275.0),
        tie_outer: Point3::new(-140.0, 670.0, 265.0),
    };
    let corner = Corner::of(&points, 330.0)?;
    let height = corner.pose(corner.measured_angle_rad(), Vector3::zeros())?.wheel_centre.z;
    println!("{:>9} {:>9} {:>9}", "travel mm", "camber °", "toe °");
    for step in -3_i32..=3 {
        let travel_mm = 25.0 * f64::from(step);
        let gauge = corner.attitude(&corner.at_height(height + travel_mm, Vector3::zeros())?);
        println!("{travel_mm:9.0} {:9.2} {:9.2}", gauge.camber_rad.to_degrees(), gauge.toe_rad.to_degrees());
    }
    Ok(())
}
