//! How a truck came out, as people say it.

use crate::words::{change_in_words, count, marked, tape};
use measure::{LengthStyle, MM_PER_INCH, Units, print_angle, print_length, print_number};
use study::{AsBuilt, BuiltRow, BuiltVerdict, Cause, CauseFound, Figure, TIGHT_MM, matters, read_as_built};
use truck::{Asked, Change, ChangeKind, Design, Kind, ReadWith, Readable, WorkLog};

/// Said where something is off that no one thing would make so.
pub const NO_ONE_CAUSE: &str = "No one thing fits all of it. Read the worst again first: if it stands, two \
    things are other than planned.";
/// Over one cause, and over several.
pub const EACH_CAUSE: [&str; 2] = [
    "Of the parts and numbers here, this alone would make it so:",
    "Of the parts and numbers here, each of these alone would make it so:",
];
/// What a truck that was read is not.
pub const NO_INSPECTION: &str =
    "It is no inspection: have it aligned and inspected; your local rules decide.";
/// What is to be heeded while a truck is read as built.
pub const READ_AS_BUILT: &str = "Read on the same floor with the same tools as before, the driver's weight in \
    it, rolled ten feet first; and again after 100 miles, when U-bolts, wheel nuts and strut-rod nuts are \
    torqued again by the manual.";

/// A reading or what is planned, as it is said: a gap as finely as drill shanks go.
#[must_use]
pub fn built_in_words(of: Readable, core: f64, units: Units) -> String {
    let is_gap = of.tools()[0] == ReadWith::DrillShank;
    match (of.kind(), units) {
        (Kind::Length, Units::Inches) if is_gap => {
            print_length(core, LengthStyle::Inches { denominator: 64 })
        }
        (kind, _) => read_in_words(kind, core, units),
    }
}

fn read_in_words(kind: Kind, core: f64, units: Units) -> String {
    match kind {
        Kind::Angle => print_angle(core, 2),
        Kind::Length => print_length(core, tape(units)),
        _ => (if core < 0.0 { "−" } else { "" }).to_owned() + &count((10.0 * core.abs()).round() / 10.0),
    }
}

/// What the plan comes to, marked where that is a guess; a dash where it is not known.
#[must_use]
pub fn planned_in_words(row: &BuiltRow, units: Units) -> String {
    let said = |planned| marked(built_in_words(row.of, planned, units), row.is_guess);
    row.planned.map_or_else(|| "—".to_owned(), said)
}

/// How much more was read than planned, with its sign and how far off that may be; a dash where it is not known.
#[must_use]
pub fn off_in_words(row: &BuiltRow, units: Units) -> String {
    let Some(off) = row.off() else { return "—".to_owned() };
    let said = |core: f64| built_in_words(row.of, core, units);
    let sign = if off > 0.0 && said(off) != said(0.0) { "+" } else { "" };
    let mut all = sign.to_owned() + &said(off);
    if let Some(spread) = row.spread {
        all = all + " ± " + &said(spread);
    }
    marked(all, row.is_guess)
}

/// Whether a setting is what its manual asks; empty where that is not typed.
#[must_use]
pub fn asked_in_words(row: &BuiltRow, log: &WorkLog) -> String {
    let [Some(target), Some(tolerance)] = Asked::ALL.map(|asked| log.asked(row.of, asked)) else {
        return String::new();
    };
    let said = |core: f64| read_in_words(Kind::Angle, core, Units::Inches);
    let verdict = match row.beside_what_is_asked(target, tolerance) {
        BuiltVerdict::Inside => "passes",
        BuiltVerdict::Outside => "does not pass",
        BuiltVerdict::CannotTell => "too near to tell with that tool",
    };
    ["by the manual ", &said(target), " ± ", &said(tolerance), ": ", verdict].concat()
}

/// What was read when the work was done, and how much it has settled since; empty where it was not read both times.
#[must_use]
pub fn settled_in_words(row: &BuiltRow, units: Units) -> String {
    let (Some((earlier, _)), Some((by, spread))) = (row.earlier, row.settled()) else {
        return String::new();
    };
    let said = |core: f64| built_in_words(row.of, core, units);
    let comes_down = matches!(row.of, Readable::FrameHeight | Readable::FenderAbove | Readable::StopDaylight);
    let sign = if by > 0.0 { "+" } else { "" };
    let (verb, by) = if by.abs() <= spread {
        ("too near to tell, ", sign.to_owned() + &said(by))
    } else if !comes_down {
        ("moved ", sign.to_owned() + &said(by))
    } else {
        (if by < 0.0 { "settled " } else { "came up " }, said(by.abs()))
    };
    [&said(earlier), ": ", verb, &by, " ± ", &said(spread)].concat()
}

/// What is dangerous of what was read last of the finished truck, at either side and whatever was planned, in sentences.
#[must_use]
pub fn built_dangers(design: &Design, units: Units) -> Vec<String> {
    let mut all = Vec::new();
    for (side, row) in read_as_built(design) {
        if let Some(danger) = built_danger(&row, units) {
            all.push([side.label(), ", ", &label(row.of), ": ", &danger, "."].concat());
        }
    }
    all
}

/// What a reading beyond its ± proves.
const BY_CHANCE: &str = "One reading of twenty is off by chance: read it again before anything is moved.";

/// What is to be read next: what would narrow the causes down, and what was read before and not yet again.
#[must_use]
pub fn built_next(found: &AsBuilt) -> Vec<String> {
    let mut all = Vec::new();
    if let Some(of) = found.tells {
        all.push(["This narrows it down: ", &label(of), "."].concat());
    }
    let mut unread = String::from("Read before and not yet again");
    for (at, of) in found.unread.iter().enumerate() {
        unread += if at == 0 { ": " } else { "; " };
        unread += &label(*of);
    }
    if !found.unread.is_empty() {
        all.push(unread + ".");
    }
    if found.rows.iter().any(|row| row.verdict == BuiltVerdict::Outside) {
        all.push(BY_CHANCE.to_owned());
    }
    all
}

fn label(of: Readable) -> String {
    Figure::of_reading(of).label()
}

/// What is thought of an answer as built, and what would tell it where nothing does.
#[must_use]
pub fn verdict_in_words(row: &BuiltRow, units: Units) -> String {
    let too_near = |why: &str| "too near to tell: ".to_owned() + why;
    if row.is_of_room() && row.planned.is_some_and(|planned| planned <= 0.0) {
        return "the plan has them touch".to_owned();
    }
    match row.verdict {
        BuiltVerdict::Inside if row.is_tight() => "as planned, and close".to_owned(),
        BuiltVerdict::Inside => "as planned".to_owned(),
        BuiltVerdict::Outside => "not as planned".to_owned(),
        BuiltVerdict::CannotTell if row.is_near_the_limit() => {
            let limit = read_in_words(row.of.kind(), matters(row.of), units);
            too_near(&["off by about the ", &limit, " that is let pass"].concat())
        }
        BuiltVerdict::CannotTell => {
            let tells = row.tolerance_that_tells();
            let was_poor = row.before.is_some_and(|(_, tolerance)| tolerance > tells);
            if Figure::of_reading(row.of).switches() {
                too_near("what ends it may switch")
            } else if row.planned.is_none() {
                too_near("the truck's numbers do not say it")
            } else if row.before.is_none() {
                too_near("it was not read before the work")
            } else if row.tolerance > tells {
                let tells = match (row.of.kind(), units) {
                    (Kind::Angle, _) => print_angle(tells, 2),
                    (_, Units::Inches) => print_number(tells / MM_PER_INCH, 2) + " in",
                    (_, Units::Millimetres) => print_number(tells, 1) + " mm",
                };
                too_near(&["read it to ± ", &tells].concat())
            } else if was_poor {
                too_near("what was read before the work is too poor")
            } else {
                too_near("what the parts do to this truck is not known that well")
            }
        }
    }
}

/// What is dangerous about an answer as built, whatever was planned, behind its name; `None` of what is not.
#[must_use]
pub fn built_danger(row: &BuiltRow, units: Units) -> Option<String> {
    let by_hand = "turned by hand from lock to lock and through its travel";
    if row.may_touch() {
        Some("touches, or nearly so. Not on the road before there is room".to_owned())
    } else if row.is_too_close() {
        let left = built_in_words(row.of, row.read, units);
        Some(["only ", &left, ". Not on the road before it was ", by_hand, " and nothing touches"].concat())
    } else if row.is_tight() {
        let least = built_in_words(row.of, TIGHT_MM, units);
        Some(["about ", &least, ", the least to keep. Have it ", by_hand].concat())
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
        Cause::Number(Change::BarAdjuster(_), _) | Cause::Beside(ChangeKind::BarAdjuster, _) => {
            // A bolt is turned by quarters.
            size = count((4.0 * by.abs()).round() / 4.0);
            let tail = if is_less {
                " turns farther out than planned, or the bar settled, or went in a spline lower"
            } else {
                " turns farther in than planned, or the bar went in a spline higher"
            };
            ["the adjuster bolt is ", tail]
        }
        Cause::Number(Change::DroppedSpindle(spindle), 0) => {
            size = read_in_words(Kind::Length, spindle.drop_mm + by, units);
            head = "the spindle drops ".to_owned() + &size;
            size = read_in_words(Kind::Length, spindle.drop_mm, units);
            [", where the plan has ", ""]
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
            head = label(*of);
            [" misread by ", ": read it again"]
        }
    };
    marked([&head, verb, &size, tail].concat(), found.is_guess)
}

#[cfg(test)]
mod tests {
    use super::*;
    use truck::{BarAdjuster, DroppedSpindle, ShimChange, WorkEdit};

    fn said(cause: Cause, by: Option<f64>) -> String {
        cause_in_words(&CauseFound { cause, by, is_guess: false }, Units::Inches)
    }

    /// 0.3° read to 0.1° beside 0.5° give or take 0.5°, then beside 1° and beside 2°; half of what is asked asks nothing.
    #[test]
    fn a_setting_is_held_against_its_manual() {
        let row = BuiltRow {
            of: Readable::Camber,
            read: 0.3_f64.to_radians(),
            tolerance: 0.1_f64.to_radians(),
            ..row(0.0, None, false, BuiltVerdict::CannotTell)
        };
        let asks = |asked, degrees: f64| WorkEdit::Asked(row.of, asked, Some(degrees.to_radians()));
        let within = WorkLog::EMPTY.edited(&asks(Asked::Tolerance, 0.5)).unwrap();
        assert_eq!(asked_in_words(&row, &within), "");
        for (target, said) in [
            (0.5, "by the manual 0.50° ± 0.50°: passes"),
            (0.85, "by the manual 0.85° ± 0.50°: too near to tell with that tool"),
            (2.0, "by the manual 2.00° ± 0.50°: does not pass"),
        ] {
            let log = within.clone().edited(&asks(Asked::Target, target)).unwrap();
            assert_eq!(asked_in_words(&row, &log), said);
            let height = BuiltRow { of: Readable::FrameHeight, ..row };
            assert_eq!(asked_in_words(&height, &log), "");
        }
    }

    /// Each way of each cause: what was planned, what it is by the readings, and which way it is off.
    #[test]
    fn a_cause_says_what_it_is_and_which_way() {
        let spindle = Change::DroppedSpindle(DroppedSpindle { drop_mm: 50.8, ..DroppedSpindle::default() });
        let turns = Change::BarAdjuster(BarAdjuster { turns: -4.0 });
        let shims = Change::Shims(ShimChange { front_mm: 3.175, rear_mm: 3.175 });
        for (cause, by, wanted) in [
            (Cause::NotOn(spindle), None, "2 in spindle: as if it were not on"),
            (Cause::Number(spindle, 0), Some(12.7), "the spindle drops 2 1/2 in, where the plan has 2 in"),
            (
                Cause::Number(turns, 0),
                Some(3.0),
                "the adjuster bolt is 3 turns farther in than planned, or the bar went in a spline higher",
            ),
            (
                Cause::Beside(ChangeKind::BarAdjuster, &[0]),
                Some(-4.3),
                "the adjuster bolt is 4.25 turns farther out than planned, or the bar settled, or went in a spline \
                 lower",
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

    fn row(read: f64, spread: Option<f64>, was_read: bool, verdict: BuiltVerdict) -> BuiltRow {
        let of = Readable::FrameHeight;
        let before = was_read.then_some((300.0, 1.6));
        let (tolerance, planned, is_guess) = (1.6, Some(250.0), false);
        BuiltRow { of, read, tolerance, before, earlier: None, planned, spread, is_guess, verdict }
    }

    #[test]
    fn a_difference_has_its_sign_its_spread_and_its_mark() {
        let read = |mm: f64| row(mm, Some(2.3), true, BuiltVerdict::Inside);
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

    /// By hand: 3 and 4 mm of two tapes are 5 together, and 6.35 mm is a quarter inch; a truck that stands lower
    /// has settled, a gap or an angle has moved, and what is no more than both tools is not told.
    #[test]
    fn what_has_settled_is_said_with_its_way_and_both_tools() {
        let again = |of, by: f64| {
            let read = row(250.0 + by, Some(2.3), true, BuiltVerdict::Inside);
            BuiltRow { of, tolerance: 4.0, earlier: Some((250.0, 3.0)), ..read }
        };
        let said = |of, by| settled_in_words(&again(of, by), Units::Millimetres);
        assert_eq!(said(Readable::FrameHeight, -6.0), "250.0 mm: settled 6.0 mm ± 5.0 mm");
        assert_eq!(said(Readable::FrameHeight, 6.0), "250.0 mm: came up 6.0 mm ± 5.0 mm");
        assert_eq!(said(Readable::FenderAbove, -5.1), "250.0 mm: settled 5.1 mm ± 5.0 mm");
        assert_eq!(said(Readable::StopDaylight, -5.0), "250.0 mm: too near to tell, −5.0 mm ± 5.0 mm");
        assert_eq!(said(Readable::FrameHeight, 4.0), "250.0 mm: too near to tell, +4.0 mm ± 5.0 mm");
        assert_eq!(said(Readable::Droop, 6.0), "250.0 mm: moved +6.0 mm ± 5.0 mm");
        assert_eq!(said(Readable::TireFender, -6.0), "250.0 mm: moved −6.0 mm ± 5.0 mm");
        let inches =
            BuiltRow { earlier: Some((250.0, 1.6)), tolerance: 1.6, ..again(Readable::FrameHeight, -6.35) };
        assert_eq!(settled_in_words(&inches, Units::Inches), "9 13/16 in: settled 1/4 in ± 1/16 in");
        assert_eq!(settled_in_words(&row(250.0, None, true, BuiltVerdict::Inside), Units::Inches), "");
    }

    /// By hand: of 12.7 mm a quarter, over √2, is 2.245 mm; of a setting 3.175.
    #[test]
    fn what_would_tell_is_said() {
        let say = |row: &BuiltRow| verdict_in_words(row, Units::Millimetres);
        let cannot = BuiltVerdict::CannotTell;
        assert_eq!(say(&row(250.0, Some(2.3), true, BuiltVerdict::Inside)), "as planned");
        assert_eq!(say(&row(290.0, Some(2.3), true, BuiltVerdict::Outside)), "not as planned");
        let poor = BuiltRow { tolerance: 3.0, ..row(250.0, Some(4.2), true, cannot) };
        assert_eq!(say(&poor), "too near to tell: read it to ± 2.2 mm");
        let edge = row(261.5, Some(2.3), true, cannot);
        assert_eq!(say(&edge), "too near to tell: off by about the 12.7 mm that is let pass");
        let model = row(250.0, Some(12.0), false, cannot);
        assert_eq!(say(&model), "too near to tell: it was not read before the work");
        let unsaid = BuiltRow { planned: None, ..row(250.0, None, false, cannot) };
        assert_eq!(say(&unsaid), "too near to tell: the truck's numbers do not say it");
    }

    /// A gap is said as finely as it was read, and what is dangerous about it by steps: by hand, a quarter inch is
    /// 6.35 mm and a drill shank reads to 0.4.
    #[test]
    fn a_gap_is_dangerous_by_steps() {
        let gap = |read: f64| BuiltRow {
            of: Readable::RimLowerJoint,
            tolerance: 0.4,
            ..row(read, Some(0.6), true, BuiltVerdict::Inside)
        };
        let danger = |read: f64| built_danger(&gap(read), Units::Inches).unwrap_or_default();
        assert!(danger(0.4).starts_with("touches, or nearly so. Not on the road"), "{}", danger(0.4));
        assert!(danger(0.8).starts_with("only 1/32 in. Not on the road before"), "{}", danger(0.8));
        assert!(danger(5.9).starts_with("only 15/64 in."), "{}", danger(5.9));
        assert!(danger(6.0).starts_with("about 1/4 in, the least to keep."), "{}", danger(6.0));
        assert_eq!(danger(6.8), "");
        assert_eq!(verdict_in_words(&gap(6.0), Units::Inches), "as planned, and close");
        assert_eq!(verdict_in_words(&gap(6.8), Units::Inches), "as planned");
        let row = BuiltRow { planned: Some(6.35), ..gap(0.8) };
        assert_eq!(off_in_words(&row, Units::Inches), "−7/32 in ± 1/32 in");
    }
}
