//! How far the work is, the torques that a person has typed, each by its manual, and what is asked of settings.

use super::{Fastener, Task};
use crate::edit_error::{EditError, LONGEST_NAME, bounded};
use crate::field::accept;
use crate::kind::Kind;
use crate::reading::{Readable, Reading, ReadingFault};

/// How many fasteners there are.
const FASTENERS: usize = Fastener::ALL.len();

/// A torque as it was typed: nothing is ever filled in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Torque<'a> {
    /// In steps of 0.1 N·m; zero before it is typed.
    pub steps: u16,
    /// The manual that it is from; empty where none is named.
    pub manual: &'a str,
}

impl Torque<'_> {
    /// Least and greatest torque that can be entered, N·m.
    pub const LIMITS: (f64, f64) = (1.0, 1000.0);
    /// The same in steps.
    const STEPS: (i64, i64) = (10, 10_000);

    /// The torque, N·m, a whole count of steps; `None` before it is typed.
    #[must_use]
    pub fn newton_metres(&self) -> Option<f64> {
        (self.steps > 0).then(|| Kind::Torque.value(i64::from(self.steps)))
    }

    /// Whether nothing was typed.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.steps == 0 && self.manual.is_empty()
    }
}

/// What is set at the end of the work, for which a manual gives a target and how far off it may be.
pub const SETTINGS: [Readable; 3] = [Readable::Camber, Readable::Caster, Readable::Toe];

/// What a manual says of a setting: nothing is ever filled in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Asked {
    /// What it is to be.
    Target,
    /// How far off that it may be either way.
    Tolerance,
}

impl Asked {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Target, Self::Tolerance];

    /// Least and greatest number of a setting, degrees.
    #[must_use]
    pub const fn limits(self, of: Readable) -> (f64, f64) {
        match self {
            Self::Target => of.limits(),
            Self::Tolerance => Reading::TOLERANCE_DEG,
        }
    }
}

/// What is written down of the work: tasks that are done, torques, and what is asked of settings.
/// Which plan it is of, the person knows: one is built.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct WorkLog {
    /// A bit for each task, by its id.
    done: u64,
    /// By the fastener's id, in steps.
    torques: [u16; FASTENERS],
    /// By the fastener's id as far as the last that has one.
    manuals: Vec<String>,
    /// In the order of [`SETTINGS`], what is asked of each, in steps of an angle.
    settings: [[Option<i64>; 2]; SETTINGS.len()],
}

/// One thing written down of the work.
#[derive(Clone, Debug, PartialEq)]
pub enum WorkEdit {
    /// A task done, or not done after all.
    Done(Task, bool),
    /// A torque, N·m; `None` takes it out.
    Torque(Fastener, Option<f64>),
    /// The manual that a torque is from; empty, none is named.
    Manual(Fastener, String),
    /// What a manual says of one of [`SETTINGS`], rad; `None` takes it out.
    Asked(Readable, Asked, Option<f64>),
}

impl WorkLog {
    /// Nothing written.
    pub const EMPTY: Self =
        Self { done: 0, torques: [0; FASTENERS], manuals: Vec::new(), settings: [[None; 2]; SETTINGS.len()] };

    /// Whether nothing is written in it.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::EMPTY
    }

    /// Whether a task is done.
    #[must_use]
    pub const fn is_done(&self, task: Task) -> bool {
        self.done >> task as u8 & 1 == 1
    }

    /// What was typed of a fastener.
    #[must_use]
    pub fn torque(&self, of: Fastener) -> Torque<'_> {
        let manual = self.manuals.get(of as usize).map_or("", String::as_str);
        Torque { steps: self.torques[of as usize], manual }
    }

    /// What a manual says of a setting, rad; `None` before it is typed, and of what is none.
    #[must_use]
    pub fn asked(&self, of: Readable, asked: Asked) -> Option<f64> {
        let at = SETTINGS.iter().position(|setting| *setting == of)?;
        self.settings[at][asked as usize].map(|steps| Kind::Angle.value(steps))
    }

    /// The log after an edit.
    ///
    /// # Errors
    /// [`EditError`] says why the edit was refused.
    pub fn edited(mut self, edit: &WorkEdit) -> Result<Self, EditError> {
        match edit {
            WorkEdit::Done(task, true) => self.done |= 1 << *task as u8,
            WorkEdit::Done(task, false) => self.done &= !(1 << *task as u8),
            WorkEdit::Torque(of, value) => {
                let (low, high) = Torque::STEPS;
                let steps = value.map_or(Some(0), |value| {
                    Kind::Torque.steps(value).filter(|steps| (low..=high).contains(steps))
                });
                let steps = steps.and_then(|steps| u16::try_from(steps).ok());
                self.torques[*of as usize] = steps.ok_or(EditError::Torque)?;
            }
            WorkEdit::Manual(of, manual) => self.name(*of as usize, &bounded(manual, LONGEST_NAME)?),
            WorkEdit::Asked(of, asked, value) => {
                let fault = EditError::Reading(*of, ReadingFault::Value);
                let at = SETTINGS.iter().position(|setting| setting == of).ok_or(fault)?;
                let kept = value.map(|value| accept(Kind::Angle, asked.limits(*of), value).ok_or(fault));
                let steps = kept.transpose()?.and_then(|rad| Kind::Angle.steps(rad));
                self.settings[at][*asked as usize] = steps;
            }
        }
        Ok(self)
    }

    /// What says nothing is not kept, so that equal logs are equal.
    fn name(&mut self, at: usize, manual: &str) {
        if self.manuals.len() <= at {
            self.manuals.resize(at + 1, String::new());
        }
        self.manuals[at] = manual.trim().to_owned();
        while self.manuals.last().is_some_and(String::is_empty) {
            self.manuals.pop();
        }
    }
}
