//! Loops over what one frame of a drag computes on the page: the demo truck as
//! measured and its spindle, dragged up and down.

use super::Loop;
use drawing::{
    Chart, DragNote, Handle, Series, SeriesStyle, Shown, Sketch, Units, View, Zoom, chart, elements,
    front_view,
};
use linkage::Vector3;
use std::hint::black_box;
use study::{Clearances, Quantity, Span, Stance, StandingSide, Sweep, clearances, sweep, travel_left};
use truck::{Change, Design, DroppedSpindle, Edit, ProposalId, Side, Which, demo};

/// The proposal of the demo.
const SPINDLE: ProposalId = ProposalId(0);
/// Its drop, mm.
const DROP_MM: f64 = 50.8;
/// The travel of the curves, mm: three inches each way.
const SPAN: Span = Span { from_mm: -76.2, to_mm: 76.2, count: 61 };

pub(super) fn loops() -> Vec<Loop> {
    let drop = |way: f64| DROP_MM + 20.0 * way;
    let both = || Both::at(DROP_MM).expect("the demo stands");
    let (asked, swept, drawn) = (both(), both(), both());
    let curves = swept.sweeps();
    let number = |found: Option<f64>| found.unwrap_or(f64::NAN);
    vec![
        Loop::new("page: both trucks at rest", move |way| {
            number(Both::at(drop(way)).map(|both| black_box(&both).now.ride_height_mm()))
        }),
        Loop::new("page: pose, room, travel left", move |way| number(asked.answers(30.0 * way))),
        Loop::new("page: sweeps of 61 stations, both", move |way| {
            number(swept.sweeps_to(SPAN.to_mm + way).iter().map(last_camber).sum())
        }),
        Loop::new("page: sketch drawn and written", move |way| number(drawn.sketch(30.0 * way))),
        Loop::new("page: camber curve drawn and written", move |way| curve(&curves, 3.0 * way)),
        Loop::new("page: 9 by 9 clearances, every pair, both", move |way| {
            number(Both::at(drop(way)).map(|both| both.least_rooms(Clearances::LIVE)))
        }),
        Loop::new("page: 33 by 33 clearances, both, settled", move |way| {
            number(Both::at(drop(way)).map(|both| both.least_rooms(Clearances::SETTLED)))
        }),
        Loop::new("page: live tier, both: rest, sweep, 9 by 9", move |way| {
            number(Both::at(drop(way)).map(|both| {
                let swept: f64 = both.sweeps().iter().filter_map(last_camber).sum();
                swept + both.least_rooms(Clearances::LIVE)
            }))
        }),
        Loop::new("page: whole recompute", move |way| number(whole(drop(way)))),
    ]
}

/// The demo with another drop, as measured and proposed, at rest.
struct Both {
    before: StandingSide,
    now: StandingSide,
}

impl Both {
    fn at(drop_mm: f64) -> Option<Self> {
        let change = Change::DroppedSpindle(DroppedSpindle { drop_mm, ..DroppedSpindle::default() });
        let design: Design = demo().edited(&Edit::Set(SPINDLE, change)).ok()?;
        let on = |which| Some(Stance::of_design(&design, which).ok()?.on(Side::Left));
        Some(Self { before: on(Which::AsMeasured)?, now: on(SPINDLE.into())? })
    }

    fn answers(&self, travel_mm: f64) -> Option<f64> {
        let pose = self.now.at_travel(travel_mm).ok()?;
        let gaps = clearances(&self.now, &pose);
        let left = black_box(travel_left(&self.now));
        Some(gaps.iter().map(|gap| gap.distance_mm).sum::<f64>() + left.bump.travel_mm)
    }

    /// The least room of every pair of both trucks, added up.
    fn least_rooms(&self, count: u32) -> f64 {
        let rooms = [&self.before, &self.now].map(|rest| black_box(Clearances::of(rest, count)));
        rooms.iter().flat_map(|room| &room.found).map(|found| found.gap.distance_mm).sum()
    }

    fn sweeps(&self) -> [Sweep; 2] {
        self.sweeps_to(SPAN.to_mm)
    }

    fn sweeps_to(&self, to_mm: f64) -> [Sweep; 2] {
        [&self.before, &self.now]
            .map(|rest| black_box(sweep(rest, &Span { to_mm, ..SPAN }, Vector3::zeros())))
    }

    /// The front view as markup; gives where its first handle stands and how long the markup is.
    fn sketch(&self, travel_mm: f64) -> Option<f64> {
        let pose = self.now.at_travel(travel_mm).ok()?;
        let before_pose = self.before.at_travel(travel_mm).ok()?;
        let gaps = clearances(&self.now, &pose);
        let left = travel_left(&self.now);
        let now = Shown { rest: &self.now, pose: &pose, gaps: &gaps, travel_left: Some(&left), travel_mm };
        let before =
            Shown { rest: &self.before, pose: &before_pose, gaps: &[], travel_left: None, travel_mm };
        let sketch = Sketch {
            before: Some(before),
            selected: Some(Handle::WheelCentre),
            dragging: Some(DragNote { text: "Spindle ↑ 2 in".to_owned() }),
            drop_mm: DROP_MM,
            ..Sketch::alone(now)
        };
        let scene = front_view(&sketch, &view(760.0, 560.0));
        let markup = black_box(elements(&scene));
        let (_, x, y) = scene.handles.first()?;
        (!markup[0].is_empty()).then_some(x + y)
    }
}

/// The camber curves as markup; gives how wide the markup's scene is and where the reader stands.
fn curve(sweeps: &[Sweep; 2], cursor_in: f64) -> f64 {
    let styles = [SeriesStyle::AsMeasured, SeriesStyle::Proposal(0)];
    let series = |(sweep, style): (&Sweep, SeriesStyle)| Series {
        name: "Two-inch spindle".to_owned(),
        points: sweep.curve(Quantity::Camber).map(|(x, y)| (x / 25.4, y.to_degrees())).collect(),
        style,
    };
    let camber = Chart {
        title: "Camber".to_owned(),
        x_label: "wheel travel from rest, bump to the right, in".to_owned(),
        y_label: "°".to_owned(),
        series: sweeps.iter().zip(styles).map(series).collect(),
        cursor_x: Some(cursor_in),
        ..Chart::default()
    };
    let scene = chart(&camber, &view(760.0, 260.0));
    let markup = black_box(elements(&scene));
    if markup[0].is_empty() { f64::NAN } else { cursor_in + scene.width_px }
}

/// All that a frame of a drag can ask for, nothing kept from the frame before.
fn whole(drop_mm: f64) -> Option<f64> {
    let both = Both::at(drop_mm)?;
    // The sketch asks for the pose, the room beside the tire and the travel that is left.
    Some(both.sketch(0.0)? + curve(&both.sweeps(), 0.0) + both.now.ride_height_mm())
}

fn last_camber(sweep: &Sweep) -> Option<f64> {
    sweep.curve(Quantity::Camber).last().map(|(travel_mm, camber)| travel_mm + camber)
}

fn view(width_px: f64, height_px: f64) -> View {
    View {
        width_px,
        height_px,
        type_px: 13.5,
        units: Units::Inches,
        prefix: "bench".to_owned(),
        zoom: Zoom::default(),
        covered_px: (0.0, 0.0),
    }
}
