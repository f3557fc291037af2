//! What to turn, shim and screw for the height and alignment that are wanted.

mod sure;

use crate::derive::{Answers, rest_of};
use crate::dom::{Node, block, button, el, loose, words};
use crate::format::{field_style, readout_style, show};
use crate::panels::read_off::is_doubtful;
use crate::panels::sides::{compared, differ};
use crate::signals::{Derived, Value};
use crate::state::{Page, Selected};
use crate::told::write;
use crate::widgets::{Number, choice, folding, heading, moved_sideways, panel, remark, table};
use drawing::{
    MANY_PIECES, Units, bound_in_words, danger_in_words, doubtful_in_words, held_in_words, marked,
    sides_in_words,
};
use measure::{LengthStyle, print_length};
use std::rc::Rc;
use study::{
    Alignment, CasterBy, Figure, HeightBy, IF_REAR_STAYS, LEAST_BUMP_MM, NoSetting, SetOrder, Setting, Steps,
    Target, alignments,
};
use sure::sure;
use truck::{Edit, Kind, Side};

/// What is wanted; what is open stays as it reads now.
#[derive(Clone, Copy, Default, PartialEq)]
struct Wanted {
    /// The four that are read, then the bump travel that is to be left.
    numbers: [Option<f64>; 5],
    caster_by: CasterBy,
}

impl Wanted {
    /// The four that are read.
    const fn read(&self) -> [Option<f64>; 4] {
        let [height, camber, caster, toe, _] = self.numbers;
        [height, camber, caster, toe]
    }
}

const NAMES: [(&str, Kind); 5] = [
    ("Frame height", Kind::Length),
    ("Camber", Kind::Angle),
    ("Caster, ground", Kind::Angle),
    ("Toe of one wheel", Kind::Angle),
    ("Bump travel at least", Kind::Length),
];

/// What the four are.
const READ: [Figure; 4] = [Figure::FRAME_HEIGHT, Figure::CAMBER, Figure::CASTER_GROUND, Figure::TOE];
/// The one that hangs on the rear.
const CASTER: usize = 2;
/// The place of the bump travel.
const BUMP: usize = 4;

/// What was asked of a side and what was found; of both where they differ, each set alone. Or why nothing was.
type Found = Result<Vec<(Side, Target, Alignment)>, NoSetting>;

/// The panel.
#[inline(never)]
pub(crate) fn setup(page: Page, answers: Answers) -> Node {
    let wanted = Value::new(Wanted::default());
    // Set up when a drag has ended, not at each of its frames.
    let found = Derived::new(move || find(page, wanted.get()));
    let field = move |at: usize| {
        let (label, kind) = NAMES[at];
        let number = Number {
            label,
            kind,
            limits: (f64::NEG_INFINITY, f64::INFINITY),
            optional: true,
            stepper: true,
            value: Rc::new(move || {
                wanted.get().numbers[at].or_else(|| found.with(|found| now(page, found, at)))
            }),
            start: 0.0,
            badge: Rc::new(move || {
                if at != BUMP && wanted.get().numbers[at].is_none() { "as it reads" } else { "" }.to_owned()
            }),
            take: Rc::new(move |value| {
                let mut next = wanted.now();
                next.numbers[at] = value;
                wanted.set(next);
            }),
        };
        number.node(page)
    };
    let ways = [(CasterBy::Shims, "Shims"), (CasterBy::StrutRod, "Strut rod")];
    let by = move || wanted.get().caster_by;
    let take = move |caster_by| wanted.set(Wanted { caster_by, ..wanted.now() });
    panel("Alignment")
        .child(words("words-setup"))
        .child(block("div", "remarks").attr("aria-live", "polite").content_of(move || doubted(answers)))
        .child(compared(page, answers))
        .child(block("div", "numbers").children((0..5).map(field)))
        .child(choice("Caster by", "caster-by", &ways, by, take))
        .child(block("div", "cards").content_of(move || found.with(|found| answer(page, wanted, found))))
        .child(sure(page, wanted, found))
}

/// What it would be set by and cannot be so.
fn doubted(answers: Answers) -> Node {
    let mut all = loose();
    for of in SetOrder::READ_FIRST {
        if is_doubtful(answers, of) {
            all = all.child(block("p", "remark").text(&doubtful_in_words(of)));
        }
    }
    all
}

/// What a number is where it is not asked for: as the side on the sketch reads.
fn now(page: Page, found: &Found, at: usize) -> Option<f64> {
    let side = page.session.side.get();
    let found = found.as_ref().ok()?.iter().find(|(of, ..)| *of == side);
    found.map(|(_, target, found)| if at == BUMP { found.bump_mm } else { target.numbers()[at] })
}

fn steps(page: Page) -> Steps {
    match page.units() {
        Units::Inches => Steps::INCHES,
        Units::Millimetres => Steps::MILLIMETRES,
    }
}

fn find(page: Page, wanted: Wanted) -> Found {
    let design = page.store.committed();
    let overlay = design.overlay(page.selected());
    let steps = steps(page);
    let bump_mm = wanted.numbers[BUMP].unwrap_or(LEAST_BUMP_MM);
    let now = Target::of_each(rest_of(&design.truck, Side::Left, overlay)?.stance());
    let (both, here) = (differ(page), page.session.side.get());
    let mut sides = Vec::new();
    for (side, now) in Side::ALL.into_iter().zip(now) {
        if both || side == here {
            sides.push((side, now.with(wanted.read())));
        }
    }
    let found = alignments(&design.truck, &sides, overlay, wanted.caster_by, &steps, bump_mm)?;
    let mut all = Vec::new();
    for ((side, target), found) in sides.into_iter().zip(found) {
        all.push((side, target, found));
    }
    Ok(all)
}

fn answer(page: Page, wanted: Value<Wanted>, found: &Found) -> Node {
    let sides = match found {
        Ok(sides) => sides,
        Err(why) => return block("p", "remark").text(&why.to_string()),
    };
    let mut content = said_first(page.units(), wanted, sides);
    for (side, target, found) in sides {
        let mut of = String::new();
        if sides.len() > 1 {
            content = content.child(el("h3").text(side.label()));
            of = [side.label(), ": "].concat();
        }
        content = content.child(of_side(page, &of, target, found));
    }
    if let (Selected::Proposal(id), Some((.., last))) = (page.selected(), sides.last()) {
        let each = last.setting.on_each();
        let put = move || page.edit_and_say(&Edit::SetAll(id, each.clone()), Some("The plan is set up so."));
        content = content.child(button("Put it on the sketch", put).attr("class", "primary"));
    }
    content
}

/// What can hurt someone is said before anything is ordered, at whichever side.
fn said_first(units: Units, wanted: Value<Wanted>, sides: &[(Side, Target, Alignment)]) -> Node {
    let mut content = loose();
    let mut said: Vec<(String, bool)> = Vec::new();
    for (side, _, found) in sides {
        if let Some(danger) = danger_in_words(found, units) {
            let danger = if sides.len() > 1 { [side.label(), ": ", &danger].concat() } else { danger };
            content = content.child(remark(&danger, true).attr("role", "alert"));
        }
        for note in &found.notes {
            said.push((note.to_string(), note.is_danger()));
        }
        if found.many_pieces {
            said.push((MANY_PIECES.to_owned(), false));
        }
        said.extend(sides_in_words(&found.setting).map(|words| (words.to_owned(), false)));
    }
    content = content.children(height_to_set(sides).map(|mm| {
        let take = move || {
            let mut next = wanted.now();
            next.numbers[0] = Some(mm);
            wanted.set(next);
        };
        let is_guess = sides.iter().any(|(.., found)| found.guessed);
        let height = marked(print_length(mm, readout_style(units)), is_guess);
        button("", take).child(write(el("span"), &("Set it to ".to_owned() + &height)))
    }));
    // What holds for both is said once.
    for (at, line) in said.iter().enumerate() {
        if !said[..at].contains(line) {
            content = content.child(remark(&line.0, line.1));
        }
    }
    content
}

/// Where a side is short of bump travel: the lowest height that leaves it at every side, mm, since a height
/// is set at all of them. A side that is not short is brought no lower.
fn height_to_set(sides: &[(Side, Target, Alignment)]) -> Option<f64> {
    let (mut highest, mut is_short) = (f64::NEG_INFINITY, false);
    for (_, target, found) in sides {
        let lowest = if found.footing.leaves(found.bump_mm) {
            target.ride_height_mm
        } else {
            is_short = true;
            found.lowest_height_mm?
        };
        highest = highest.max(lowest);
    }
    is_short.then_some(highest)
}

/// What is said of one side; `of` tells its tables from the other side's, where both are there.
fn of_side(page: Page, of: &str, target: &Target, whole: &Alignment) -> Node {
    let units = page.units();
    let found = &whole.setting;
    let mut lines = loose();
    for (name, said) in work(found, units) {
        lines = lines.child(el("tr").child(heading("row", name)).child(write(el("td"), &said)));
    }
    let off = found.reads.less(target);
    let (mut rows, mut reads) = (loose(), "Then reads: ".to_owned());
    for (at, figure) in READ.into_iter().enumerate() {
        let (name, kind) = NAMES[at];
        let is_guess = !found.may_rest_on(&[figure]).is_empty();
        let stays = at == CASTER && !found.rest.rear_is_known();
        let name = if stays { [name, ", ", IF_REAR_STAYS].concat() } else { name.to_owned() };
        let mut row = el("tr").child(heading("row", &name));
        for (of, target) in [&found.reads, &off].into_iter().enumerate() {
            let said = marked(show(kind, target.numbers()[at], units), is_guess);
            if of == 0 {
                reads += &[name.as_str(), " ", &said, if at + 1 < READ.len() { "; " } else { "." }].concat();
            }
            row = row.child(write(el("td"), &said));
        }
        rows = rows.child(row);
    }
    let is_guess = !found.may_rest_on(Setting::SHIMS).is_empty();
    let shim = |mm: f64| marked(shim(mm, units), is_guess);
    let (front, rear) = (shim(found.thumb_mm.0), shim(found.thumb_mm.1));
    let thumb =
        ["By the trade's rule of thumb: ", &front, " at the front bolt, ", &rear, " at the rear."].concat();
    let how_far = block("div", "folded")
        .child(moved_sideways(&[of, "What it then reads"].concat(), table(&["Number", "reads", "off"], rows)))
        .child(write(el("p"), &thumb));
    loose()
        .child(footing(whole, units))
        .child(moved_sideways(&[of, "What to do"].concat(), el("table").child(el("tbody").child(lines))))
        .children(found.bounds.iter().map(|why| remark(&bound_in_words(why), false)))
        .child(write(el("p"), &reads))
        .child(folding(&[of, "How far off it is"].concat(), move || how_far.clone()))
}

/// What it then stands on, how far the wheel can still rise, and what is hit first.
fn footing(found: &Alignment, units: Units) -> Node {
    let footing = &found.footing;
    let length = |mm: f64| marked(print_length(mm, readout_style(units)), found.guessed);
    let is_guess = !found.setting.may_rest_on(&[Figure::HELD_BY]).is_empty();
    let held = marked(held_in_words(footing.held_by).to_owned(), is_guess);
    let (bump, by) = (length(footing.bump.travel_mm), footing.bump.by.to_string());
    let mut said = ["Stands on: ", &held, ". Bump travel: ", &bump, ", ended by ", &by].concat();
    if let Some((pair, mm)) = footing.first_contact {
        said += &[". First hit: ", pair.label(), ", ", &length(mm), " up"].concat();
    }
    write(el("p"), &(said + "."))
}

/// What to do, in the order of the work; each amount carries the mark of what it is set for.
fn work(found: &Setting, units: Units) -> Vec<(&'static str, String)> {
    let turned = |turns: f64, plus: &str, minus: &str| match show(Kind::Count, turns.abs(), units) {
        none if none == "0" => "as it is".to_owned(),
        count => count + if turns > 0.0 { plus } else { minus },
    };
    let mut list = Vec::new();
    let mut add = |name: &'static str, set_for: &[Figure], said: String| {
        list.push((name, marked(said, !found.may_rest_on(set_for).is_empty())));
    };
    match found.height {
        HeightBy::Anchor { turns, splines_anchor, splines_arm } => {
            for (name, splines) in [("Bar, at the anchor", splines_anchor), ("Bar, at the arm", splines_arm)]
            {
                if splines != 0.0 {
                    let [up, down] = if splines.abs() > 1.0 {
                        [" splines, raised", " splines, let down"]
                    } else {
                        [" spline, raised", " spline, let down"]
                    };
                    add(name, Setting::HEIGHT, turned(splines, up, down));
                }
            }
            add("Adjuster bolt", Setting::HEIGHT, turned(turns, " turns in", " turns out"));
        }
        HeightBy::Spacer(mm) => {
            add("Coil's spacer", Setting::HEIGHT, print_length(mm, field_style(units)));
        }
        HeightBy::Nothing => {}
    }
    add("Shims, front bolt", Setting::SHIMS, shim(found.set.shim_front_mm, units));
    add("Shims, rear bolt", Setting::SHIMS, shim(found.set.shim_rear_mm, units));
    let rod = |turns: Option<f64>, mm: f64| match turns {
        Some(turns) => turned(turns, " turns longer", " turns shorter"),
        None => print_length(mm, field_style(units)),
    };
    if found.set.strut_mm != 0.0 {
        add("Strut rod's nut", Setting::SHIMS, rod(found.strut_turns, found.set.strut_mm));
    }
    add("Tie rod's sleeve", Setting::SLEEVE, rod(found.tie_turns, found.set.tie_mm));
    list
}

/// A pack added or taken out.
fn shim(mm: f64, units: Units) -> String {
    let style = match units {
        Units::Inches => LengthStyle::Inches { denominator: 32 },
        Units::Millimetres => LengthStyle::Millimetres { decimals: 1 },
    };
    let size = print_length(mm.abs(), style);
    if size == print_length(0.0, style) {
        return "as it is".to_owned();
    }
    if mm > 0.0 { "add " } else { "take out " }.to_owned() + &size
}
