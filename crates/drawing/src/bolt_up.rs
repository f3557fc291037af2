//! Verdicts on parts that meet, and what to measure next, as a line for a thread.

mod drawn;

pub use drawn::callout_drawing;

use mating::{Answer, Aspect, Finding, Moved, Moves, Next, Scale, Verdict, Work};
use measure::{MM_PER_INCH, Units, fixed};
use truck::{CalloutSort, Ledger, Row, RowId, Side, Whose, callouts};

/// What has to be so for a lower arm that stands elsewhere along its bolt.
const LOWER_PIVOT: &str = "If measured from one mark, and the strut rod’s nuts stand where they stood; in the plan as a pivot \
                           moved";
/// And for a bushing whose hole is not in its middle.
const ROUND: &str =
    "If the frame’s eye holds it and the old one’s hole was in its middle; in the plan as a pivot moved";

/// The word of a verdict: one of five, and no others.
#[must_use]
pub const fn verdict_word(verdict: &Verdict) -> &'static str {
    match verdict {
        Verdict::Mates => "mates by what you measured",
        Verdict::WithWork(_) => "mates with this work",
        Verdict::DoesNot(_) => "does not",
        Verdict::TooNear { .. } => "too near to tell with that tool",
        Verdict::NotAsked { .. } => "not asked yet",
    }
}

/// A row in a line: its parts, what was compared, the verdict and what goes with it.
#[must_use]
pub fn row_in_words(ledger: &Ledger, row: &Row, answer: &Answer, units: Units) -> String {
    let mut line = match &answer.verdict {
        // Without a number to show, the place says more than its two parts.
        Verdict::NotAsked { .. } => named(ledger, row),
        _ => both(ledger, row),
    } + ": ";
    // A fact that refuses stands behind the verdict.
    let shown = shown(answer).and_then(|finding| Some((compared(finding, units)?, finding.aspect)));
    if let Some((numbers, aspect)) = shown {
        line += &[&numbers, " ", aspect.label(), ": "].concat();
    }
    line += verdict_word(&answer.verdict);
    line += &behind(row, answer, units);
    if matches!(answer.verdict, Verdict::Mates | Verdict::WithWork(_)) {
        line += &handed(ledger, row);
    }
    line + mark(row)
}

/// For which side alone a yes holds: that of a part from elsewhere of which there is a left one and a right one.
fn handed(ledger: &Ledger, row: &Row) -> String {
    let mut said = String::new();
    for part in row.parts() {
        if part.is_handed() && !ledger.is_kept(part) {
            let side = match ledger.part(part).and_then(|part| part.side) {
                Some(Side::Left) => " goes on the left alone",
                Some(Side::Right) => " goes on the right alone",
                None => " is handed: for which side it was made is not said",
            };
            for words in ["; the ", ledger.part_name(part), side] {
                said += words;
            }
        }
    }
    said
}

/// The two parts of a row.
fn both(ledger: &Ledger, row: &Row) -> String {
    let [first, second] = row.parts().map(|part| ledger.part_name(part));
    [first, "–", second].concat()
}

/// A row's name, or its parts where it has none.
fn named(ledger: &Ledger, row: &Row) -> String {
    if row.name().is_empty() { both(ledger, row) } else { row.name().to_owned() }
}

/// The finding that a verdict is shown with.
fn shown(answer: &Answer) -> Option<&Finding> {
    match &answer.verdict {
        Verdict::DoesNot(finding) => Some(finding),
        Verdict::NotAsked { .. } => None,
        _ => answer.main.as_ref(),
    }
}

/// What stands behind the verdict's word.
fn behind(row: &Row, answer: &Answer, units: Units) -> String {
    match &answer.verdict {
        Verdict::Mates => {
            let left = match &answer.main {
                Some(Finding { scale: Scale::Millimetres, room, .. }) => {
                    [", ", &caliper_size(*room, units), " left"].concat()
                }
                _ => String::new(),
            };
            left + if is_tried(row) { "" } else { "; try it on" }
        }
        Verdict::DoesNot(finding) if finding.scale == Scale::Millimetres => missing(finding, units),
        Verdict::DoesNot(finding) if finding.scale == Scale::Fact => [", ", finding.aspect.label()].concat(),
        Verdict::WithWork(work) => {
            let said: Vec<String> = work.iter().map(|work| work_in_words(work, units)).collect();
            [": ", &said.join(", ")].concat()
        }
        Verdict::TooNear { callout, tool } => {
            let short = answer.main.filter(|main| main.room < 0.0 && is_splines(main.aspect));
            let short = short.map(|main| missing(&main, units)).unwrap_or_default();
            [&short, ": ", row.kind().callout_label(*callout), ", ", tool.label()].concat()
        }
        Verdict::NotAsked { have, of } => [": ", &count(*have), " of ", &count(*of)].concat(),
        Verdict::DoesNot(_) => String::new(),
    }
}

/// Whether the two were put together, or pushed home by hand.
fn is_tried(row: &Row) -> bool {
    let sorts = row.entries().iter().filter_map(|(callout, _)| row.kind().callout(*callout));
    sorts.into_iter().any(|callout| callout.sort == CalloutSort::Tried)
}

const fn is_splines(aspect: Aspect) -> bool {
    matches!(aspect, Aspect::SlackSplines | Aspect::TightSplines)
}

/// By how much it misses; of splines which way too.
fn missing(finding: &Finding, units: Units) -> String {
    let by = match finding.aspect {
        Aspect::SlackSplines => ", slack by ",
        Aspect::TightSplines => ", tight by ",
        _ => ", by ",
    };
    by.to_owned() + &caliper_size(-finding.room, units)
}

/// A guess, and what is someone else's, keeps its mark.
fn mark(row: &Row) -> &'static str {
    let any = |whose| row.entries().iter().any(|(_, entry)| entry.whose == whose);
    match (any(Whose::Guessed), any(Whose::Stranger)) {
        (true, true) => " (with a guess, and someone else’s numbers)",
        (true, false) => " (with a guess)",
        (false, true) => " (someone else’s numbers)",
        (false, false) => "",
    }
}

/// Both numbers of a finding in its scale; `None` of a fact.
fn compared(finding: &Finding, units: Units) -> Option<String> {
    let said = |value: f64| match finding.scale {
        Scale::Millimetres => number(value, units),
        Scale::Stress | Scale::Count => fixed(value, 0),
        Scale::OneIn => ["1:", &fixed(value, 1)].concat(),
        Scale::Fact => String::new(),
    };
    let unit = match finding.scale {
        Scale::Millimetres if units == Units::Inches => " in",
        Scale::Stress => " N/mm²",
        _ => "",
    };
    match (finding.first, finding.second) {
        (Some(first), Some(second)) => Some([&said(first), " / ", &said(second), unit].concat()),
        (Some(only), None) => Some([&said(only), unit].concat()),
        _ => None,
    }
}

fn work_in_words(work: &Work, units: Units) -> String {
    let said = |before: &str, mm: f64, behind: &str| [before, &caliper_size(mm, units), behind].concat();
    match work {
        Work::Ream { to_mm } => said("ream to ", *to_mm, ""),
        Work::SleeveTheHole => "sleeve the hole".to_owned(),
        Work::DrillAnew { metal_mm } => {
            said("a new hole, ", *metal_mm, " of metal to the old one; least metal, no strength")
        }
        Work::Drill { spare_mm } => {
            said("drill, ", *spare_mm, " more than least to the edge; least metal, no strength")
        }
        Work::Sleeve => "a crush sleeve".to_owned(),
        Work::CutTo { length_mm } => said("cut the sleeve square to ", *length_mm, ""),
        Work::Press { force_n: Some((least, most)) } => {
            let kilonewtons = |newtons: f64| fixed(newtons / 1000.0, 0);
            [
                "press or draw bolt on the outer shell, ",
                &kilonewtons(*least),
                " to ",
                &kilonewtons(*most),
                " kN",
            ]
            .concat()
        }
        Work::Press { force_n: None } => "press or draw bolt on the outer shell".to_owned(),
        Work::Cool { mm } => ["a freezer’s cold helps by ", &fixed(*mm, 3), " mm"].concat(),
        Work::AnotherBolt => "another bolt".to_owned(),
        Work::CentringRing { wall_mm } => said("a centering ring, wall ", *wall_mm, ", never a slot"),
        Work::ShimWashers { mm } => said("shim washers, ", *mm, " together"),
    }
}

/// What is asked about sizes that lie beyond the rule of their kind, as those in the wrong unit do.
#[must_use]
pub fn doubts_in_words(row: &Row, units: Units) -> Vec<String> {
    let mut all = Vec::new();
    for (callout, entry) in row.entries() {
        let kind = row.kind();
        let Some((sort, (least, most))) =
            kind.callout(*callout).map(|of| of.sort).zip(kind.rule_mm(*callout))
        else {
            continue;
        };
        let mm = entry.value(sort);
        if mm < least || mm > most {
            let size = caliper_size(mm, units);
            let [least, most] = [least, most].map(|mm| number(mm, units));
            let parts = [
                kind.callout_label(*callout),
                ": ",
                &size,
                "? As a rule ",
                &least,
                " to ",
                &most,
                unit(units),
                ".",
            ];
            all.push(parts.concat());
        }
    }
    all
}

/// What a row does to the truck, with what is taken for granted.
#[must_use]
pub fn sketched_in_words(ledger: &Ledger, moved: &Moved, units: Units) -> String {
    let size = |value: f64| match moved.what {
        Moves::Bar => fixed(value.to_degrees(), 2) + "°",
        _ => caliper_size(value, units),
    };
    let either = |more, less| if moved.by > 0.0 { more } else { less };
    let [before, way, granted] = match moved.what {
        Moves::UpperBall => [
            "The stud sits ",
            " deeper than flush",
            "If the old one sat flush and the studs point at each other, the two balls are that much nearer \
             together: a knuckle swap",
        ],
        Moves::LowerBall => [
            "The stud sits ",
            " deeper than flush",
            "If the old one sat flush and the studs point at each other, the two balls are that much nearer \
             together, and pin and steering arm as much nearer the lower one: a knuckle swap",
        ],
        Moves::TieEnd => [
            "The tie rod’s outer end comes ",
            either(" up", " down"),
            "If the old stud sat flush, and the stud stands upright: a knuckle swap",
        ],
        Moves::Flange | Moves::Hat => [
            "The wheel stands ",
            either(" farther out", " farther in"),
            "In the plan as the same wheel with that much less or more offset",
        ],
        Moves::Rod => {
            ["The strut rod is ", either(" longer", " shorter"), "If its nuts stand where they stood"]
        }
        Moves::Bar => [
            "The bar is turned ",
            either(" to raise", " to lower"),
            "If the bracket’s bolts run along the bar; in the plan as an anchor turned by as much",
        ],
        Moves::LowerAlong => {
            ["The lower arm stands ", either(" farther forward", " farther back"), LOWER_PIVOT]
        }
        Moves::UpperAlong => [
            "The upper arm stands ",
            either(" farther forward", " farther back"),
            "If measured from one mark; in the plan as its pivots moved",
        ],
        Moves::PivotOut => ["The lower arm’s pivot lies ", either(" farther out", " farther in"), ROUND],
        Moves::PivotUp => ["The lower arm’s pivot lies ", either(" higher", " lower"), ROUND],
    };
    let mut said = [before, &size(moved.by.abs()), way, ", ± ", &size(moved.within)].concat();
    if moved.what == Moves::Bar
        && let Some(teeth) =
            ledger.row(RowId::BAR_IN_BRACKET).and_then(|row| Some(row.entry(callouts::spline::TEETH)?.steps))
    {
        let splines = moved.by.abs() / std::f64::consts::TAU * f64::from(teeth);
        said += &[", ", &fixed(splines, 2), " of a spline"].concat();
    }
    [&said, ". ", granted, ", and a guess."].concat()
}

/// What to measure next, in a line.
#[must_use]
pub fn next_in_words(ledger: &Ledger, next: &Next) -> String {
    let Some(row) = ledger.row(next.row) else { return String::new() };
    let label = |callout: &u8| row.kind().callout_label(*callout);
    let callouts: Vec<&str> = next.callouts.iter().map(label).collect();
    let mut line = [&named(ledger, &row), ": ", &callouts.join("; ")].concat();
    // What is seen, stamped or tried is no matter of a tool.
    let measures = next.callouts.first().and_then(|callout| row.kind().callout(*callout));
    if measures.is_some_and(|callout| callout.sort.is_size() || callout.sort == CalloutSort::Pitch) {
        line += &[", ", next.tool.label()].concat();
    }
    line
}

fn count(value: usize) -> String {
    fixed(u16::try_from(value).map_or(f64::from(u16::MAX), f64::from), 0)
}

/// A number of millimetres as calipers show them, in the reader's unit and without its name.
fn number(mm: f64, units: Units) -> String {
    match units {
        Units::Millimetres => {
            let mut said = fixed(mm, 2);
            // One decimal at least, two where they say something.
            if said.ends_with('0') {
                said.pop();
            }
            said
        }
        Units::Inches => fixed(mm / MM_PER_INCH, 3),
    }
}

/// A size as calipers show it, mm, with its unit: decimals in inches too, never a fraction.
#[must_use]
pub fn caliper_size(mm: f64, units: Units) -> String {
    number(mm, units) + unit(units)
}

const fn unit(units: Units) -> &'static str {
    match units {
        Units::Inches => " in",
        Units::Millimetres => " mm",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use truck::callouts::{hole_pattern, spline};
    use truck::{LedgerEdit, ROWS, Tool};

    fn line(key: &str, numbers: &[(u8, f64, Tool)], whose: Whose, units: Units) -> String {
        let id = RowId::of_usual(key).unwrap();
        let ledger = numbers.iter().fold(Ledger::EMPTY, |ledger, (callout, value, tool)| {
            let edit = LedgerEdit::Write { row: id, callout: *callout, value: *value, tool: *tool, whose };
            ledger.edited(&edit).unwrap()
        });
        let row = ledger.row(id).unwrap();
        row_in_words(&ledger, &row, &mating::verdict(&ledger, &row), units)
    }

    const THIN: [(u8, f64, Tool); 4] = [
        (spline::TEETH, 36.0, Tool::Counted),
        (spline::TEETH_SOCKET, 36.0, Tool::Counted),
        (spline::VALLEYS, 26.5, Tool::Caliper),
        (spline::OVER, 25.4, Tool::Caliper),
    ];

    #[test]
    fn a_row_is_one_line_for_a_thread() {
        let said = line("bar_in_bracket", &THIN, Whose::Own, Units::Millimetres);
        assert!(said.starts_with("bracket–bar: 26.5 / 25.4 over splines: does not"), "{said}");
        let said = line("bar_in_bracket", &THIN, Whose::Own, Units::Inches);
        assert!(
            said.starts_with("bracket–bar: 1.043 / 1.000 in over splines: does not, slack by 0.019 in"),
            "{said}"
        );
        let over = |old| {
            let mut numbers = THIN;
            numbers[2] = (spline::OLD_BAR, old, Tool::Caliper);
            line("bar_in_bracket", &numbers, Whose::Own, Units::Millimetres)
        };
        // A fifth of a pitch of 25.4/37 is 0.137 mm.
        assert_eq!(over(25.1), "bracket–bar: 25.1 / 25.4 over splines: does not, tight by 0.16 mm");
        assert_eq!(over(25.7), "bracket–bar: 25.7 / 25.4 over splines: does not, slack by 0.16 mm");
        let said = line("bar_in_bracket", &THIN[..2], Whose::Own, Units::Inches);
        assert_eq!(said, "Bar in its bracket: not asked yet: 2 of 8");
    }

    #[test]
    fn a_guess_and_a_strangers_number_keep_their_marks() {
        let said = line("bar_in_bracket", &THIN, Whose::Guessed, Units::Millimetres);
        assert!(said.ends_with("(with a guess)") && said.contains("does not"), "{said}");
        let said = line("bar_in_bracket", &THIN, Whose::Stranger, Units::Millimetres);
        assert!(said.ends_with("(someone else’s numbers)"), "{said}");
    }

    #[test]
    fn what_mates_shows_its_numbers() {
        let mut numbers = vec![
            (hole_pattern::COUNT, 2.0, Tool::Counted),
            (hole_pattern::HELD, 0.0, Tool::Counted),
            (hole_pattern::BOLT, 12.0, Tool::Caliper),
        ];
        for (over, hole, spacing) in [
            (hole_pattern::FIRST_OVER_12, hole_pattern::FIRST_HOLE_1, 92.0),
            (hole_pattern::SECOND_OVER_12, hole_pattern::SECOND_HOLE_1, 93.5),
        ] {
            numbers.extend([
                (over, spacing + 13.0, Tool::Caliper),
                (hole, 13.0, Tool::Caliper),
                (hole + 1, 13.0, Tool::Caliper),
            ]);
        }
        let said = line("bracket_on_arm", &numbers, Whose::Own, Units::Millimetres);
        let expected = "bracket–lower arm: 92.0 / 93.5 between the holes: mates by what you measured, 0.5 mm left; try it on";
        assert_eq!(said, expected);
        numbers.push((hole_pattern::TRIED, 1.0, Tool::TriedOn));
        let said = line("bracket_on_arm", &numbers, Whose::Own, Units::Millimetres);
        assert_eq!(said, "bracket–lower arm: mates by what you measured");
    }

    /// Measured, a left bar and a right one are alike: a yes says for which side it holds.
    #[test]
    fn a_yes_of_a_handed_part_says_for_which_side() {
        let id = RowId::of_usual("bar_in_bracket").unwrap();
        let bar = ROWS[usize::from(id.0)].parts.map(truck::PartId)[1];
        let together = [
            (spline::TRIED, 1.0, Tool::TogetherBefore),
            (spline::ENGAGED, 1.0, Tool::Counted),
            (spline::ROCK, 1.0, Tool::TriedOn),
        ];
        let ledger = together.into_iter().fold(Ledger::EMPTY, |ledger, (callout, value, tool)| {
            let edit = LedgerEdit::Write { row: id, callout, value, tool, whose: Whose::Own };
            ledger.edited(&edit).unwrap()
        });
        let said = |origin, side| {
            let part = truck::Part { origin, side, ..truck::Part::default() };
            let ledger = ledger.edited(&LedgerEdit::Part(bar, part)).unwrap();
            let row = ledger.row(id).unwrap();
            row_in_words(&ledger, &row, &mating::verdict(&ledger, &row), Units::Millimetres)
        };
        let donor = || truck::Origin::Donor(String::new());
        let mates = "bracket–bar: mates by what you measured";
        assert_eq!(said(donor(), Some(Side::Right)), [mates, "; the bar goes on the right alone"].concat());
        assert_eq!(
            said(truck::Origin::Bought, Some(Side::Left)),
            [mates, "; the bar goes on the left alone"].concat()
        );
        let open = [mates, "; the bar is handed: for which side it was made is not said"].concat();
        assert_eq!(said(donor(), None), open);
        assert_eq!(said(truck::Origin::Kept, None), mates);
    }

    #[test]
    fn a_stud_that_sits_deeper_says_what_comes_nearer() {
        let told =
            |what, by, within, units| sketched_in_words(&Ledger::EMPTY, &Moved { what, by, within }, units);
        assert_eq!(
            told(Moves::UpperBall, 3.2, 0.77, Units::Millimetres),
            "The stud sits 3.2 mm deeper than flush, ± 0.77 mm. If the old one sat flush and the studs point at each other, the two balls are \
             that much nearer together: a knuckle swap, and a guess."
        );
        let said = told(Moves::LowerBall, 3.2, 0.77, Units::Inches);
        assert!(said.contains("0.126 in deeper than flush, ± 0.030 in"), "{said}");
        assert!(said.ends_with(
            ", and pin and steering arm as much nearer the lower one: a knuckle swap, and a guess."
        ));
        for (what, way) in [
            (Moves::TieEnd, ["up", "down"]),
            (Moves::Flange, ["farther out", "farther in"]),
            (Moves::Hat, ["farther out", "farther in"]),
            (Moves::Rod, ["longer", "shorter"]),
            (Moves::LowerAlong, ["farther forward", "farther back"]),
            (Moves::UpperAlong, ["farther forward", "farther back"]),
            (Moves::PivotOut, ["farther out", "farther in"]),
            (Moves::PivotUp, ["higher", "lower"]),
        ] {
            for (by, way) in [3.2, -3.2].into_iter().zip(way) {
                let said = told(what, by, 0.1, Units::Millimetres);
                assert!(said.contains(&["3.2 mm ", way, ", ± 0.1 mm. "].concat()), "{said}");
                assert!(said.ends_with(", and a guess."), "{said}");
            }
        }
    }

    /// A rotor of 22 mm that was typed in inches; 60 over 25.4 is 2.362.
    #[test]
    fn a_rotor_of_twenty_two_inches_is_asked_about() {
        use truck::callouts::rotor_in_caliper::{OPENING, PLANE, THICKNESS};
        let row = RowId::of_usual("rotor_in_caliper").unwrap();
        let told = |thick_mm: f64, units| {
            let numbers = [(PLANE, 40.0), (THICKNESS, thick_mm), (OPENING, 30.0)];
            let ledger = numbers.into_iter().fold(Ledger::EMPTY, |ledger, (callout, value)| {
                let (tool, whose) = (Tool::Caliper, Whose::Own);
                ledger.edited(&LedgerEdit::Write { row, callout, value, tool, whose }).unwrap()
            });
            doubts_in_words(&ledger.row(row).unwrap(), units)
        };
        assert_eq!(
            told(22.0 * MM_PER_INCH, Units::Inches),
            ["Rotor, thickness: 22.000 in? As a rule 0.157 to 2.362 in."]
        );
        assert_eq!(told(0.9, Units::Millimetres), ["Rotor, thickness: 0.9 mm? As a rule 4.0 to 60.0 mm."]);
        assert!(told(22.0, Units::Inches).is_empty());
    }

    /// Of 36 teeth a spline is 10°: tan⁻¹ (1/90) is 0.64°, 0.06 of it.
    #[test]
    fn a_bar_that_is_turned_says_by_which_part_of_a_spline() {
        let turned = |by: f64| Moved { what: Moves::Bar, by, within: 0.0005 };
        let rad = libm::atan(1.0 / 90.0);
        let plain = sketched_in_words(&Ledger::EMPTY, &turned(-rad), Units::Inches);
        assert!(
            plain.starts_with("The bar is turned 0.64° to lower, ± 0.03°. If the bracket’s bolts "),
            "{plain}"
        );
        let row = RowId::of_usual("bar_in_bracket").unwrap();
        let (callout, tool, whose) = (spline::TEETH, Tool::Counted, Whose::Own);
        let counted =
            Ledger::EMPTY.edited(&LedgerEdit::Write { row, callout, value: 36.0, tool, whose }).unwrap();
        let said = sketched_in_words(&counted, &turned(rad), Units::Inches);
        assert!(
            said.starts_with("The bar is turned 0.64° to raise, ± 0.03°, 0.06 of a spline. If "),
            "{said}"
        );
    }

    #[test]
    fn what_is_next_names_number_and_tool() {
        let id = RowId::of_usual("hose").unwrap();
        let next = Next { row: id, callouts: vec![0, 2], tool: Tool::Tape, may_refuse: true };
        let said = next_in_words(&Ledger::EMPTY, &next);
        let expected =
            "Hose from line to caliper: Hose, free length; Its path, wheel hanging at the worse lock, tape";
        assert_eq!(said, expected);
        let ends = Next { callouts: vec![3], tool: Tool::Counted, ..next };
        assert_eq!(next_in_words(&Ledger::EMPTY, &ends), "Hose from line to caliper: Its ends");
    }
}
