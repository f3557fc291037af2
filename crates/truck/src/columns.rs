//! The columns of a table of rows, each of which is one of an enum.

/// What each of an enum has, in a macro that its rows are given to: a method a column, an expression
/// a row.
#[doc(hidden)]
#[macro_export]
macro_rules! columns {
    ($($(#[$said:meta])* $seen:vis $name:ident: $of:ty = $($row:ident => $value:expr),*;)*) => { $(
        $(#[$said])*
        #[must_use]
        #[inline(never)]
        $seen const fn $name(self) -> $of {
            match self { $(Self::$row => $value,)* }
        }
    )* };
}

/// The same of words. They lie in one text, a line a row: a table of where each begins and how long it is
/// would be half of what they are to download.
#[doc(hidden)]
#[macro_export]
macro_rules! words {
    ($($(#[$said:meta])* $seen:vis $name:ident = $($row:ident => $words:literal),*;)*) => { $(
        $(#[$said])*
        #[must_use]
        $seen fn $name(self) -> &'static str {
            // Which line it is, whatever the ids of the rows are.
            #[repr(u8)]
            enum Line { $($row),* }
            let line = match self { $(Self::$row => Line::$row,)* };
            $crate::line(concat!($($words, "\n"),*), line as u8)
        }
    )* };
}

/// A line of a text, from 0.
#[doc(hidden)]
#[must_use]
#[inline(never)]
pub fn line(text: &'static str, at: u8) -> &'static str {
    text.split('\n').nth(usize::from(at)).unwrap_or_default()
}
