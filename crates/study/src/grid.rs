//! The least room of every pair over travel and steer, and where pairs first meet.
//!
//! A grid of poses finds the cell, a local search refines it. The search has no
//! clock: it is taken on in steps, so that a page can do it between frames of a drag.

use crate::clearance::{Gap, Pair, Shapes, VariesWith};
use crate::order::least_first;
use crate::rest::Rest;
use crate::steering::Steering;
use linkage::{Pose, Vector3, root};
use truck::Field;

/// A pose of the grid or between its poses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// Travel from rest that the arm's angle makes with the wheels straight ahead, mm, + bump.
    pub travel_mm: f64,
    /// Travel from rest of the wheel's centre as it is steered, mm, + bump.
    pub wheel_travel_mm: f64,
    /// Share of the lock, −1 full right to 1 full left.
    pub steer: f64,
    /// The left wheel's heading at that steer with the truck at rest, + to the left, rad.
    pub heading_rad: f64,
}

/// What was found of one pair.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// Which two.
    pub pair: Pair,
    /// Where they come nearest.
    pub at: Spot,
    /// How near they come there.
    pub gap: Gap,
    /// Where they first meet in bump, at any steer; at rest already with travel zero.
    pub meets_in_bump: Option<Spot>,
    /// Where they first meet in droop, at any steer; at rest already with travel zero.
    pub meets_in_droop: Option<Spot>,
    /// Distance at each pose of the grid, row by row, mm; not a number where
    /// the wheel does not go. For drawing: `gap` may be less than all of it.
    pub map: Vec<f64>,
}

/// The room of every pair over travel and steer.
#[derive(Clone, Debug, PartialEq)]
pub struct Clearances {
    /// Travels of the grid's rows, mm, + bump, from full droop to the bump stop solid.
    pub travels_mm: Vec<f64>,
    /// Steers of its columns, −1 full right to 1 full left; only straight ahead
    /// where the steering or its lock is not stated.
    pub steers: Vec<f64>,
    /// The left wheel's heading at each of them with the truck at rest, + to the left, rad.
    pub headings_rad: Vec<f64>,
    /// What was found, in the order of [`Pair::ALL`].
    pub found: Vec<Found>,
    /// Pairs that could not be looked at, and the numbers that are not stated.
    pub unstated: Vec<(Pair, Vec<Field>)>,
}

impl Clearances {
    /// Poses each way in the grid that keeps up with a drag.
    pub const LIVE: u32 = 9;
    /// Poses each way where it is asked whether anything moves.
    pub const PROBED: u32 = 5;
    /// Poses each way in the grid of an answer at leisure.
    pub const SETTLED: u32 = 33;

    /// Searched in one go, on a grid of `count` by `count` poses.
    #[must_use]
    pub fn of(rest: &Rest, count: u32) -> Self {
        ClearanceSearch::new(rest, count).all(rest)
    }

    /// As [`Clearances::of`] for some pairs alone.
    pub(crate) fn of_pairs(rest: &Rest, count: u32, pairs: &[Pair]) -> Self {
        ClearanceSearch::over(rest, count, pairs).all(rest)
    }

    /// As [`Clearances::of`], without the pairs that meet nowhere: what ends the travel, at less work.
    pub(crate) fn that_meet(rest: &Rest, count: u32) -> Self {
        ClearanceSearch { only_meetings: true, ..ClearanceSearch::new(rest, count) }.all(rest)
    }

    /// The pairs that meet, for [`crate::travel_left_of`] in the frames of a drag, at a fraction of the work
    /// of [`Clearances::of`]: a pair that is clear by far on a coarser grid is not looked at on that of
    /// [`Clearances::LIVE`]. A contact that only the whole grid finds is missing until the drag pauses.
    #[must_use]
    pub fn that_meet_in_a_drag(rest: &Rest) -> Self {
        let near = ClearanceSearch::new(rest, Self::PROBED).may_meet(rest);
        ClearanceSearch { only_meetings: true, ..ClearanceSearch::over(rest, Self::LIVE, &near) }.all(rest)
    }

    /// What was found, the least room first.
    #[must_use]
    pub fn nearest_first(&self) -> Vec<&Found> {
        let mut list: Vec<_> = self.found.iter().collect();
        least_first(&mut list, |found| found.gap.distance_mm);
        list
    }

    /// Of each pair what was found of this wheel, or of the `other` where that has less room; the least room first,
    /// and whether it is the other's. Where they are alike it is this one's.
    #[must_use]
    pub fn nearest_of_both<'a>(&'a self, other: Option<&'a Self>) -> Vec<(&'a Found, bool)> {
        let mut list = Vec::new();
        for own in &self.found {
            let theirs = other.and_then(|other| other.of_pair(own.pair));
            list.push(match theirs {
                Some(their) if their.gap.distance_mm < own.gap.distance_mm - ALIKE_MM => (their, true),
                _ => (own, false),
            });
        }
        least_first(&mut list, |(found, _)| found.gap.distance_mm);
        list
    }

    /// What was found of one pair.
    #[must_use]
    pub fn of_pair(&self, pair: Pair) -> Option<&Found> {
        self.found.iter().find(|found| found.pair == pair)
    }
}

/// A search under way.
#[derive(Clone, Debug, PartialEq)]
pub struct ClearanceSearch {
    shapes: Shapes,
    steering: Option<Steering>,
    /// Arm angles of the rows, rad.
    rows: Vec<f64>,
    rest_row: usize,
    columns: Vec<f64>,
    maps: Vec<(Pair, Vec<f64>)>,
    /// The next cell.
    next: usize,
    /// How many pairs are refined.
    refined: usize,
    /// Whether a pair that meets nowhere is left out.
    only_meetings: bool,
    result: Clearances,
}

impl ClearanceSearch {
    /// A search over `count` (at least 3) travels and as many steers, to be
    /// taken on with [`ClearanceSearch::step`] for the same truck.
    #[must_use]
    pub fn new(rest: &Rest, count: u32) -> Self {
        Self::over(rest, count, Pair::ALL)
    }

    fn over(rest: &Rest, count: u32, pairs: &[Pair]) -> Self {
        let steering = Steering::of(rest).ok();
        let (rows, rest_row) = rows(rest, count.max(3));
        let half = i32::try_from(count.max(3) / 2).unwrap_or(i32::MAX);
        let columns = match steering {
            Some(_) => (-half..=half).map(|at| f64::from(at) / f64::from(half)).collect(),
            None => vec![0.0],
        };
        let mut unstated = Vec::new();
        let mut maps = Vec::new();
        for pair in pairs.iter().copied() {
            let needs = pair.needs(&rest.fitted);
            if needs.is_empty() {
                maps.push((pair, Vec::with_capacity(rows.len() * columns.len())));
            } else {
                unstated.push((pair, needs));
            }
        }
        let travels_mm = rows.iter().map(|angle| rest.travel_at(*angle)).collect();
        let headings_rad = columns.iter().map(|steer| heading_rad(rest, steering.as_ref(), *steer)).collect();
        let steers = columns.clone();
        let result = Clearances { travels_mm, steers, headings_rad, found: Vec::new(), unstated };
        Self {
            shapes: Shapes::of(rest),
            steering,
            rows,
            rest_row,
            columns,
            maps,
            next: 0,
            refined: 0,
            only_meetings: false,
            result,
        }
    }

    fn all(mut self, rest: &Rest) -> Clearances {
        while !self.step(rest, u32::MAX) {}
        self.finished()
    }

    /// The pairs that meet, or that fall steeply enough between the poses of the grid to meet there.
    fn may_meet(mut self, rest: &Rest) -> Vec<Pair> {
        // Every pose, and nothing refined.
        let poses = self.rows.len() * self.columns.len();
        self.step(rest, u32::try_from(poses).unwrap_or(u32::MAX));
        let may = |(pair, map): &&(Pair, Vec<f64>)| {
            self.hollows(*pair, map).iter().any(|hollow| hollow.least_mm() <= 0.0)
        };
        self.maps.iter().filter(may).map(|(pair, _)| *pair).collect()
    }

    /// Takes the search on by about the work of `cells` poses of the grid. True when it is done.
    pub fn step(&mut self, rest: &Rest, cells: u32) -> bool {
        let total = self.rows.len() * self.columns.len();
        let mut remaining = cells;
        while self.next < total {
            if remaining == 0 {
                return false;
            }
            self.cell(rest);
            self.next += 1;
            remaining -= 1;
        }
        while let Some((pair, map)) = self.maps.get(self.refined) {
            if remaining == 0 {
                return false;
            }
            let found = self.found(rest, *pair, map);
            self.result.found.extend(found);
            self.refined += 1;
            remaining = remaining.saturating_sub(REFINING_CELLS);
        }
        true
    }

    /// The share of the work that is done, 0 to 1.
    #[must_use]
    pub fn progress(&self) -> f64 {
        let cells = self.rows.len() * self.columns.len();
        let refining = REFINING_CELLS as usize;
        let all = cells + refining * self.maps.len();
        as_float(self.next + refining * self.refined) / as_float(all)
    }

    /// The answer, once [`ClearanceSearch::step`] has said that it is done.
    #[must_use]
    pub fn finished(self) -> Clearances {
        self.result
    }

    fn cell(&mut self, rest: &Rest) {
        let wide = self.columns.len();
        let (row, column) = (self.next / wide, self.next % wide);
        let pose = self.pose(rest, as_float(row), as_float(column));
        for (pair, map) in &mut self.maps {
            // What does not depend on it is computed once.
            let same = match pair.varies_with() {
                VariesWith::Nothing => map.first(),
                VariesWith::Travel if column > 0 => map.last(),
                _ => None,
            };
            let distance = same.copied().unwrap_or_else(|| {
                let gap = pose.and_then(|pose| self.shapes.gap(rest, &pose, *pair));
                gap.map_or(f64::NAN, |gap| gap.distance_mm)
            });
            map.push(distance);
        }
    }

    /// The pose at a place between rows and columns.
    fn pose(&self, rest: &Rest, row: f64, column: f64) -> Option<Pose> {
        let relay = match &self.steering {
            Some(steering) => steering.relay.move_mm(steering.side_mm(self.steer(column)))?,
            None => Vector3::zeros(),
        };
        rest.corner.pose(between(&self.rows, row), relay).ok()
    }

    fn steer(&self, column: f64) -> f64 {
        between(&self.columns, column)
    }

    fn distance(&self, rest: &Rest, pair: Pair, at: (f64, f64)) -> Option<f64> {
        let pose = self.pose(rest, at.0, at.1)?;
        Some(self.shapes.gap(rest, &pose, pair)?.distance_mm)
    }

    /// What a pair's map leads to.
    fn found(&self, rest: &Rest, pair: Pair, map: &[f64]) -> Option<Found> {
        let middle = (as_float(self.rest_row), as_float(self.columns.len() / 2));
        let mut least = Dip { at: middle, mm: self.distance(rest, pair, middle)? };
        // What never moves is equally near everywhere.
        let hollows =
            if pair.varies_with() == VariesWith::Nothing { Vec::new() } else { self.hollows(pair, map) };
        if self.only_meetings && least.mm > 0.0 && !hollows.iter().any(|hollow| hollow.least_mm() <= 0.0) {
            return None;
        }
        for hollow in hollows {
            if hollow.least_mm() > least.mm {
                continue;
            }
            let low = self.downhill(rest, pair, hollow.dip, (8, FINEST));
            least = if low.mm < least.mm { low } else { least };
        }
        let pose = self.pose(rest, least.at.0, least.at.1)?;
        Some(Found {
            pair,
            at: self.spot(rest, least.at)?,
            gap: self.shapes.gap(rest, &pose, pair)?,
            meets_in_bump: self.meeting(rest, pair, map, &least, 1),
            meets_in_droop: self.meeting(rest, pair, map, &least, -1),
            map: map.to_vec(),
        })
    }

    fn spot(&self, rest: &Rest, at: (f64, f64)) -> Option<Spot> {
        let pose = self.pose(rest, at.0, at.1)?;
        Some(Spot {
            travel_mm: rest.travel_at(between(&self.rows, at.0)),
            wheel_travel_mm: pose.wheel_centre.z - rest.pose.wheel_centre.z,
            steer: self.steer(at.1),
            heading_rad: heading_rad(rest, self.steering.as_ref(), self.steer(at.1)),
        })
    }

    /// The lowest cells of a map of which no neighbour is lower, row and column,
    /// and how far their highest neighbour stands above them.
    fn hollows(&self, pair: Pair, map: &[f64]) -> Vec<Hollow> {
        let (tall, wide) = (self.rows.len(), self.columns.len());
        // What only travels is straight ahead in every column.
        let ahead = (pair.varies_with() == VariesWith::Travel).then_some(wide / 2);
        let at = |row: usize, column: usize| map[row * wide + column];
        let mut found = Vec::new();
        for row in 0..tall {
            for column in 0..wide {
                let here = at(row, column);
                let (mut lowest, mut steepest) = (!here.is_nan(), 0.0_f64);
                for r in row.saturating_sub(1)..=(row + 1).min(tall - 1) {
                    for c in column.saturating_sub(1)..=(column + 1).min(wide - 1) {
                        let other = at(r, c);
                        // Of two equal neighbours the first is the hollow.
                        lowest &=
                            other.is_nan() || here < other || (here <= other && (row, column) <= (r, c));
                        steepest = steepest.max(other - here);
                    }
                }
                if lowest {
                    let dip = Dip { at: (as_float(row), as_float(ahead.unwrap_or(column))), mm: here };
                    found.push(Hollow { dip, steepest_mm: steepest });
                }
            }
        }
        least_first(&mut found, |hollow| hollow.dip.mm);
        found.truncate(SEEDS);
        found
    }

    /// Down from a place for as long as a neighbour is lower, in ever smaller steps.
    /// `neighbours`: 8 over rows and columns, 2 along the row alone. `finest`: the last
    /// step, in rows or columns.
    fn downhill(&self, rest: &Rest, pair: Pair, from: Dip, (neighbours, finest): (usize, f64)) -> Dip {
        let most = (as_float(self.rows.len() - 1), as_float(self.columns.len() - 1));
        let mut low = from;
        let mut step = 0.5;
        for _ in 0..MOST_MOVES {
            if step < finest {
                break;
            }
            let here = low;
            for (down, across) in AROUND[..neighbours].iter() {
                let at = (here.at.0 + down * step, here.at.1 + across * step);
                let inside = (0.0..=most.0).contains(&at.0) && (0.0..=most.1).contains(&at.1);
                let idle = *across != 0.0 && pair.varies_with() == VariesWith::Travel;
                if inside
                    && !idle
                    && let Some(mm) = self.distance(rest, pair, at)
                    && mm < low.mm
                {
                    low = Dip { at, mm };
                }
            }
            if low.mm >= here.mm {
                step /= 2.0;
            }
        }
        low
    }

    /// The least distance at one travel, at any steer.
    fn over_steer(&self, rest: &Rest, pair: Pair, row: f64) -> Option<Dip> {
        let wide = self.columns.len();
        let stride = (wide / 8).max(1);
        let mut low: Option<Dip> = None;
        for column in (0..wide).step_by(stride) {
            let at = (row, as_float(column));
            if let Some(mm) = self.distance(rest, pair, at)
                && low.is_none_or(|low| mm < low.mm)
            {
                low = Some(Dip { at, mm });
            }
        }
        Some(self.downhill(rest, pair, low?, (2, FINEST_STEER)))
    }

    /// Where a pair first meets on the way from rest to an end of the travel.
    /// `way`: 1 in bump, −1 in droop. `least`: where it comes nearest.
    fn meeting(&self, rest: &Rest, pair: Pair, map: &[f64], least: &Dip, way: i32) -> Option<Spot> {
        if least.mm > 0.0 {
            return None;
        }
        let start = as_float(self.rest_row);
        let here = self.over_steer(rest, pair, start)?;
        if here.mm <= 0.0 {
            return self.spot(rest, here.at);
        }
        let wide = self.columns.len();
        let rows = if way > 0 { self.rest_row + 1..self.rows.len() } else { 0..self.rest_row };
        let meets = |row: &usize| map[row * wide..(row + 1) * wide].iter().any(|mm| *mm <= 0.0);
        let first = if way > 0 { rows.clone().find(meets) } else { rows.rev().find(meets) };
        let beyond = (least.at.0 - start) * f64::from(way) > 0.0;
        let nearer = |a: f64, b: f64| if (a - start).abs() < (b - start).abs() { a } else { b };
        let met = match (first, beyond) {
            (Some(row), true) => nearer(as_float(row), least.at.0),
            (Some(row), false) => as_float(row),
            (None, true) => least.at.0,
            (None, false) => return None,
        };
        let room = |row: f64| Some(self.over_steer(rest, pair, row)?.mm);
        // The last place on the way there at which they are clear.
        let mut clear = met - f64::from(way);
        while (clear - start) * f64::from(way) > 0.0 && room(clear)? <= 0.0 {
            clear -= f64::from(way);
        }
        let clear = if (clear - start) * f64::from(way) > 0.0 { clear } else { start };
        let row = root::bracketed(room, clear, met, 1e-6)?;
        self.spot(rest, self.over_steer(rest, pair, row)?.at)
    }
}

/// A place between rows and columns, and the distance there.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Dip {
    at: (f64, f64),
    mm: f64,
}

/// A place of a map that none of its neighbours lies below.
#[derive(Clone, Copy, Debug)]
struct Hollow {
    dip: Dip,
    /// How far the highest neighbour stands above it.
    steepest_mm: f64,
}

impl Hollow {
    /// Between it and its neighbours the distance falls no farther than they stand above it.
    fn least_mm(&self) -> f64 {
        self.dip.mm - self.steepest_mm
    }
}

/// Rooms that differ by less are alike, mm: no output prints the difference.
const ALIKE_MM: f64 = 0.05;
/// The work of refining a pair, in cells of the grid.
const REFINING_CELLS: u32 = 24;
/// Hollows of a map that are gone down into.
const SEEDS: usize = 3;
/// No search goes on for longer.
const MOST_MOVES: usize = 200;
/// The last step of the search for the least room, in rows or columns.
const FINEST: f64 = 1.0 / 32.0;
/// The last step of the search over steer where two parts begin to meet: the
/// travel at which they do is that of any grid to a thousandth of a millimetre.
const FINEST_STEER: f64 = 1.0 / 1024.0;
/// The neighbours of a place, those along its row first.
const AROUND: [(f64, f64); 8] =
    [(0.0, -1.0), (0.0, 1.0), (-1.0, 0.0), (1.0, 0.0), (-1.0, -1.0), (-1.0, 1.0), (1.0, -1.0), (1.0, 1.0)];

/// The left wheel's heading with the truck at rest.
fn heading_rad(rest: &Rest, steering: Option<&Steering>, steer: f64) -> f64 {
    let posed = steering.and_then(|steering| steering.pose(rest, 0.0, steer).ok());
    posed.unwrap_or(rest.pose).heading_rad()
}

/// Arm angles from full droop over rest to the bump stop solid, and the row of rest.
fn rows(rest: &Rest, count: u32) -> (Vec<f64>, usize) {
    let (low, high) = (rest.stops.droop_rad, rest.stops.solid_rad);
    let middle = rest.pose.lower_arm_rad.max(low).min(high);
    let last = count - 1;
    let share = f64::from(last) * (middle - low) / (high - low);
    // The row nearest to rest is rest; a stretch that is there at all has a row at its end.
    let nearest = (0..=last).find(|row| f64::from(*row) + 0.5 >= share).unwrap_or(last);
    let nearest = nearest.max(u32::from(middle > low)).min(last - u32::from(middle < high));
    let angle = |row: u32| {
        if row < nearest {
            low + (middle - low) * f64::from(row) / f64::from(nearest)
        } else {
            middle + (high - middle) * f64::from(row - nearest) / f64::from((last - nearest).max(1))
        }
    };
    ((0..count).map(angle).collect(), nearest as usize)
}

#[expect(clippy::cast_precision_loss, reason = "a grid has few rows and columns")]
const fn as_float(count: usize) -> f64 {
    count as f64
}

/// A value between the entries of a list.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held within the list")]
fn between(list: &[f64], at: f64) -> f64 {
    let last = list.len() - 1;
    let from = (at.max(0.0) as usize).min(last);
    let to = (from + 1).min(last);
    list[from] + (list[to] - list[from]) * (at - as_float(from))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A place of a map has the eight of a board around it.
    #[test]
    fn every_neighbour_is_looked_at_once() {
        for row in [-1.0, 0.0, 1.0] {
            for column in [-1.0, 0.0, 1.0] {
                let there = AROUND.iter().filter(|at| **at == (row, column)).count();
                assert_eq!(there, usize::from((row, column) != (0.0, 0.0)), "{row} {column}");
            }
        }
    }
}
