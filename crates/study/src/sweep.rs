//! What changes through the travel.

use crate::quantity::{Gauged, Quantity};
use crate::stance::StandingSide;
use crate::steering::Steering;
use linkage::{Unreached, Vector3};

/// The travels of a sweep: `count` stations from `from_mm` to `to_mm`, both ends included.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// First travel, mm, + bump.
    pub from_mm: f64,
    /// Last travel, mm.
    pub to_mm: f64,
    /// Number of stations, at least 1.
    pub count: u32,
}

impl Span {
    /// The travels, in order, mm.
    pub fn travels(&self) -> impl Iterator<Item = f64> + use<> {
        evenly(self.from_mm, self.to_mm, self.count)
    }
}

/// So many values evenly apart from one to another, both included; of one alone the first.
fn evenly(from: f64, to: f64, count: u32) -> impl Iterator<Item = f64> {
    let last = count.max(2) - 1;
    (0..count).map(move |at| match at {
        // Exact at both ends and, of whole ones, between them.
        0 => from,
        at if at == last => to,
        at => (from * f64::from(last - at) + to * f64::from(at)) / f64::from(last),
    })
}

/// One travel of a sweep.
#[derive(Clone, Debug, PartialEq)]
pub struct Station {
    /// Travel from rest, mm, + bump.
    pub travel_mm: f64,
    /// What a gauge would read there, or why it is not reached.
    pub gauged: Result<Gauged, Unreached>,
}

/// A truck moved through its travel.
#[derive(Clone, Debug, PartialEq)]
pub struct Sweep {
    /// The stations, in the order of the span.
    pub stations: Vec<Station>,
}

impl Sweep {
    /// A quantity against travel, where it is reached: `(travel mm, value)`.
    pub fn curve(&self, quantity: Quantity) -> impl Iterator<Item = (f64, f64)> {
        self.stations.iter().filter_map(move |station| {
            let gauged = station.gauged.as_ref().ok()?;
            Some((station.travel_mm, quantity.read(gauged)?))
        })
    }
}

/// Moves a truck through a span of travel, the relay rod displaced by `relay_mm`.
#[must_use]
pub fn sweep(rest: &StandingSide, span: &Span, relay_mm: Vector3<f64>) -> Sweep {
    let height = rest.pose.wheel_centre.z;
    let station = |travel_mm: f64| Station {
        travel_mm,
        gauged: rest.corner.at_height(height + travel_mm, relay_mm).and_then(|pose| Gauged::of(rest, pose)),
    };
    Sweep { stations: span.travels().map(station).collect() }
}

/// Steers a truck from full lock to the right to full lock to the left, its
/// wheels at one travel from rest, mm: the left wheel at `count` places of the
/// relay rod, its headings in `pose.heading_rad()`. Places that are not reached are left out.
#[must_use]
pub fn steer_sweep(rest: &StandingSide, steering: &Steering, travel_mm: f64, count: u32) -> Vec<Gauged> {
    evenly(-1.0, 1.0, count)
        .filter_map(|steer| Gauged::of(rest, steering.pose(rest, travel_mm, steer).ok()?).ok())
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn travels_are_exact_where_people_look() {
        let span = Span { from_mm: -60.0, to_mm: 60.0, count: 7 };
        let travels: Vec<f64> = span.travels().collect();
        assert_eq!(travels, [-60.0, -40.0, -20.0, 0.0, 20.0, 40.0, 60.0]);
        let uneven = Span { from_mm: -0.1, to_mm: 0.3, count: 4 };
        let travels: Vec<f64> = uneven.travels().collect();
        assert_eq!((travels[0].to_bits(), travels[3].to_bits()), ((-0.1_f64).to_bits(), 0.3_f64.to_bits()));
        assert_eq!(Span { count: 1, ..uneven }.travels().collect::<Vec<_>>(), [-0.1]);
        assert_eq!(Span { count: 0, ..uneven }.travels().count(), 0);
    }
}
