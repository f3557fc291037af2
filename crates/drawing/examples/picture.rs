//! The demo truck on a spindle, drawn over the truck as it sits: `cargo run -p drawing --example picture > corner.svg`.

#![expect(clippy::print_stdout, reason = "an example shows what it found")]

use drawing::{Aspect, Shown, Sketch, Theme, Units, View, Zoom, view_of, write_svg};
use study::{Stance, clearances, travel_left};
use truck::{Change, DroppedSpindle, Side, demo};

fn main() -> Result<(), study::NoStance> {
    let truck = demo().truck;
    let spindle = DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() };
    let before = Stance::laid(&truck, &[] as &[Change])?.on(Side::Left);
    let after = Stance::laid(&truck, &[Change::DroppedSpindle(spindle)])?.on(Side::Left);
    let (gaps, left) = (clearances(&after, &after.pose), travel_left(&after));
    let now =
        Shown { rest: &after, pose: &after.pose, gaps: &gaps, travel_left: Some(&left), travel_mm: 0.0 };
    let under = Shown { rest: &before, pose: &before.pose, gaps: &[], travel_left: None, travel_mm: 0.0 };
    let sketch = Sketch { before: Some(under), drop_mm: 50.8, ..Sketch::alone(now) };
    let view = View {
        width_px: 600.0,
        height_px: 420.0,
        type_px: 13.0,
        units: Units::Inches,
        prefix: "picture".to_owned(),
        zoom: Zoom::default(),
        covered_px: (0.0, 0.0),
    };
    print!("{}", write_svg(&view_of(Aspect::Front, &sketch, &view), Theme::Light));
    Ok(())
}
