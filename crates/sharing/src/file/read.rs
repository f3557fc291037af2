//! A tree into a design: everything that is read is checked.

use super::error::{FileError, Read};
use super::layout::{self, to_core};
use super::path::{Branch, Members, keyed, one_of, out_of_limits};
use super::tree::Tree;
use super::{LEDGER, MARK, VERSION, ledger, readings};
use crate::shared::{self, Opening, Shared};
use crate::v1::defaults;
use crate::v1::stated::Stated;
use measure::Units;
use truck::{
    Change, ChangeKind, ChangeNumber, ChangeSources, Design, Field, Kind, Ledger, MOST_PROPOSALS, Place,
    Proposal, ProposalId, RearAxle, RearField, Side, Source, Sources,
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
    whole(tree).map_err(|error| *error)
}

fn whole(tree: &Tree) -> Read<Shared> {
    let mut nodes = 0;
    if !is_bounded(tree, DEEPEST, &mut nodes) {
        return Err(FileError::TooLarge.into());
    }
    let top = Branch::top(tree);
    let members = top.members()?;
    version(members)?;
    let (mut title, mut note, mut ledger) = (String::new(), String::new(), Ledger::EMPTY);
    let (mut stated, mut proposals, mut opening) = (Stated::default(), Vec::new(), Opening::default());
    for (key, branch) in members.iter() {
        match key {
            MARK => {}
            "$schema" => drop(branch.text()?),
            "title" => title = shared::name(branch.short_text(Design::LONGEST_NAME)?),
            "note" => note = shared::note(branch.short_text(Design::LONGEST_NOTE)?),
            "truck" => stated = truck(branch.members()?)?,
            "proposals" => proposals = proposal_list(&branch)?,
            "opening" => opening = seen(branch.members()?)?,
            LEDGER => ledger = ledger::read(branch.members()?)?,
            _ => return Err(branch.newer()),
        }
    }
    let design = Design { title, note, truck: stated.truck(), proposals, ledger };
    if !design.fits_a_link() {
        return Err(FileError::TooLong(LEDGER.to_owned()).into());
    }
    Ok(Shared { opening: opening.kept(&design), design })
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

fn version(members: Members<'_>) -> Read<()> {
    let mark = members.get(MARK).ok_or(FileError::NotOurs)?;
    match mark.byte()? {
        VERSION => Ok(()),
        0 => Err(FileError::NotOurs.into()),
        _ => Err(mark.newer()),
    }
}

fn truck(members: Members<'_>) -> Read<Stated> {
    let mut truck = Stated::default();
    for (key, branch) in members.iter() {
        match key {
            layout::POINTS => points(&mut truck, branch.members()?)?,
            "sources" => truck.sources = sources(branch.members()?)?,
            layout::RIGHT => truck.right = right(branch.members()?)?,
            layout::REAR => truck.rear = rear(branch.members()?)?,
            layout::READINGS => truck.readings = readings::read(branch.members()?)?,
            _ => match layout::SECTIONS.into_iter().find(|name| *name == key) {
                Some(name) => section(&mut truck, name, branch.members()?)?,
                None => return Err(branch.newer()),
            },
        }
    }
    Ok(truck)
}

fn points(truck: &mut Stated, points: Members<'_>) -> Read<()> {
    for (point, branch) in points.iter() {
        if !layout::points().contains(&point) {
            return Err(branch.newer());
        }
        for (axis, branch) in branch.members()?.iter() {
            let found = layout::coordinates(point).find(|(_, other)| *other == axis);
            let (field, _) = found.ok_or_else(|| branch.newer())?;
            truck.numbers.push((field, number(field, &branch)?));
        }
    }
    Ok(())
}

fn section(truck: &mut Stated, name: &str, section: Members<'_>) -> Read<()> {
    for (key, branch) in section.iter() {
        match key {
            "kind" if name == layout::SPRING => truck.spring = one_of(&layout::SPRING_KINDS, &branch)?,
            "arm" if name == layout::SPRING => truck.arm = one_of(&layout::ARMS, &branch)?,
            _ => {
                let field = layout::section(name).find(|field| field.key() == key);
                let field = field.ok_or_else(|| branch.newer())?;
                truck.numbers.push((field, number(field, &branch)?));
            }
        }
    }
    Ok(())
}

fn number(field: Field, branch: &Branch<'_>) -> Read<Option<f64>> {
    if field.is_optional() && *branch.tree == Tree::Null {
        return Ok(None);
    }
    stated(field, branch).map(Some)
}

fn stated(field: Field, branch: &Branch<'_>) -> Read<f64> {
    let kept = field.accept(to_core(field.kind(), branch.number()?));
    kept.ok_or_else(|| out_of_limits(branch, field.label(), field.limits()))
}

/// The numbers of the rear; null is not stated.
fn rear(members: Members<'_>) -> Read<RearAxle> {
    let mut numbers = RearAxle::UNKNOWN;
    for (key, branch) in members.iter() {
        let field = RearField::from_key(key).ok_or_else(|| branch.newer())?;
        if *branch.tree != Tree::Null {
            let kept = numbers.put(field, Some(to_core(field.kind(), branch.number()?)));
            kept.ok_or_else(|| out_of_limits(&branch, field.label(), field.limits()))?;
        }
    }
    Ok(numbers)
}

/// The numbers of the right; null is as the left's.
fn right(members: Members<'_>) -> Read<Vec<(Field, f64)>> {
    let mut numbers = Vec::new();
    for (key, branch) in members.iter() {
        let field = Field::from_key(key).filter(|field| field.is_sided()).ok_or_else(|| branch.newer())?;
        if *branch.tree != Tree::Null {
            numbers.push((field, stated(field, &branch)?));
        }
    }
    Ok(numbers)
}

fn sources(members: Members<'_>) -> Read<Sources> {
    let rule: Source =
        members.get("rule").map_or(Ok(defaults::RULE), |branch| one_of(&layout::SOURCES, &branch))?;
    let mut sources = Sources::all(rule);
    for (key, branch) in members.iter() {
        match key {
            "rule" => {}
            "other" => {
                for (key, branch) in branch.members()?.iter() {
                    let field = Field::from_key(key).ok_or_else(|| branch.newer())?;
                    sources.set(field, one_of(&layout::SOURCES, &branch)?);
                }
            }
            _ => return Err(branch.newer()),
        }
    }
    Ok(sources)
}

fn proposal_list(list: &Branch<'_>) -> Read<Vec<Proposal>> {
    let mut proposals: Vec<Proposal> = Vec::new();
    for branch in list.items()? {
        if proposals.len() == MOST_PROPOSALS {
            return Err(list.too_long());
        }
        let place = u8::try_from(proposals.len()).expect("proposals are few");
        let proposal = proposal(branch.members()?, place)?;
        if proposals.iter().any(|other| other.id == proposal.id) {
            let mut path = branch.path();
            path.push_str(".id");
            return Err(FileError::Twice(path).into());
        }
        proposals.push(proposal);
    }
    Ok(proposals)
}

fn proposal(members: Members<'_>, place: u8) -> Read<Proposal> {
    let mut proposal = Proposal::new(ProposalId(place), String::new());
    for (key, branch) in members.iter() {
        match key {
            "id" => proposal.id = ProposalId(branch.byte()?),
            "name" => proposal.name = shared::name(branch.short_text(Design::LONGEST_NAME)?),
            "changes" => {
                for branch in branch.items()? {
                    let change = change(&branch)?;
                    let side = side(&branch, change.kind())?;
                    shared::put(&mut proposal, side, change).ok_or_else(|| branch.twice())?;
                    if let Some(origins) = branch.members()?.get(layout::SOURCES_OF_CHANGE) {
                        change_sources(&origins, &change, &mut proposal.sources)?;
                    }
                }
            }
            layout::REAR_DOWN if *branch.tree == Tree::Null => {}
            layout::REAR_DOWN => {
                let down_mm = Proposal::accept_rear_down(branch.number()?);
                let refused = || out_of_limits(&branch, shared::REAR_DOWN, Proposal::REAR_DOWN_LIMITS_MM);
                proposal.rear_down_mm = Some(down_mm.ok_or_else(refused)?);
            }
            _ => return Err(branch.newer()),
        }
    }
    Ok(proposal)
}

/// Where the numbers of a change came from, by their keys.
fn change_sources(branch: &Branch<'_>, change: &Change, sources: &mut ChangeSources) -> Read<()> {
    let (kind, place) = change.slot();
    for (key, branch) in branch.members()?.iter() {
        let at = kind.numbers().iter().position(|number| number.key == key);
        let at = at.ok_or_else(|| branch.newer())?;
        sources.set((kind, place, at), one_of(&layout::SOURCES, &branch)?);
    }
    Ok(())
}

/// The side that a change is on alone.
fn side(change: &Branch<'_>, kind: ChangeKind) -> Read<Option<Side>> {
    match change.members()?.get(layout::SIDE) {
        Some(branch) if kind.is_rear() => Err(branch.newer()),
        Some(branch) => one_of(&layout::SIDES, &branch).map(Some),
        None => Ok(None),
    }
}

fn change(change: &Branch<'_>) -> Read<Change> {
    let members = change.members()?;
    let named = members.get("change").ok_or_else(|| change.shape("an object that names its \"change\""))?;
    let kind = keyed(&ChangeKind::ALL, ChangeKind::key, &named)?;
    let place = match members.get("place") {
        Some(branch) if kind.places().is_empty() => return Err(branch.newer()),
        Some(branch) => Some(keyed(&Place::ALL, Place::key, &branch)?),
        None if kind.places().is_empty() => None,
        None => return Err(change.shape("an object that names its \"place\"")),
    };
    let usual = defaults::change_values(kind);
    let mut values = usual.clone();
    for (key, branch) in members
        .iter()
        .filter(|(key, _)| !matches!(*key, "change" | "place" | layout::SIDE | layout::SOURCES_OF_CHANGE))
    {
        let index = kind.numbers().iter().position(|number| number.key == key);
        let index = index.ok_or_else(|| branch.newer())?;
        let ChangeNumber { kind: sort, label, limits, optional, .. } = kind.numbers()[index];
        let open = optional && *branch.tree == Tree::Null;
        values[index] = if open { None } else { Some(to_core(sort, branch.number()?)) };
        let mut alone = usual.clone();
        alone[index] = values[index];
        if kind.with(place, &alone).is_none() {
            return Err(out_of_limits(&branch, label, limits));
        }
    }
    kind.with(place, &values).ok_or_else(|| change.shape("a change at a place where it can be"))
}

fn seen(members: Members<'_>) -> Read<Opening> {
    let mut opening = Opening::default();
    for (key, branch) in members.iter() {
        let stated = *branch.tree != Tree::Null;
        match key {
            "proposal" if stated => opening.proposal = Some(ProposalId(branch.byte()?)),
            "travel" => {
                let travel = Opening::accept_travel(branch.number()?);
                let refused = || out_of_limits(&branch, "Travel", Opening::TRAVEL_LIMITS_MM);
                opening.travel_mm = travel.ok_or_else(refused)?;
            }
            "steer" => {
                let steer = Opening::accept_steer(to_core(Kind::Angle, branch.number()?));
                let refused = || out_of_limits(&branch, "Steer", Opening::STEER_LIMITS_DEG);
                opening.steer_rad = steer.ok_or_else(refused)?;
            }
            "units" if stated => {
                let words = [(Units::Inches, "inches"), (Units::Millimetres, "millimetres")];
                opening.units = Some(one_of(&words, &branch)?);
            }
            "lesson" if stated => opening.lesson = Some(branch.byte()?),
            "proposal" | "units" | "lesson" => {}
            _ => return Err(branch.newer()),
        }
    }
    Ok(opening)
}
