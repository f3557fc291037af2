//! Files import each other one way: of any two neighbours, each with all that lies beneath it, one
//! does not know the other, not even through others. A module and what lies beneath it may.

use crate::root;
use crate::sources::{Module, Package};
use std::collections::{BTreeMap, BTreeSet};

/// Every package of ours, by the folder of its sources.
const PACKAGES: [&str; 15] = [
    "crates/measure/src",
    "crates/linkage/src",
    "crates/truck/src",
    "crates/study/src",
    "crates/mating/src",
    "crates/drawing/src",
    "crates/sharing/src",
    "crates/cli/src",
    "crates/xtask/src",
    "crates/xtask/pack/src",
    "crates/xtask/bindgen/src",
    "web/src",
    "tests/src",
    "tests/yardstick/src",
    "fuzz/src",
];

/// What each module knows of its neighbours, which lie in the same folder, each with all beneath it.
type Graph = BTreeMap<Module, BTreeSet<Module>>;

fn graph(package: &Package) -> Graph {
    let mut graph = Graph::new();
    for from in package.modules() {
        for to in package.reached_from(from) {
            let same = from.iter().zip(&to).take_while(|(a, b)| a == b).count();
            // A module and one beneath it are no neighbours.
            if same < from.len() && same < to.len() {
                graph.entry(from[..=same].to_vec()).or_default().insert(to[..=same].to_vec());
            }
        }
    }
    graph
}

/// All that a module knows, itself or through others.
fn known(graph: &Graph, from: &Module) -> BTreeSet<Module> {
    let (mut known, mut open) = (BTreeSet::new(), vec![from]);
    while let Some(at) = open.pop() {
        for next in graph.get(at).into_iter().flatten() {
            if known.insert(next.clone()) {
                open.push(next);
            }
        }
    }
    known
}

/// Each circle as the names of its members in order.
fn circles(graph: &Graph) -> BTreeSet<Vec<String>> {
    let known: BTreeMap<&Module, BTreeSet<Module>> =
        graph.keys().map(|module| (module, known(graph, module))).collect();
    let both =
        |a: &Module, b: &Module| known[a].contains(b) && known.get(b).is_some_and(|of_b| of_b.contains(a));
    let circle = |module: &Module| {
        let members = known[module].iter().filter(|other| both(module, other));
        members.map(|member| member.join("/")).collect()
    };
    graph.keys().filter(|module| both(module, module)).map(circle).collect()
}

/// Why a circle is one: who names whom in it.
fn told(graph: &Graph, circle: &[String]) -> String {
    let is_in = |module: &&Module| circle.contains(&module.join("/"));
    let mut lines = String::new();
    for (from, to) in graph.iter().filter(|(from, _)| is_in(from)) {
        let to: Vec<_> = to.iter().filter(is_in).map(|to| to.join("/")).collect();
        lines += &format!("  {} imports {}\n", from.join("/"), to.join(", "));
    }
    lines
}

#[test]
fn files_know_each_other_one_way() {
    let mut circular = String::new();
    for folder in PACKAGES {
        let graph = graph(&Package::read(&root().join(folder)));
        for circle in circles(&graph) {
            circular += &format!("{folder}: {circle:?}\n{}", told(&graph, &circle));
        }
    }
    assert!(circular.is_empty(), "a circle of files:\n{circular}");
}

/// No package is left out, and none is read as if it had nothing to say.
#[test]
fn every_package_is_read() {
    let mut manifests = Vec::new();
    let mut open = vec![root()];
    while let Some(folder) = open.pop() {
        if folder.join("Cargo.toml").exists() && folder.join("src").exists() {
            let inside = folder.join("src").strip_prefix(root()).unwrap().to_owned();
            manifests.push(inside.to_str().unwrap().replace('\\', "/"));
        }
        for entry in std::fs::read_dir(&folder).unwrap().map(Result::unwrap) {
            let name = entry.file_name().to_string_lossy().into_owned();
            if entry.path().is_dir() && !name.starts_with('.') && name != "target" && name != "node_modules" {
                open.push(entry.path());
            }
        }
    }
    let found: BTreeSet<&str> = manifests.iter().map(String::as_str).collect();
    assert_eq!(found, PACKAGES.into_iter().collect());
    for (folder, least) in [("crates/linkage/src", 5), ("crates/study/src", 15), ("web/src", 20)] {
        let graph = graph(&Package::read(&root().join(folder)));
        let edges: usize = graph.values().map(BTreeSet::len).sum();
        assert!(edges > least, "{folder}: {edges} imports between neighbours");
    }
}

fn circles_of(sources: &[(&str, &str)]) -> Vec<String> {
    circles(&graph(&Package::of(sources))).into_iter().map(|circle| circle.join(" ")).collect()
}

/// The reader is no stub: it finds a circle in every spelling of an import.
#[test]
fn a_circle_is_recognised() {
    for import in [
        "use crate::a::A;",
        "use super::a::A;",
        "use crate::{c::C, a::{self, A}};",
        "pub(crate) use crate::a as other;",
        "use crate::a; fn f() -> a::A { a::A }",
        "fn f() { crate::a::f() }",
        "fn f() -> super::a::A { todo() }",
        // By way of the root, which only passes it on.
        "use crate::A;",
        "fn f() -> crate::A { todo() }",
    ] {
        let root = ("", "mod a; mod b; mod c; pub use a::A;");
        let sources = [root, ("a", "use crate::b::B; pub struct A;"), ("b", import), ("c", "pub struct C;")];
        assert_eq!(circles_of(&sources), ["a b"], "{import}");
    }
    // Through a third, and from beneath.
    let through = [("", ""), ("a", "use crate::b::B;"), ("b", "use crate::c::C;"), ("c", "use crate::a::A;")];
    assert_eq!(circles_of(&through), ["a b c"]);
    let beneath = [("", ""), ("a", ""), ("a/in", "use crate::b::B;"), ("b", "use crate::a::A;")];
    assert_eq!(circles_of(&beneath), ["a b"]);
    let inside = [("a", ""), ("a/x", "use super::y::Y;"), ("a/y", "use crate::a::x::X;")];
    assert_eq!(circles_of(&inside), ["a/x a/y"]);
}

/// And it finds none where there is none.
#[test]
fn what_is_no_circle_is_none() {
    for import in [
        "// use crate::a::A;\n",
        "/// See [`crate::a::A`].\nstruct B;",
        "const S: &str = \"use crate::a::A;\";",
        "use std::a::A;",
        "use crate::c::C;",
        "struct B;\n\n#[cfg(test)]\nmod tests {\n    use crate::a::A;\n}",
    ] {
        let sources = [("", ""), ("a", "use crate::b::B;"), ("b", import), ("c", "pub struct C;")];
        assert_eq!(circles_of(&sources), [""; 0], "{import}");
    }
    // Parent and child.
    let family = [("", ""), ("a", "mod b; use b::B;"), ("a/b", "use super::A; use crate::a::f;")];
    assert_eq!(circles_of(&family), [""; 0]);
    // A name that is passed on is not its passer's.
    let passed = [
        ("", "mod a; mod b; mod c;"),
        ("a", "pub use crate::c::C; use crate::b::B;"),
        ("b", "use crate::a::C;"),
        ("c", ""),
    ];
    assert_eq!(circles_of(&passed), [""; 0]);
}
