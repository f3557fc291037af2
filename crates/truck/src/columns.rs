//! The columns of a table of rows, each of which is one of an enum.

/// What each of an enum has, in a macro that its rows are given to: a method a column, an expression
/// a row.
#[doc(hidden)]
#[macro_export]
macro_rules! columns {
    ($($(#[$said:meta])* $seen:vis $name:ident: $of:ty = $($row:ident => $value:expr),*;)*) => { $(
        $(#[$said])*
        #[must_use]
        $seen const fn $name(self) -> $of {
            match self { $(Self::$row => $value,)* }
        }
    )* };
}
