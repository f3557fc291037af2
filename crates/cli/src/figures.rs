//! Numbers as they are printed: the one place where a sort of number meets the
//! reader's units and decimals.

use measure::{ForceUnit, LengthStyle, MM_PER_INCH, NEWTONS_PER_POUND, RateUnit, Units};
use study::Unit;
use truck::Kind;

/// What sort of number is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Sort {
    /// mm.
    Length,
    /// rad.
    Angle,
    /// rad/mm.
    AnglePerLength,
    /// A ratio of two lengths.
    Ratio,
    /// N/mm.
    Rate,
    /// Hz.
    Frequency,
    /// N/mm².
    Stress,
    /// A pack of shims, mm.
    Shim,
    /// A plain count.
    Count,
    /// A share of one.
    Share,
    /// How much more than before, as a share.
    Harder,
    /// A turning circle, mm.
    Circle,
    /// N.
    Force,
    /// A share of one, to a tenth of a percent.
    Tenths,
}

impl From<Kind> for Sort {
    /// Of what is read off a truck: an angle or a length.
    fn from(kind: Kind) -> Self {
        if kind == Kind::Angle { Self::Angle } else { Self::Length }
    }
}

impl From<Unit> for Sort {
    fn from(unit: Unit) -> Self {
        match unit {
            Unit::Length => Self::Length,
            Unit::Angle => Self::Angle,
            Unit::AnglePerLength => Self::AnglePerLength,
            Unit::Ratio => Self::Ratio,
        }
    }
}

impl From<study::Sort> for Sort {
    fn from(sort: study::Sort) -> Self {
        match sort {
            study::Sort::Length => Self::Length,
            study::Sort::Angle => Self::Angle,
            study::Sort::AnglePerLength => Self::AnglePerLength,
            study::Sort::Ratio => Self::Ratio,
            study::Sort::Rate => Self::Rate,
            study::Sort::Frequency => Self::Frequency,
            study::Sort::Stress => Self::Stress,
            study::Sort::Share => Self::Share,
            study::Sort::Harder => Self::Harder,
            study::Sort::Circle => Self::Circle,
            study::Sort::Words => Self::Count,
        }
    }
}

impl Sort {
    /// The unit as part of a name in tables; `None` for a plain ratio.
    pub(crate) const fn suffix(self, units: Units) -> Option<&'static str> {
        Some(match (self, units) {
            (Self::Length | Self::Shim | Self::Circle, Units::Millimetres) => "mm",
            (Self::Length | Self::Shim | Self::Circle, Units::Inches) => "in",
            (Self::Angle, _) => "deg",
            (Self::AnglePerLength, Units::Millimetres) => "deg_per_mm",
            (Self::AnglePerLength, Units::Inches) => "deg_per_in",
            (Self::Ratio, _) => return None,
            (Self::Rate, Units::Millimetres) => "n_per_mm",
            (Self::Rate, Units::Inches) => "lb_per_in",
            (Self::Frequency, _) => "hz",
            (Self::Stress, Units::Millimetres) => "n_per_mm2",
            (Self::Stress, Units::Inches) => "psi",
            (Self::Force, Units::Millimetres) => "n",
            (Self::Force, Units::Inches) => "lb",
            (Self::Count | Self::Share | Self::Harder | Self::Tenths, _) => return None,
        })
    }

    /// The name of a number with its unit: `camber_deg`.
    pub(crate) fn header(self, key: &str, units: Units) -> String {
        self.suffix(units).map_or_else(|| key.to_owned(), |suffix| format!("{key}_{suffix}"))
    }

    /// A value of the core in the reader's unit.
    pub(crate) fn in_units(self, value: f64, units: Units) -> f64 {
        match (self, units) {
            (Self::Length | Self::Shim | Self::Circle, Units::Inches) => value / MM_PER_INCH,
            (Self::Angle, _) | (Self::AnglePerLength, Units::Millimetres) => value.to_degrees(),
            (Self::AnglePerLength, Units::Inches) => value.to_degrees() * MM_PER_INCH,
            (Self::Rate, Units::Inches) => value / RateUnit::PoundPerInch.newtons_per_mm(),
            (Self::Force, Units::Inches) => value / NEWTONS_PER_POUND,
            (Self::Stress, Units::Inches) => value / NEWTONS_PER_POUND * MM_PER_INCH * MM_PER_INCH,
            _ => value,
        }
    }

    /// The number for CSV and JSON, with an ASCII minus and its unit in the header.
    ///
    /// `decimals` are those of a length or an angle; what is small by nature,
    /// rates of angles and ratios, gets two more.
    pub(crate) fn fixed(self, value: f64, units: Units, decimals: u8) -> String {
        let more = if matches!(self, Self::AnglePerLength | Self::Ratio | Self::Tenths) { 2 } else { 0 };
        measure::fixed(self.in_units(value, units), decimals + more)
    }

    /// The number in a table for people, its unit in the header.
    pub(crate) fn short(self, value: f64, units: Units, decimals: Option<u8>) -> String {
        let usual = match (self, units) {
            (Self::Length | Self::Circle, Units::Inches) => 3,
            (Self::AnglePerLength | Self::Ratio, _) => 4,
            (Self::Stress | Self::Force, _) => 0,
            _ => 2,
        };
        measure::print_number(self.in_units(value, units), decimals.unwrap_or(usual))
    }

    /// The number with its unit, as the page writes it.
    pub(crate) fn words(self, value: f64, units: Units) -> String {
        let with =
            |decimals: u8, unit: &str| measure::print_number(self.in_units(value, units), decimals) + unit;
        match (self, units) {
            (Self::Length | Self::Circle, Units::Millimetres) => {
                measure::print_length(value, LengthStyle::Millimetres { decimals: 2 })
            }
            (Self::Length, Units::Inches) => {
                measure::print_length(value, LengthStyle::Inches { denominator: 16 })
            }
            (Self::Circle, Units::Inches) => measure::print_feet(value, 1),
            (Self::Angle, _) => measure::print_angle(value, 2),
            (Self::AnglePerLength, Units::Millimetres) => with(4, "°/mm"),
            (Self::AnglePerLength, Units::Inches) => with(3, "°/in"),
            (Self::Ratio, _) => with(4, ""),
            (Self::Rate, Units::Millimetres) => measure::print_rate(value, RateUnit::NewtonPerMillimetre),
            (Self::Rate, Units::Inches) => measure::print_rate(value, RateUnit::PoundPerInch),
            (Self::Frequency, _) => with(2, " Hz"),
            (Self::Stress, Units::Millimetres) => with(0, " N/mm²"),
            (Self::Stress, Units::Inches) => with(0, " psi"),
            (Self::Shim, Units::Millimetres) => {
                measure::print_length(value, LengthStyle::Millimetres { decimals: 1 })
            }
            (Self::Shim, Units::Inches) => {
                measure::print_length(value, LengthStyle::Inches { denominator: 32 })
            }
            (Self::Count, _) => with(2, ""),
            (Self::Harder, _) => drawing::harder_in_words(value),
            (Self::Force, Units::Millimetres) => measure::print_force(value, ForceUnit::Newton),
            (Self::Force, Units::Inches) => measure::print_force(value, ForceUnit::Pound),
            (Self::Tenths, _) => measure::print_number(value * 100.0, 1) + " %",
            (Self::Share, _) => measure::print_number(value * 100.0, 0) + " %",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Definitions of the inch and the pound, and their usual multiples:
    /// 1 lbf/in² is 0.006894757 N/mm² and 1 lbf/in 0.1751268 N/mm (NIST SP 811).
    #[test]
    fn units_are_those_of_the_tables() {
        let inches = |sort: Sort, value: f64| sort.fixed(value, Units::Inches, 4);
        assert_eq!(inches(Sort::Length, 63.5), "2.5000");
        assert_eq!(inches(Sort::Angle, 0.5_f64.to_radians()), "0.5000");
        assert_eq!(inches(Sort::AnglePerLength, (0.01_f64).to_radians()), "0.254000");
        assert_eq!(inches(Sort::Ratio, 0.6), "0.600000");
        assert_eq!(inches(Sort::Rate, 17.51268), "100.0000");
        assert_eq!(Sort::Stress.fixed(6.894757, Units::Inches, 2), "1000.00");
        assert_eq!(inches(Sort::Force, 44.482216152605), "10.0000");
        assert_eq!(Sort::Force.header("left_front_more", Units::Inches), "left_front_more_lb");
        assert_eq!(Sort::Tenths.words(-0.0153, Units::Inches), "−1.5 %");
        assert_eq!(Sort::AnglePerLength.header("toe_rate", Units::Inches), "toe_rate_deg_per_in");
        assert_eq!(Sort::Ratio.header("track_rate", Units::Millimetres), "track_rate");
    }

    #[test]
    fn nothing_prints_a_minus_before_a_zero() {
        for sort in [Sort::Length, Sort::Angle, Sort::AnglePerLength, Sort::Ratio, Sort::Rate, Sort::Stress] {
            for units in [Units::Inches, Units::Millimetres] {
                let text = sort.fixed(-1e-12, units, 4) + &sort.words(-1e-12, units);
                assert!(!text.contains(['-', '−']), "{text}");
            }
        }
    }
}
