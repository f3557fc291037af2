//! The whole truck from the side: both axles to one scale, or its rear alone.
//!
//! Both wheels stand on the ground and the frame moves, as on the sketch.

use crate::aspect::{Aspect, Handle};
use crate::board::Board;
use crate::dimension::dimension;
use crate::geometry::Vec2;
use crate::labelling::{Labelling, heard, mark_of};
use crate::labels::Ask;
use crate::palette::Ink;
use crate::parts::ground::ground;
use crate::projection::Projection;
use crate::rear::RearSeen;
use crate::scene::{Scene, Shape};
use crate::shown::{Shown, Sketch};
use crate::stage::{chosen, finished, fit_box, handles, seen};
use crate::text;
use crate::transform::{Transform, View};
use crate::views::view_of;
use linkage::Point3;
use measure::{print_angle, spoken_angle};
use study::{Figure, IF_REAR_STAYS, RearRest, as_told};
use truck::{Readable, RearField, RearParts};

/// A headlamp is drawn so high, mm.
const LAMP_MM: f64 = 150.0;

const NOT_MEASURED: &str = "The rear draws itself once its leaf spring and its stand are measured.";

/// Which end of the truck a picture from the side shows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Ends {
    /// The front corner.
    #[default]
    Front,
    /// Both, to one scale.
    Both,
    /// The rear axle.
    Rear,
}

impl Ends {
    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Front => "Front end",
            Self::Both => "Whole truck",
            Self::Rear => "Rear end",
        }
    }

    /// The one that is looked at after it.
    #[must_use]
    pub const fn next(self) -> Self {
        match self {
            Self::Front => Self::Both,
            Self::Both => Self::Rear,
            Self::Rear => Self::Front,
        }
    }

    /// What can be taken hold of where it is drawn: of the whole truck, what brings an end down.
    const fn has(self, handle: Handle) -> bool {
        match self {
            Self::Front => true,
            Self::Both => matches!(handle, Handle::WheelCentre | Handle::RearBlock),
            Self::Rear => handle.is_rear(),
        }
    }
}

/// A truck with its rear, from its left; it says so where there is nothing to draw of the rear, without a
/// spring that is measured. Where its parts do not go together, or the plan says of it what they do not, it
/// says that beside the rear as measured.
#[must_use]
pub fn whole_truck(ends: Ends, sketch: &Sketch<'_>, view: &View) -> Scene {
    if ends == Ends::Front {
        return view_of(Aspect::Side, sketch, view);
    }
    let rest = sketch.now.rest;
    let side = rest.fitted.measured.side();
    let view = &seen(view, side);
    let projection = Projection::of(Aspect::Side, &sketch.now);
    let none = RearParts::default();
    let Ok(unchanged) = RearRest::laid(&rest.fitted.measured.rear, &none, 0.0) else {
        return Scene::message(NOT_MEASURED, view);
    };
    let (parts, stands, why) = match rest.stance().rear_rest() {
        Ok(stands) => (RearParts::of(&rest.fitted.rear), stands, None),
        Err(why) => (none, unchanged, Some(why)),
    };
    let measured = Projection::of(Aspect::Side, sketch.before.as_ref().unwrap_or(&sketch.now));
    let both = RearSeen::of(&projection, parts, stands).zip(RearSeen::of(&measured, none, unchanged));
    let Some((now, before)) = both else { return Scene::message(NOT_MEASURED, view) };
    let whole = Whole { ends, sketch, projection: &projection, now: &now, before: &before };
    let board = whole.drawn(view);
    let place = |handle| projection.place(handle).or_else(|| now.place(handle)).filter(|_| ends.has(handle));
    let handles = handles(&board, Aspect::Side, &place);
    let mut labelling = Labelling::new(&board, Aspect::Side, view, &handles);
    labelling.guessed = sketch.guessed.to_vec();
    let mut marks = Board::new(board.transform);
    if let Some((handle, at)) = sketch.selected.and_then(|handle| Some((handle, place(handle)?))) {
        labelling.tag(board.px(at), None, sketch.dragging.as_ref());
        chosen(&mut marks, at, Aspect::Side.ways(handle), sketch.dragging.is_some());
    }
    match why {
        Some(why) => labelling.message(&why.to_string(), board.px(now.rail())),
        None => whole.measures(&board, &mut labelling),
    }
    let mut scene = finished(board, marks, labelling, handles, side);
    ends.name().clone_into(&mut scene.title);
    scene
}

/// What stands on the picture.
struct Whole<'a> {
    ends: Ends,
    sketch: &'a Sketch<'a>,
    projection: &'a Projection<'a>,
    now: &'a RearSeen<'a>,
    before: &'a RearSeen<'a>,
}

impl Whole<'_> {
    /// The transform at which the truck as measured is seen. No movement changes it.
    fn fit(&self, view: &View) -> Transform {
        let [low, high] = self.before.extent();
        // Where buttons cover the middle too, it all stands below them.
        let across = view.covered_px.0 > 0.4 * view.width_px;
        let above_px = if across { view.covered_px.1 } else { 22.0 };
        if self.ends == Ends::Rear {
            return fit_box(low - Vec2(20.0, 0.0), high + Vec2(20.0, 30.0), 0.5, above_px, view);
        }
        let fitted = self.projection.fitted;
        let body = &fitted.measured.body;
        let front = fitted.tire.free_radius_mm().max(body.rail.front_x_mm).max(self.lamp_ahead_mm());
        let top = high.1.max(body.fender.lip_z_mm) + 60.0;
        fit_box(Vec2(-front - 90.0, 0.0), Vec2(high.0 + 60.0, top), 0.5, above_px, view)
    }

    fn drawn(&self, view: &View) -> Board {
        let mut board = Board::new(self.fit(view));
        if self.ends == Ends::Rear {
            ground(&mut board, view.width_px);
        } else {
            self.projection.draw(&mut board, self.sketch.before.as_ref(), view);
            board.part();
            self.lamp(&mut board);
        }
        board.part();
        self.now.wheel(&mut board);
        board.part();
        if self.sketch.before.is_some() {
            self.before.ghost(&mut board);
        }
        self.now.body(&mut board);
        board
    }

    fn lamp_ahead_mm(&self) -> f64 {
        self.projection.fitted.measured.rear.get(RearField::LampAhead).unwrap_or(0.0)
    }

    /// The middle of a headlamp; `None` where it is not measured.
    fn lamp_at(&self, ahead_mm: f64) -> Option<Vec2> {
        let rear = &self.projection.fitted.measured.rear;
        let (ahead, up) = (rear.get(RearField::LampAhead)?, rear.get(RearField::LampHeight)?);
        Some(self.projection.at(&Point3::new(ahead + ahead_mm, 0.0, up)))
    }

    /// A headlamp, and its beam, which was level as the truck was measured.
    fn lamp(&self, board: &mut Board) {
        if let (Some(lamp), Some(far)) = (self.lamp_at(0.0), self.lamp_at(4000.0)) {
            board.lines(Ink::Construction, &[lamp, far]);
            board.circle(Ink::Cavity, lamp, LAMP_MM / 2.0);
        }
    }

    fn measures(&self, board: &Board, labelling: &mut Labelling<'_>) {
        if self.ends == Ends::Rear {
            return self.now.measures(self.before, board, labelling);
        }
        self.front_height(board, labelling);
        // The front alone is in another pose than at rest.
        if self.sketch.now.travel_mm != 0.0 {
            return;
        }
        self.rear_height(board, labelling);
        self.nose(board, labelling);
        self.lamp_height(board, labelling);
    }

    fn front_height(&self, board: &Board, labelling: &mut Labelling<'_>) {
        let Shown { rest, pose, .. } = self.sketch.now;
        let rail = &rest.fitted.measured.body.rail;
        let ground_mm = rest.corner.attitude(pose).contact.z;
        let height_mm = as_told(rest, Readable::FrameHeight, rail.bottom_z_mm - ground_mm);
        let said = labelling.tell(Figure::FRAME_HEIGHT, &labelling.length(height_mm));
        let mark = labelling.mark(Figure::FRAME_HEIGHT);
        // Behind the tire, where nothing is in front of it.
        let behind = -1.3 * rest.fitted.tire.free_radius_mm();
        let [over, aside] = [0.0, behind.max(rail.rear_x_mm)]
            .map(|x| self.projection.at(&Point3::new(x, 0.0, rail.bottom_z_mm)));
        // As high as over the axle, where it is told.
        let at = Vec2(aside.0, over.1);
        upright(at, (mark, height_mm), said, board, labelling);
    }

    fn rear_height(&self, board: &Board, labelling: &mut Labelling<'_>) {
        let Some(height_mm) = self.now.frame_height_mm() else { return };
        let mark = self.now.mark();
        let said = labelling.say("Rear frame height", &heard(mark, &labelling.length(height_mm)));
        let at = self.now.rail() - Vec2(1.4 * self.now.radius_mm(), 0.0);
        upright(at, (mark, height_mm), said, board, labelling);
    }

    /// What stands before what hangs on both ends: where one of them may rest on a guess, rather one mark
    /// too many.
    fn mark(&self, labelling: &Labelling<'_>) -> &'static str {
        let is_guess = |figure| !labelling.mark(figure).is_empty();
        let of_front = is_guess(Figure::FRAME_HEIGHT) || is_guess(Figure::CASTER_GROUND);
        mark_of(of_front || !self.now.mark().is_empty())
    }

    /// How far the nose has sunk against as measured.
    fn nose(&self, board: &Board, labelling: &mut Labelling<'_>) {
        let mark = self.mark(labelling);
        let nose_rad = self.sketch.now.rest.nose_down_rad();
        // Half of what is printed: below it there is nothing to print.
        let (words, said) = if nose_rad.abs() < 0.05_f64.to_radians() {
            (["nose ", mark, "as it sits"].concat(), labelling.say("Nose", &heard(mark, "as it sits")))
        } else {
            let way = if nose_rad < 0.0 { "up " } else { "down " };
            let said =
                labelling.say("Nose", &heard(mark, &(way.to_owned() + &spoken_angle(nose_rad.abs(), 1))));
            (["nose ", way, mark, &print_angle(nose_rad.abs(), 1)].concat(), said)
        };
        // Above every frame there is, as it sits and now.
        let [_, high] = self.before.extent();
        let middle = 0.5 * self.projection.fitted.measured.body.wheelbase_mm;
        let at = board.px(Vec2(middle, high.1 + board.mm(labelling.type_px())));
        let mut ask = Ask::new(text::words(&words), Ink::TextInk, labelling.type_px(), at).spoken(said);
        ask.spots = vec![at];
        self.if_rear_stays(&mut ask, labelling);
        labelling.layout.place(ask);
    }

    /// Says under what is told of both ends what it holds under, where nobody knows how the rear stands.
    fn if_rear_stays(&self, ask: &mut Ask, labelling: &mut Labelling<'_>) {
        if !self.sketch.now.rest.rear_is_known() {
            ask.lines.push(text::words(IF_REAR_STAYS));
            ask.spoken = [&ask.spoken, ", ", IF_REAR_STAYS].concat();
            labelling.say("", IF_REAR_STAYS);
        }
    }

    fn lamp_height(&self, board: &Board, labelling: &mut Labelling<'_>) {
        let Some(lamp) = self.lamp_at(0.0) else { return };
        let Shown { rest, .. } = self.sketch.now;
        let Some(up_mm) = rest.fitted.measured.rear.get(RearField::LampHeight) else { return };
        let height_mm = up_mm - rest.stance().down_at_mm(self.lamp_ahead_mm());
        let mark = self.mark(labelling);
        let said = labelling.say("Headlamp, above the ground,", &heard(mark, &labelling.length(height_mm)));
        let at = board.px(lamp);
        let runs = text::phrase(&("lamp ".to_owned() + mark), height_mm, "", labelling.view.units);
        let mut ask = Ask::new(runs, Ink::TextDimension, labelling.type_px(), at).spoken(said);
        let (width, height) = ask.size();
        let reach = board.transform.px_per_mm() * LAMP_MM / 2.0;
        ask.spots = vec![
            (at.0, at.1 - reach - height / 2.0 - 2.0),
            (at.0 + reach + width / 2.0 + 4.0, at.1 - height),
            (at.0, at.1 + reach + height / 2.0 + 2.0),
        ];
        self.if_rear_stays(&mut ask, labelling);
        labelling.layout.place(ask);
    }
}

/// A height above the ground, as a dimension under a point, with its mark.
fn upright(
    at: Vec2,
    (mark, height_mm): (&str, f64),
    said: String,
    board: &Board,
    labelling: &mut Labelling<'_>,
) {
    let ends = [Vec2(at.0, 0.0), at].map(|end| board.px(end));
    let (x, y) = ends[1];
    labelling.shapes.push(Shape::line(Ink::Extension, &[(x - 6.0, y), (x + 6.0, y)]));
    let runs = text::phrase(mark, height_mm, "", labelling.view.units);
    let ask = Ask::new(runs, Ink::TextDimension, labelling.type_px(), ends[1]).spoken(said);
    dimension(&mut labelling.layout, &mut labelling.shapes, ends, ask, None);
}
