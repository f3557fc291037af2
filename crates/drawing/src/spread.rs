//! How far off an answer may be, as people say it.

use crate::words::tape;
use measure::{MM_PER_INCH, Units, fixed, print_length};
use study::{Range, Sort};

/// Said of a change that is less than how far off it may be.
pub const CANNOT_TELL: &str = "more or less: the tape can't tell";

/// A mark of a tape, mm.
const SIXTEENTH_MM: f64 = MM_PER_INCH / 16.0;
/// What nobody reads off a rule in millimetres, mm.
const UNREAD_MM: f64 = 0.25;
/// Of a number that is farther off nothing is said but that it is not known, in the core's unit.
const FAR: f64 = 1e4;

/// How far off an answer may be, `± 2.3°`; `None` where that is less than anybody reads, and of what
/// is no such number.
///
/// `spread`: ± in the core's unit. It has two figures where the first is a one or a two, and
/// otherwise one; a length in inches goes by sixteenths. The rate of an angle is that over
/// [`bump_mm`].
///
/// # Source
/// JCGM 100 (GUM) 7.2.6: two figures of an uncertainty are enough.
#[must_use]
pub fn spread_in_words(sort: Sort, spread: f64, units: Units) -> Option<String> {
    let inches = units == Units::Inches;
    let (shown, finest, unit) = match sort {
        Sort::Length if inches => {
            let is_read = spread > SIXTEENTH_MM / 2.0 && spread < FAR;
            return is_read.then(|| "± ".to_owned() + &print_length(spread, tape(units)));
        }
        Sort::Circle if inches => (spread / MM_PER_INCH, 0, " in"),
        Sort::Length | Sort::Circle => (spread, 1, " mm"),
        Sort::Angle => (spread.to_degrees(), 2, "°"),
        Sort::AnglePerLength => ((spread * bump_mm(units)).to_degrees(), 2, "°"),
        Sort::Frequency => (spread, 2, " Hz"),
        Sort::Share => (100.0 * spread, 0, " %"),
        Sort::Rate | Sort::Stress | Sort::Ratio | Sort::Harder | Sort::Words => return None,
    };
    let (mut steps, mut decimals) = (shown, 0);
    while decimals < finest && (steps < 2.95) {
        (steps, decimals) = (10.0 * steps, decimals + 1);
    }
    let is_read = if sort == Sort::Length { shown > UNREAD_MM } else { steps >= 0.5 };
    (is_read && shown < FAR).then(|| ["± ", &fixed(shown, decimals), unit].concat())
}

/// Between what a length lies, `0 to 2 1/16 in`; its low end is never said greater than it is.
#[must_use]
pub fn range_in_words(range: &Range, units: Units) -> String {
    let mark = if units == Units::Inches { SIXTEENTH_MM } else { 0.1 };
    // What arithmetic leaves of a mark is none of it.
    let low = (range.low / mark + 1e-6).floor() * mark;
    let [low, high] = [low, range.high].map(|mm| print_length(mm, tape(units)));
    if low == high {
        return high;
    }
    [without_unit(&low), " to ", &high].concat()
}

/// A length in words without what it is measured in.
#[must_use]
pub fn without_unit(said: &str) -> &str {
    said.bytes().rposition(|byte| byte == b' ').map_or(said, |unit| &said[..unit])
}

/// In how many of a hundred trucks that measure as this one something is so; `None` where it nearly always is.
#[must_use]
pub fn share_in_words(share: f64) -> Option<String> {
    (share < 0.995).then(|| in_how_many(share))
}

/// In how many of a hundred trucks something is so.
#[must_use]
pub fn in_how_many(share: f64) -> String {
    ["in ", &fixed(100.0 * share, 0), " of 100"].concat()
}

/// Whether of a change nobody can say which way it goes, by how far off it may be.
#[must_use]
pub fn is_lost(sort: Sort, change: f64, spread: f64, units: Units) -> bool {
    change.abs() < spread && spread_in_words(sort, spread, units).is_some()
}

/// The travel over which the rate of an angle is said, mm: an inch, or 25 mm.
#[must_use]
pub const fn bump_mm(units: Units) -> f64 {
    match units {
        Units::Inches => MM_PER_INCH,
        Units::Millimetres => 25.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rounding by hand: two figures of what begins with a one or a two, one of the rest; a tape's
    /// sixteenths; nothing where nobody would read it.
    #[test]
    fn a_spread_has_no_more_figures_than_are_known() {
        let inches = |sort, spread| spread_in_words(sort, spread, Units::Inches);
        let mm = |sort, spread| spread_in_words(sort, spread, Units::Millimetres);
        let said = |text: &str| Some(text.to_owned());
        assert_eq!(mm(Sort::Angle, 2.337_f64.to_radians()), said("± 2.3°"));
        assert_eq!(mm(Sort::Angle, 0.1_f64.to_radians()), said("± 0.10°"));
        assert_eq!(mm(Sort::Angle, 0.42_f64.to_radians()), said("± 0.4°"));
        assert_eq!(mm(Sort::Angle, 12.4_f64.to_radians()), said("± 12°"));
        assert_eq!(mm(Sort::Angle, 0.004_f64.to_radians()), None);
        assert_eq!(mm(Sort::Length, 14.82), said("± 15 mm"));
        assert_eq!(mm(Sort::Length, 1.5875), said("± 1.6 mm"));
        assert_eq!(mm(Sort::Length, 6.93), said("± 7 mm"));
        assert_eq!((mm(Sort::Length, 0.24), mm(Sort::Length, 15914.0)), (None, None));
        assert_eq!(inches(Sort::Length, 1.5875), said("± 1/16 in"));
        assert_eq!(inches(Sort::Length, 14.82), said("± 9/16 in"));
        assert_eq!(inches(Sort::Length, 0.7), None);
        // An angle for an inch is 25.4 times that for a millimetre, and 25 times for 25 mm.
        assert_eq!(inches(Sort::AnglePerLength, (0.01_f64).to_radians()), said("± 0.25°"));
        assert_eq!(mm(Sort::AnglePerLength, (0.02_f64).to_radians()), said("± 0.5°"));
        assert_eq!(inches(Sort::Circle, 312.0), said("± 12 in"));
        assert_eq!(mm(Sort::Share, 0.0736), said("± 7 %"));
        assert_eq!(mm(Sort::Frequency, 0.1675), said("± 0.17 Hz"));
        assert_eq!((mm(Sort::Words, 3.0), mm(Sort::Length, f64::NAN)), (None, None));
    }

    #[test]
    fn the_low_end_is_never_said_to_be_more() {
        let said = |low, high, units| range_in_words(&Range { low, high, found: 1.0 }, units);
        assert_eq!(said(0.0, 52.27, Units::Inches), "0 to 2 1/16 in");
        assert_eq!(said(39.6, 52.27, Units::Inches), "1 1/2 to 2 1/16 in");
        assert_eq!(said(39.6875, 52.27, Units::Inches), "1 9/16 to 2 1/16 in");
        assert_eq!(said(60.58, 67.99, Units::Millimetres), "60.5 to 68.0 mm");
        assert_eq!(said(10.04, 10.04, Units::Millimetres), "10.0 mm");
    }

    #[test]
    fn a_change_less_than_its_spread_has_no_sign() {
        let lost = |change: f64, spread: f64| is_lost(Sort::Length, change, spread, Units::Millimetres);
        assert!(lost(-4.2, 5.5) && lost(4.2, 5.5) && lost(0.0, 5.5));
        // What nobody would read is no change at all.
        assert!(!lost(-50.8, 1.6) && !lost(0.01, 0.09));
    }
}
