//! What fingers and mouse are doing on a sketch: dragging a handle, or moving the picture.

use crate::sketch::gesture::{Start, slowed};
use drawing::{Handle, Transform};
use truck::Edit;

/// Where a pointer is on the sketch, px right and down.
pub(crate) type Px = (f64, f64);

/// A pointer that moves less than this holds still, CSS px.
const STILL_PX: f64 = 3.0;

/// A drag under way.
pub(crate) struct Drag {
    /// The pointer that drags.
    pub(crate) pointer: i32,
    /// What is dragged, and how it all stood.
    pub(crate) start: Start,
    /// Where the pointer took hold.
    pub(crate) from: Px,
    /// Where it is.
    pub(crate) at: Px,
    /// The scale at which it did.
    pub(crate) scale: Transform,
    /// Whether it has gone far enough to be no tap.
    pub(crate) moved: bool,
    /// Where it was when it last moved by more than a hand trembles.
    pub(crate) still: Px,
    /// Where it was held still, and has been slow from there on.
    pub(crate) slow: Option<Px>,
    /// What it comes to by now, or came to as far as the parts reach.
    pub(crate) edit: Option<Edit>,
    /// Whether it is past that.
    pub(crate) past: bool,
}

impl Drag {
    /// How far it has come, px right and down.
    pub(crate) fn by(&self) -> Px {
        let slow = self.slow.unwrap_or(self.from);
        let along = |from, slow, at| if self.slow.is_some() { slowed(from, slow, at) } else { at - from };
        (along(self.from.0, slow.0, self.at.0), along(self.from.1, slow.1, self.at.1))
    }
}

/// What fingers and mouse are doing.
#[derive(Default)]
pub(crate) struct Hands {
    /// The drag under way.
    pub(crate) drag: Option<Drag>,
    /// The handles that were within reach of the pointer that dragged last.
    pub(crate) near: Vec<Handle>,
    /// Pointers on the sketch that drag nothing.
    loose: Vec<(i32, Px)>,
}

impl Hands {
    /// Whether anything is on the sketch already.
    pub(crate) const fn are_busy(&self) -> bool {
        self.drag.is_some() || !self.loose.is_empty()
    }

    /// Whether a pointer is the one that drags.
    pub(crate) fn drag_with(&self, pointer: i32) -> bool {
        self.drag.as_ref().is_some_and(|drag| drag.pointer == pointer)
    }

    /// A pointer comes down that drags nothing.
    pub(crate) fn put_down(&mut self, pointer: i32, at: Px) {
        self.loose.push((pointer, at));
    }

    /// A pointer is gone, and with it what it dragged.
    pub(crate) fn lift(&mut self, pointer: i32) {
        self.loose.retain(|(loose, _)| *loose != pointer);
        self.drag.take_if(|drag| drag.pointer == pointer);
    }

    /// The pointer that drags is somewhere else. Gives whether it may be held still there, and the drag be slow
    /// from there on.
    pub(crate) fn drag_to(&mut self, to: Px) -> bool {
        let Some(drag) = &mut self.drag else { return false };
        drag.at = to;
        let is_new = drag.slow.is_none() && !is_near(drag.still, to);
        if is_new {
            drag.still = to;
        }
        is_new
    }

    /// Makes a drag slow that is still held where it was; gives where that is.
    pub(crate) fn slow_down(&mut self, still: Px) -> Option<Px> {
        let drag = self.drag.as_mut().filter(|drag| drag.moved && is_near(drag.still, still))?;
        drag.slow.get_or_insert(drag.at);
        Some(drag.at)
    }

    /// Drags no longer: the pointer stays down where it is, and drags nothing.
    pub(crate) fn let_go(&mut self) {
        if let Some(drag) = self.drag.take() {
            self.put_down(drag.pointer, drag.at);
        }
    }

    /// Moves a pointer that drags nothing: where it was, and where another one is; `None` where
    /// it is not on the sketch.
    pub(crate) fn shift(&mut self, pointer: i32, to: Px) -> Option<(Px, Option<Px>)> {
        let other = self.loose.iter().find(|(other, _)| *other != pointer).map(|(_, at)| *at);
        let (_, at) = self.loose.iter_mut().find(|(loose, _)| *loose == pointer)?;
        Some((std::mem::replace(at, to), other))
    }
}

/// Whether one place is no farther from another than a hand trembles.
fn is_near(a: Px, b: Px) -> bool {
    (a.0 - b.0).abs().max((a.1 - b.1).abs()) <= STILL_PX
}

#[cfg(test)]
mod tests {
    use super::*;
    use drawing::Aspect;
    use truck::{Side, demo};

    const FINGER: i32 = 7;
    const OTHER: i32 = 8;

    fn dragging(from: Px) -> Hands {
        let start = Start {
            aspect: Aspect::Front,
            handle: Handle::WheelCentre,
            proposal: None,
            side: Side::Left,
            design: demo(),
            posed: None,
        };
        let scale = Transform::new(1.0, (0.0, 0.0));
        let drag = Drag {
            pointer: FINGER,
            start,
            from,
            at: from,
            scale,
            moved: false,
            still: from,
            slow: None,
            edit: None,
            past: false,
        };
        Hands { drag: Some(drag), ..Hands::default() }
    }

    /// What the browser takes away comes back by no event: were it still counted as on the sketch, no
    /// handle could be taken any more.
    #[test]
    fn a_pointer_that_is_taken_away_leaves_nothing_behind() {
        let mut hands = dragging((3.0, 4.0));
        hands.lift(FINGER);
        hands.let_go();
        assert!(!hands.are_busy());
        let mut hands = dragging((3.0, 4.0));
        hands.let_go();
        assert!(hands.are_busy(), "its finger is still down");
        hands.lift(FINGER);
        assert!(!hands.are_busy());
        // Another's going leaves a drag alone.
        let mut hands = dragging((3.0, 4.0));
        hands.lift(OTHER);
        assert!(hands.drag_with(FINGER));
    }

    /// A second finger takes the drag back: the picture then moves from where the first one is by now,
    /// and not from where it took hold.
    #[test]
    fn a_drag_that_is_taken_back_leaves_its_pointer_where_it_is() {
        let mut hands = dragging((3.0, 4.0));
        hands.drag_to((50.0, 60.0));
        hands.let_go();
        hands.put_down(OTHER, (90.0, 60.0));
        assert_eq!(hands.shift(FINGER, (51.0, 60.0)), Some(((50.0, 60.0), Some((90.0, 60.0)))));
        assert_eq!(hands.shift(OTHER, (91.0, 60.0)), Some(((90.0, 60.0), Some((51.0, 60.0)))));
    }

    /// A hand trembles by a pixel or two; and a moment in which a drag was still counts for nothing once it
    /// has gone on, or is another one.
    #[test]
    fn a_drag_is_slow_once_it_is_held_where_it_has_moved_to() {
        let mut hands = dragging((3.0, 4.0));
        assert!(!hands.drag_to((4.0, 2.0)), "it has not left where it took hold");
        assert!(hands.drag_to((3.0, 44.0)));
        assert_eq!(hands.slow_down((3.0, 44.0)), None, "nothing was drawn of it yet");
        hands.drag.as_mut().unwrap().moved = true;
        assert!(!hands.drag_to((5.0, 42.0)), "that is the same place");
        assert_eq!(hands.slow_down((60.0, 44.0)), None);
        assert_eq!(hands.drag.as_ref().unwrap().by(), (2.0, 38.0));
        assert_eq!(hands.slow_down((3.0, 44.0)), Some((5.0, 42.0)));
        assert_eq!(hands.drag.as_ref().unwrap().by(), (2.0, 38.0), "nothing jumps");
        assert!(!hands.drag_to((5.0, 82.0)), "it is slow already");
        assert_eq!(hands.drag.as_ref().unwrap().by(), (2.0, 48.0));
    }
}
