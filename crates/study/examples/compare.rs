//! Two ways down beside the truck as it sits: `cargo run -p study --example compare`.
//!
//! A spindle lowers the body and leaves its springs and its arms alone; a bar turned out takes the arms along.
//! Lengths are millimetres and angles radians here, as everywhere in the core.

#![expect(clippy::print_stdout, reason = "an example shows what it found")]

use study::{Clearances, Figure, Stance, Studied};
use truck::{BarAdjuster, Change, DroppedSpindle, Side, demo};

fn main() -> Result<(), study::NoStance> {
    let truck = demo().truck;
    let spindle = DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() };
    let plans = [
        ("as it sits", vec![]),
        ("2 in spindle", vec![Change::DroppedSpindle(spindle)]),
        ("bar turned out", vec![Change::BarAdjuster(BarAdjuster { turns: -12.0 })]),
    ];
    let figures = [Figure::FRAME_HEIGHT, Figure::CASTER_GROUND, Figure::SCRUB_RADIUS, Figure::BUMP];
    for (name, changes) in plans {
        println!("{name}");
        let rest = Stance::laid(&truck, changes.as_slice())?.on(Side::Left);
        let studied = Studied::new(&rest, Clearances::LIVE);
        for figure in figures {
            let told = figure.told(&studied, figure.of_side_may_rest_on(&rest));
            let number =
                told.number().map_or_else(|| "not known".to_owned(), |number| format!("{number:.3}"));
            // A number that rests on a guess keeps its mark wherever it is printed.
            let mark = if told.is_guess() { "~" } else { "" };
            println!("  {:32} {mark}{number}", figure.label());
        }
    }
    Ok(())
}
