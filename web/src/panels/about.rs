//! What to be careful of, and what the sketch does not know.

use crate::dom::{Node, block, el};

const CAUTIONS: &[(&str, &str)] = &[
    (
        "Work on stands",
        "Stands under the frame, wheels chocked, never a jack alone. Never jack an arm past where the body starts to lift.",
    ),
    (
        "A torsion bar stores energy",
        "Enough to kill. Unload it fully, in steps, from the side. Bars are preset and handed: mark which side and which way round. A nicked bar is scrap.",
    ),
    (
        "Springs",
        "No coil is cut with a torch. A spring that is loose at full droop can leave its seat; an anchor can come out. Some inspections fail a cut spring.",
    ),
    ("Knuckle, steering arm, bar", "Nothing is welded, heated, bent or ground on them. Ever."),
    (
        "Before you measure",
        "Play in idler, pitman, ball joints and box makes every number here worthless. Mend that first.",
    ),
    (
        "After the parts are on",
        "Brake hoses at full droop and full lock. Ball joints not at the end of their swing. Rubber-bushed pivots tightened at the new height, not hanging. Bigger front brakes change the balance; a rod-operated rear valve misreads a lowered rear.",
    ),
    (
        "Then",
        "Have it aligned and inspected by someone licensed to. Your local rules decide what is allowed: heights, cut springs, scrub line.",
    ),
];

const LIMITS: &[&str] = &[
    "Front suspension with two arms a side, front wheels not driven. No beam, twin-beam or strut front ends.",
    "Stiff parts: bushings and tires do not give. A sixteenth on the tape moves most answers by about a sixteenth.",
    "Steering stays straight ahead in this sketch; the tire's room at full lock is not in it yet.",
    "A number marked ~ rests on something assumed. It is no verdict.",
];

/// The panel.
#[inline(never)]
pub(crate) fn about() -> Node {
    let pair = |(name, text): &(&str, &str)| [el("dt").text(name), el("dd").text(text)];
    block("section", "panel")
        .attr("aria-label", "Cautions")
        .child(el("h2").text("Cautions"))
        .child(block("dl", "cautions").children(CAUTIONS.iter().flat_map(pair)))
        .child(el("h3").text("What the sketch does not know"))
        .child(el("ul").children(LIMITS.iter().map(|line| el("li").text(line))))
}
