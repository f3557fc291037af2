//! A truck of which some numbers are stated.

use super::defaults::{self, Base};
use truck::{Arm, Field, Readings, RearAxle, RearField, Sources, SpringKind, Truck, guesses};

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
    pub(crate) readings: Readings,
    pub(crate) rear: RearAxle,
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
            readings: Readings::default(),
            rear: RearAxle::UNKNOWN,
        }
    }
}

/// A number of which a link says nothing: the base's, or where that states it what guesses that follow make of it.
pub(super) fn unsaid(guesses: &[(Field, f64)], base: Base, field: Field) -> Option<f64> {
    let first = base.value(field)?;
    Some(guesses.iter().find(|(other, _)| *other == field).map_or(first, |(_, value)| *value))
}

impl Stated {
    /// The truck. Every number is set, so nothing of today's demo truck is left.
    pub(crate) fn truck(self) -> Truck {
        let mut truck = truck::demo().truck;
        let stated = |field| self.numbers.iter().find(|(other, _)| *other == field);
        for field in Field::ALL.iter().copied() {
            let value = stated(field).map_or_else(|| self.base.value(field), |(_, value)| *value);
            field.put(&mut truck, value);
        }
        self.right.iter().for_each(|(field, value)| truck.right.put(*field, *value));
        truck.readings = self.readings;
        truck.spring.kind = self.spring;
        truck.spring.arm = self.arm;
        truck.sources = self.sources;
        // What follows is told by what is stated.
        let guesses = guesses(&truck);
        for (field, _) in guesses.iter().filter(|(field, _)| stated(*field).is_none()) {
            field.put(&mut truck, unsaid(&guesses, self.base, *field));
        }
        truck.rear = RearAxle::UNKNOWN;
        for field in RearField::ALL {
            truck.rear.put(field, self.rear.get(field).or(self.base.of_rear(field)));
        }
        truck
    }
}
