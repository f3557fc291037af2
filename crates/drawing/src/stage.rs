//! What every picture of the truck has in common: how large it is seen, the chosen handle, two ends
//! that do not meet, and the scene that is made of it all.

use crate::aspect::{Aspect, Handle};
use crate::board::Board;
use crate::dimension::arrow;
use crate::geometry::{Axes, Vec2};
use crate::labelling::Labelling;
use crate::palette::Ink;
use crate::scene::{Scene, gather};
use crate::transform::{Transform, View, Zoom};
use truck::Side;

/// The transform at which a box of the picture's millimetres is seen; `share` of
/// the width that it leaves lies on its left, `above_px` stay free above it.
pub(crate) fn fit_box(low: Vec2, high: Vec2, share: f64, above_px: f64, view: &View) -> Transform {
    let (below_px, above_px) = (15.0, above_px);
    let size = high - low;
    let (wide, tall) = (view.width_px, (view.height_px - below_px - above_px).max(20.0));
    let scale = (wide / size.0).min(tall / size.1).max(1e-3);
    let spare = Vec2(wide - size.0 * scale, tall - size.1 * scale);
    let origin =
        (spare.0.max(0.0) * share - low.0 * scale, above_px + tall - spare.1.max(0.0) * 0.3 + low.1 * scale);
    let Zoom { scale: zoom, pan_px } = view.zoom;
    let middle = (view.width_px / 2.0, view.height_px / 2.0);
    let zoomed = |at: f64, middle: f64, pan: f64| middle + (at - middle) * zoom + pan;
    Transform::new(scale * zoom, (zoomed(origin.0, middle.0, pan_px.0), zoomed(origin.1, middle.1, pan_px.1)))
}

/// Each handle of a picture and where it is, px.
pub(crate) fn handles(
    board: &Board,
    aspect: Aspect,
    place: &dyn Fn(Handle) -> Option<Vec2>,
) -> Vec<(Handle, f64, f64)> {
    let placed = |handle: &Handle| {
        let (x, y) = board.px(place(*handle)?);
        Some((*handle, x, y))
    };
    aspect.handles().iter().filter_map(placed).collect()
}

/// The ring around the chosen handle, and the ways it can be dragged: sideways, up and down.
pub(crate) fn chosen(board: &mut Board, at: Vec2, [sideways, upright]: [bool; 2], dragged: bool) {
    let ring = board.mm(if dragged { 15.0 } else { 13.0 });
    board.circle(Ink::Accent, at, ring);
    let (x, y) = board.px(at);
    let reach = if dragged { 26.0 } else { 23.0 };
    for (way, drawn) in
        [((0.0, -1.0), upright), ((0.0, 1.0), upright), ((1.0, 0.0), sideways), ((-1.0, 0.0), sideways)]
    {
        if drawn {
            let tip = (x + way.0 * reach, y + way.1 * reach);
            board.shapes.push(arrow(Ink::AccentSolid, tip, way));
        }
    }
}

/// Two ends that do not meet: a dashed line between them, and a torn edge across it.
pub(crate) fn gap(board: &mut Board, from: Vec2, to: Vec2) {
    board.lines(Ink::Gap, &[from, to]);
    let axes = Axes::new(from.towards(to, 0.5), to - from);
    let (step, reach) = (board.mm(4.0), board.mm(5.0));
    let zigzag = [(-1.0, -3.0), (1.0, -1.5), (-1.0, 0.0), (1.0, 1.5), (-1.0, 3.0)]
        .map(|(along, across)| axes.at(along * reach, across * step));
    board.lines(Ink::Accent, &zigzag);
    for end in [from, to] {
        let ring = board.mm(10.0);
        board.circle(Ink::Accent, end, ring);
    }
}

/// The view in which a side's corner is drawn.
pub(crate) fn seen(view: &View, side: Side) -> View {
    if side == Side::Right { view.behind_the_mirror() } else { view.clone() }
}

/// A picture of what was drawn, said and marked.
pub(crate) fn finished(
    board: Board,
    marks: Board,
    labelling: Labelling<'_>,
    handles: Vec<(Handle, f64, f64)>,
    side: Side,
) -> Scene {
    let mut scene = Scene::empty(labelling.view);
    scene.title.push_str(labelling.aspect.title(side));
    scene.description = labelling.spoken;
    scene.transform = board.transform;
    scene.handles = handles;
    scene.shapes = board.shapes;
    scene.parts = board.parts;
    scene.parts.push(scene.shapes.len());
    let mut notes = labelling.layout.leaders;
    notes.extend(labelling.shapes);
    notes.extend(marks.shapes);
    gather(&mut scene.shapes, notes);
    scene.labels = labelling.layout.labels;
    scene.overflow = labelling.layout.overflow;
    if side == Side::Right { scene.mirrored() } else { scene }
}
