//! How far off what is to be set may be, by how well the truck was measured.

use crate::figures::Sort;
use measure::Units;
use study::{CasterBy, Input, Stance, Steps, Target, Trial, setting, spreads_of};
use truck::{Group, Readable, Reading, Side, SpringKind};

/// What is set, each by its name in the data, what people call it and its sort of number.
const SET: [(&str, &str, Sort); 6] = [
    ("bolt_turns", "adjuster bolt", Sort::Count),
    ("spacer", "coil's spacer", Sort::Length),
    ("shim_front", "shims at the front bolt", Sort::Shim),
    ("shim_rear", "shims at the rear bolt", Sort::Shim),
    ("strut_turns", "strut rod's nut", Sort::Count),
    ("tie_turns", "tie rod's sleeve", Sort::Count),
];
/// What a reading of the truck as it sits makes sure of.
const READ_FIRST: [Readable; 4] = [Readable::FrameHeight, Readable::Camber, Readable::Caster, Readable::Toe];
/// Turns and shims, mm, of which nobody sees less.
const UNSEEN: [f64; 6] = [0.05, 0.4, 0.4, 0.4, 0.05, 0.05];
/// Readings that leave no less than this share are not worth their while.
const NARROWED: f64 = 0.6;

/// What is set up, and how.
pub(crate) struct Order<'a> {
    pub(crate) trial: Trial,
    pub(crate) side: Side,
    /// What is asked of a truck that now reads so.
    pub(crate) target: &'a dyn Fn(&Target) -> Target,
    pub(crate) caster_by: CasterBy,
    pub(crate) steps: &'a Steps,
}

/// ± of what is set, in the order of the table; nothing of what is not.
pub(crate) struct Spreads([Option<f64>; 6]);

impl Order<'_> {
    /// How far off each amount may be.
    pub(crate) fn spreads(&self) -> Spreads {
        self.spreads_on(&self.trial)
    }

    /// The same if height, camber, caster and toe were read off the truck first, as well as is usual, with what
    /// of them was not; `None` where all were.
    pub(crate) fn if_read(&self) -> Option<(Vec<Readable>, Spreads)> {
        let mut trial = self.trial.clone();
        let rest = Stance::laid(&trial.truck, truck::Overlay::NOTHING).ok()?.on(self.side);
        let now = Target::of(&rest);
        let values = [now.ride_height_mm, now.camber_rad, now.caster_rad, now.toe_rad];
        let mut unread = Vec::new();
        for (of, value) in READ_FIRST.into_iter().zip(values) {
            if trial.truck.readings.get(of, self.side).is_none() {
                let reading = Reading::by(of, value, of.tools()[0]);
                trial.truck.readings.set(of, self.side, Some(reading)).ok()?;
                unread.push(of);
            }
        }
        (!unread.is_empty()).then(|| (unread, self.spreads_on(&trial)))
    }

    fn spreads_on(&self, trial: &Trial) -> Spreads {
        let spring = trial.truck.spring.kind;
        let counts = |input: Input| match input {
            Input::Number(field) | Input::Right(field) => match field.group() {
                // What is hit, what ends the travel and what hangs low is no part of how it is set.
                Group::Fender | Group::Joints | Group::Shock | Group::Brake | Group::Thickness => false,
                Group::Tire | Group::LowPoints | Group::Steering => false,
                Group::Bar => spring == SpringKind::TorsionBar,
                Group::Coil => spring == SpringKind::Coil,
                _ => true,
            },
            Input::Reading(..) | Input::Change(..) => true,
        };
        Spreads::of(spreads_of(trial, &counts, &|trial| self.amounts(trial)))
    }

    /// What is set on a truck, before it is rounded: in the order of the table, and what is not set is none.
    fn amounts(&self, trial: &Trial) -> Option<Vec<f64>> {
        let stance = Stance::laid(&trial.truck, trial.overlay()).ok()?;
        let target = (self.target)(&Target::of(&stance.on(self.side)));
        let found =
            setting(&trial.truck, self.side, trial.overlay(), &target, self.caster_by, self.steps).ok()?;
        // Where a limit ended it, what is set says nothing of what was wished.
        if !found.bounds.is_empty() {
            return None;
        }
        let (exact, spring) = (found.exact, &found.rest.fitted.spring);
        let (bolt, spacer) = match spring.kind {
            SpringKind::TorsionBar => (spring.bar.turns_for(exact.height)?, 0.0),
            SpringKind::Coil => (0.0, exact.height),
            SpringKind::WheelRate => (0.0, 0.0),
        };
        let turns = exact.thread_turns(&found.rest.fitted.measured);
        let [strut, tie] = turns.map(Option::unwrap_or_default);
        Some(vec![bolt, spacer, exact.shim_front_mm, exact.shim_rear_mm, strut, tie])
    }
}

impl Spreads {
    fn of(found: Vec<Option<f64>>) -> Self {
        Self(std::array::from_fn(|at| found.get(at).copied().flatten()))
    }

    /// ± of an amount by its name in the data; `None` where it is not known, or less than anybody sees.
    pub(crate) fn get(&self, key: &str) -> Option<f64> {
        self.seen(SET.iter().position(|(name, ..)| *name == key)?)
    }

    fn seen(&self, at: usize) -> Option<f64> {
        self.0[at].filter(|by| *by > UNSEEN[at])
    }

    /// Each that is seen, in words.
    fn said(&self, units: Units) -> String {
        let said = (0..SET.len()).filter_map(|at| Some(one(at, self.seen(at)?, units)));
        said.collect::<Vec<_>>().join("; ")
    }

    /// What another makes surer, where that is worth its while: each with what it then is.
    fn narrowed_by(&self, other: &Self, units: Units) -> Vec<String> {
        let better = |at: usize| {
            let (now, then) = (self.seen(at)?, other.0[at]?);
            (then < NARROWED * now).then(|| match other.seen(at) {
                Some(then) => one(at, then, units),
                None => SET[at].1.to_owned() + " as close as anybody sees",
            })
        };
        (0..SET.len()).filter_map(better).collect()
    }
}

/// One amount with its ±.
fn one(at: usize, by: f64, units: Units) -> String {
    let (_, label, sort) = SET[at];
    let unit = if sort == Sort::Count { " turns" } else { "" };
    [label, " ± ", &sort.words(by, units), unit].concat()
}

/// How far off what is set may be, and what to read first, in sentences.
pub(crate) fn sentences(order: &Order<'_>, units: Units) -> Vec<String> {
    let now = order.spreads();
    let said = now.said(units);
    if said.is_empty() {
        return Vec::new();
    }
    let mut all =
        vec![format!("By how well the truck was measured: {said}. Turn, read again, turn the rest.")];
    let Some((unread, then)) = order.if_read() else { return all };
    let better = now.narrowed_by(&then, units);
    if !better.is_empty() {
        let unread: Vec<_> = unread.iter().map(|of| study::Figure::of_reading(*of).label()).collect();
        all.push(format!(
            "Read these before the work ({}), and it gets surer: {}.",
            unread.join("; "),
            better.join("; ")
        ));
    }
    all
}
