//! The ledger of what meets what as a tree, both ways, under the names of its tables.

use super::path::{Branch, whole};
use super::tree::{Object, Tree};
use crate::shared;
use truck::{
    AddedRow, Design, Entry, Ledger, LedgerEdit, Mating, Origin, PARTS, Part, PartId, Row, RowId, Tool, Whose,
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
        (usual, None) => whole.add_text("row", usual.map(|usual| usual.key()).unwrap_or_default()),
    }
    for (id, entry) in row.entries() {
        if let Some(callout) = row.kind().callout(*id) {
            let mut number = Object::default();
            number.add("value", Tree::Number(entry.value(callout.sort)));
            number.add_text("tool", entry.tool.key());
            number.add_text("whose", entry.whose.key());
            numbers.add(row.kind().callout_key(*id), number.into());
        }
    }
    whole.add("numbers", numbers.into());
    whole.into()
}

pub(super) fn read(branch: &Branch<'_>) -> Ledger {
    let mut ledger = Ledger::EMPTY;
    let members = branch.members();
    members.each(&mut |key, branch| match key {
        "parts" => branch.each_item(&mut |part| _ = read_part(&mut ledger, part)),
        "rows" => {}
        _ => branch.newer(),
    });
    // Behind the parts, wherever they stand.
    if let Some(rows) = members.get("rows") {
        rows.each_item(&mut |row| _ = read_row(&mut ledger, row));
    }
    ledger
}

fn edit(ledger: &mut Ledger, edit: &LedgerEdit, branch: &Branch<'_>) {
    match ledger.edited(edit) {
        Ok(edited) => *ledger = edited,
        Err(_) => branch.too_long(),
    }
}

/// The number of what was added.
fn added_id(branch: &Branch<'_>, what: &'static str) -> Option<u8> {
    let id = match branch.tree {
        Tree::Number(value) => whole(*value).filter(|id| *id >= RowId::FIRST_ADDED),
        _ => None,
    };
    if id.is_none() {
        branch.shape(what);
    }
    id
}

fn part_id(branch: &Branch<'_>) -> Option<PartId> {
    if let Tree::Text(key) = branch.tree {
        let at = PARTS.iter().position(|(other, _)| other == key);
        if at.is_none() {
            branch.newer_word(key);
        }
        return at.map(|at| PartId(u8::try_from(at).expect("the usual parts are few")));
    }
    added_id(branch, "a part's key, or from 128 to 255 of one that was added").map(PartId)
}

fn read_part(ledger: &mut Ledger, branch: &Branch<'_>) -> Option<()> {
    let mut id = None;
    let mut part = Part::default();
    branch.each(&mut |key, branch| match key {
        "part" => id = part_id(branch),
        "name" => part.name = shared::name(branch.short_text(Design::LONGEST_NAME)),
        "side" => part.side = branch.one_of(&super::layout::SIDES),
        "from" => part.origin = origin(branch),
        _ => branch.newer(),
    });
    if id.is_none() {
        branch.shape("an object that names its \"part\"");
    }
    let id = id?;
    if ledger.part(id).is_some() {
        branch.twice();
    }
    edit(ledger, &LedgerEdit::Part(id, part), branch);
    Some(())
}

fn origin(branch: &Branch<'_>) -> Origin {
    if matches!(branch.tree, Tree::Text(_)) {
        let bought = branch.one_of(&[(false, "kept"), (true, "bought")]);
        return if bought == Some(true) { Origin::Bought } else { Origin::Kept };
    }
    let members = branch.members();
    let donor = members.get("donor");
    if donor.is_none() {
        branch.shape("an object that names its \"donor\"");
    }
    members.each(&mut |key, other| {
        if key != "donor" {
            other.newer();
        }
    });
    donor.map_or(Origin::Kept, |donor| Origin::Donor(shared::name(donor.short_text(Design::LONGEST_NAME))))
}

fn read_row(ledger: &mut Ledger, branch: &Branch<'_>) -> Option<()> {
    let members = branch.members();
    let need = |key: &str| {
        let found = members.get(key);
        if found.is_none() {
            branch.shape("an object that names its \"row\", or all of an added one");
        }
        found
    };
    let is_there = |ledger: &Ledger, id: RowId| ledger.written().iter().any(|row| row.id() == id);
    let (id, known, twice) = if let Some(named) = members.get("row") {
        let key = named.text();
        let found = RowId::of_usual(key);
        if found.is_none() {
            named.newer_word(key);
        }
        let id = found?;
        (id, &["row", "numbers"][..], is_there(ledger, id))
    } else {
        let id = RowId(added_id(&need("added")?, "from 128 to 255, of a row that was added")?);
        let added = AddedRow {
            name: shared::name(need("name")?.short_text(Design::LONGEST_NAME)),
            kind: need("kind")?.keyed(Mating::ALL, Mating::key)?,
            parts: [part_id(&need("first")?)?, part_id(&need("second")?)?],
            vital: truth(&need("vital")?),
        };
        let known = &["added", "kind", "name", "first", "second", "vital", "numbers"][..];
        let twice = is_there(ledger, id);
        edit(ledger, &LedgerEdit::Row(id, added), branch);
        (id, known, twice)
    };
    if twice {
        branch.twice();
    }
    members.each(&mut |key, other| {
        if !known.contains(&key) {
            other.newer();
        }
    });
    let numbers = members.get("numbers")?;
    let kind = branch.known(ledger.row(id))?.kind();
    numbers.each(&mut |key, number| _ = read_number(ledger, (id, kind), key, number));
    Some(())
}

fn truth(branch: &Branch<'_>) -> bool {
    match branch.tree {
        Tree::Bool(value) => *value,
        _ => {
            branch.shape("true or false");
            false
        }
    }
}

fn read_number(
    ledger: &mut Ledger,
    (row, kind): (RowId, Mating),
    key: &str,
    branch: &Branch<'_>,
) -> Option<()> {
    let found = (0..).zip(kind.callouts()).find(|(callout, _)| kind.callout_key(*callout) == key);
    let (callout, known) = branch.known(found)?;
    let (mut value, mut tool, mut whose) = (None, known.sort.tools()[0], Whose::Own);
    branch.each(&mut |key, branch| match key {
        "value" => {
            let number = branch.number();
            let kept = Entry::of(known, number, tool, whose);
            value = branch.within(kept, kind.callout_label(callout), known.limits()).map(|_| number);
        }
        "tool" => tool = branch.keyed(known.sort.tools(), Tool::key).unwrap_or(tool),
        "whose" => whose = branch.keyed(&Whose::ALL, Whose::key).unwrap_or(whose),
        _ => branch.newer(),
    });
    if value.is_none() {
        branch.shape("an object that names its \"value\"");
    }
    let value = value?;
    edit(ledger, &LedgerEdit::Write { row, callout, value, tool, whose }, branch);
    Some(())
}
