//! A truck of which some numbers are stated.

use super::defaults::{self, Base};
use truck::{Arm, Design, Edit, Field, Readable, Reading, RearField, Side, Sources, SpringKind, Truck};

/// A truck as it is read: what is not stated has the default of version 1.
#[derive(Clone, Debug)]
pub(crate) struct Stated {
    /// In the core's unit, as their fields accepted them; nothing for what is open.
    pub(crate) numbers: Vec<(Field, Option<f64>)>,
    pub(crate) spring: SpringKind,
    pub(crate) arm: Arm,
    pub(crate) sources: Sources,
    /// Which numbers are stated where nothing is said of them.
    pub(crate) base: Base,
    /// As their fields accepted them; all of fields that each side has its own of.
    pub(crate) right: Vec<(Field, f64)>,
    /// As they were accepted.
    pub(crate) readings: Vec<(Side, Readable, Reading)>,
    /// As they were accepted.
    pub(crate) rear: Vec<(RearField, f64)>,
}

impl Default for Stated {
    fn default() -> Self {
        Self {
            numbers: Vec::new(),
            spring: defaults::SPRING_KIND,
            arm: defaults::SPRING_ARM,
            sources: Sources::all(defaults::RULE),
            base: Base::First,
            right: Vec::new(),
            readings: Vec::new(),
            rear: Vec::new(),
        }
    }
}

impl Stated {
    /// The truck. Every number is set, so nothing of today's demo truck is left.
    pub(crate) fn truck(self) -> Truck {
        let mut design = truck::demo();
        let mut values = Vec::with_capacity(Field::ALL.len());
        for field in Field::ALL.iter().copied() {
            let stated = self.numbers.iter().find(|(other, _)| *other == field);
            match stated.map_or_else(|| self.base.value(field), |(_, value)| *value) {
                Some(value) => values.push((field, value)),
                None => design = taken(&design, &Edit::Measure { field, value: None }),
            }
        }
        let right = self.right.iter().map(|(field, value)| (*field, Some(*value))).collect();
        design = taken(&taken(&design, &Edit::MeasureAll(values)), &Edit::MeasureRight(right));
        for field in RearField::ALL {
            let stated = self.rear.iter().find(|(other, _)| *other == field);
            let value = stated.map(|(_, value)| *value);
            if value != design.truck.rear.get(field) {
                design = taken(&design, &Edit::MeasureRear(field, value));
            }
        }
        for (side, of, reading) in self.readings {
            design = taken(&design, &Edit::Read(of, side, Some(reading)));
        }
        let mut truck = design.truck;
        truck.spring.kind = self.spring;
        truck.spring.arm = self.arm;
        truck.sources = self.sources;
        truck
    }
}

/// The design after an edit that nothing refuses: there is room, since the ledger is the demo's, and empty.
fn taken(design: &Design, edit: &Edit) -> Design {
    let Ok(next) = design.edited(edit) else {
        unreachable!("fields and readings were accepted, and only optional ones are open");
    };
    next
}
