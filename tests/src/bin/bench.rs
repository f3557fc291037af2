//! Prints what a pose costs on this machine, in nanoseconds.

use reference_tests::bench::timings;
use std::time::Instant;

#[expect(clippy::print_stdout, reason = "the figures are this program's output")]
fn main() {
    let begin = Instant::now();
    for timing in timings(|| begin.elapsed().as_secs_f64() * 1e3, 50.0) {
        println!("{:<32} {:>8.0} ns", timing.what, timing.ns);
    }
}
