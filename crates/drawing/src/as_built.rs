//! How a truck came out, as people say it.

use crate::spread::spread_in_words;
use crate::words::{change_in_words, count, marked, tape};
use measure::{MM_PER_INCH, Units, print_angle, print_length, print_number};
use study::{BuiltAgainst, BuiltRow, BuiltVerdict, Cause, CauseFound, Figure};
use truck::Kind;

/// Said where something is outside that no one thing would make so.
pub const NO_ONE_CAUSE: &str =
    "No one thing would make all of it so: it is two things, or a reading. Read again what is far off.";
/// Said where the truck's own numbers leave as much open as is off.
pub const MAY_BE_AS_PLANNED: &str = "Nothing need be wrong: what is not known of the truck's own numbers, \
    the spring's among them, is as much. Set it to what is wanted.";
/// What is to be heeded while a truck is read as built.
pub const READ_AS_BUILT: &str = "Read on the same floor with the same tools as before, the driver's weight in \
    it, rolled ten feet first; and again after 100 miles, when U-bolts, wheel nuts and strut-rod nuts are \
    torqued again by the manual. It is no inspection: have it aligned and inspected; your local rules decide.";

/// A reading or what is planned, as it is said; of a difference with its sign.
#[must_use]
pub fn read_in_words(kind: Kind, core: f64, units: Units) -> String {
    match kind {
        Kind::Angle => print_angle(core, 2),
        Kind::Length => print_length(core, tape(units)),
        _ => (if core < 0.0 { "−" } else { "" }).to_owned() + &count((10.0 * core.abs()).round() / 10.0),
    }
}

/// What the plan comes to, marked where that is a guess; a dash where it is not known.
#[must_use]
pub fn planned_in_words(row: &BuiltRow, units: Units) -> String {
    let said = |planned| marked(read_in_words(row.of.kind(), planned, units), row.is_guess);
    row.planned.map_or_else(|| "—".to_owned(), said)
}

/// How much more was read than planned, with its sign and how far off that may be; a dash where it is not known.
#[must_use]
pub fn off_in_words(row: &BuiltRow, units: Units) -> String {
    let Some(off) = row.off() else { return "—".to_owned() };
    let said = |core: f64| read_in_words(row.of.kind(), core, units);
    let sign = if off > 0.0 && said(off) != said(0.0) { "+" } else { "" };
    let mut all = sign.to_owned() + &said(off);
    let sort = Figure::of_reading(row.of).sort();
    if let Some(spread) = row.spread.and_then(|spread| spread_in_words(sort, spread, units)) {
        all = all + " " + &spread;
    }
    marked(all, row.is_guess)
}

/// What is thought of an answer as built, and what would tell it where nothing does.
#[must_use]
pub fn verdict_in_words(row: &BuiltRow, units: Units) -> String {
    let too_near = |why: &str| "too near to tell: ".to_owned() + why;
    match row.verdict {
        BuiltVerdict::Inside => "as planned".to_owned(),
        BuiltVerdict::Outside => "not as planned".to_owned(),
        BuiltVerdict::CannotTell => {
            let tells = row.tolerance_that_tells();
            let may_tell = row.spread.is_none_or(|spread| spread > tells);
            let better = || {
                let tells = match (row.of.kind(), units) {
                    (Kind::Angle, _) => print_angle(tells, 2),
                    (_, Units::Inches) => print_number(tells / MM_PER_INCH, 2) + " in",
                    (_, Units::Millimetres) => print_number(tells, 1) + " mm",
                };
                too_near(&["read it to ± ", &tells].concat())
            };
            match row.against {
                _ if row.planned.is_none() && row.before.is_none() => {
                    too_near("the truck's numbers do not say it")
                }
                BuiltAgainst::Model => too_near("it was not read before the work"),
                _ if row.tolerance > tells && may_tell => better(),
                _ if row.spread.is_none() => too_near("what ends it may switch"),
                _ => too_near("it lies at the edge of what matters"),
            }
        }
    }
}

/// What is dangerous about an answer as built, whatever was planned; `None` of what is not.
#[must_use]
pub fn built_danger(row: &BuiltRow) -> Option<&'static str> {
    if row.may_touch() {
        Some("may touch. Not on the road before there is room")
    } else if row.is_tight() {
        Some("may be under 1/4 in. Turn the wheel by hand from lock to lock, and through its travel")
    } else {
        None
    }
}

/// A cause in a sentence without its end.
#[must_use]
pub fn cause_in_words(found: &CauseFound, units: Units) -> String {
    let by = found.by.unwrap_or(0.0);
    let mut size = found.cause.kind().map(|kind| read_in_words(kind, by.abs(), units)).unwrap_or_default();
    let is_less = by < 0.0;
    let sign = if is_less { "−" } else { "+" };
    let mut head = String::new();
    let [verb, tail] = match &found.cause {
        Cause::NotOn(change) => {
            head = change_in_words(change, units);
            [": as if it were not on", ""]
        }
        Cause::Number(change, at) => {
            let (kind, place) = change.slot();
            let number = &kind.numbers()[*at];
            let planned = change.values().get(*at).copied().flatten().unwrap_or(0.0);
            let said = |value: f64| read_in_words(number.kind, value, units);
            head = [&kind.title(place), ": ", number.label(), " ", &said(planned + by)].concat();
            size = said(planned);
            [" where the plan has ", ""]
        }
        Cause::Beside(kind, numbers) => {
            let which = if numbers.len() > 1 { "both bolts" } else { kind.numbers()[numbers[0]].label() };
            head = [kind.label(), ": ", which, " "].concat();
            [sign, " where the plan has nothing"]
        }
        Cause::Spring if is_less => ["the spring stands ", " lower at its seat: it sagged, or carries more"],
        Cause::Spring => ["the spring stands ", " higher at its seat: it carries less"],
        Cause::Tire if is_less => ["the tires stand ", " lower than planned: their size, or their pressure"],
        Cause::Tire => ["the tires stand ", " higher than planned: their size, or their pressure"],
        Cause::Rear if is_less => ["the rear stands ", " higher than planned"],
        Cause::Rear => ["the rear stands ", " lower than planned"],
        Cause::Misread(of) => {
            head = Figure::of_reading(*of).label();
            [" misread by ", ": read it again"]
        }
    };
    [&head, verb, &size, tail].concat()
}

#[cfg(test)]
mod tests {
    use super::*;
    use truck::{BarAdjuster, Change, ChangeKind, DroppedSpindle, Readable, ShimChange};

    fn said(cause: Cause, by: Option<f64>) -> String {
        cause_in_words(&CauseFound { cause, by }, Units::Inches)
    }

    /// Each way of each cause: what was planned, what it is by the readings, and which way it is off.
    #[test]
    fn a_cause_says_what_it_is_and_which_way() {
        let spindle = Change::DroppedSpindle(DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() });
        let turns = Change::BarAdjuster(BarAdjuster { turns: -4.0 });
        let shims = Change::Shims(ShimChange { front_mm: 3.175, rear_mm: 3.175 });
        for (cause, by, wanted) in [
            (Cause::NotOn(spindle), None, "2 in spindle: as if it were not on"),
            (
                Cause::Number(spindle, 0),
                Some(12.7),
                "Dropped spindle: Drop, pin higher on the knuckle 2 1/2 in where the plan has 2 in",
            ),
            (
                Cause::Number(turns, 0),
                Some(3.0),
                "Bar adjuster: Turns of the bolt, + in, raises −1 where the plan has −4",
            ),
            (Cause::NotOn(shims), None, "1/8 in shim more, both bolts: as if it were not on"),
            (
                Cause::Beside(ChangeKind::StrutRod, &[0]),
                Some(-6.35),
                "Strut rod: Longer −1/4 in where the plan has nothing",
            ),
            (
                Cause::Beside(ChangeKind::Shims, &[0, 1]),
                Some(6.35),
                "Upper-arm shims: both bolts +1/4 in where the plan has nothing",
            ),
            (
                Cause::Spring,
                Some(-12.7),
                "the spring stands 1/2 in lower at its seat: it sagged, or carries more",
            ),
            (Cause::Spring, Some(12.7), "the spring stands 1/2 in higher at its seat: it carries less"),
            (
                Cause::Tire,
                Some(-12.7),
                "the tires stand 1/2 in lower than planned: their size, or their pressure",
            ),
            // It comes down by more.
            (Cause::Rear, Some(25.4), "the rear stands 1 in lower than planned"),
            (Cause::Rear, Some(-25.4), "the rear stands 1 in higher than planned"),
            (
                Cause::Misread(Readable::FrameHeight),
                Some(25.4),
                "Frame height misread by 1 in: read it again",
            ),
        ] {
            assert_eq!(said(cause, by), wanted, "{cause:?}");
        }
    }

    fn row(read: f64, spread: Option<f64>, against: BuiltAgainst, verdict: BuiltVerdict) -> BuiltRow {
        let of = Readable::FrameHeight;
        let before = (against == BuiltAgainst::AsItSat).then_some((300.0, 1.6));
        let (tolerance, planned, is_guess) = (1.6, Some(250.0), false);
        BuiltRow { of, read, tolerance, before, against, planned, spread, is_guess, verdict }
    }

    #[test]
    fn a_difference_has_its_sign_its_spread_and_its_mark() {
        let read = |mm: f64| row(mm, Some(2.3), BuiltAgainst::AsItSat, BuiltVerdict::Inside);
        let off = |mm: f64| off_in_words(&read(mm), Units::Millimetres);
        assert_eq!(
            [off(253.0), off(247.0), off(250.0)],
            ["+3.0 mm ± 2.3 mm", "−3.0 mm ± 2.3 mm", "0.0 mm ± 2.3 mm"]
        );
        let guess = BuiltRow { is_guess: true, ..read(253.0) };
        assert_eq!(off_in_words(&guess, Units::Millimetres), "~ +3.0 mm ± 2.3 mm");
        assert_eq!(planned_in_words(&guess, Units::Millimetres), "~ 250.0 mm");
        let open = BuiltRow { planned: None, spread: None, ..guess };
        assert_eq!([off_in_words(&open, Units::Inches), planned_in_words(&open, Units::Inches)], ["—", "—"]);
    }

    /// By hand: of 12.7 mm a quarter, over √2, is 2.245 mm; of a setting 3.175.
    #[test]
    fn what_would_tell_is_said() {
        let say = |row: &BuiltRow| verdict_in_words(row, Units::Millimetres);
        let cannot = BuiltVerdict::CannotTell;
        assert_eq!(say(&row(250.0, Some(2.3), BuiltAgainst::AsItSat, BuiltVerdict::Inside)), "as planned");
        assert_eq!(
            say(&row(290.0, Some(2.3), BuiltAgainst::AsItSat, BuiltVerdict::Outside)),
            "not as planned"
        );
        let poor = BuiltRow { tolerance: 3.0, ..row(250.0, Some(4.2), BuiltAgainst::AsItSat, cannot) };
        assert_eq!(say(&poor), "too near to tell: read it to ± 2.2 mm");
        let edge = row(261.5, Some(2.3), BuiltAgainst::AsItSat, cannot);
        assert_eq!(say(&edge), "too near to tell: it lies at the edge of what matters");
        let model = row(250.0, Some(12.0), BuiltAgainst::Model, cannot);
        assert_eq!(say(&model), "too near to tell: it was not read before the work");
        let unsaid = BuiltRow { planned: None, ..row(250.0, None, BuiltAgainst::Model, cannot) };
        assert_eq!(say(&unsaid), "too near to tell: the truck's numbers do not say it");
    }
}
