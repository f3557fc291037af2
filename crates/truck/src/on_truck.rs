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
