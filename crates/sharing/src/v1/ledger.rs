//! The ledger in the bits of version 1, both ways.
//!
//! ```text
//! ledger = ids [ parts ] [ rows ]
//! parts  = ids { ids [ name ] [ donor ] [ ] [ right ] }      by `PartId`; the third is: bought
//! rows   = ids { [ added ] ids plain { [ tool whose ] number } }
//! added  = kind part part vital name                         from `RowId::FIRST_ADDED`
//! ```
//!
//! Plain is a row whose numbers are all the sender's own, by the usual tool.

use super::bits::{Parts, Reader, Writer};
use super::ids::ledger as ids;
use crate::shared;
use truck::{
    AddedRow, Callout, Design, Entry, Ledger, LedgerDraft, Mating, Origin, Part, PartId, Row, RowId, Side,
    Tool, Whose,
};

/// What a message calls a number of it.
const NUMBER: &str = "a number of the ledger";

pub(super) fn write(out: &mut Writer, ledger: &Ledger) {
    let (mut parts, mut rows, mut whole) = (Parts::default(), Parts::default(), Parts::default());
    for (id, part) in ledger.parts() {
        write_part(parts.part(id.0), part);
    }
    for row in ledger.written() {
        write_row(rows.part(row.id().0), row);
    }
    for (id, there) in [(ids::PARTS, parts), (ids::ROWS, rows)] {
        if !there.is_empty() {
            there.append_to(whole.part(id));
        }
    }
    whole.append_to(out);
}

fn write_part(out: &mut Writer, Part { name, origin, side }: &Part) {
    let mut whole = Parts::default();
    if !name.is_empty() {
        whole.part(ids::NAME).text(name);
    }
    match origin {
        Origin::Kept => {}
        Origin::Donor(donor) => whole.part(ids::DONOR).text(donor),
        Origin::Bought => _ = whole.part(ids::BOUGHT),
    }
    if let Some(side) = side {
        whole.part(ids::SIDE).bit(*side == Side::Right);
    }
    whole.append_to(out);
}

fn write_row(out: &mut Writer, row: &Row) {
    if let Some(AddedRow { name, kind, parts, vital }) = row.added() {
        out.small(u32::from(kind.id()));
        parts.iter().for_each(|part| out.bits(u32::from(part.0), 8));
        out.bit(*vital);
        out.text(name);
    }
    let callouts = row.kind().callouts();
    out.ids(&row.entries().iter().map(|(id, _)| *id).collect::<Vec<_>>());
    let usual = |(id, entry): &(u8, Entry)| {
        entry.whose == Whose::Own && entry.tool == usual_tool(&callouts[usize::from(*id)])
    };
    let plain = row.entries().iter().all(usual);
    out.bit(plain);
    for (_, entry) in row.entries() {
        if !plain {
            out.bits(entry.tool as u32, 4);
            out.bits(entry.whose as u32, 2);
        }
        out.steps(i64::from(entry.steps));
    }
}

const fn usual_tool(callout: &Callout) -> Tool {
    callout.sort.tools()[0]
}

/// What a section holds; more than a ledger takes, or an id unknown here, is a newer
/// Scrubline's.
pub(super) fn read(bits: &mut Reader<'_>) -> Option<Ledger> {
    let mut ledger = LedgerDraft::default();
    for id in bits.ids() {
        match id {
            ids::PARTS => {
                for id in bits.ids() {
                    let part = read_part(bits)?;
                    bits.known(ledger.part(PartId(id), &part).ok())?;
                }
            }
            ids::ROWS => {
                for id in bits.ids() {
                    read_row(&mut ledger, RowId(id), bits)?;
                }
            }
            _ => return bits.newer(),
        }
    }
    bits.known(ledger.done().ok())
}

fn read_part(bits: &mut Reader<'_>) -> Option<Part> {
    let mut part = Part::default();
    for id in bits.ids() {
        match id {
            ids::NAME => part.name = shared::name(&bits.text(Design::LONGEST_NAME)),
            ids::DONOR => part.origin = Origin::Donor(shared::name(&bits.text(Design::LONGEST_NAME))),
            ids::BOUGHT => part.origin = Origin::Bought,
            ids::SIDE => part.side = Some(if bits.bit() { Side::Right } else { Side::Left }),
            _ => return bits.newer(),
        }
    }
    Some(part)
}

fn read_row(ledger: &mut LedgerDraft, id: RowId, bits: &mut Reader<'_>) -> Option<()> {
    let kind = if id.is_added() {
        let kind = Mating::from_id(bits.byte());
        let kind = bits.known(kind)?;
        let parts = [bits.bits(8), bits.bits(8)].map(|id| PartId(u8::try_from(id).unwrap_or(0)));
        let vital = bits.bit();
        let name = shared::name(&bits.text(Design::LONGEST_NAME));
        bits.known(ledger.row(id, &AddedRow { name, kind, parts, vital }).ok())?;
        kind
    } else {
        bits.known(id.usual())?.kind
    };
    let callouts = bits.ids();
    let plain = bits.bit();
    for id_of_callout in callouts {
        let callout = bits.known(kind.callout(id_of_callout))?;
        let (mut tool, mut whose) = (usual_tool(callout), Whose::Own);
        if !plain {
            tool = bits.one_of(&Tool::ALL, 4)?;
            whose = bits.one_of(&Whose::ALL, 2)?;
        }
        let steps = i32::try_from(bits.steps()).ok();
        let value = Entry { steps: bits.known(steps)?, tool, whose }.value(callout.sort);
        bits.within(Entry::of(callout, value, tool, whose), NUMBER)?;
        bits.known(ledger.write(id, id_of_callout, value, tool, whose).ok())?;
    }
    Some(())
}
