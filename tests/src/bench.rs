//! The loops that are timed, natively and in the browser alike.
//!
//! Nothing here has a clock: the caller brings one.

mod frame;
mod pose;

use std::hint::black_box;

/// One timed loop: what it does, and the median of five runs.
#[derive(Clone, Copy, Debug)]
pub struct Timing {
    /// What one turn of the loop does.
    pub what: &'static str,
    /// Nanoseconds for one turn.
    pub ns: f64,
}

/// A loop to be timed. A turn takes a number in -1..1 and gives one, so that no
/// call can be left out or taken out of the loop.
pub struct Loop {
    /// What one turn does.
    pub what: &'static str,
    /// One turn. What fails gives no number.
    pub turn: Box<dyn FnMut(f64) -> f64>,
}

impl std::fmt::Debug for Loop {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.what)
    }
}

impl Loop {
    fn new(what: &'static str, turn: impl FnMut(f64) -> f64 + 'static) -> Self {
        Self { what, turn: Box::new(turn) }
    }

    fn run(&mut self, turns: u32) {
        let mut sum = 0.0;
        for count in 0..turns {
            // A walk over the travel that repeats only after 64 poses.
            let way = f64::from(count.wrapping_mul(37) % 64) / 32.0 - 1.0;
            sum += (self.turn)(black_box(way));
        }
        black_box(sum);
    }
}

/// Every loop, from one pose to all that a frame of a drag computes.
#[must_use]
pub fn loops() -> Vec<Loop> {
    pose::loops().into_iter().chain(frame::loops()).collect()
}

/// How often a loop is timed.
const RUNS: usize = 5;

/// Times every loop with the caller's clock, in milliseconds from any start.
///
/// Each run goes on for at least `run_ms`, so that a coarse clock does no harm.
/// The runs of a loop do not follow each other: whatever else the machine does
/// for a second then spoils one run of each loop and no median.
pub fn timings(mut now_ms: impl FnMut() -> f64, run_ms: f64) -> Vec<Timing> {
    let mut time = |timed: &mut Loop, turns: u32| {
        let begin = now_ms();
        timed.run(turns);
        now_ms() - begin
    };
    let mut all = loops();
    let enough = |timed: &mut Loop| {
        let mut turns = 1_u32;
        while time(timed, turns) < run_ms && turns < 1 << 28 {
            turns *= 2;
        }
        turns
    };
    let turns: Vec<u32> = all.iter_mut().map(enough).collect();
    let mut took = vec![[0.0; RUNS]; all.len()];
    for run in 0..RUNS {
        for ((timed, turns), took) in all.iter_mut().zip(&turns).zip(&mut took) {
            took[run] = time(timed, *turns) * 1e6 / f64::from(*turns);
        }
    }
    all.iter().zip(took).map(|(timed, took)| Timing { what: timed.what, ns: median(took) }).collect()
}

fn median(mut of: [f64; RUNS]) -> f64 {
    of.sort_by(f64::total_cmp);
    of[RUNS / 2]
}

/// The timings as lines of text: what, and nanoseconds.
#[must_use]
pub fn lines(timings: &[Timing]) -> String {
    timings.iter().map(|timing| format!("{:<44} {:>12.1} ns\n", timing.what, timing.ns)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The loops do the work they name: a turn that failed would give no number,
    /// and one that did the same thing every time would give the same.
    #[test]
    fn every_loop_works() {
        for mut timed in loops() {
            let [low, middle, high] = [-1.0, 0.0, 1.0].map(|way| (timed.turn)(way));
            assert!(low.is_finite() && middle.is_finite() && high.is_finite(), "{timed:?}");
            assert!((low - high).abs() > 1e-6, "{timed:?} gives {low} and {high}");
        }
    }

    /// A clock that ticks once a reading: every run takes a millisecond.
    #[test]
    fn every_loop_is_timed() {
        let mut ticks = 0.0;
        let timed = timings(
            || {
                ticks += 1.0;
                ticks
            },
            0.5,
        );
        assert_eq!(timed.len(), loops().len());
        assert!(timed.iter().all(|timing| (timing.ns - 1e6).abs() < 1e-3), "{timed:?}");
        assert_eq!(lines(&timed).lines().count(), timed.len());
    }

    #[test]
    fn the_median_is_the_third_of_five() {
        assert!((median([5.0, 1.0, 4.0, 2.0, 3.0]) - 3.0).abs() < 1e-15);
    }
}
