//! Where each number stands on a truck.

use crate::field::{Field, fields};
use crate::truck::Truck;

/// Where a number stands on a truck: one that must be there, or one that may be left open.
trait Slot {
    fn get(&self) -> Option<f64>;
    fn put(&mut self, value: Option<f64>);
}

impl Slot for f64 {
    fn get(&self) -> Option<f64> {
        Some(*self)
    }

    fn put(&mut self, value: Option<f64>) {
        *self = value.unwrap_or(*self);
    }
}

impl Slot for Option<f64> {
    fn get(&self) -> Option<f64> {
        *self
    }

    fn put(&mut self, value: Option<f64>) {
        *self = value;
    }
}

macro_rules! places {
    ($($id:literal $name:ident $key:literal $group:ident $kind:ident $low:literal..$high:literal $label:literal
        $($part:ident).+;)*) => {
        impl Field {
            /// Its value on a truck, in the core's unit; nothing where it may be left open and is.
            #[must_use]
            pub fn get(self, truck: &Truck) -> Option<f64> {
                match self { $(Self::$name => truck.$($part).+.get(),)* }
            }

            /// Puts a value, in the core's unit, on a truck without checking it.
            pub(crate) fn put(self, truck: &mut Truck, value: Option<f64>) {
                match self { $(Self::$name => truck.$($part).+.put(value),)* }
            }
        }
    };
}

fields!(places);
