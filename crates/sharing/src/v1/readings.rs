//! The readings in the bits of version 1, both ways.
//!
//! ```text
//! readings = ids { side }                                  0 left, 1 right
//! side     = ids { usual [ tool other [ tolerance ] ] [ swept [ degrees ] ] number }      by `Readable`
//! ```
//!
//! Usual is a reading by the usual tool, as well as that tool reads; other is a tolerance of its
//! own, in steps over 5 mm or 5°. Swept is said of caster alone, in steps over 20°. A length's number
//! is 18 bits, since none is less than zero; an angle's is a number.

use super::bits::{Parts, Reader, Writer};
use truck::{Kind, ReadWith, Readable, Reading, Readings, Side};

/// What a tolerance is written as a difference from, in steps: 5 mm, or 5°.
const TOLERANCE: i64 = 500;
/// What a sweep is written as a difference from, in steps: 20° each way.
const SWEPT: i64 = 2000;
/// Bits of a length: up to 2.6 m.
const LENGTH_BITS: u32 = 18;

pub(super) fn write(out: &mut Writer, readings: &Readings) {
    let mut sides = Parts::default();
    for (id, side) in (0..).zip(Side::ALL) {
        let mut here = Parts::default();
        for (_, of, reading) in readings.iter().filter(|(at, ..)| *at == side) {
            write_one(here.part(of.id()), *of, reading);
        }
        if !here.is_empty() {
            here.append_to(sides.part(id));
        }
    }
    sides.append_to(out);
}

fn write_one(out: &mut Writer, of: Readable, reading: &Reading) {
    let kind = of.kind();
    let steps = |kind: Kind, value: f64| kind.steps(value).unwrap_or(0);
    let Reading { value, tolerance, tool, swept_rad } = *reading;
    let own = steps(kind, tolerance) != steps(kind, tool.usual_tolerance(kind));
    let usual = !own && tool == of.tools()[0];
    out.bit(usual);
    if !usual {
        out.bits(tool as u32, 4);
        out.bit(own);
        if own {
            out.steps(steps(kind, tolerance) - TOLERANCE);
        }
    }
    if of == Readable::Caster {
        out.bit(swept_rad.is_some());
        if let Some(swept_rad) = swept_rad {
            out.steps(steps(Kind::Angle, swept_rad) - SWEPT);
        }
    }
    let value = steps(kind, value);
    match kind {
        Kind::Angle => out.steps(value),
        _ => out.bits(u32::try_from(value).unwrap_or(0), LENGTH_BITS),
    }
}

/// What a section holds; an id unknown here is a newer Scrubline's.
pub(super) fn read(bits: &mut Reader<'_>) -> Option<Readings> {
    let mut all = Readings::default();
    for id in bits.ids() {
        let side = bits.known(Side::ALL.get(usize::from(id)).copied())?;
        for id in bits.ids() {
            let what = bits.known(Readable::from_id(id))?;
            let reading = read_one(bits, what)?;
            bits.within(all.set(what, side, Some(reading)).ok(), what.label())?;
        }
    }
    Some(all)
}

fn read_one(bits: &mut Reader<'_>, what: Readable) -> Option<Reading> {
    let kind = what.kind();
    let mut reading = Reading::by(what, 0.0, what.tools()[0]);
    if !bits.bit() {
        reading = Reading::by(what, 0.0, bits.one_of(&ReadWith::ALL, 4)?);
        if bits.bit() {
            reading.tolerance = kind.value(bits.steps() + TOLERANCE);
        }
    }
    if what == Readable::Caster && bits.bit() {
        reading.swept_rad = Some(Kind::Angle.value(bits.steps() + SWEPT));
    }
    let steps = match kind {
        Kind::Angle => bits.steps(),
        _ => i64::from(bits.bits(LENGTH_BITS)),
    };
    reading.value = kind.value(steps);
    Some(reading)
}
