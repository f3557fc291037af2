//! The laws of the page: no view computes, one file follows signals, one folder touches the browser.

use crate::root;
use crate::sources::{Package, code_of, rust_files, words_of};
use std::collections::BTreeSet;

/// Where the page is built and a gesture read.
const VIEWS: [&str; 5] = ["app", "later", "panels", "sketch", "widgets"];

/// Whether a path leads to what computes in a library: its functions, and how its answers are had. A view names types.
fn computes(path: &str) -> bool {
    let inside = ["linkage::", "study::"].iter().any(|name| path.starts_with(name));
    let last = path.rsplit("::").next().unwrap_or_default();
    // A figure of the table that is one of many is named by a function, and computes nothing.
    let is_name = path.starts_with("study::Figure::");
    inside && !is_name && last.starts_with(|c: char| c.is_lowercase()) || path == "truck::fit"
}

/// What a view calls all the same.
const CALLED: [(&str, &[&str]); 17] = [
    // A panel asks its own question while it is open, and nobody else follows the answer.
    ("panels/clearance", &["study::ClearanceSearch::new"]),
    ("panels/as_built", &["study::AsBuiltSearch::of_design"]),
    ("panels/fitted", &["study::PointFitting::new", "study::Trial::new"]),
    ("panels/clearance/hits", &["study::travel_left_of"]),
    ("panels/clearance/limits", &["study::ScrubLine::worst", "study::least_first"]),
    ("panels/clearance/pairs", &["study::clearance"]),
    ("panels/compare", &["study::Studied::new"]),
    ("panels/read_off", &["study::Pair::from_key", "study::model_as_it_sits"]),
    (
        "panels/lessons",
        &[
            "study::ScrubLine::of",
            "study::Gauged::of",
            "study::clearances",
            "study::rear_told",
            "study::travel_left",
        ],
    ),
    ("panels/lessons/tapes", &["study::Draws::new", "study::Trial::new"]),
    ("panels/setup", &["study::Target::of_each", "study::alignments"]),
    ("panels/setup/sure", &["study::SetSpreads::of", "study::Trial::new"]),
    ("panels/rear", &["study::rear_told"]),
    // Lent to the memos from the second module, so that who has no rear does not fetch it.
    ("later", &["study::Rear::of"]),
    // The first letter of a word.
    ("panels/readouts", &["study::capital"]),
    // No more than a look at what stands in an answer.
    ("panels/sides", &["study::LeftRight::named"]),
    // A gesture's arithmetic, on the pose it began with.
    ("sketch/gesture", &["linkage::Vector3::new", "linkage::axes::direction"]),
];

#[test]
fn no_view_computes() {
    let page = Package::read(&root().join("web/src"));
    let is_view =
        |module: &[String]| VIEWS.iter().any(|view| module.first().is_some_and(|first| first == view));
    let mut seen = 0;
    for module in page.modules().filter(|module| is_view(module)) {
        let name = module.join("/");
        let may = CALLED.iter().find(|(who, _)| *who == name).map_or(&[][..], |(_, may)| may);
        let calls = page.named_by(module).into_iter().filter(|path| computes(path));
        let calls: Vec<_> = calls.filter(|path| !may.contains(&path.as_str())).collect();
        assert!(
            calls.is_empty(),
            "{name} calls {calls:?}: a memo of derive.rs does, unless CALLED says why not"
        );
        seen += 1;
    }
    assert!(seen > 20, "{seen} files");
    // The one that does is seen to.
    let derive: BTreeSet<String> = page.named_by(&vec!["derive".to_owned()]);
    let calls = derive.iter().filter(|path| computes(path)).count();
    assert!(calls > 5, "derive.rs calls {calls} things");
}

#[test]
fn what_computes_is_recognised() {
    for path in
        ["study::Rest::of", "study::sweep", "linkage::axes::caster_rad", "truck::fit", "study::Ways::new"]
    {
        assert!(computes(path), "{path}");
    }
    for path in [
        "study::Rest",
        "study::Pair::TireFender",
        "study::TIGHT_MM",
        "study::Figure::least_room",
        "truck::Overlay::from",
        "measure::fixed",
    ] {
        assert!(!computes(path), "{path}");
    }
}

/// The files of the page in which one of some words stands.
fn where_said(words: &[&str]) -> BTreeSet<String> {
    let folder = root().join("web/src");
    let mut files = Vec::new();
    rust_files(&folder, &mut files);
    let says = |code: &str| words_of(code).iter().any(|word| words.contains(&word.as_str()));
    let found = files.iter().filter(|path| says(&code_of(path)));
    found.map(|path| path.strip_prefix(&folder).unwrap().to_str().unwrap().replace('\\', "/")).collect()
}

/// An effect is compiled for itself, and one that forgets `unlist` leaks.
#[test]
fn one_file_follows_signals() {
    let found = where_said(&["Effect", "RenderEffect", "ImmediateEffect", "effect", "watch"]);
    assert_eq!(found, ["dom.rs".to_owned()].into());
}

/// What only the browser's folder touches, each with a file that does.
const BROWSER: [(&[&str], &str); 5] = [
    (&["local_storage", "session_storage", "indexed_db", "Storage"], "browser/storage.rs"),
    (&["location", "Location", "replace_state_with_url", "push_state_with_url"], "browser/address.rs"),
    (&["clipboard", "navigator", "Clipboard", "Navigator"], "browser/tell.rs"),
    (&["Blob", "Url", "FileReader", "set_download"], "browser/files.rs"),
    (&["request_animation_frame", "requestAnimationFrame"], "browser/frames.rs"),
];

#[test]
fn one_folder_touches_the_browser() {
    for (words, file) in BROWSER {
        let found = where_said(words);
        assert!(found.contains(file), "{words:?} are not those of {file}");
        let beside: Vec<_> = found.iter().filter(|found| !found.starts_with("browser/")).collect();
        assert!(beside.is_empty(), "{words:?} in {beside:?}: they belong under browser/");
    }
}
