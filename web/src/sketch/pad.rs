//! One picture of the sketch that can be touched.

use crate::browser::frames::Frames;
use crate::browser::slices::Slices;
use crate::derive::Answers;
use crate::dom::Node;
use crate::signals::{Derived, Kept, Value};
use crate::sketch::gesture::{Snap, Start};
use crate::sketch::hands::Hands;
use crate::state::Page;
use drawing::{Aspect, Handle, Scene, Zoom};
use std::cell::RefCell;
use web_sys::Element;

/// What is the tire of a picture, to be pushed up and down, once the second module is there.
pub(crate) type Tire = Value<Option<fn(Pad) -> Node>>;

/// A picture with what touches it. Copies are the same.
#[derive(Clone, Copy)]
pub(crate) struct Pad {
    /// From where the truck is looked at.
    pub(crate) aspect: Aspect,
    /// The page it is on.
    pub(crate) page: Page,
    /// What it shows.
    pub(crate) answers: Answers,
    /// What of it is the tire.
    pub(crate) tire: Tire,
    /// How much of it is seen.
    pub(crate) zoom: Value<Zoom>,
    /// What is drawn.
    pub(crate) scene: Derived<Scene>,
    /// What fingers and mouse are doing on it.
    pub(crate) hands: Kept<RefCell<Hands>>,
    /// Its work once a frame.
    pub(crate) frames: Kept<Frames>,
    /// Its work when a drag pauses.
    pub(crate) pause: Kept<Slices>,
    /// The same when it is held still.
    pub(crate) hold: Kept<Slices>,
    /// The element it fills.
    pub(crate) element: Kept<Element>,
    /// The element's size, CSS px.
    pub(crate) size: Value<(f64, f64)>,
    /// What the loupe is over, px.
    pub(crate) loupe: Value<Option<(f64, f64)>>,
}

impl Pad {
    /// Looks at what fingers and mouse are doing, or has them do something else.
    pub(crate) fn hands<U>(&self, act: impl FnOnce(&mut Hands) -> U) -> U {
        self.hands.with(|hands| act(&mut hands.borrow_mut()))
    }

    /// A place in the window as one on the picture, px.
    pub(crate) fn on_picture(&self, client_x: i32, client_y: i32) -> (f64, f64) {
        let rect = self.element.with(Element::get_bounding_client_rect);
        (f64::from(client_x) - rect.left(), f64::from(client_y) - rect.top())
    }

    /// A movement of a handle begins.
    pub(crate) fn start(&self, handle: Handle) -> Start {
        let now = self.answers.standing.now();
        let corner = now.as_ref().as_ref().ok().map(|rest| rest.corner);
        Start {
            aspect: self.aspect,
            handle,
            proposal: self.page.selected_now().proposal(),
            side: self.page.session.side.now(),
            design: self.page.store.committed_now(),
            posed: corner.zip(self.answers.pose.now()),
        }
    }

    /// What drags snap to.
    pub(crate) fn snap(&self) -> Snap {
        let preferences = self.page.preferences;
        Snap::for_units(preferences.units.now(), preferences.snap.now())
    }

    /// Zooms so that what is at `about` stays there.
    pub(crate) fn zoom_about(&self, factor: f64, about: (f64, f64)) {
        let size = self.size.now();
        self.zoom.update(|zoom| *zoom = zoom.about(factor, about, size));
    }

    /// Zooms about the middle.
    pub(crate) fn zoom_by(&self, factor: f64) {
        let (width, height) = self.size.now();
        self.zoom_about(factor, (width / 2.0, height / 2.0));
    }

    /// Takes a drag back as if it had not begun.
    pub(crate) fn take_back(&self) {
        self.frames.with(Frames::forget);
        self.hands(Hands::let_go);
        self.page.session.dragging.set(None);
        self.page.session.set_moving(false);
        self.loupe.set(None);
        self.page.store.cancel();
    }
}
