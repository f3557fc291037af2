//! The ledger of what meets what as a tree, both ways, under the names of its tables.

use super::error::Read;
use super::path::{Branch, Members, keyed, one_of, out_of_limits};
use super::tree::{Object, Tree};
use crate::shared;
use truck::{
    AddedRow, Design, Entry, Ledger, LedgerEdit, Mating, Origin, PARTS, Part, PartId, ROWS, Row, RowId, Tool,
    Whose,
};

pub(super) fn write(ledger: &Ledger) -> Tree {
    let mut whole = Object::default();
    whole.add("parts", Tree::List(ledger.parts().iter().map(write_part).collect()));
    whole.add("rows", Tree::List(ledger.written().iter().map(write_row).collect()));
    whole.into()
}

/// A part: its key, or its number where it was added.
fn named(id: PartId) -> Tree {
    let usual = PARTS.get(usize::from(id.0));
    usual.map_or_else(|| Tree::Number(f64::from(id.0)), |(key, _)| Tree::text(key))
}

fn write_part((id, part): &(PartId, Part)) -> Tree {
    let mut whole = Object::default();
    whole.add("part", named(*id));
    if !part.name.is_empty() {
        whole.add_text("name", &part.name);
    }
    match &part.origin {
        Origin::Kept => {}
        Origin::Donor(donor) => {
            let mut from = Object::default();
            from.add_text("donor", donor);
            whole.add("from", from.into());
        }
        Origin::Bought => whole.add_text("from", "bought"),
    }
    if let Some(side) = &part.side {
        whole.add_text("side", super::layout::word(&super::layout::SIDES, side));
    }
    whole.into()
}

fn write_row(row: &Row) -> Tree {
    let (mut whole, mut numbers) = (Object::default(), Object::default());
    match (row.id().usual(), row.added()) {
        (_, Some(AddedRow { name, kind, parts: [first, second], vital })) => {
            whole.add("added", Tree::Number(f64::from(row.id().0)));
            whole.add_text("kind", kind.key());
            whole.add_text("name", name);
            whole.add("first", named(*first));
            whole.add("second", named(*second));
            whole.add("vital", Tree::Bool(*vital));
        }
        (usual, None) => whole.add_text("row", usual.map(|usual| usual.key).unwrap_or_default()),
    }
    for (id, entry) in row.entries() {
        if let Some(callout) = row.kind().callout(*id) {
            let mut number = Object::default();
            number.add("value", Tree::Number(entry.value(callout.sort)));
            number.add_text("tool", entry.tool.key());
            number.add_text("whose", entry.whose.key());
            numbers.add(callout.key, number.into());
        }
    }
    whole.add("numbers", numbers.into());
    whole.into()
}

pub(super) fn read(members: Members<'_>) -> Read<Ledger> {
    let mut ledger = Ledger::EMPTY;
    let mut rows = None;
    for (key, branch) in members.iter() {
        match key {
            "parts" => {
                for part in branch.items()? {
                    ledger = read_part(&ledger, &part)?;
                }
            }
            "rows" => rows = Some(branch),
            _ => return Err(branch.newer()),
        }
    }
    if let Some(rows) = &rows {
        for row in rows.items()? {
            ledger = read_row(&ledger, &row)?;
        }
    }
    Ok(ledger)
}

fn edited(ledger: &Ledger, edit: &LedgerEdit, branch: &Branch<'_>) -> Read<Ledger> {
    ledger.edited(edit).map_err(|_| branch.too_long())
}

/// The number of what was added.
fn added_id(branch: &Branch<'_>, what: &'static str) -> Read<u8> {
    branch.byte().ok().filter(|id| *id >= RowId::FIRST_ADDED).ok_or_else(|| branch.shape(what))
}

fn part_id(branch: &Branch<'_>) -> Read<PartId> {
    if matches!(branch.tree, Tree::Text(_)) {
        let key = branch.text()?;
        let at = PARTS.iter().position(|(other, _)| *other == key).ok_or_else(|| branch.newer_word(key))?;
        return Ok(PartId(u8::try_from(at).expect("the usual parts are few")));
    }
    added_id(branch, "a part's key, or from 128 to 255 of one that was added").map(PartId)
}

fn read_part(ledger: &Ledger, branch: &Branch<'_>) -> Read<Ledger> {
    let mut id = None;
    let mut part = Part::default();
    for (key, branch) in branch.members()?.iter() {
        match key {
            "part" => id = Some(part_id(&branch)?),
            "name" => part.name = shared::name(branch.short_text(Design::LONGEST_NAME)?),
            "side" => part.side = Some(one_of(&super::layout::SIDES, &branch)?),
            "from" => part.origin = origin(&branch)?,
            _ => return Err(branch.newer()),
        }
    }
    let id = id.ok_or_else(|| branch.shape("an object that names its \"part\""))?;
    if ledger.part(id).is_some() {
        return Err(branch.twice());
    }
    edited(ledger, &LedgerEdit::Part(id, part), branch)
}

fn origin(branch: &Branch<'_>) -> Read<Origin> {
    if matches!(branch.tree, Tree::Text(_)) {
        return one_of(&[(false, "kept"), (true, "bought")], branch)
            .map(|bought| if bought { Origin::Bought } else { Origin::Kept });
    }
    let members = branch.members()?;
    let donor = members.get("donor").ok_or_else(|| branch.shape("an object that names its \"donor\""))?;
    match members.iter().find(|(key, _)| *key != "donor") {
        Some((_, other)) => Err(other.newer()),
        None => Ok(Origin::Donor(shared::name(donor.short_text(Design::LONGEST_NAME)?))),
    }
}

fn read_row(ledger: &Ledger, branch: &Branch<'_>) -> Read<Ledger> {
    let members = branch.members()?;
    let need = |key: &str| {
        members
            .get(key)
            .ok_or_else(|| branch.shape("an object that names its \"row\", or all of an added one"))
    };
    let (id, known, mut next) = if members.get("row").is_some() {
        let named = need("row")?;
        let key = named.text()?;
        let at = ROWS.iter().position(|row| row.key == key).ok_or_else(|| named.newer_word(key))?;
        let id = RowId(u8::try_from(at).expect("the usual rows are few"));
        (id, &["row", "numbers"][..], ledger.clone())
    } else {
        let id = RowId(added_id(&need("added")?, "from 128 to 255, of a row that was added")?);
        let added = AddedRow {
            name: shared::name(need("name")?.short_text(Design::LONGEST_NAME)?),
            kind: keyed(Mating::ALL, Mating::key, &need("kind")?)?,
            parts: [part_id(&need("first")?)?, part_id(&need("second")?)?],
            vital: truth(&need("vital")?)?,
        };
        let known = &["added", "kind", "name", "first", "second", "vital", "numbers"][..];
        (id, known, edited(ledger, &LedgerEdit::Row(id, added), branch)?)
    };
    if ledger.written().iter().any(|row| row.id() == id) {
        return Err(branch.twice());
    }
    if let Some((_, other)) = members.iter().find(|(key, _)| !known.contains(key)) {
        return Err(other.newer());
    }
    if let Some(numbers) = members.get("numbers") {
        let kind = next.row(id).map(|row| row.kind()).ok_or_else(|| branch.newer())?;
        for (key, number) in numbers.members()?.iter() {
            next = read_number(&next, (id, kind), key, &number)?;
        }
    }
    Ok(next)
}

fn truth(branch: &Branch<'_>) -> Read<bool> {
    match branch.tree {
        Tree::Bool(value) => Ok(*value),
        _ => Err(branch.shape("true or false")),
    }
}

fn read_number(
    ledger: &Ledger,
    (row, kind): (RowId, Mating),
    key: &str,
    branch: &Branch<'_>,
) -> Read<Ledger> {
    let at = kind.callouts().iter().position(|callout| callout.key == key).ok_or_else(|| branch.newer())?;
    let known = &kind.callouts()[at];
    let callout = u8::try_from(at).expect("a kind has few numbers");
    let (mut value, mut tool, mut whose) = (None, known.sort.tools()[0], Whose::Own);
    for (key, branch) in branch.members()?.iter() {
        match key {
            "value" => {
                let number = branch.number()?;
                let kept = Entry::of(known, number, tool, whose);
                let refused = || out_of_limits(&branch, kind.callout_label(callout), known.limits());
                kept.ok_or_else(refused)?;
                value = Some(number);
            }
            "tool" => tool = keyed(known.sort.tools(), Tool::key, &branch)?,
            "whose" => whose = keyed(&Whose::ALL, Whose::key, &branch)?,
            _ => return Err(branch.newer()),
        }
    }
    let value = value.ok_or_else(|| branch.shape("an object that names its \"value\""))?;
    edited(ledger, &LedgerEdit::Write { row, callout, value, tool, whose }, branch)
}
