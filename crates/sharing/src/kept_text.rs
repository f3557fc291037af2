//! A design as a browser keeps it: its code, and behind it what is written down of its work, which no link carries.
//!
//! ```text
//! text   = code [ LF work ]
//! work   = done *( LF ( torque / asked ) )
//! done   = *mark                     the tasks that are done
//! torque = mark steps SP manual      steps of 0.1 N·m, 0 before it is typed
//! asked  = "~" mark ( "0" / "1" ) steps    a setting's target or tolerance, in steps of 0.01°
//! mark   = the character as many places after "0" as the id says
//! ```
//!
//! A design holds its work as such a text, since most of the page never reads it.

use crate::link::{from_code, to_code};
use crate::link_error::LinkError;
use crate::shared::{Shared, name, note};
use truck::{Asked, Fastener, Kind, Readable, SETTINGS, Task, WorkEdit, WorkLog};

/// What a browser keeps of a design.
#[must_use]
pub fn to_kept_text(shared: &Shared) -> String {
    let mut text = to_code(shared);
    if !shared.design.work.is_empty() {
        text.push('\n');
        text.push_str(&shared.design.work);
    }
    text
}

/// The design of such a text.
///
/// # Errors
/// [`LinkError`] as for the code alone: no design is lost for what cannot be read of its work.
pub fn from_kept_text(text: &str) -> Result<Shared, LinkError> {
    let (code, work) = code_and_work(text);
    let mut shared = from_code(code)?;
    shared.design.work = note(work);
    Ok(shared)
}

/// The code of such a text, and the work behind it.
#[must_use]
#[inline(never)]
pub fn code_and_work(text: &str) -> (&str, &str) {
    text.split_once('\n').unwrap_or((text, ""))
}

/// A design's work as it is written down in it; empty where nothing is.
#[must_use]
pub fn write_work(work: &WorkLog) -> String {
    let mut text = String::new();
    for task in Task::ALL {
        if work.is_done(*task) {
            text.push(mark(*task as u8));
        }
    }
    for of in Fastener::ALL {
        let torque = work.torque(*of);
        if !torque.is_empty() {
            text.push('\n');
            text.push(mark(*of as u8));
            text.push_str(&u32::from(torque.steps).to_string());
            text.push(' ');
            text.push_str(&name(torque.manual));
        }
    }
    for (of, asked) in settings() {
        if let Some(steps) = work.asked(of, asked).and_then(|rad| Kind::Angle.steps(rad)) {
            text.push_str("\n~");
            text.push(mark(of.id()));
            text.push(mark(asked as u8));
            text.push_str(&steps.to_string());
        }
    }
    text
}

/// What a design has written down of its work; what cannot be read of it is left out.
#[must_use]
pub fn read_work(text: &str) -> WorkLog {
    let mut work = WorkLog::EMPTY;
    let mut write = |edit: WorkEdit| {
        if let Ok(edited) = work.clone().edited(&edit) {
            work = edited;
        }
    };
    let mut lines = text.split('\n');
    let done = lines.next().unwrap_or_default();
    for task in Task::ALL {
        if done.contains(mark(*task as u8)) {
            write(WorkEdit::Done(*task, true));
        }
    }
    for line in lines {
        for (of, asked) in settings() {
            let marks = ['~', mark(of.id()), mark(asked as u8)];
            let steps = line.strip_prefix(&marks.iter().collect::<String>()[..]);
            if let Some(steps) = steps.and_then(|steps| steps.parse::<i32>().ok()) {
                write(WorkEdit::Asked(of, asked, Some(Kind::Angle.value(i64::from(steps)))));
            }
        }
        for of in Fastener::ALL {
            let Some(typed) = line.strip_prefix(mark(*of as u8)) else { continue };
            let (steps, manual) = typed.split_once(' ').unwrap_or_default();
            let steps: u32 = steps.parse().unwrap_or(0);
            write(WorkEdit::Torque(*of, Some(Kind::Torque.value(i64::from(steps)))));
            write(WorkEdit::Manual(*of, name(manual)));
        }
    }
    work
}

/// All that a manual can say of a setting.
fn settings() -> impl Iterator<Item = (Readable, Asked)> {
    SETTINGS.into_iter().flat_map(|of| Asked::ALL.map(|asked| (of, asked)))
}

const fn mark(id: u8) -> char {
    (b'0' + id) as char
}
