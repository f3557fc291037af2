//! The one number that the cursor is in, as a tape on a small picture above its field.

use crate::derive::Answers;
use crate::dom::block;
use crate::signals::{Derived, Value};
use crate::state::Page;
use crate::widgets::picture;
use drawing::{Scene, Shown, Taped, View, Zoom, taped};
use truck::{Field, Readable};
use web_sys::Element;

/// The attribute of a field that says by its key what is typed there.
pub(super) const ASKS: &str = "data-asks";
/// What scrolls, and what lies over its upper edge.
const SCROLLERS: [(&str, &str); 2] = [(".pane", ".grip"), (".panels", "nav")];

/// The picture, and which number's tape is on it.
#[derive(Clone)]
pub(super) struct Tape {
    figure: Element,
    asked: Value<Option<Taped>>,
    scene: Derived<Scene>,
}

impl Tape {
    #[inline(never)]
    pub(super) fn new(page: Page, answers: Answers) -> Self {
        let asked = Value::new(None);
        let scene = Derived::always(move || {
            let view = View {
                width_px: 300.0,
                height_px: 124.0,
                type_px: 12.0,
                units: page.units(),
                prefix: "tape".to_owned(),
                zoom: Zoom::default(),
                covered_px: (0.0, 0.0),
            };
            let drawn = |of| {
                answers.before.with(|before| {
                    let rest = before.as_ref().as_ref().ok()?;
                    let pose = &rest.pose;
                    taped(of, &Shown { rest, pose, gaps: &[], travel_left: None, travel_mm: 0.0 }, &view)
                })
            };
            asked.get().and_then(drawn).unwrap_or_else(|| Scene::empty(&view))
        });
        let figure = block("figure", "taped").child(picture(scene)).element().clone();
        Self { figure, asked, scene }
    }

    /// Puts it over a field; what no view shows has none.
    fn over(&self, field: &Element) {
        let key = field.get_attribute(ASKS).unwrap_or_default();
        let reading = || Readable::from_key(&key).map(Taped::Read);
        self.asked.set(Field::from_key(&key).map(Taped::Number).or_else(reading));
        if self.scene.with_now(|scene| scene.shapes.is_empty()) {
            self.figure.remove();
        } else {
            let _ = field.insert_adjacent_element("beforebegin", &self.figure);
        }
    }

    /// Puts it over the field that the cursor has come to, and does the rest that is to be done there. What was
    /// come to stays where it is seen, unless the picture over it would be out of sight.
    #[inline(never)]
    pub(super) fn come_to(&self, here: &Element, and: impl FnOnce()) {
        let top = |of: &Element| of.get_bounding_client_rect().top();
        let was = top(here);
        if let Ok(Some(field)) = here.closest("[data-asks]") {
            self.over(&field);
        }
        and();
        for (of, over) in SCROLLERS {
            let Ok(Some(scroller)) = here.closest(of) else { continue };
            let by = |px: f64| {
                #[expect(clippy::cast_possible_truncation, reason = "a length on a screen")]
                scroller.set_scroll_top(scroller.scroll_top() + px.round() as i32);
            };
            by(top(here) - was);
            if let Ok(Some(over)) = scroller.query_selector(over)
                && self.figure.is_connected()
            {
                by((top(&self.figure) - over.get_bounding_client_rect().bottom()).min(0.0));
            }
        }
    }
}
