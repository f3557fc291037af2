//! Where each number stands on a truck.

use crate::field::{Field, fields};
use crate::slot::Slot;
use crate::truck::Truck;

macro_rules! places {
    ($($id:literal $name:ident $key:literal $group:ident $kind:ident $low:literal..$high:literal
        $need:ident $side:ident $precision:ident $guess:ident $from:ident $label:literal
        $($part:ident).+;)*) => {
        impl Field {
            /// Its value on a truck, in the core's unit; `None` where it may be left open and is.
            #[must_use]
            pub fn get(self, truck: &Truck) -> Option<f64> {
                match self { $(Self::$name => truck.$($part).+.get(),)* }
            }

            /// Puts a value, in the core's unit, on a truck without checking it: for studies that
            /// ask what another value would do. A design changes by
            /// [`Design::edited`](crate::Design::edited) alone.
            pub fn put(self, truck: &mut Truck, value: Option<f64>) {
                match self { $(Self::$name => truck.$($part).+.put(value),)* }
            }
        }
    };
}

fields!(places);

/// By the table, which knows every number: what is derived compares every struct by code of its own.
impl PartialEq for Truck {
    fn eq(&self, other: &Self) -> bool {
        let own = |truck: &Self| (truck.spring.kind, truck.spring.arm);
        let numbers = || Field::ALL.iter().all(|field| field.get(self) == field.get(other));
        own(self) == own(other)
            && self.sources == other.sources
            && self.right == other.right
            && self.readings == other.readings
            && self.rear == other.rear
            && numbers()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;

    /// Where every number that the table knows is another truck's, and what is no number of it, nothing
    /// else sets the two apart: so what is compared by the table is all there is.
    #[test]
    fn the_table_knows_all_of_a_truck() {
        let truck = demo().truck;
        let mut other = truck.clone();
        for field in Field::ALL.iter().copied() {
            let value = if field.is_optional() { None } else { field.get(&truck).map(|value| value + 1.0) };
            field.put(&mut other, value);
        }
        assert_ne!(truck, other);
        let far = format!("{other:?}");
        for field in Field::ALL.iter().copied() {
            field.put(&mut other, field.get(&truck));
        }
        assert_eq!(truck, other);
        let again = format!("{other:?}");
        assert_eq!(again, format!("{truck:?}"));
        assert_ne!(again, far);
    }
}
