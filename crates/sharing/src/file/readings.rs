//! What was read off the truck as a tree, both ways, and its schema.

use super::layout::{SIDES, to_core, to_file, unit};
use super::path::Branch;
use super::pieces::{joined, number, object, words};
use super::tree::{Object, Tree};
use truck::{Kind, ReadWith, Readable, Reading, ReadingFault, Readings};

const VALUE: &str = "value";
const TOLERANCE: &str = "tolerance";
const TOOL: &str = "tool";
const SWEPT: &str = "swept";

pub(super) fn write(readings: &Readings) -> Tree {
    let mut whole = Object::default();
    for (side, key) in SIDES {
        let mut here = Object::default();
        for (_, of, reading) in readings.iter().filter(|(at, ..)| *at == side) {
            here.add(of.key(), one(*of, reading));
        }
        whole.add_unless_empty(key, here);
    }
    whole.into()
}

fn one(of: Readable, reading: &Reading) -> Tree {
    let number = |kind: Kind, value: f64| Tree::Number(to_file(kind, value));
    let mut whole = Object::default();
    whole.add(VALUE, number(of.kind(), reading.value));
    whole.add(TOLERANCE, number(of.kind(), reading.tolerance));
    whole.add_text(TOOL, reading.tool.key());
    if let Some(rad) = reading.swept_rad {
        whole.add(SWEPT, number(Kind::Angle, rad));
    }
    whole.into()
}

pub(super) fn read(branch: &Branch<'_>) -> Readings {
    let mut all = Readings::default();
    branch.each(&mut |key, branch| {
        let side = SIDES.iter().find(|(_, word)| *word == key);
        let Some((side, _)) = branch.known(side) else { return };
        branch.each(&mut |key, branch| {
            if let Some(of) = branch.known(Readable::from_key(key)) {
                read_one(of, branch, &mut |reading| all.set(of, *side, Some(reading)));
            }
        });
    });
    all
}

fn read_one(of: Readable, branch: &Branch<'_>, put: &mut dyn FnMut(Reading) -> Result<(), ReadingFault>) {
    let members = branch.members();
    let kind = of.kind();
    let Some(value) = members.get(VALUE) else {
        return branch.shape("an object that names its \"value\"");
    };
    let tool = members.get(TOOL).and_then(|tool| tool.keyed(of.tools(), ReadWith::key));
    let mut reading = Reading::by(of, to_core(kind, value.number()), tool.unwrap_or(of.tools()[0]));
    members.each(&mut |key, branch| match key {
        VALUE | TOOL => {}
        TOLERANCE => reading.tolerance = to_core(kind, branch.number()),
        SWEPT if of == Readable::Caster => {
            reading.swept_rad = Some(to_core(Kind::Angle, branch.number()));
        }
        _ => branch.newer(),
    });
    let said = |key: &str, limits: (f64, f64)| {
        let place = members.get(key);
        place.as_ref().unwrap_or(branch).out_of_limits(of.label(), limits);
    };
    if let Err(fault) = put(reading) {
        match fault {
            ReadingFault::Value | ReadingFault::Tool | ReadingFault::Full => said(VALUE, of.limits()),
            ReadingFault::Tolerance => said(TOLERANCE, Reading::tolerances(kind)),
            ReadingFault::Sweep => said(SWEPT, Reading::SWEPT_DEG),
        }
    }
}

fn tools(of: Readable) -> Vec<(ReadWith, &'static str)> {
    of.tools().iter().map(|tool| (*tool, tool.key())).collect()
}

/// The schema of readings of the truck as it sits.
pub(super) fn schema() -> Tree {
    described(
        "What was read off the truck as it sits, with the wheel on. Of such an answer a proposal's is the \
        reading and what the model says of the change. Of caster \"swept\" says that the value is what camber \
        gains from that far in to that far out, and caster is the gain over twice the sine.",
    )
}

/// The schema of readings of the truck as it was built.
pub(super) fn schema_as_built() -> Tree {
    described("What was read off the truck once its work was done, as \"readings\" of the truck are given.")
}

/// The schema of readings of the truck once it had settled.
pub(super) fn schema_settled() -> Tree {
    described("What was read off the truck again after 100 miles, as \"built\" is given.")
}

fn described(said: &str) -> Tree {
    let side = || object(Readable::ALL.iter().map(|of| (of.key(), reading(*of))).collect(), &[]);
    let sides = object(SIDES.into_iter().map(|(_, key)| (key, side())).collect(), &[]);
    joined(sides, Tree::object([("description", Tree::text(said))]))
}

fn reading(of: Readable) -> Tree {
    let number = |kind: Kind, limits: (f64, f64), said: &str| {
        let said = Tree::Text([said, "; ", unit(kind)].concat());
        joined(number(limits), Tree::object([("description", said)]))
    };
    let kind = of.kind();
    let mut members = vec![
        (VALUE, number(kind, of.limits(), of.label())),
        (
            TOLERANCE,
            number(kind, Reading::tolerances(kind), "Give or take; as usual for the tool where left out"),
        ),
        (TOOL, words(&tools(of))),
    ];
    if of == Readable::Caster {
        members.push((SWEPT, number(Kind::Angle, Reading::SWEPT_DEG, "Turned each way")));
    }
    object(members, &[VALUE])
}
