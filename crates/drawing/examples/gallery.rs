//! Writes pictures of the demo truck, and of what meets what, into a directory, to be looked at:
//! `cargo run -p drawing --example gallery -- DIRECTORY`.

use drawing::{
    Aspect, Band, Broken, Chart, ClearanceMap, DragNote, Handle, Mark, NumberFormat, Scene, Series,
    SeriesStyle, Shown, Sketch, Theme, Units, View, Zoom, callout_drawing, chart, clearance_map, view_of,
    view_of_broken, write_svg,
};
use linkage::Vector3;
use measure::MM_PER_INCH;
use std::path::PathBuf;
use study::{Clearances, Pair, Quantity, Span, Stance, StandingSide, clearances, sweep, travel_left};
use truck::{
    BarAdjuster, Change, DroppedSpindle, Ledger, Mating, MovedPivot, Place, Side, SpringKind, Truck, demo,
    fit,
};

const SIZES: [(&str, f64, f64, f64); 4] = [
    ("320", 320.0, 300.0, 11.0),
    ("360", 360.0, 300.0, 12.0),
    ("600", 600.0, 420.0, 13.0),
    ("900", 900.0, 620.0, 14.0),
];

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let directory = PathBuf::from(std::env::args_os().nth(1).ok_or("which directory?")?);
    std::fs::create_dir_all(&directory)?;
    let write = |name: String, scene: &Scene| -> std::io::Result<()> {
        for (theme, suffix) in [(Theme::Light, "light"), (Theme::Dark, "dark")] {
            let path = directory.join(name.clone() + "-" + suffix + ".svg");
            std::fs::write(path, write_svg(scene, theme))?;
        }
        Ok(())
    };
    for (size, width_px, height_px, type_px) in SIZES {
        let view = View {
            width_px,
            height_px,
            type_px,
            units: Units::Inches,
            prefix: "gallery".to_owned(),
            zoom: Zoom::default(),
            covered_px: (0.0, 0.0),
        };
        for (name, scene) in pictures(&view)? {
            write(name.to_owned() + "-" + size, &scene)?;
        }
    }
    for kind in Mating::ALL {
        let row = Ledger::EMPTY.rows().into_iter().find(|row| row.kind() == *kind).ok_or("no such row")?;
        for (at, _) in (0_u8..).zip(kind.callouts()) {
            let name = ["bolt-up", kind.key(), kind.callout_key(at)].join("-");
            write(name, &callout_drawing(&Ledger::EMPTY, &row, at))?;
        }
    }
    Ok(())
}

fn spindle(drop_mm: f64) -> Change {
    Change::DroppedSpindle(DroppedSpindle { drop_mm, ..DroppedSpindle::default() })
}

fn pictures(view: &View) -> Result<Vec<(&'static str, Scene)>, Box<dyn std::error::Error>> {
    let truck = demo().truck;
    let stands = |truck: &Truck, changes: &[Change]| Stance::laid(truck, changes).map(|on| on.on(Side::Left));
    let measured = stands(&truck, &[])?;
    let dropped = stands(&truck, &[spindle(50.8)])?;
    let bars = stands(&truck, &[Change::BarAdjuster(BarAdjuster { turns: -12.0 })])?;
    let mut sprung = truck.clone();
    sprung.spring.kind = SpringKind::Coil;
    let coil = stands(&sprung, &[])?;
    let note = DragNote { text: "Spindle ↑ 2 in".to_owned() };
    let shot =
        |rest: &StandingSide,
         before: Option<&StandingSide>,
         drop: f64,
         travel: f64,
         note: Option<DragNote>| { sketch(Aspect::Front, rest, before, drop, travel, note, view) };
    let around =
        |aspect: Aspect, travel: f64| sketch(aspect, &dropped, Some(&measured), 50.8, travel, None, view);
    Ok(vec![
        ("side", around(Aspect::Side, 0.0)),
        ("side-bump", around(Aspect::Side, 40.0)),
        ("top", around(Aspect::Top, 0.0)),
        ("measured", shot(&measured, None, 0.0, 0.0, None)),
        ("spindle", shot(&dropped, Some(&measured), 50.8, 0.0, None)),
        ("dragging", shot(&dropped, Some(&measured), 50.8, 0.0, Some(note))),
        ("bars", shot(&bars, Some(&measured), 0.0, 0.0, None)),
        ("bump", shot(&measured, None, 0.0, 40.0, None)),
        ("droop", shot(&measured, None, 0.0, -65.0, None)),
        ("coil", shot(&coil, None, 0.0, 0.0, None)),
        ("broken", broken(Aspect::Front, &truck, &measured, view)?),
        ("broken-side", broken(Aspect::Side, &truck, &measured, view)?),
        ("broken-top", broken(Aspect::Top, &truck, &measured, view)?),
        ("fender", room(&dropped, Pair::TireFender, view)),
        ("tie-rod", room(&dropped, Pair::TireTieRod, view)),
        ("strut-rod", room(&measured, Pair::TireStrutRod, view)),
        (
            "camber",
            camber(
                &[("as measured", &measured), ("two-inch spindle", &dropped), ("bar turned out", &bars)],
                view,
            ),
        ),
    ])
}

fn sketch(
    aspect: Aspect,
    rest: &StandingSide,
    before: Option<&StandingSide>,
    drop_mm: f64,
    travel_mm: f64,
    dragging: Option<DragNote>,
    view: &View,
) -> Scene {
    let pose = rest.at_travel(travel_mm).unwrap_or(rest.pose);
    let gaps = clearances(rest, &pose);
    let left = travel_left(rest);
    let shown = Shown { rest, pose: &pose, gaps: &gaps, travel_left: Some(&left), travel_mm };
    let was = before.map(|rest| (rest, rest.at_travel(travel_mm).unwrap_or(rest.pose)));
    let before =
        was.as_ref().map(|(rest, pose)| Shown { rest, pose, gaps: &[], travel_left: None, travel_mm });
    let selected = dragging.is_some().then_some(Handle::WheelCentre);
    view_of(aspect, &Sketch { before, selected, dragging, drop_mm, ..Sketch::alone(shown) }, view)
}

fn broken(
    aspect: Aspect,
    truck: &Truck,
    measured: &StandingSide,
    view: &View,
) -> Result<Scene, Box<dyn std::error::Error>> {
    let moved = MovedPivot { place: Place::UpperArm, by_mm: Vector3::new(0.0, -170.0, 40.0) };
    let fitted = fit(truck, &[Change::MovedPivot(moved)])?;
    let corner = fitted.corner()?;
    let before = Shown { rest: measured, pose: &measured.pose, gaps: &[], travel_left: None, travel_mm: 0.0 };
    let message = "the parts do not reach each other: the upper ball joint cannot close".to_owned();
    let broken = Broken { corner: &corner, fitted: &fitted, before: Some(before), message };
    Ok(view_of_broken(aspect, &broken, view))
}

fn room(rest: &StandingSide, pair: Pair, view: &View) -> Scene {
    let whole = Clearances::of(rest, Clearances::SETTLED);
    let Some(found) = whole.of_pair(pair) else { return Scene::message("not stated", view) };
    let map = ClearanceMap {
        title: pair.to_string(),
        travels_mm: &whole.travels_mm,
        headings_rad: &whole.headings_rad,
        distances_mm: &found.map,
        least: Mark { travel_mm: found.at.travel_mm, heading_rad: found.at.heading_rad },
        least_mm: found.gap.distance_mm,
        is_guess: false,
        here: Some(Mark { travel_mm: 20.0, heading_rad: -0.2 }),
    };
    clearance_map(&map, view)
}

fn camber(trucks: &[(&str, &StandingSide)], view: &View) -> Scene {
    let span = Span { from_mm: -75.0, to_mm: 75.0, count: 61 };
    let mut series = Vec::new();
    for (at, (name, rest)) in (0_u8..).zip(trucks) {
        let points = sweep(rest, &span, Vector3::zeros())
            .curve(Quantity::Camber)
            .map(|(mm, rad)| (mm / MM_PER_INCH, rad.to_degrees()))
            .collect();
        let style = if at == 0 { SeriesStyle::AsMeasured } else { SeriesStyle::Proposal(at - 1) };
        series.push(Series { name: (*name).to_owned(), points, style });
    }
    let curves = Chart {
        title: "Camber".to_owned(),
        x_label: "wheel travel from rest, bump to the right, in".to_owned(),
        y_label: "°".to_owned(),
        series,
        bands: vec![
            Band { from: 1.2, to: 2.96, label: "tire meets".to_owned() },
            Band { from: -2.96, to: -2.75, label: "past droop".to_owned() },
        ],
        cursor_x: Some(0.5),
        x_format: NumberFormat::Signed,
        y_format: NumberFormat::Signed,
    };
    chart(&curves, view)
}
