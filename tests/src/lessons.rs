//! The lessons of the page: the design that each is a link to, and its words as they stand in `index.html`.

use linkage::root;
use sharing::{Opening, Shared, to_code};
use study::Rest;
use truck::{Change, CutCoil, Design, DroppedSpindle, Edit, ProposalId, SpringKind, Truck, demo, fit};

/// The page's document.
pub const DOCUMENT: &str = include_str!("../../index.html");

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
        _ => panic!("there is no lesson {lesson}"),
    }
}

/// How many there are.
pub const LESSONS: usize = 1;

/// The link code of a lesson: its first proposal on the sketch.
#[must_use]
pub fn code(design: Design) -> String {
    let proposal = design.proposals.first().map(|proposal| proposal.id);
    to_code(&Shared { design, opening: Opening { proposal, ..Opening::default() } })
}

/// The demo truck under another title, with proposals of one change each.
fn demo_with(title: &str, truck: Truck, proposals: &[(&str, Change)]) -> Design {
    let mut design = Design { title: title.to_owned(), truck, proposals: Vec::new(), ..demo() };
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
pub fn rest(truck: &Truck, changes: &[Change]) -> Rest {
    Rest::of(fit(truck, changes).expect("the parts fit")).expect("the truck stands")
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
    let mut truck = demo().truck;
    truck.spring.kind = SpringKind::Coil;
    let [spindle, cut] = same_drop(&truck);
    demo_with("Two inches, two ways", truck, &[("Dropped spindle", spindle), ("Cut spring", cut)])
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
