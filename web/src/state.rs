//! What the page holds, in three kinds that never mix: the design with its
//! history, the reader's preferences, and the moment's view.

mod store;

pub use store::{History, Look, Selected, Store};

use crate::hunt::Hunt;
use crate::signals::{Derived, Value};
use drawing::{Aspect, Ends, Handle, Units};
use leptos::prelude::untrack;
use sharing::{Opening, Shared};
use std::ops::Deref;
use study::Figure;
use truck::{Design, Edit, EditError, Field, PartId, ProposalId, Readable, RearField, Side};

/// The panels of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Panel {
    /// The changes of the proposal.
    Parts,
    /// The proposals beside each other.
    Compare,
    /// Curves over the travel.
    Travel,
    /// What comes near what.
    Clearance,
    /// Which parts bring it down.
    Ways,
    /// How to set it up.
    Setup,
    /// The rear axle on its springs.
    Rear,
    /// Which parts go together.
    BoltUp,
    /// The measured numbers.
    Measure,
    /// Lessons on the sketch.
    Lessons,
    /// What somebody sent: a link leads to it, and for as long as it is as it came a button.
    Theirs,
    /// Every design that is kept in the browser.
    Kept,
    /// Link, file, picture.
    Share,
    /// Cautions and limits.
    About,
}

impl Panel {
    /// Every panel that is always there: the four that one goes to and fro between, then the others.
    pub(crate) const ALL: [Self; 13] = [
        Self::Measure,
        Self::Parts,
        Self::Clearance,
        Self::Compare,
        Self::Travel,
        Self::Setup,
        Self::Ways,
        Self::Rear,
        Self::BoltUp,
        Self::Lessons,
        Self::Kept,
        Self::Share,
        Self::About,
    ];

    /// How high it is opened: what is worked on with an eye on the sketch leaves that in sight.
    pub(crate) const fn opens_at(self) -> PaneHeight {
        match self {
            Self::Parts | Self::Clearance | Self::Travel | Self::Lessons | Self::Theirs => PaneHeight::Half,
            _ => PaneHeight::Full,
        }
    }

    /// Its name, wherever it is spoken of.
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::Parts => "Parts",
            Self::Compare => "Compare",
            Self::Travel => "Curves",
            Self::Clearance => "What hits",
            Self::Ways => "Find a drop",
            Self::Setup => "Alignment",
            Self::Rear => "The rear",
            Self::BoltUp => "Bolts up",
            Self::Measure => "My truck",
            Self::Lessons => "Lessons",
            Self::Theirs => "From a link",
            Self::Kept => "My trucks",
            Self::Share => "Send",
            Self::About => "Safety",
        }
    }
}

/// How high a phone's pane stands over its sketch. A desk has room for both and does not ask.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum PaneHeight {
    /// The sketch alone, with its answers.
    Lowered,
    /// Under the sketch, which is lower for it.
    Half,
    /// In place of the sketch.
    Full,
}

impl PaneHeight {
    /// Its name in the style sheet.
    pub(crate) const fn key(self) -> &'static str {
        match self {
            Self::Lowered => "lowered",
            Self::Half => "half",
            Self::Full => "full",
        }
    }

    /// One step up.
    pub(crate) const fn taller(self) -> Self {
        if matches!(self, Self::Lowered) { Self::Half } else { Self::Full }
    }

    /// One step down.
    pub(crate) const fn lower(self) -> Self {
        if matches!(self, Self::Full) { Self::Half } else { Self::Lowered }
    }
}

/// The reader's preferences: kept in the browser, never in a link's design.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Preferences {
    /// Inches or millimetres.
    pub(crate) units: Value<Units>,
    /// Whether the reader chose the units; a link's units then do not count.
    pub(crate) units_chosen: Value<bool>,
    /// Whether drags snap to sixteenths or whole millimetres.
    pub(crate) snap: Value<bool>,
}

/// The moment's view: kept nowhere, never undone.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Session {
    /// What is on the sketch.
    pub(crate) selected: Value<Selected>,
    /// The side of the truck that is looked at and measured.
    pub(crate) side: Value<Side>,
    /// Travel shown, mm, + bump, from the rest of what is shown.
    pub(crate) travel_mm: Value<f64>,
    /// Heading of the wheel on the sketch with the truck at rest, + to the left, rad.
    pub(crate) steer_rad: Value<f64>,
    /// From where the truck is looked at, where there is room for one picture.
    pub(crate) aspect: Value<Aspect>,
    /// Which end of the truck is to be seen from the side, where its rear can be drawn: [`Page::ends`].
    pub(crate) ends: Value<Ends>,
    /// The handle that keys act on.
    pub(crate) handle: Value<Option<Handle>>,
    /// What is being dragged, in words, and on which picture, while a drag lasts.
    pub(crate) dragging: Value<Option<(Aspect, String)>>,
    /// Whether what is dragged has moved a moment ago: what then takes too long waits until it rests.
    pub(crate) is_moving: Value<bool>,
    /// The open panel.
    pub(crate) panel: Value<Panel>,
    /// How high it stands on a phone.
    pub(crate) pane_height: Value<PaneHeight>,
    /// The answer that was measured, until the cursor is in the field for it.
    pub(crate) to_read: Value<Option<Readable>>,
    /// The answer that was measured with a plan on the sketch, until it is asked when.
    pub(crate) measured: Value<Option<Readable>>,
    /// The part whose rows are asked for in Bolts up.
    pub(crate) in_hand: Value<Option<PartId>>,
    /// The number whose field is to be opened for typing in Measure.
    pub(crate) to_measure: Value<Option<Field>>,
    /// One sentence at the top of the page.
    pub(crate) notice: Value<Option<Notice>>,
    /// The search for ways down.
    pub(crate) hunt: Value<Hunt>,
    /// The lesson under way.
    pub(crate) lesson: Value<Option<Lesson>>,
    /// Whether all type is large, to be read across a room.
    pub(crate) projector: Value<bool>,
    /// What of the sketch a lesson's step speaks of.
    pub(crate) spoken_of: Value<Vec<Figure>>,
}

/// A lesson under way.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Lesson {
    /// Ten times the lesson and the step, each counted from 1: as in a link.
    pub(crate) at: u8,
    /// What was on the page before, which comes back when the lesson is left.
    pub(crate) own: Shared,
    /// Its number on the shelf.
    pub(crate) number: usize,
}

/// A sentence at the top of the page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Notice {
    /// The sentence.
    pub(crate) text: String,
    /// What it says of the last edit.
    pub(crate) tone: Tone,
}

/// What a sentence says of the last edit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Tone {
    /// Nothing.
    Plain,
    /// That it was made: Undo stands beside it, until there is another.
    Done,
    /// That something went wrong.
    Wrong,
}

impl Lesson {
    /// How many steps each has: a link leads to one before its words are there.
    pub(crate) const STEPS: [u8; 11] = [8, 7, 6, 6, 6, 7, 6, 6, 5, 6, 6];

    /// How many steps the lesson of one has; none where there is no such lesson.
    pub(crate) fn steps(at: u8) -> u8 {
        let lesson = usize::from(at / 10).checked_sub(1);
        lesson.and_then(|lesson| Self::STEPS.get(lesson)).copied().unwrap_or(0)
    }

    /// Whether there is such a step.
    pub(crate) fn is_there(at: u8) -> bool {
        (1..=Self::steps(at)).contains(&(at % 10))
    }

    /// The id of a step's words in `words.html`.
    pub(crate) fn words(at: u8) -> String {
        ["words-lesson-", &(at / 10).to_string(), "-", &(at % 10).to_string()].concat()
    }
}

impl Session {
    /// As measured, at rest, with the first panel open.
    pub(crate) fn new() -> Self {
        Self {
            selected: Value::new(Selected::AsMeasured),
            side: Value::new(Side::Left),
            travel_mm: Value::new(0.0),
            steer_rad: Value::new(0.0),
            aspect: Value::new(Aspect::Front),
            ends: Value::new(Ends::Front),
            handle: Value::new(None),
            dragging: Value::new(None),
            is_moving: Value::new(false),
            panel: Value::new(Panel::Parts),
            pane_height: Value::new(PaneHeight::Lowered),
            to_read: Value::new(None),
            measured: Value::new(None),
            to_measure: Value::new(None),
            notice: Value::new(None),
            hunt: Value::new(Hunt::new()),
            lesson: Value::new(None),
            projector: Value::new(false),
            spoken_of: Value::new(Vec::new()),
            in_hand: Value::new(None),
        }
    }

    /// What is looked at, not followed.
    pub(crate) fn look(&self) -> Look {
        Look {
            selected: self.selected.now(),
            side: self.side.now(),
            travel_mm: self.travel_mm.now(),
            steer_rad: self.steer_rad.now(),
        }
    }

    /// Looks at something else.
    #[inline(never)]
    pub(crate) fn look_at(&self, look: Look) {
        self.selected.set(look.selected);
        self.side.set(look.side);
        self.travel_mm.set(look.travel_mm);
        self.steer_rad.set(look.steer_rad);
    }

    /// Opens a panel.
    #[inline(never)]
    pub(crate) fn turn_to(&self, panel: Panel) {
        self.panel.set(panel);
        self.pane_height.set(panel.opens_at());
    }

    /// The size of a drawing's type, CSS px, where `plain_px` is read at arm's length.
    pub(crate) fn type_px(&self, plain_px: f64) -> f64 {
        if self.projector.get() { plain_px * 1.5 } else { plain_px }
    }

    /// What alone is written on the sketch: before a class what a step speaks of.
    pub(crate) fn written_alone(&self) -> Option<Vec<Figure>> {
        let is_class = self.projector.get() && self.lesson.with(Option::is_some);
        is_class.then(|| self.spoken_of.get())
    }

    /// Sets whether what is dragged moves, or rests.
    pub(crate) fn set_moving(&self, is_moving: bool) {
        if self.is_moving.now() != is_moving {
            self.is_moving.set(is_moving);
        }
    }

    /// Says something at the top of the page.
    pub(crate) fn say(&self, text: impl Into<String>) {
        self.put_notice(text.into(), Tone::Plain);
    }

    /// Says what was done, with Undo beside it where that was a step to undo.
    pub(crate) fn done(&self, text: &str, is_step: bool) {
        self.put_notice(text.to_owned(), if is_step { Tone::Done } else { Tone::Plain });
    }

    /// Takes back what was said of an edit that is no longer the last.
    #[inline(never)]
    fn forget_done(&self) {
        if self.notice.with_now(|notice| notice.as_ref().is_some_and(|notice| notice.tone == Tone::Done)) {
            self.notice.set(None);
        }
    }

    #[inline(never)]
    fn put_notice(&self, text: String, tone: Tone) {
        self.notice.set(Some(Notice { text, tone }));
    }

    /// Says a sentence after what is said already.
    pub(crate) fn say_too(&self, text: &str) {
        self.notice.update(|notice| {
            if let Some(notice) = notice {
                notice.text.push(' ');
                notice.text.push_str(text);
            }
        });
    }

    /// Says at the top of the page what went wrong.
    pub(crate) fn complain(&self, text: impl Into<String>) {
        self.put_notice(text.into(), Tone::Wrong);
    }
}

/// Everything the page is made of, which stands as long as the page does. Copies are the same page; a closure
/// that keeps one keeps a pointer and not two dozen signals: three kilobytes of the download.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Page(&'static Parts);

/// The kinds of state together, for whoever needs them.
#[derive(Debug)]
pub(crate) struct Parts {
    /// The design.
    pub(crate) store: Store,
    /// The reader's preferences.
    pub(crate) preferences: Preferences,
    /// The moment's view.
    pub(crate) session: Session,
    /// What came by the last link, where it was somebody else's, and its number.
    pub(crate) came: Value<Option<(usize, Design)>>,
    /// What is on the sketch, looked up once however many ask at every frame of a drag.
    selected: Derived<Selected>,
}

impl Deref for Page {
    type Target = Parts;

    fn deref(&self) -> &Parts {
        self.0
    }
}

impl Page {
    /// A page of these.
    pub(crate) fn new(store: Store, preferences: Preferences, session: Session) -> Self {
        let selected = Derived::new(move || {
            let selected = session.selected.get();
            let there = |id| store.shown().with(|design| design.proposal(id).is_some());
            if selected.proposal().is_none_or(there) { selected } else { Selected::AsMeasured }
        });
        Self(Box::leak(Box::new(Parts { store, preferences, session, came: Value::new(None), selected })))
    }

    /// The reader's units.
    pub(crate) fn units(&self) -> Units {
        self.preferences.units.get()
    }

    /// [`Side::sign`] of the side on the sketch, followed.
    pub(crate) fn sign(&self) -> f64 {
        self.session.side.get().sign()
    }

    /// Whether the rear can be drawn: what there is to see hangs on its spring.
    pub(crate) fn has_rear_spring(&self) -> bool {
        self.store.shown().with(|design| design.truck.rear.get(RearField::Span).is_some())
    }

    /// Which end of the truck is seen from the side: of one whose rear nobody has measured the front.
    pub(crate) fn ends(&self) -> Ends {
        if self.has_rear_spring() { self.session.ends.get() } else { Ends::Front }
    }

    /// Looks at the truck from the side.
    pub(crate) fn look_from_the_side(&self, ends: Ends) {
        self.session.aspect.set(Aspect::Side);
        self.session.ends.set(ends);
    }

    /// What is on the sketch: as measured where the selected proposal is gone,
    /// by undo or by a link.
    pub(crate) fn selected(&self) -> Selected {
        self.selected.get()
    }

    /// The same, without following it.
    pub(crate) fn selected_now(&self) -> Selected {
        self.selected.now()
    }

    /// Leads to the field for what was read of an answer; with a plan on the sketch it is asked first when it was.
    #[inline(never)]
    pub(crate) fn lead_to_reading(&self, of: Option<Readable>) {
        let is_plan = self.selected_now().proposal().is_some();
        if is_plan { self.session.measured } else { self.session.to_read }.set(of);
    }

    /// Makes an edit; a refusal is said at the top of the page.
    pub(crate) fn edit(&self, edit: &Edit) {
        self.edit_and_say(edit, None);
    }

    /// Puts a copy of a plan behind it, by another name, and on the sketch.
    #[inline(never)]
    pub(crate) fn copy(&self, id: ProposalId, name: String) {
        let here = self.store.committed_now();
        match here.edited(&Edit::CopyProposal(id, name)) {
            Ok(copied) => {
                self.replace(copied, self.store.number_now());
                self.session.selected.set(Selected::Proposal(here.free_id()));
            }
            Err(why) => self.session.complain(why.to_string() + "."),
        }
    }

    /// What an answer is called: as no plan that is there.
    fn answer_name(&self) -> String {
        const NAME: &str = "My answer";
        let plans = self.store.committed_now().proposals;
        let mut name = NAME.to_owned();
        let mut at = 1;
        while plans.iter().any(|plan| plan.name == name) {
            at += 1;
            name = [NAME, " ", &usize::to_string(&at)].concat();
        }
        name
    }

    /// What somebody sent, where the design on the page began as that; not followed.
    pub(crate) fn sent(&self) -> Option<Design> {
        let number = self.store.number_now();
        self.came.with_now(|came| came.clone()).filter(|(came, _)| *came == number).map(|(_, design)| design)
    }

    /// Whether the design on the page is what somebody sent, as it came, followed.
    pub(crate) fn is_as_sent(&self) -> bool {
        self.came.with(|came| {
            came.as_ref().is_some_and(|(_, came)| self.store.with_committed(|here| here == came))
        })
    }

    /// Whether a plan is one that somebody sent, as they sent it, whatever id it has by now.
    fn is_theirs(&self, id: ProposalId) -> bool {
        let here = self.store.committed_now();
        let (Some(sent), Some(plan)) = (self.sent(), here.proposal(id)) else { return false };
        sent.proposals.iter().any(|theirs| theirs.is_but_for_id(plan))
    }

    /// Makes an edit; a refusal is said at the top of the page, and what was done, where that is given, with Undo beside it.
    #[inline(never)]
    pub(crate) fn edit_and_say(&self, edit: &Edit, done: Option<&str>) {
        match self.make(edit) {
            Err(why) => self.session.complain(why.to_string() + "."),
            Ok((is_step, said)) => {
                let done = done.unwrap_or_default();
                let between = if done.is_empty() || said.is_empty() { "" } else { " " };
                let said = [done, between, said].concat();
                if !said.is_empty() {
                    self.session.done(&said, is_step);
                }
            }
        }
    }

    /// Makes an edit whose refusal is said elsewhere; gives whether it is a step to undo.
    ///
    /// # Errors
    /// [`EditError`] says why it was refused.
    pub(crate) fn try_edit(&self, edit: &Edit) -> Result<bool, EditError> {
        let (is_step, said) = self.make(edit)?;
        if !said.is_empty() {
            self.session.done(said, is_step);
        }
        Ok(is_step)
    }

    /// Makes an edit; gives whether it is a step to undo, and what is to be said of it. The first change of a plan
    /// that somebody sent stands beside it, where there is room.
    fn make(&self, edit: &Edit) -> Result<(bool, &'static str), EditError> {
        self.session.forget_done();
        if !edit.plan().is_some_and(|id| self.is_theirs(id)) {
            return Ok((self.store.edit(edit)?, ""));
        }
        let answered = self.store.committed_now().answered(edit, &self.answer_name());
        let (is_step, said) = match answered {
            Ok(answered) => (
                self.replace(answered, self.store.number_now()),
                "This is your answer. Theirs stays beside it.",
            ),
            // Or it is refused as it would be anyway.
            Err(_) => {
                (self.store.edit(edit)?, "There is no room for another plan: what you change is theirs.")
            }
        };
        Ok((is_step, if is_step { said } else { "" }))
    }

    /// Begins with one's own truck: the numbers on the page are guesses until they are typed over.
    #[inline(never)]
    pub(crate) fn begin_own(&self) {
        self.edit(&Edit::OwnTruck);
        self.session.selected.set(Selected::AsMeasured);
        // The first one that is asked for.
        self.session.to_measure.set(Some(Field::TireSection));
        self.session.turn_to(Panel::Measure);
    }

    /// Puts another design on the page: one step to undo, where it is another, which it gives.
    pub(crate) fn replace(&self, design: Design, number: usize) -> bool {
        self.session.forget_done();
        self.store.replace(design, number, self.session.look())
    }

    /// What is on the page as a link would carry it.
    pub(crate) fn shared(&self) -> Shared {
        let session = self.session;
        Shared {
            design: self.store.committed(),
            opening: Opening {
                proposal: self.selected().proposal(),
                travel_mm: session.travel_mm.get(),
                steer_rad: session.steer_rad.get(),
                units: Some(self.preferences.units.get()),
                lesson: session.lesson.with(|lesson| lesson.as_ref().map(|lesson| lesson.at)),
            },
        }
    }

    /// The same, without following it.
    pub(crate) fn shared_now(&self) -> Shared {
        untrack(|| self.shared())
    }

    /// Shows what the sender of a link saw. The reader's own units, once chosen, win.
    pub(crate) fn show(&self, opening: &Opening) {
        self.session.look_at(Look {
            selected: opening.proposal.into(),
            side: Side::Left,
            travel_mm: opening.travel_mm,
            steer_rad: opening.steer_rad,
        });
        if let (Some(units), false) = (opening.units, self.preferences.units_chosen.now()) {
            self.preferences.units.set(units);
        }
    }

    /// Takes the last edit back; what was said of it is no longer so.
    pub(crate) fn undo(&self) {
        self.turn(Store::undo);
    }

    /// Makes the last undone edit again.
    pub(crate) fn redo(&self) {
        self.turn(Store::redo);
    }

    #[inline(never)]
    fn turn(&self, step: fn(&Store, Look) -> Option<Look>) {
        self.session.notice.set(None);
        if let Some(look) = step(&self.store, self.session.look()) {
            self.session.look_at(look);
        }
    }
}
