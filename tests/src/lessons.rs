//! The lessons of the page: the design that each is a link to, and its words as they stand in `words.html`.

use crate::front_alone;
use linkage::{Vector3, root};
use sharing::{Opening, Shared, to_code};
use study::{Stance, StandingSide};
use truck::{
    BarAdjuster, Change, CutCoil, Design, DroppedSpindle, Edit, JointTurned, MovedPivot, Place, ProposalId,
    RearNotch, RearShackle, Side, SpringKind, TieRodChange, Truck, demo,
};

/// The words of the page's panels.
pub const DOCUMENT: &str = include_str!("../../web/words.html");

/// Two inches, mm.
pub const DROP_MM: f64 = 50.8;

/// The design of a lesson, counted from 1.
///
/// # Panics
/// Where there is no such lesson.
#[must_use]
pub fn design(lesson: usize) -> Design {
    match lesson {
        1 => two_inches(),
        2 => demo_with("The adjuster", front_alone().truck, &[("Bars turned down", adjuster(-12.0))]),
        3 => joint(),
        4 => camber(),
        5 => demo_with("Roll centre", front_alone().truck, &bars_and_spindle()),
        6 => flat_tire(),
        7 => bump_steer(),
        8 => Design { title: "One end or both".to_owned(), ..demo() },
        9 => demo_with("Shackles", demo().truck, &[("Longer", shackle(25.4)), ("Shorter", shackle(-25.4))]),
        10 => demo_with("The notch", demo().truck, &[("Deep", notch(25.4)), ("Shallow", notch(12.7))]),
        11 => twenty_tapes(),
        _ => panic!("there is no lesson {lesson}"),
    }
}

/// How many there are.
pub const LESSONS: usize = 11;

/// The link code of a lesson: its first proposal on the sketch.
#[must_use]
pub fn code(design: Design) -> String {
    let proposal = design.proposals.first().map(|proposal| proposal.id);
    to_code(&Shared { design, opening: Opening { proposal, ..Opening::default() } })
}

/// The demo truck's front under another title, with proposals of one change each.
fn demo_with(title: &str, truck: Truck, proposals: &[(&str, Change)]) -> Design {
    let mut design = Design { title: title.to_owned(), truck, proposals: Vec::new(), ..front_alone() };
    for (at, (name, change)) in (0..).zip(proposals) {
        for edit in [Edit::AddProposal((*name).to_owned()), Edit::Set(ProposalId(at), *change)] {
            design = design.edited(&edit).expect("a lesson's change is within its limits");
        }
    }
    design
}

/// A truck with a change on it, at rest.
///
/// # Panics
/// Where it cannot stand.
#[must_use]
pub fn rest(truck: &Truck, changes: &[Change]) -> StandingSide {
    Stance::laid(truck, changes).expect("the truck stands").on(Side::Left)
}

/// A spindle and a cut spring that lower a truck on coils alike, as they are
/// kept: the coils by the hundredth, nearest to [`DROP_MM`], and the spindle by
/// just what they give.
///
/// # Panics
/// Where two coils do not lower it so far.
#[must_use]
pub fn same_drop(truck: &Truck) -> [Change; 2] {
    let cut = |coils: f64| Change::CutCoil(CutCoil { coils });
    let miss = |coils: f64| Some(rest(truck, &[cut(coils)]).ground_mm - DROP_MM);
    let coils = root::bracketed(miss, 0.0, 2.0, 1e-9).expect("two coils lower it by more than two inches");
    let cut = cut(coils).kept().expect("so few coils can be kept");
    let drop_mm = rest(truck, &[cut]).ground_mm;
    let spindle = Change::DroppedSpindle(DroppedSpindle { drop_mm, ..DroppedSpindle::default() });
    [spindle.kept().expect("two inches can be kept"), cut]
}

fn two_inches() -> Design {
    let mut truck = front_alone().truck;
    truck.spring.kind = SpringKind::Coil;
    let [spindle, cut] = same_drop(&truck);
    demo_with("Two inches, two ways", truck, &[("Dropped spindle", spindle), ("Cut spring", cut)])
}

fn twenty_tapes() -> Design {
    let spindle = DroppedSpindle { drop_mm: DROP_MM, ..DroppedSpindle::default() };
    demo_with("Twenty tapes", front_alone().truck, &[("2 in spindle", Change::DroppedSpindle(spindle))])
}

/// The torsion bar's anchor bolt turned.
#[must_use]
pub const fn adjuster(turns: f64) -> Change {
    Change::BarAdjuster(BarAdjuster { turns })
}

/// The turns that lower a truck by this much, as they are kept.
///
/// # Panics
/// Where forty turns do not lower it so far.
#[must_use]
pub fn turned_down(truck: &Truck, drop_mm: f64) -> Change {
    let miss = |turns: f64| Some(rest(truck, &[adjuster(turns)]).ground_mm - drop_mm);
    let turns = root::bracketed(miss, -40.0, 0.0, 1e-9).expect("forty turns lower it by more");
    adjuster(turns).kept().expect("so many turns can be kept")
}

/// The lower joint bolted on top of its plate.
#[must_use]
pub const fn joint_on_top() -> Change {
    Change::JointTurned(JointTurned {
        place: Place::LowerJointUp,
        plate_mm: 6.0,
        flange_mm: 19.0,
        shift_mm: None,
    })
}

/// The tie rod's inner end moved up.
#[must_use]
pub fn inner_end(up_mm: f64) -> Change {
    Change::TieRod(TieRodChange { longer_mm: 0.0, inner_mm: Vector3::new(0.0, 0.0, up_mm) })
}

/// A rear shackle of another length.
#[must_use]
pub const fn shackle(longer_mm: f64) -> Change {
    Change::RearShackle(RearShackle { longer_mm })
}

/// A notch in the rail over the rear axle.
#[must_use]
pub const fn notch(depth_mm: f64) -> Change {
    Change::RearNotch(RearNotch { depth_mm })
}

fn bars_and_spindle() -> [(&'static str, Change); 2] {
    let bars = adjuster(-12.0);
    let drop_mm = rest(&front_alone().truck, &[bars]).ground_mm;
    let spindle = Change::DroppedSpindle(DroppedSpindle { drop_mm, ..DroppedSpindle::default() });
    [("Bars turned down", bars), ("Dropped spindle", spindle.kept().expect("so small a drop can be kept"))]
}

fn joint() -> Design {
    let truck = front_alone().truck;
    let bars = turned_down(&truck, rest(&truck, &[joint_on_top()]).ground_mm);
    demo_with("The joint turned over", truck, &[("Joint on top", joint_on_top()), ("Bars turned down", bars)])
}

fn camber() -> Design {
    let by_mm = Vector3::new(0.0, 0.0, -12.7);
    let moved = Change::MovedPivot(MovedPivot { place: Place::UpperArm, by_mm });
    let [bars, _] = bars_and_spindle();
    demo_with("The camber curve", front_alone().truck, &[bars, ("Upper pivots lower", moved)])
}

fn flat_tire() -> Design {
    let [bars, spindle] = bars_and_spindle();
    demo_with("The scrub line", front_alone().truck, &[spindle, bars])
}

fn bump_steer() -> Design {
    let ends = [("Inner end lower", inner_end(-12.7)), ("Inner end higher", inner_end(12.7))];
    demo_with("Bump steer", front_alone().truck, &ends)
}

/// One step of a lesson as it stands in [`DOCUMENT`].
#[derive(Clone, Debug)]
pub struct Step {
    /// Its markup.
    pub markup: String,
    /// What is read before anything was guessed, without the choices.
    pub asked: String,
    /// The choices.
    pub choices: Vec<String>,
    /// What is read after the guess.
    pub answer: String,
}

/// A lesson as it stands in [`DOCUMENT`]: its code and its steps.
#[must_use]
pub fn written(lesson: usize) -> Option<(String, Vec<Step>)> {
    let (_, rest) = DOCUMENT.split_once(&format!("<section id=\"words-lesson-{lesson}\""))?;
    let (section, _) = rest.split_once("</section>")?;
    let (_, rest) = section.split_once("data-code=\"")?;
    let (code, _) = rest.split_once('"')?;
    let steps = (1..).map_while(|step| {
        let (_, rest) = section.split_once(&format!("<div id=\"words-lesson-{lesson}-{step}\""))?;
        let (markup, _) = rest.split_once("</div>")?;
        let (asked, answer) = markup.split_once("<p data-answer>").unwrap_or((markup, ""));
        let mut asked = asked.split("<button");
        let before = asked.next().unwrap_or_default().split_once('>').map_or("", |(_, text)| text);
        Some(Step {
            markup: markup.to_owned(),
            asked: plain(before),
            choices: asked.map(|choice| plain(&format!("<b{choice}"))).collect(),
            answer: plain(answer),
        })
    });
    Some((code.to_owned(), steps.collect()))
}

/// Markup as it is read; a number that the page fills in is one word.
fn plain(markup: &str) -> String {
    let mut text = String::new();
    for piece in markup.split('<') {
        let (tag, after) = piece.split_once('>').unwrap_or(("", piece));
        text += if tag.contains("data-number") { " 0 " } else { "" };
        text += after;
    }
    text
}
