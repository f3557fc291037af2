//! A truck of which some numbers are stated.

use super::defaults::{self, Base};
use truck::{Arm, Field, Readings, RearAxle, RearField, Sources, SpringKind, Truck};

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

impl Stated {
    /// The truck. Every number is set, so nothing of today's demo truck is left.
    pub(crate) fn truck(self) -> Truck {
        let mut truck = truck::demo().truck;
        for field in Field::ALL.iter().copied() {
            let stated = self.numbers.iter().find(|(other, _)| *other == field);
            let value = stated.map_or_else(|| self.base.value(field), |(_, value)| *value);
            field.put(&mut truck, value);
        }
        self.right.iter().for_each(|(field, value)| truck.right.put(*field, *value));
        truck.readings = self.readings;
        truck.spring.kind = self.spring;
        truck.spring.arm = self.arm;
        truck.sources = self.sources;
        truck.rear = RearAxle::UNKNOWN;
        for field in RearField::ALL {
            truck.rear.put(field, self.rear.get(field).or(self.base.of_rear(field)));
        }
        truck
    }
}
