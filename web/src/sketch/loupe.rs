//! The loupe: what a finger covers, beside it.

use crate::dom::{Node, loose, svg};
use crate::signals::Derived;
use crate::sketch::pad::Pad;
use drawing::Aspect;
use measure::fixed;

/// How much the loupe magnifies.
const LOUPE: f64 = 2.0;
/// How far its centre is from both edges, px.
const INSET_PX: f64 = 62.0;

/// The id of the shapes of a sketch.
pub(crate) fn shapes_id(aspect: Aspect) -> String {
    "shapes-".to_owned() + aspect.name()
}

/// A piece of the sketch, larger, away from the finger that covers it: the parts, and not what is written on them. A
/// browser makes the copy anew at every frame, and what is written would be a fifth of all that a frame costs.
pub(crate) fn loupe(pad: Pad) -> Node {
    // In the upper corner on the other side: off the thumb, and off the value that is dragged.
    let centre = Derived::new(move || {
        let width = pad.size.get().0;
        pad.loupe.get().map(|(x, _)| if x < width / 2.0 { width - INSET_PX } else { INSET_PX })
    });
    svg("g")
        .attr("class", "loupe")
        .attr("aria-hidden", "true")
        .content_of(move || centre.get().map_or_else(loose, |centre| glass(pad, centre)))
}

fn glass(pad: Pad, centre: f64) -> Node {
    let id = "loupe-".to_owned() + pad.aspect.name();
    let circle = |class| {
        svg("circle")
            .attr("class", class)
            .attr("cx", &fixed(centre, 1))
            .attr("cy", &fixed(INSET_PX, 1))
            .attr("r", "54")
    };
    let place = move || {
        let (x, y) = pad.loupe.get()?;
        let (right, down) = (fixed(centre - LOUPE * x, 1), fixed(INSET_PX - LOUPE * y, 1));
        Some(["translate(", &right, " ", &down, ") scale(", &fixed(LOUPE, 1), ")"].concat())
    };
    let copy =
        svg("use").attr("href", &("#".to_owned() + &shapes_id(pad.aspect))).attr_of("transform", place);
    loose()
        .child(svg("clipPath").attr("id", &id).child(circle("edge")))
        .child(circle("glass"))
        .child(svg("g").attr("clip-path", &["url(#", &id, ")"].concat()).child(copy))
        .child(circle("rim"))
}
