//! Prints what poses and a frame of a drag cost, in nanoseconds: natively on
//! standard output, in a browser as the text `timings` of its window.

use reference_tests::bench::{lines, timings};

/// Each run of a loop, ms.
const RUN_MS: f64 = 50.0;

#[cfg(not(target_arch = "wasm32"))]
#[expect(clippy::print_stdout, reason = "the figures are this program's output")]
fn main() {
    let begin = std::time::Instant::now();
    print!("{}", lines(&timings(|| begin.elapsed().as_secs_f64() * 1e3, RUN_MS)));
}

#[cfg(target_arch = "wasm32")]
fn main() {
    let window = web_sys::window().expect("a page has a window");
    let clock = window.performance().expect("a window has a clock");
    let text = lines(&timings(|| clock.now(), RUN_MS));
    js_sys::Reflect::set(&window, &"timings".into(), &text.into()).expect("a window takes a new name");
}
