//! The release page put together: compiled, taken apart into its two modules, and its files laid out.
//!
//! `crates/xtask/pack` takes the code apart; it is a workspace of its own, since the libraries it stands on
//! are many. `index.html` says by its `data-trunk` links what else belongs to the page, and Trunk reads the
//! same: whoever has it may use `trunk build` and `trunk serve`, which make the page in one module.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Instant;

use anyhow::{Context, Result, bail, ensure};

use crate::compile::compile;
use crate::post_build;
use crate::project::Project;
use crate::run::run;
use crate::single::each_tag;
use crate::small_std;

pub(crate) const PACK: &str = "crates/xtask/pack/Cargo.toml";

/// What loads the code, and what starts it: these files are made, so `index.html` does not name them.
const PRELOADS: &str = "<link rel=\"modulepreload\" href=\"./web.js\" crossorigin=\"anonymous\">\
    <link rel=\"preload\" href=\"./web_bg.wasm\" crossorigin=\"anonymous\" as=\"fetch\">";
const START: &str = "<script type=\"module\" src=\"./boot.js\"></script>";

/// Builds what takes the page apart.
pub(crate) fn pack(project: &Project) -> Result<PathBuf> {
    let target = project.path("target/pack");
    let program = target.join("debug").join(format!("pack{}", std::env::consts::EXE_SUFFIX));
    if !program.is_file() {
        println!("Building what takes the page's code apart, once: half a minute to a minute …");
    }
    run(project
        .cargo()
        .args(["build", "--quiet", "--locked", "--manifest-path", PACK])
        .env("CARGO_TARGET_DIR", &target))?;
    ensure!(program.is_file(), "cargo built no {}", program.display());
    Ok(program)
}

/// The tests of that.
pub(crate) fn pack_tests(project: &Project) -> Command {
    let mut cargo = project.cargo();
    cargo
        .args(["test", "--locked", "--manifest-path", PACK])
        .env("CARGO_TARGET_DIR", project.path("target/pack"));
    cargo
}

/// How a release page is made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Made {
    /// To be looked at on this machine, soon.
    Soon,
    /// To be downloaded by others.
    Small,
}

/// Compiles the page's code.
pub(crate) fn code(project: &Project, made: Made) -> Result<PathBuf> {
    let wasm = match made {
        Made::Small => small_std::compile(project)?,
        Made::Soon => None,
    };
    wasm.map_or_else(|| compile(project), Ok)
}

/// Builds the release page into `dist/`.
pub(crate) fn release(project: &Project, page: Option<&str>, made: Made) -> Result<PathBuf> {
    let pack = pack(project)?;
    let start = Instant::now();
    let said = |what: &str| println!("{what} ({:.0} s since the start)", start.elapsed().as_secs_f64());
    said("Compiling the page: two to four minutes the first time …");
    let wasm = code(project, made)?;
    said("Laying out its files …");
    let staging = project.path("target/page");
    if staging.exists() {
        fs::remove_dir_all(&staging).context("cannot remove the page that was built before")?;
    }
    fs::create_dir_all(&staging)?;
    run(project.command(&pack).arg(wasm).arg(&staging))?;
    lay_out(project, &staging)?;
    post_build::finish(project, &staging, page, Some(&pack))?;
    let dist = project.path("dist");
    if dist.exists() {
        fs::remove_dir_all(&dist).context("cannot remove dist/")?;
    }
    fs::rename(&staging, &dist).context("cannot put the page into dist/")?;
    said("The page is built.");
    Ok(dist)
}

/// Writes the front page and the files it names.
fn lay_out(project: &Project, staging: &Path) -> Result<()> {
    let html = each_tag(&project.text("index.html")?, "<link data-trunk", |tag| link(project, staging, tag))?;
    let (before, after) = html.rsplit_once("</body>").context("index.html does not end its body")?;
    let html = format!("{before}{START}</body>{after}");
    fs::write(staging.join("index.html"), without_margins(&without_comments(&html)?, &["//"]))?;
    let glue = staging.join("web.js");
    let text = fs::read_to_string(&glue).context("the page has no glue")?;
    fs::write(glue, without_margins(&text, &["//", "/**", "* ", "*/"])).context("cannot write the glue")
}

/// What stands on the page in place of a link that says what belongs to it.
fn link(project: &Project, staging: &Path, tag: &str) -> Result<String> {
    let href = attribute(tag, "href").with_context(|| format!("{tag} names no file"))?;
    let name = href.rsplit('/').next().unwrap_or(href);
    let copied =
        || fs::copy(project.path(href), staging.join(name)).with_context(|| format!("cannot copy {href}"));
    match attribute(tag, "rel") {
        Some("rust") => Ok(PRELOADS.to_owned()),
        Some("inline") => Ok(format!("<style>{}</style>", tight(&without_comments(&project.text(href)?)?))),
        Some("copy-file") => copied().map(|_| String::new()),
        Some("icon") => {
            copied()?;
            Ok(tag.replace(" data-trunk", "").replace(href, &format!("./{name}")))
        }
        other => bail!("the page has no way to take a file as {other:?}: {tag}"),
    }
}

/// A style without the spaces that mean nothing: around braces and commas, and behind a declaration's colon.
/// A colon of a selector has none behind it, and one before it may mean a descendant.
fn tight(style: &str) -> String {
    let mut made = String::new();
    for word in style.split_whitespace() {
        let joins = |end: char| matches!(end, '{' | '}' | ';' | ',' | ':');
        let is_apart = made.ends_with(joins) || word.starts_with(['{', '}', ';', ',']);
        if !made.is_empty() && !is_apart {
            made.push(' ');
        }
        made.push_str(word);
    }
    made.replace(";}", "}")
}

/// What an attribute in double quotes holds.
fn attribute<'a>(tag: &'a str, name: &str) -> Option<&'a str> {
    tag.split_once(&format!(" {name}=\""))?.1.split('"').next()
}

/// A front page without what is said to its authors, in markup and in styles.
fn without_comments(html: &str) -> Result<String> {
    let mut text = html.to_owned();
    for (begins, ends) in [("<!--", "-->"), ("/*", "*/")] {
        let mut made = String::new();
        let mut rest = text.as_str();
        while let Some((before, comment)) = rest.split_once(begins) {
            made += before;
            (_, rest) = comment.split_once(ends).with_context(|| format!("a {begins} has no end"))?;
        }
        text = made + rest;
    }
    Ok(text)
}

/// A text without indentation, empty lines and lines that begin as a comment of its kind does:
/// what is a comment of a script's can be a rule of a style's.
fn without_margins(text: &str, comments: &[&str]) -> String {
    let lines = text.lines().map(str::trim);
    let lines: Vec<_> = lines
        .filter(|line| !line.is_empty() && !comments.iter().any(|begins| line.starts_with(begins)))
        .collect();
    lines.join("\n") + "\n"
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::env;

    #[test]
    fn comments_and_margins_are_left_out_and_nothing_else() {
        let html = "<p>a</p>\n  <!-- to\n authors -->\n<style>\n/* of\n colours */\n  p { margin: 0; }\n  * { padding: 0; }\n</style>\n";
        let plain = without_margins(&without_comments(html).unwrap(), &["//"]);
        assert_eq!(plain, "<p>a</p>\n<style>\np { margin: 0; }\n* { padding: 0; }\n</style>\n");
        assert!(without_comments("<!-- a").is_err());
        let glue =
            "/**\n * @param {number} a\n */\nfunction f(a) {\n    // why\n    return a * 2; // here\n}\n";
        assert_eq!(
            without_margins(glue, &["//", "/**", "* ", "*/"]),
            "function f(a) {\nreturn a * 2; // here\n}\n"
        );
    }

    #[test]
    fn a_style_means_the_same_without_its_spaces() {
        let style = "a b,\n  .c > d { margin: 0 1px; }\n@media (min-width: 3em) and (max-width: 9em) {\n  :root :is(a, b) { --x: calc(1px + 2px); content: \"! \"; }\n}\n";
        let wanted = "a b,.c > d{margin:0 1px}@media (min-width:3em) and (max-width:9em){:root :is(a,b){--x:calc(1px + 2px);content:\"! \"}}";
        assert_eq!(tight(style), wanted);
    }

    /// Every file that the front page names for Trunk is there, and nothing of Trunk's stays in it.
    #[test]
    fn the_front_page_of_this_checkout_is_laid_out() {
        let project = Project::here().unwrap();
        let folder = env::temp_dir().join(format!("scrubline-laid-out-{}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        fs::write(folder.join("web.js"), "  1;\n").unwrap();
        lay_out(&project, &folder).unwrap();
        let html = fs::read_to_string(folder.join("index.html")).unwrap();
        for part in ["<style>", PRELOADS, START, "href=\"./icon.svg\"", "id=\"words\""] {
            assert!(html.contains(part), "{part}");
        }
        assert!(!html.contains("trunk") && !html.contains("<!--"));
        for file in ["boot.js", "extras.js", "sw.js", "manifest.webmanifest", "icon-192.png", "icon.svg"] {
            assert!(folder.join(file).is_file(), "{file}");
        }
        fs::remove_dir_all(&folder).unwrap();
    }

    #[test]
    fn what_cannot_be_taken_is_an_error() {
        let project = Project::here().unwrap();
        let folder = env::temp_dir();
        for tag in ["<link data-trunk rel=\"sass\" href=\"a.scss\">", "<link data-trunk rel=\"icon\">"] {
            assert!(link(&project, &folder, tag).is_err(), "{tag}");
        }
    }
}
