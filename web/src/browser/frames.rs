//! Work once a frame: however many events arrive, the newest one counts.

use leptos::prelude::request_animation_frame;
use std::cell::RefCell;
use std::rc::Rc;

type Work = Rc<RefCell<Option<Box<dyn FnOnce()>>>>;

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
