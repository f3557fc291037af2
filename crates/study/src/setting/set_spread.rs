//! How far off what is set may be, by how well the truck was measured.

use super::{CasterBy, Steps, Target, setting};
use crate::figure::{Figure, Trial};
use crate::spread::{Input, NumberSpreading, Spreading};
use crate::stance::Stance;
use truck::{Group, Overlay, Readable, Reading, Side, SpringKind};

/// Turns, the spacer and shims, mm, of which nobody sees less.
const UNSEEN: [f64; 6] = [0.05, 0.8, 0.4, 0.4, 0.05, 0.05];
/// Readings that leave no less than this share are not worth their while.
const NARROWED: f64 = 0.6;

/// What is set at a side, and how.
#[derive(Clone, Debug)]
pub struct SetOrder {
    /// The truck, and what is laid over it.
    pub trial: Trial,
    /// At which side.
    pub side: Side,
    /// Ride height, mm, camber, caster and toe, rad; what is open stays as the truck then reads.
    pub wanted: [Option<f64>; 4],
    /// What caster is set by.
    pub caster_by: CasterBy,
    /// In which steps.
    pub steps: Steps,
}

/// ± of what is set: turns of the adjuster's bolt, the coil's spacer, mm, the shims at the front and the rear bolt,
/// mm, turns of the strut rod's nut and of the tie rod's sleeve; nothing of what is not known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct SetSpreads([Option<f64>; 6]);

impl SetOrder {
    /// What a truck is set by, and a reading of it as it sits makes sure of.
    pub const READ_FIRST: [Readable; 4] =
        [Readable::FrameHeight, Readable::Camber, Readable::Caster, Readable::Toe];

    /// The search for how far off each amount may be.
    #[must_use]
    pub fn spreading(&self) -> NumberSpreading {
        let spring = self.trial.truck.spring.kind;
        let counts = |input: Input| match input {
            Input::Number(field) | Input::Right(field) => match field.group() {
                // What is hit, what ends the travel and what hangs low is no part of how it is set.
                Group::Fender | Group::Joints | Group::Shock | Group::Brake | Group::Thickness => false,
                Group::Tire | Group::LowPoints | Group::Steering => false,
                Group::Bar => spring == SpringKind::TorsionBar,
                Group::Coil => spring == SpringKind::Coil,
                _ => true,
            },
            _ => true,
        };
        NumberSpreading::new(&self.trial, &counts)
    }

    /// Takes such a search on by a number of the truck; true when all is known.
    pub fn step(&self, search: &mut NumberSpreading) -> bool {
        search.step(&|trial| self.amounts(trial))
    }

    /// The same truck with height, camber, caster and toe read off it first, as well as is usual, and what of them
    /// was not yet; `None` where all were.
    #[must_use]
    pub fn if_read(&self) -> Option<(Vec<Readable>, Self)> {
        let mut read = self.clone();
        let rest = Stance::laid(&read.trial.truck, Overlay::NOTHING).ok()?.on(self.side);
        let mut unread = Vec::new();
        for (of, value) in Self::READ_FIRST.into_iter().zip(Target::of(&rest).numbers()) {
            if read.trial.truck.readings.get(of, self.side).is_none() {
                let reading = Reading::by(of, value, of.tools()[0]);
                read.trial.truck.readings.set(of, self.side, Some(reading)).ok()?;
                unread.push(of);
            }
        }
        (!unread.is_empty()).then_some((unread, read))
    }

    /// What of height, camber, caster and toe was read and cannot be so: by it nothing is to be set.
    #[must_use]
    pub fn doubtful(&self) -> Vec<Readable> {
        let sits = Trial::new(&self.trial.truck, Overlay::NOTHING);
        let mut search = Spreading::new(vec![sits], self.side, &[]);
        while !search.step(&|trial, figures| trial.values(self.side, figures)) {}
        Self::READ_FIRST.into_iter().filter(|of| search.is_doubtful(Figure::of_reading(*of))).collect()
    }

    /// What is set on a truck, before it is rounded; what is not set is none.
    fn amounts(&self, trial: &Trial) -> Option<Vec<f64>> {
        let stance = Stance::laid(&trial.truck, trial.overlay()).ok()?;
        let target = Target::of(&stance.on(self.side)).with(self.wanted);
        let found =
            setting(&trial.truck, self.side, trial.overlay(), &target, self.caster_by, &self.steps).ok()?;
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
        let [strut, tie] = exact.thread_turns(&found.rest.fitted.measured).map(Option::unwrap_or_default);
        Some(vec![bolt, spacer, exact.shim_front_mm, exact.shim_rear_mm, strut, tie])
    }
}

impl SetSpreads {
    /// What a search has found.
    #[must_use]
    pub fn of(search: &NumberSpreading) -> Self {
        let found = search.spreads();
        Self(std::array::from_fn(|at| found.get(at).copied().flatten()))
    }

    /// ± of an amount by its place; `None` where it is not known, or less than anybody sees.
    #[must_use]
    pub fn seen(&self, at: usize) -> Option<f64> {
        self.0[at].filter(|by| *by > UNSEEN[at])
    }

    /// Whether there is any to be seen.
    #[must_use]
    pub fn is_any_seen(&self) -> bool {
        (0..self.0.len()).any(|at| self.seen(at).is_some())
    }

    /// Whether another makes an amount so much surer that it is worth its while.
    #[must_use]
    pub fn is_narrowed_by(&self, other: &Self, at: usize) -> bool {
        self.seen(at).zip(other.0[at]).is_some_and(|(now, then)| then < NARROWED * now)
    }
}
