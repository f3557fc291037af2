//! Work once a frame: however many events arrive, the newest one counts.

use leptos::prelude::request_animation_frame;
use std::cell::RefCell;
use std::rc::Rc;

type Work = Rc<RefCell<Option<Box<dyn FnOnce()>>>>;

/// Runs a piece of work at the next frame, when what is being made stands on the page.
pub(crate) fn soon(work: impl FnOnce() + 'static) {
    request_animation_frame(work);
}

/// Runs the newest piece of work at the next frame.
#[derive(Clone, Default)]
pub(crate) struct Frames {
    newest: Work,
}

impl Frames {
    /// Puts work in place of what waits for the next frame.
    pub(crate) fn next(&self, work: impl FnOnce() + 'static) {
        let waiting = self.newest.borrow_mut().replace(Box::new(work)).is_some();
        if !waiting {
            let newest = Rc::clone(&self.newest);
            request_animation_frame(move || {
                let work = newest.borrow_mut().take();
                if let Some(work) = work {
                    work();
                }
            });
        }
    }

    /// Forgets what waits.
    pub(crate) fn forget(&self) {
        self.newest.borrow_mut().take();
    }
}

/// Work in slices: at every frame as much as fits into `budget_ms`, while `slice` says that there is more.
///
/// A slice is a piece of the work that takes a millisecond or so.
pub(crate) fn in_slices(budget_ms: impl Fn() -> f64 + 'static, slice: impl FnMut() -> bool + 'static) {
    go_on(Box::new(budget_ms), Box::new(slice));
}

fn go_on(budget_ms: Box<dyn Fn() -> f64>, mut slice: Box<dyn FnMut() -> bool>) {
    request_animation_frame(move || {
        let end = now_ms() + budget_ms();
        while slice() {
            if now_ms() >= end {
                return go_on(budget_ms, slice);
            }
        }
    });
}

fn now_ms() -> f64 {
    leptos::prelude::window().performance().map_or(0.0, |clock| clock.now())
}
