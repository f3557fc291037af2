//! A tree into a design: everything that is read is checked.

use super::error::FileError;
use super::layout::{self, to_core};
use super::path::{Branch, Members, Wrong};
use super::tree::Tree;
use super::{LEDGER, MARK, VERSION, WORK, ledger, readings, work};
use crate::kept_text::write_work;
use crate::shared::{self, Opening, Shared};
use crate::v1::defaults;
use crate::v1::stated::Stated;
use measure::Units;
use truck::{
    Change, ChangeKind, ChangeNumber, ChangeSources, Design, Field, Kind, Ledger, MOST_PROPOSALS, Place,
    Proposal, ProposalId, Readings, RearAxle, RearField, Side, Source, Sources, Staying,
};

/// Deepest nesting that is read; a file of ours has five levels.
const DEEPEST: usize = 16;
/// Most nodes that are read; a file of ours has a few hundred.
const MOST_NODES: usize = 10_000;

/// What a tree holds. Numbers are rounded to what a design keeps: 0.01 mm, 0.01°.
///
/// # Errors
/// [`FileError`] names the path of what is wrong.
pub fn from_tree(tree: &Tree) -> Result<Shared, FileError> {
    let mut nodes = 0;
    if !is_bounded(tree, DEEPEST, &mut nodes) {
        return Err(FileError::TooLarge);
    }
    let wrong = Wrong::new();
    let shared = whole(&Branch::top(tree, &wrong));
    wrong.into_inner().map_or(Ok(shared), Err)
}

/// What a tree holds, and nothing in place of what is wrong.
fn whole(top: &Branch<'_>) -> Shared {
    let members = top.members();
    version(top, members);
    let (mut title, mut note) = (String::new(), String::new());
    let (mut ledger, mut log) = (Ledger::EMPTY, String::new());
    let (mut built, mut settled) = (Readings::default(), Readings::default());
    let (mut stated, mut proposals, mut opening) = (Stated::default(), Vec::new(), Opening::default());
    members.each(&mut |key, branch| match key {
        MARK => {}
        "$schema" => _ = branch.text(),
        "title" => title = shared::name(branch.short_text(Design::LONGEST_NAME)),
        "note" => note = shared::note(branch.short_text(Design::LONGEST_NOTE)),
        "truck" => truck(&mut stated, branch),
        "proposals" => proposals = proposal_list(branch),
        "opening" => opening = seen(branch),
        LEDGER => ledger = ledger::read(branch),
        layout::BUILT => built = readings::read(branch),
        layout::SETTLED => settled = readings::read(branch),
        WORK => log = write_work(&work::read(branch)),
        _ => branch.newer(),
    });
    let design = Design { title, note, truck: stated.truck(), proposals, ledger, built, settled, work: log };
    if !design.fits_a_link() {
        top.refuse(FileError::TooLong(LEDGER.to_owned()));
    }
    Shared { opening: opening.kept(&design), design }
}

/// Whether a tree is no deeper and no larger than a file of ours can be.
fn is_bounded(tree: &Tree, deeper: usize, nodes: &mut usize) -> bool {
    *nodes += 1;
    if deeper == 0 || *nodes > MOST_NODES {
        return false;
    }
    match tree {
        Tree::Object(members) => members.iter().all(|(_, tree)| is_bounded(tree, deeper - 1, nodes)),
        Tree::List(items) => items.iter().all(|tree| is_bounded(tree, deeper - 1, nodes)),
        _ => true,
    }
}

fn version(top: &Branch<'_>, members: Members<'_>) {
    let Some(mark) = members.get(MARK) else {
        return top.refuse(FileError::NotOurs);
    };
    match mark.byte() {
        VERSION => {}
        0 => top.refuse(FileError::NotOurs),
        _ => mark.newer(),
    }
}

fn truck(truck: &mut Stated, branch: &Branch<'_>) {
    branch.each(&mut |key, branch| match key {
        layout::POINTS => points(truck, branch),
        "sources" => truck.sources = sources(branch),
        layout::RIGHT => truck.right = right(branch),
        layout::REAR => truck.rear = rear(branch),
        layout::READINGS => truck.readings = readings::read(branch),
        _ => match layout::SECTIONS.into_iter().find(|name| *name == key) {
            Some(name) => section(truck, name, branch),
            None => branch.newer(),
        },
    });
}

fn points(truck: &mut Stated, points: &Branch<'_>) {
    points.each(&mut |point, branch| {
        if !layout::points().contains(&point) {
            return branch.newer();
        }
        branch.each(&mut |axis, branch| {
            let found = layout::coordinates(point).find(|(_, other)| *other == axis);
            number(truck, found.map(|(field, _)| field), branch);
        });
    });
}

fn section(truck: &mut Stated, name: &str, section: &Branch<'_>) {
    section.each(&mut |key, branch| match key {
        "kind" if name == layout::SPRING => {
            truck.spring = branch.one_of(&layout::SPRING_KINDS).unwrap_or(truck.spring);
        }
        "arm" if name == layout::SPRING => truck.arm = branch.one_of(&layout::ARMS).unwrap_or(truck.arm),
        _ => number(truck, layout::section(name).find(|field| field.key() == key), branch),
    });
}

fn number(truck: &mut Stated, field: Option<Field>, branch: &Branch<'_>) {
    if let Some(field) = branch.known(field) {
        let open = field.is_optional() && *branch.tree == Tree::Null;
        truck.numbers.push((field, if open { None } else { stated(field, branch) }));
    }
}

fn stated(field: Field, branch: &Branch<'_>) -> Option<f64> {
    let kept = field.accept(to_core(field.kind(), branch.number()));
    branch.within(kept, field.label(), field.limits())
}

/// The numbers of the rear; null is not stated.
fn rear(branch: &Branch<'_>) -> RearAxle {
    let mut numbers = RearAxle::UNKNOWN;
    branch.each(&mut |key, branch| {
        if let Some(field) = branch.known(RearField::from_key(key))
            && *branch.tree != Tree::Null
        {
            let kept = numbers.put(field, Some(to_core(field.kind(), branch.number())));
            branch.within(kept, field.label(), field.limits());
        }
    });
    numbers
}

/// The numbers of the right; null is as the left's.
fn right(branch: &Branch<'_>) -> Vec<(Field, f64)> {
    let mut numbers = Vec::new();
    branch.each(&mut |key, branch| {
        if let Some(field) = branch.known(Field::from_key(key).filter(|field| field.is_sided()))
            && *branch.tree != Tree::Null
        {
            numbers.extend(stated(field, branch).map(|value| (field, value)));
        }
    });
    numbers
}

fn sources(branch: &Branch<'_>) -> Sources {
    let members = branch.members();
    let rule: Option<Source> = members.get("rule").and_then(|branch| branch.one_of(&layout::SOURCES));
    let mut sources = Sources::all(rule.unwrap_or(defaults::RULE));
    members.each(&mut |key, branch| match key {
        "rule" => {}
        layout::GUESSES => {
            if let Some(staying) = branch.known(Staying::from_code(branch.byte())) {
                sources.follow(staying);
            }
        }
        "other" => branch.each(&mut |key, branch| {
            if key == layout::SPRING {
                if branch.one_of(&layout::SOURCES).is_some_and(|source: Source| source != Source::Assumed) {
                    sources.name_spring();
                }
            } else if let Some(field) = branch.known(Field::from_key(key))
                && let Some(source) = branch.one_of(&layout::SOURCES)
            {
                sources.set(field, source);
            }
        }),
        _ => branch.newer(),
    });
    sources
}

fn proposal_list(list: &Branch<'_>) -> Vec<Proposal> {
    let mut proposals: Vec<Proposal> = Vec::new();
    list.each_item(&mut |branch| {
        if proposals.len() == MOST_PROPOSALS {
            return list.too_long();
        }
        let place = u8::try_from(proposals.len()).expect("proposals are few");
        let proposal = proposal(branch, place);
        if proposals.iter().any(|other| other.id == proposal.id) {
            let mut path = branch.path();
            path.push_str(".id");
            branch.refuse(FileError::Twice(path));
        }
        proposals.push(proposal);
    });
    proposals
}

fn proposal(branch: &Branch<'_>, place: u8) -> Proposal {
    let mut proposal = Proposal::new(ProposalId(place), String::new());
    branch.each(&mut |key, branch| match key {
        "id" => proposal.id = ProposalId(branch.byte()),
        "name" => proposal.name = shared::name(branch.short_text(Design::LONGEST_NAME)),
        "changes" => branch.each_item(&mut |branch| {
            let Some(change) = change(branch) else { return };
            let side = side(branch, change.kind());
            if shared::put(&mut proposal, side, change).is_none() {
                branch.twice();
            }
            if let Some(origins) = branch.members().get(layout::SOURCES_OF_CHANGE) {
                change_sources(&origins, &change, &mut proposal.sources);
            }
        }),
        layout::REAR_DOWN if *branch.tree == Tree::Null => {}
        layout::REAR_DOWN => {
            let down_mm = Proposal::accept_rear_down(branch.number());
            proposal.rear_down_mm = branch.within(down_mm, shared::REAR_DOWN, Proposal::REAR_DOWN_LIMITS_MM);
        }
        _ => branch.newer(),
    });
    proposal
}

/// Where the numbers of a change came from, by their keys.
fn change_sources(branch: &Branch<'_>, change: &Change, sources: &mut ChangeSources) {
    let (kind, place) = change.slot();
    branch.each(&mut |key, branch| {
        let at = kind.numbers().iter().position(|number| number.key() == key);
        if let Some(at) = branch.known(at)
            && let Some(source) = branch.one_of(&layout::SOURCES)
        {
            sources.set((kind, place, at), source);
        }
    });
}

/// The side that a change is on alone; nothing of one on both.
fn side(branch: &Branch<'_>, kind: ChangeKind) -> Option<Side> {
    let branch = branch.members().get(layout::SIDE)?;
    if kind.is_rear() {
        branch.newer();
        return None;
    }
    branch.one_of(&layout::SIDES)
}

/// A change; nothing where something is wrong with it, which is said.
fn change(branch: &Branch<'_>) -> Option<Change> {
    let members = branch.members();
    let need = |key: &str, expected: &'static str| {
        let found = members.get(key);
        if found.is_none() {
            branch.shape(expected);
        }
        found
    };
    let named = need("change", "an object that names its \"change\"")?;
    let kind = named.keyed(&ChangeKind::ALL, ChangeKind::key)?;
    let place = if kind.places().is_empty() {
        if let Some(place) = members.get("place") {
            place.newer();
        }
        None
    } else {
        let place = need("place", "an object that names its \"place\"")?;
        Some(place.keyed(&Place::ALL, Place::key)?)
    };
    let usual = defaults::change_values(kind);
    let mut values = usual.clone();
    members.each(&mut |key, branch| {
        if matches!(key, "change" | "place" | layout::SIDE | layout::SOURCES_OF_CHANGE) {
            return;
        }
        let index = kind.numbers().iter().position(|number| number.key() == key);
        let Some(index) = branch.known(index) else { return };
        let number = kind.numbers()[index];
        let (label, ChangeNumber { kind: sort, limits, optional, .. }) = (number.label(), number);
        let open = optional && *branch.tree == Tree::Null;
        values[index] = if open { None } else { Some(to_core(sort, branch.number())) };
        let mut alone = usual.clone();
        alone[index] = values[index];
        branch.within(kind.with(place, &alone), label, limits);
    });
    let made = kind.with(place, &values);
    if made.is_none() {
        branch.shape("a change at a place where it can be");
    }
    made
}

fn seen(branch: &Branch<'_>) -> Opening {
    let mut opening = Opening::default();
    branch.each(&mut |key, branch| {
        let stated = *branch.tree != Tree::Null;
        match key {
            "proposal" if stated => opening.proposal = Some(ProposalId(branch.byte())),
            "travel" => {
                let travel = Opening::accept_travel(branch.number());
                let travel = branch.within(travel, "Travel", Opening::TRAVEL_LIMITS_MM);
                opening.travel_mm = travel.unwrap_or_default();
            }
            "steer" => {
                let steer = Opening::accept_steer(to_core(Kind::Angle, branch.number()));
                let steer = branch.within(steer, "Steer", Opening::STEER_LIMITS_DEG);
                opening.steer_rad = steer.unwrap_or_default();
            }
            "units" if stated => {
                let words = [(Units::Inches, "inches"), (Units::Millimetres, "millimetres")];
                opening.units = branch.one_of(&words);
            }
            "lesson" if stated => opening.lesson = Some(branch.byte()),
            "proposal" | "units" | "lesson" => {}
            _ => branch.newer(),
        }
    });
    opening
}
