//! The map of one pair over travel and steer.

use super::{MAP, Panel};
use crate::dom::{Node, as_a, block};
use crate::signals::Derived;
use crate::widgets::picture;
use drawing::{ClearanceMap, Mark, Scene, View, Zoom, clearance_map};
use study::{Clearances, Figure, Found};
use web_sys::PointerEvent;

impl Panel {
    /// The map of the open pair.
    pub(super) fn map(self) -> Node {
        let scene = Derived::always(move || {
            let view = self.view();
            let mut scene = None;
            self.with_map(&mut |map| scene = Some(clearance_map(map, &view)));
            let none = || Scene::message("Nothing to show: no pair can be looked at yet.", &view);
            scene.unwrap_or_else(none)
        });
        let frame = block("div", "frame").attr("id", MAP).class_if("behind", move || self.is_behind());
        let element = frame.element().clone();
        crate::browser::size::follow(&element, self.size);
        let tap = move |event| {
            let event: PointerEvent = as_a(event);
            let rect = element.get_bounding_client_rect();
            let at = (f64::from(event.client_x()) - rect.left(), f64::from(event.client_y()) - rect.top());
            let view = self.view();
            self.with_map(&mut |map| {
                if let Some(mark) = map.mark_at(&view, at) {
                    self.page.session.travel_mm.set(mark.travel_mm);
                    self.page.session.steer_rad.set(mark.heading_rad);
                }
            });
        };
        block("div", "curve").child(frame.child(picture(scene)).on("click", tap))
    }

    fn view(self) -> View {
        let (width_px, height_px) = self.size.get();
        View {
            width_px,
            height_px,
            type_px: 12.0,
            units: self.page.units(),
            prefix: "clearance".to_owned(),
            zoom: Zoom::default(),
            covered_px: (0.0, 0.0),
        }
    }

    /// Looks at the map of the open pair: the settled one while there is one,
    /// even if it is behind.
    #[inline(never)]
    fn with_map(self, look: &mut dyn FnMut(&ClearanceMap<'_>)) {
        let old = self.settled.with(|settled| settled.as_ref().map(|(_, found, _)| found.clone()));
        let Some(whole) = old.or_else(|| self.answers.clearances.get()) else { return };
        let Some(found) = self.pair(&whole).and_then(|pair| whole.of_pair(pair)) else { return };
        let session = self.page.session;
        let sign = self.page.sign();
        let (headings_rad, distances_mm) = columns(&whole, found, sign);
        look(&ClearanceMap {
            title: [self.page.session.side.get().label(), " wheel: ", found.pair.label()].concat(),
            travels_mm: &whole.travels_mm,
            headings_rad: &headings_rad,
            distances_mm: &distances_mm,
            least: Mark { travel_mm: found.at.travel_mm, heading_rad: sign * found.at.heading_rad },
            least_mm: found.gap.distance_mm,
            is_guess: self.is_guess(Figure::least_room(found.pair)),
            here: Some(Mark { travel_mm: session.travel_mm.get(), heading_rad: session.steer_rad.get() }),
        });
    }
}

/// The headings of a map, + to the left of the truck, and the distances in their columns.
#[inline(never)]
fn columns(whole: &Clearances, found: &Found, sign: f64) -> (Vec<f64>, Vec<f64>) {
    let (mut headings_rad, mut distances_mm) = (whole.headings_rad.clone(), found.map.clone());
    if sign < 0.0 {
        // A right corner is mirrored, and so is its map.
        let count = headings_rad.len();
        headings_rad.reverse();
        headings_rad.iter_mut().for_each(|heading| *heading = -*heading);
        distances_mm.chunks_mut(count).for_each(<[f64]>::reverse);
    }
    (headings_rad, distances_mm)
}
