//! The shelf over a drawer that refuses, fills up and breaks off, as browsers do.
//!
//! What is asserted are promises: nothing that was kept is lost but the oldest, and that is said.

use page::shelf::{
    Drawer, Entry, MOST, MOST_VALUES, Refusal, Shelf, entry_text, export, names, newest_first, take_in,
    take_over,
};
use sharing::{Opening, Shared, Tree, from_code, from_tree, to_code, to_kept_text, to_tree, write_work};
use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use truck::{
    Change, ChangeKind, Design, Edit, Fastener, Field, Proposal, ProposalId, Task, WorkEdit, WorkLog, demo,
};
use wasm_bindgen_test::wasm_bindgen_test;

/// Texts in memory, with room for so many characters, and an end to all writing after so many.
struct Texts {
    held: RefCell<BTreeMap<String, String>>,
    room: Cell<usize>,
    writes: Cell<usize>,
    closed: Cell<bool>,
}

impl Texts {
    fn new() -> Self {
        let plenty = usize::MAX;
        Self {
            held: RefCell::default(),
            room: Cell::new(plenty),
            writes: Cell::new(plenty),
            closed: Cell::new(false),
        }
    }

    fn goes_on(&self) -> bool {
        let left = self.writes.get();
        self.writes.set(left.saturating_sub(1));
        left > 0
    }

    fn titles(&self) -> Vec<String> {
        newest_first(self).iter().map(Entry::name).collect()
    }

    fn used(&self) -> usize {
        self.held.borrow().iter().map(|(id, text)| id.len() + text.len()).sum()
    }
}

impl Drawer for Texts {
    fn ids(&self) -> Vec<String> {
        self.held.borrow().keys().cloned().collect()
    }

    fn get(&self, id: &str) -> Option<String> {
        self.held.borrow().get(id).cloned()
    }

    fn put(&self, id: &str, text: &str) -> Result<(), Refusal> {
        if self.closed.get() {
            return Err(Refusal::Closed);
        }
        let before = self.get(id).map_or(0, |text| id.len() + text.len());
        if self.used() - before + id.len() + text.len() > self.room.get() {
            return Err(Refusal::Full);
        }
        if self.goes_on() {
            self.held.borrow_mut().insert(id.to_owned(), text.to_owned());
        }
        Ok(())
    }

    fn remove(&self, id: &str) {
        if self.goes_on() {
            self.held.borrow_mut().remove(id);
        }
    }
}

fn titled(title: &str) -> Shared {
    seen(Design { title: title.to_owned(), ..demo() })
}

fn seen(design: Design) -> Shared {
    Shared { design, opening: Opening::default() }
}

/// A visit after designs were kept, one a second.
fn work(drawer: &Texts, titles: &[&str], from_s: u32) -> Shelf {
    for (time_s, title) in (from_s..).zip(titles) {
        drawer.put(&time_s.to_string(), &entry_text(time_s, &to_code(&titled(title)))).unwrap();
    }
    Shelf::default()
}

#[wasm_bindgen_test(unsupported = test)]
fn what_was_only_looked_at_is_not_kept() {
    let (drawer, mut shelf) = (Texts::new(), Shelf::default());
    let link = titled("a stranger's");
    let number = shelf.begin(&drawer, &mut link.design.clone());
    let turned = Shared { opening: Opening { travel_mm: 20.0, ..link.opening }, ..link };
    assert!(!shelf.keep(&drawer, number, &turned, 5).wrote);
    assert!(drawer.ids().is_empty());
    assert!(shelf.keep(&drawer, number, &titled("mine now"), 6).wrote);
    assert_eq!(drawer.titles(), ["mine now"]);
}

#[wasm_bindgen_test(unsupported = test)]
fn another_day_goes_on_with_the_same_entry() {
    let drawer = Texts::new();
    work(&drawer, &["one"], 10);
    let mut next = Shelf::default();
    let number = next.begin(&drawer, &mut titled("one").design);
    assert!(next.keep(&drawer, number, &titled("one, longer"), 20).wrote);
    assert_eq!(drawer.titles(), ["one, longer"]);
    // How it is looked at goes with it, and makes it no younger.
    let mut turned = titled("one, longer");
    turned.opening.travel_mm = 12.0;
    assert!(next.keep(&drawer, number, &turned, 30).wrote);
    let entry = newest_first(&drawer).remove(0);
    assert_eq!((entry.time_s(), entry.read().unwrap()), (20, turned));
}

#[wasm_bindgen_test(unsupported = test)]
fn two_visits_at_one_entry_both_keep_theirs() {
    let drawer = Texts::new();
    work(&drawer, &["start"], 10);
    let (mut a, mut b) = (Shelf::default(), Shelf::default());
    let (in_a, in_b) =
        (a.begin(&drawer, &mut titled("start").design), b.begin(&drawer, &mut titled("start").design));
    assert!(!a.keep(&drawer, in_a, &titled("of a"), 11).apart);
    // Looking is no reason to part.
    let mut turned = titled("start");
    turned.opening.travel_mm = 5.0;
    assert!(!b.keep(&drawer, in_b, &turned, 12).wrote);
    assert!(b.keep(&drawer, in_b, &titled("of b"), 13).apart);
    assert_eq!(drawer.titles(), ["of b", "of a"]);
    for time_s in 14..20 {
        assert!(!a.keep(&drawer, in_a, &titled(&format!("of a, {time_s}")), time_s).apart);
        assert!(!b.keep(&drawer, in_b, &titled(&format!("of b, {time_s}")), time_s).apart);
    }
    assert_eq!(drawer.titles(), ["of b, 19", "of a, 19"]);
}

#[wasm_bindgen_test(unsupported = test)]
fn writing_at_the_same_moment_loses_neither() {
    let drawer = Texts::new();
    work(&drawer, &["start"], 10);
    let mut a = Shelf::default();
    let number = a.begin(&drawer, &mut titled("start").design);
    assert!(a.keep(&drawer, number, &titled("of a"), 11).wrote);
    assert!(!a.overrun(&drawer, number), "its own writing is none");
    // Another tab that had not seen it yet.
    let id = a.entry(number).unwrap().to_owned();
    drawer.put(&id, &entry_text(11, &to_code(&titled("of b")))).unwrap();
    assert!(a.overrun(&drawer, number));
    assert!(a.keep(&drawer, number, &titled("of a"), 12).apart);
    assert_eq!(drawer.titles(), ["of a", "of b"]);
}

#[wasm_bindgen_test(unsupported = test)]
fn undo_over_an_opened_design_goes_on_where_it_was() {
    let drawer = Texts::new();
    work(&drawer, &["one", "two"], 10);
    let mut shelf = Shelf::default();
    let one = shelf.begin(&drawer, &mut titled("one").design);
    assert!(shelf.keep(&drawer, one, &titled("one a"), 20).wrote);
    let two = shelf.begin(&drawer, &mut titled("two").design);
    assert!(shelf.keep(&drawer, two, &titled("two a"), 21).wrote);
    assert!(!shelf.keep(&drawer, one, &titled("one a"), 22).wrote, "undone to what is kept");
    assert!(shelf.keep(&drawer, one, &titled("one b"), 23).wrote);
    assert_eq!(drawer.titles(), ["one b", "two a"]);
    assert_eq!(shelf.begin(&drawer, &mut titled("two a").design), two, "the same design is the same number");
}

#[wasm_bindgen_test(unsupported = test)]
fn the_oldest_make_room_and_are_named() {
    let drawer = Texts::new();
    let names: Vec<String> = (0..MOST).map(|at| format!("number {at}")).collect();
    work(&drawer, &names.iter().map(String::as_str).collect::<Vec<_>>(), 100);
    let newer = entry_text(1, "2ofANewerVersion");
    drawer.put("strange", &newer).unwrap();
    let mut shelf = Shelf::default();
    // The oldest is the one that is worked on.
    let oldest = shelf.begin(&drawer, &mut titled("number 0").design);
    assert_eq!(shelf.keep(&drawer, oldest, &titled("number 0"), 900).removed, [""; 0]);
    let number = shelf.begin(&drawer, &mut demo());
    let done = shelf.keep(&drawer, number, &titled("one more"), 1000);
    assert_eq!((done.removed, done.full), (vec!["number 0".to_owned()], false));
    let done = shelf.keep(&drawer, number, &titled("one more, longer"), 1001);
    assert!(done.removed.is_empty(), "the same entry needs no more room");
    assert_eq!(drawer.get("strange"), Some(newer), "what cannot be read stays");
    assert_eq!(drawer.ids().len(), MOST + 1);
}

/// A truck that was named keeps its name; of those alike the later made say so, whichever was touched last.
#[wasm_bindgen_test(unsupported = test)]
fn forty_trucks_have_names_that_tell_them_apart() {
    let drawer = Texts::new();
    for (at, time_s) in (0..MOST).zip(100..) {
        let mut shared = titled(if at % 4 == 0 { "Juniper" } else { "" });
        let section = 195.0 + 10.0 * f64::from(u8::try_from(at % 3).unwrap());
        shared.design = shared.design.edited(&Edit::MeasureAll(vec![(Field::TireSection, section)])).unwrap();
        drawer.put(&time_s.to_string(), &entry_text(time_s, &to_code(&shared))).unwrap();
    }
    let called = || names(&newest_first(&drawer));
    let name_of = |id: &str| called().into_iter().find(|(of, _)| of == id).unwrap().1;
    let mut all: Vec<String> = called().into_iter().map(|(_, name)| name).collect();
    all.sort();
    all.dedup();
    assert_eq!(all.len(), MOST, "{all:?}");
    assert_eq!((name_of("100"), name_of("104")), ("Juniper".to_owned(), "Juniper (2)".to_owned()));
    let plain = name_of("101");
    assert!(plain.starts_with("205/75R14 at "), "{plain}");
    assert!(name_of("113").starts_with(&plain) && name_of("113").ends_with(" (4)"), "{}", name_of("113"));
    // Touched again it is still the first of its name.
    let text = drawer.get("100").unwrap();
    drawer.put("100", &text.replacen("100 ", "900 ", 1)).unwrap();
    assert_eq!((name_of("100"), name_of("104")), ("Juniper".to_owned(), "Juniper (2)".to_owned()));
}

#[wasm_bindgen_test(unsupported = test)]
fn without_room_the_oldest_go_but_never_for_nothing() {
    let drawer = Texts::new();
    let names: Vec<String> = (0..10).map(|at| format!("number {at}")).collect();
    work(&drawer, &names.iter().map(String::as_str).collect::<Vec<_>>(), 100);
    drawer.room.set(drawer.used());
    let mut shelf = Shelf::default();
    let number = shelf.begin(&drawer, &mut titled("number 0").design);
    let done = shelf.keep(&drawer, number, &titled("number 0, and now with a far longer name"), 900);
    assert_eq!((done.full, done.refused), (true, None));
    // As many as it takes, oldest first, and never the one that is worked on.
    assert!(done.removed == ["number 1"] || done.removed == ["number 1", "number 2"], "{:?}", done.removed);
    assert_eq!(drawer.titles()[0], "number 0, and now with a far longer name");
    // Somebody else fills the place: what is dropped does not help, and comes back.
    let before = drawer.titles();
    drawer.room.set(0);
    let done = shelf.keep(&drawer, number, &titled("number 0 once more"), 901);
    assert_eq!((done.refused, done.removed), (Some(Refusal::Full), vec![]));
    assert_eq!(drawer.titles()[0], before[0], "what was kept of it stays");
    assert!(drawer.titles().len() + 9 >= before.len());
    drawer.room.set(usize::MAX);
    assert!(shelf.keep(&drawer, number, &titled("number 0 once more"), 902).wrote, "it is tried again");
}

#[wasm_bindgen_test(unsupported = test)]
fn a_drawer_that_keeps_nothing_is_said_and_no_more() {
    let (drawer, mut shelf) = (Texts::new(), Shelf::default());
    drawer.closed.set(true);
    let number = shelf.begin(&drawer, &mut demo());
    for time_s in 0..3 {
        let done = shelf.keep(&drawer, number, &titled("mine"), time_s);
        assert_eq!((done.refused, done.wrote), (Some(Refusal::Closed), false));
    }
    assert_eq!(take_in(&drawer, &to_tree(&titled("theirs")), 5).over, 1);
}

#[wasm_bindgen_test(unsupported = test)]
fn breaking_off_between_any_two_writes_loses_one_edit_at_most() {
    let names: Vec<String> = (0..MOST).map(|at| format!("number {at}")).collect();
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    for room in [usize::MAX, 0] {
        for writes in 0..4 {
            let drawer = Texts::new();
            work(&drawer, &names, 100);
            let before = drawer.titles();
            drawer.room.set(if room == 0 { drawer.used() } else { room });
            drawer.writes.set(writes);
            let mut shelf = Shelf::default();
            let number = shelf.begin(&drawer, &mut demo());
            let _ = shelf.keep(&drawer, number, &titled("the last edit"), 900);
            let after = drawer.titles();
            let lost: Vec<_> = before.iter().filter(|title| !after.contains(title)).collect();
            let oldest = |title: &String| ["number 0", "number 1"].contains(&title.as_str());
            let few = if room == 0 { 2 } else { 1 };
            assert!(lost.len() <= few && lost.iter().all(|title| oldest(title)), "{lost:?}, {writes} writes");
            // With room, the new one is there before an old one goes.
            assert!(room == 0 || lost.is_empty() || after.contains(&"the last edit".to_owned()));
        }
    }
}

#[wasm_bindgen_test(unsupported = test)]
fn what_is_removed_comes_back_as_it_was() {
    let drawer = Texts::new();
    let mut shelf = work(&drawer, &["one", "two"], 10);
    let number = shelf.begin(&drawer, &mut titled("two").design);
    let id = shelf.entry(number).unwrap().to_owned();
    let text = shelf.remove(&drawer, &id).unwrap();
    assert_eq!(drawer.titles(), ["one"]);
    assert!(!shelf.keep(&drawer, number, &titled("two"), 50).wrote, "untouched, it stays removed");
    shelf.put_back(&drawer, &id, &text).unwrap();
    assert_eq!(drawer.titles(), ["two", "one"]);
    assert!(shelf.keep(&drawer, number, &titled("two b"), 60).wrote);
    assert_eq!(drawer.titles(), ["two b", "one"], "and is worked on as before");
}

#[wasm_bindgen_test(unsupported = test)]
fn damaged_and_newer_entries_are_shown_and_stay() {
    let drawer = Texts::new();
    for (id, text) in
        [("a", ""), ("b", "17"), ("c", "no time 1Rb"), ("d", "99999999999999999999 1x"), ("e", "7 2abc")]
    {
        drawer.put(id, text).unwrap();
    }
    assert_eq!(newest_first(&drawer).len(), 5);
    for entry in newest_first(&drawer) {
        assert!(entry.read().unwrap_err().to_string().ends_with('.'));
        assert!(Shelf::default().open(&drawer, &entry.id).is_err());
        assert!(entry.name().contains("cannot be read"));
    }
    let mut shelf = work(&drawer, &["mine"], 10);
    assert_eq!(drawer.ids().len(), 6);
    assert_eq!(shelf.remove(&drawer, "e"), Some("7 2abc".to_owned()));
    assert!(shelf.open(&drawer, "e").is_err());
}

#[wasm_bindgen_test(unsupported = test)]
fn the_whole_shelf_goes_through_a_file() {
    let drawer = Texts::new();
    work(&drawer, &["one", "two", "three"], 10);
    drawer.put("strange", "3 2abc").unwrap();
    let file = export(&drawer);
    let Tree::List(items) = &file else { panic!("a list") };
    assert_eq!(items.len(), 4);
    assert_eq!(from_tree(&items[0]).unwrap(), titled("three"), "each is a file of its own");
    let other = Texts::new();
    let came = take_in(&other, &file, 1000);
    assert_eq!((came.taken, came.there, came.over, came.bad.len()), (3, 0, 0, 1));
    assert!(came.in_words().contains("Number 4 is left out: "), "{}", came.in_words());
    assert_eq!(other.titles(), ["three", "two", "one"], "in their order");
    let again = take_in(&other, &file, 1001);
    assert_eq!((again.taken, again.there), (0, 3));
    // A single file and a link are taken as well.
    let links = Tree::List(vec![Tree::Text(to_code(&titled("by link"))), Tree::Null]);
    assert_eq!(take_in(&other, &links, 1002).taken, 1);
    assert_eq!(take_in(&other, &to_tree(&titled("alone")), 1003).taken, 1);
    assert_eq!(other.titles()[0], "alone");
}

/// A design with a torque typed and a task done; its link is the bare design's.
fn worked(title: &str) -> Shared {
    let edits = [
        WorkEdit::Done(Task::Stands, true),
        WorkEdit::Torque(Fastener::Wheel, Some(115.0)),
        WorkEdit::Manual(Fastener::Wheel, "1994 shop manual".to_owned()),
    ];
    let work = edits.iter().fold(WorkLog::EMPTY, |work, edit| work.edited(edit).unwrap());
    let Shared { design, opening } = titled(title);
    Shared { design: design.edited(&Edit::Work(write_work(&work))).unwrap(), opening }
}

#[wasm_bindgen_test(unsupported = test)]
fn how_far_the_work_is_comes_back_and_is_a_reason_to_keep() {
    let drawer = Texts::new();
    work(&drawer, &["one"], 10);
    let mut shelf = Shelf::default();
    let number = shelf.begin(&drawer, &mut titled("one").design);
    assert!(shelf.keep(&drawer, number, &worked("one"), 20).wrote);
    assert!(!shelf.keep(&drawer, number, &worked("one"), 21).wrote, "nothing has changed");
    let entries = newest_first(&drawer);
    assert_eq!((entries.len(), entries[0].read().unwrap()), (1, worked("one")));
    // The same truck by a link or from its address, which say nothing of the work.
    let mut link = from_code(&to_code(&worked("one"))).unwrap().design;
    let mut again = Shelf::default();
    let number = again.begin(&drawer, &mut link);
    assert_eq!(link, worked("one").design);
    assert_eq!(again.entry(number), Some(entries[0].id.as_str()));
    let done = again.keep(&drawer, number, &titled("one"), 30);
    assert!(done.wrote && !done.apart, "taken back, it is gone: {done:?}");
    assert_eq!(newest_first(&drawer)[0].read().unwrap(), titled("one"));
}

/// One whose work is another is another's entry.
#[wasm_bindgen_test(unsupported = test)]
fn another_work_on_the_same_truck_is_not_written_over() {
    let drawer = Texts::new();
    drawer.put("10", &entry_text(10, &to_kept_text(&worked("one")))).unwrap();
    let mut file = titled("one").design.edited(&Edit::Work("1".to_owned())).unwrap();
    let mut shelf = Shelf::default();
    let number = shelf.begin(&drawer, &mut file);
    assert_eq!((file.work.as_str(), shelf.entry(number)), ("1", None));
}

#[wasm_bindgen_test(unsupported = test)]
fn the_whole_shelf_in_a_file_says_how_far_the_work_is() {
    let drawer = Texts::new();
    drawer.put("10", &entry_text(10, &to_kept_text(&worked("one")))).unwrap();
    let other = Texts::new();
    assert_eq!(take_in(&other, &export(&drawer), 20).taken, 1);
    assert_eq!(newest_first(&other)[0].read().unwrap(), worked("one"));
}

/// A load is kept to a newton: 3500.4 N in the file is 3500 N here, which is told and counted.
#[wasm_bindgen_test(unsupported = test)]
fn what_a_file_says_finer_than_it_is_kept_is_counted() {
    let drawer = Texts::new();
    let load = |newtons: f64| {
        let member = |key: &str, tree: Tree| Tree::Object(vec![(key.to_owned(), tree)]);
        let truck = member("truck", member("load", member("corner_load", Tree::Number(newtons))));
        let Tree::Object(mut members) = truck else { panic!("an object") };
        members.insert(0, ("scrubline".to_owned(), Tree::Number(1.0)));
        Tree::Object(members)
    };
    let came = take_in(&drawer, &Tree::List(vec![load(3500.4), load(3600.0), load(3700.2)]), 10);
    assert_eq!((came.taken, came.rounded), (3, 2));
    assert!(came.in_words().contains("rounded: 2."), "{}", came.in_words());
    let came = take_in(&drawer, &load(3800.0), 20);
    assert!(came.taken == 1 && !came.in_words().contains("rounded"), "{}", came.in_words());
}

#[wasm_bindgen_test(unsupported = test)]
fn a_file_never_pushes_out_what_is_there() {
    let drawer = Texts::new();
    work(&drawer, &["mine"], 10);
    let many = (0..3 * MOST).map(|at| to_tree(&titled(&format!("theirs {at}")))).collect();
    let came = take_in(&drawer, &Tree::List(many), 1000);
    assert_eq!((came.taken, came.over), (MOST - 1, 2 * MOST + 1));
    assert!(drawer.titles().contains(&"mine".to_owned()));
}

#[wasm_bindgen_test(unsupported = test)]
fn what_an_earlier_version_kept_is_taken_over_once() {
    let drawer = Texts::new();
    let (own, link) = (to_code(&titled("own, beside")), to_code(&titled("on the page")));
    let last = take_over(&drawer, &[own.clone(), link.clone()], 50).unwrap().unwrap();
    assert_eq!(drawer.titles(), ["on the page", "own, beside"]);
    assert_eq!(newest_first(&drawer)[0].id, last);
    assert_eq!(take_over(&drawer, &[own, link], 60).unwrap(), Some(last), "and is there already");
    assert_eq!(drawer.ids().len(), 2);
    assert_eq!(take_over(&drawer, &[to_code(&seen(demo()))], 70).unwrap(), None, "the demo is nobody's");
    take_over(&drawer, &["2fromTomorrow".to_owned()], 80).unwrap();
    assert_eq!(drawer.ids().len(), 3, "what cannot be read is work too");
    drawer.room.set(0);
    assert_eq!(take_over(&drawer, &[to_code(&titled("late"))], 90), Err(Refusal::Full));
}

/// Everything in a tree that a file counts: what stands in a list or under a name.
fn values(tree: &Tree) -> usize {
    match tree {
        Tree::List(items) => items.len() + items.iter().map(values).sum::<usize>(),
        Tree::Object(members) => members.len() + members.iter().map(|(_, tree)| values(tree)).sum::<usize>(),
        _ => 0,
    }
}

/// A full shelf of the largest designs there can be: every number stated, on the right too, three
/// proposals with every change at every place. Its file is one that is read.
#[wasm_bindgen_test(unsupported = test)]
fn a_full_shelf_is_no_file_that_is_too_long() {
    let mut design = demo();
    let truck = design.truck.clone();
    for field in Field::ALL.iter().copied() {
        let value = field.get(&truck).or_else(|| field.accept(1.0)).or_else(|| field.accept(0.0));
        let edit = |of: &Design, edit: Edit| of.edited(&edit).unwrap_or_else(|_| of.clone());
        design = edit(&design, Edit::Measure { field, value });
        design = edit(&design, Edit::MeasureRight(vec![(field, value)]));
    }
    let changes: Vec<Change> = ChangeKind::ALL
        .iter()
        .flat_map(|kind| {
            let places = kind.places().iter().copied().map(Some);
            let all = places.chain(kind.places().is_empty().then_some(None));
            all.filter_map(|place| kind.first(place, &truck)).collect::<Vec<_>>()
        })
        .collect();
    design.proposals.clear();
    for id in 1..=3 {
        let mut proposal = Proposal::new(ProposalId(id), "Everything".to_owned());
        for change in &changes {
            proposal.set(*change);
        }
        design.proposals.push(proposal);
    }
    let one = to_tree(&Shared { design, opening: Opening::default() });
    let count = values(&one);
    assert!(count > 300, "{count} values are everything");
    assert!(MOST * (count + 1) <= MOST_VALUES as usize, "{count} values a design");
}
