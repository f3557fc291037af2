//! The page as one file that opens from a disk, with no server and no network.
//!
//! Browsers load no module, no WebAssembly and no service worker from `file:`, so everything stands
//! in the page itself: the code as base64 in a block that is not a script, its glue and what starts
//! it as one module, `extras.js` as another. The security policy names the two modules by hash and
//! lets nothing else in or out.
//! Who has only the normal page downloads nothing of it: the service worker does not list it.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, bail, ensure};
use base64::Engine;
use base64::engine::general_purpose::STANDARD as BASE64;

use crate::notices;
use crate::policy::{POLICY, policy};
use crate::project::Project;

/// The name of the file, beside `index.html`.
pub(crate) const NAME: &str = "scrubline.html";

/// What starts it; no file of the normal page.
const START: &str = "web/assets/single.js";

/// What unpacks the code, and where the scripts that need it say so.
pub(crate) const UNPACK: (&str, &str) = ("web/assets/unpack.js", "/* UNPACK */");

/// What a `<link>` of the front page is for that has no place on a disk.
const LEFT_OUT: &[&str] = &["manifest", "apple-touch-icon", "modulepreload", "preload"];

/// Puts the files of the finished page in `folder` together into one.
pub(crate) fn write(project: &Project, folder: &Path, notices: &str) -> Result<()> {
    let (unpack, place) = UNPACK;
    let mut start = project.text(START)?;
    if file(folder, "web_bg-*.packed").is_ok() {
        ensure!(start.contains(place), "{START} does not say where what unpacks the code stands");
        start = start.replace(place, &project.text(unpack)?);
    }
    let parts = Parts {
        front: text(&file(folder, "index.html")?)?,
        icon: bytes(&file(folder, "icon-*.svg")?)?,
        code: bytes(&module(folder, "web_bg")?)?,
        later: module(folder, "later").ok().map(|later| bytes(&later)).transpose()?,
        glue: text(&file(folder, "web-*.js")?)?,
        start,
        extras: text(&file(folder, "extras-*.js")?)?,
        notices: notices.to_owned(),
    };
    fs::write(folder.join(NAME), parts.together()?).with_context(|| format!("cannot write {NAME}"))
}

/// What the one file is made of.
#[derive(Debug)]
struct Parts {
    front: String,
    icon: Vec<u8>,
    code: Vec<u8>,
    /// The second module, where the page is built with one.
    later: Option<Vec<u8>>,
    glue: String,
    start: String,
    extras: String,
    notices: String,
}

impl Parts {
    fn together(&self) -> Result<String> {
        let modules = [format!("{}\n{}", self.glue, self.start), self.extras.clone()];
        let mut tail = format!(
            "<script type=\"text/plain\" id=\"scrubline-code\">{}</script>",
            BASE64.encode(&self.code)
        );
        if let Some(later) = &self.later {
            // The glue looks here before it fetches.
            tail += "<script type=\"text/plain\" id=\"scrubline-later\">";
            tail += &BASE64.encode(later);
            tail += "</script>";
        }
        for module in &modules {
            fits_into_a_script(module)?;
            tail += &format!("<script type=\"module\">{module}</script>");
        }
        let html = self.without_other_files()?;
        ensure!(html.contains(POLICY), "index.html does not hold the policy of the release page");
        let html = html.replace(POLICY, &policy(&modules));
        let (before, after) = html.rsplit_once("</body>").context("index.html does not end its body")?;
        Ok(format!("{before}{tail}</body>{after}"))
    }

    /// The front page, its icon inside, with no mention of another file.
    fn without_other_files(&self) -> Result<String> {
        let icon = format!("data:image/svg+xml;base64,{}", BASE64.encode(&self.icon));
        let mut html = each_tag(&self.front, "<link", |tag| {
            let rel = rel(tag);
            if LEFT_OUT.contains(&rel) {
                return Ok(String::new());
            }
            ensure!(rel == "icon", "the page that is one file has no place for {tag}");
            Ok(format!("<link rel=\"icon\" href=\"{icon}\">"))
        })?;
        html = each_tag(&html, "<script", |tag| {
            ensure!(tag.contains("boot-"), "the page that is one file has no place for {tag}");
            Ok(String::new())
        })?;
        // The ends of the scripts just left out.
        let html = html.replace("</script>", "");
        self.with_notices(&html)
    }

    /// The licences of what is in the page, to be unfolded where the normal page links to their file.
    fn with_notices(&self, html: &str) -> Result<String> {
        let lost = || format!("index.html has no link to {}", notices::NAME);
        let named = html.find(notices::NAME).with_context(lost)?;
        let (before, link) = html.split_at(html[..named].rfind("<a").with_context(lost)?);
        let (_, link) = link.split_once('>').with_context(lost)?;
        let (words, after) = link.split_once("</a>").with_context(lost)?;
        let text = self.notices.replace('&', "&amp;").replace('<', "&lt;");
        let wraps = "white-space:pre-wrap;overflow-wrap:anywhere";
        Ok(format!(
            "{before}<details class=group><summary>{words}</summary><pre style=\"{wraps}\">{text}</pre></details>{after}"
        ))
    }
}

/// Refuses what would end a script element early, or what a browser would hash otherwise.
fn fits_into_a_script(module: &str) -> Result<()> {
    for broken in ["</script", "<script", "<!--", "\r", "\0"] {
        ensure!(!module.to_ascii_lowercase().contains(broken), "a script of the page holds {broken:?}");
    }
    Ok(())
}

/// Puts in place of every tag that begins so what `with` makes of it.
pub(crate) fn each_tag(html: &str, begins: &str, with: impl Fn(&str) -> Result<String>) -> Result<String> {
    let mut made = String::new();
    let mut rest = html;
    while let Some((before, tag)) = rest.split_once(begins) {
        let (inside, after) = tag.split_once('>').with_context(|| format!("{begins} has no end"))?;
        made += before;
        made += &with(&format!("{begins}{inside}>"))?;
        rest = after;
    }
    Ok(made + rest)
}

/// What a `<link>` is for, with or without quotes.
fn rel(tag: &str) -> &str {
    let value = tag.split_once("rel=").map_or("", |(_, value)| value).trim_start_matches(['"', '\'']);
    value.split(|c: char| !c.is_ascii_alphabetic() && c != '-').next().unwrap_or_default()
}

/// A module as it is sent, packed or as it is.
fn module(folder: &Path, name: &str) -> Result<std::path::PathBuf> {
    file(folder, &format!("{name}-*.packed")).or_else(|_| file(folder, &format!("{name}-*.wasm")))
}

/// The one file of a name in which `*` stands for the hash of its content.
fn file(folder: &Path, name: &str) -> Result<std::path::PathBuf> {
    let (stem, end) = name.split_once('*').unwrap_or((name, ""));
    let is_it = |found: &str| {
        let hash = found.strip_prefix(stem).and_then(|rest| rest.strip_suffix(end));
        hash.is_some_and(|hash| hash.chars().all(|c| c.is_ascii_hexdigit()))
    };
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.file_name().is_some_and(|found| is_it(&found.to_string_lossy())) {
            return Ok(path);
        }
    }
    bail!("the page has no {name}")
}

fn text(file: &Path) -> Result<String> {
    fs::read_to_string(file).with_context(|| format!("cannot read {}", file.display()))
}

fn bytes(file: &Path) -> Result<Vec<u8>> {
    fs::read(file).with_context(|| format!("cannot read {}", file.display()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parts() -> Parts {
        Parts {
            front: format!(
                "<!doctype html><meta content=\"{POLICY}\"><title>T</title><link href=./icon-0a.svg rel=icon>\
                 <link rel=\"manifest\" href=m><link rel=modulepreload href=./web-1b.js crossorigin>\
                 <script type=module src=./boot-2c.js></script><body><p>a</p>\
                 <a href=notices.txt target=_blank>licences</a></body></html>"
            ),
            icon: b"<svg/>".to_vec(),
            code: b"foobar".to_vec(),
            later: Some(b"fooba".to_vec()),
            glue: "const a = 1; export { a };".to_owned(),
            start: "a;".to_owned(),
            extras: "1".to_owned(),
            notices: "Copyright A <a@b.example> & B".to_owned(),
        }
    }

    /// RFC 4648, section 10: "foobar" is `Zm9vYmFy`, "fooba" is `Zm9vYmE=`.
    #[test]
    fn everything_stands_in_one_file() {
        let html = parts().together().unwrap();
        assert!(html.contains(" id=\"scrubline-code\">Zm9vYmFy</script>"));
        assert!(html.contains(" id=\"scrubline-later\">Zm9vYmE=</script>"));
        assert!(html.contains("<script type=\"module\">const a = 1; export { a };\na;</script>"));
        assert!(html.ends_with("<script type=\"module\">1</script></body></html>"));
        assert!(html.contains("<summary>licences</summary><pre "), "{html}");
        assert!(html.contains(">Copyright A &lt;a@b.example> &amp; B</pre></details>"), "{html}");
        for gone in ["src=", "notices.txt", "manifest", "preload", "boot-", "./", "'self'"] {
            assert!(!html.contains(gone), "{gone} in {html}");
        }
        assert_eq!(html.matches("<script").count(), html.matches("</script>").count());
    }

    /// CSP level 2, the example of its section on hashes: `alert('Hello, world.');`.
    #[test]
    fn the_policy_names_a_script_by_its_hash() {
        let policy = policy(&["alert('Hello, world.');".to_owned()]);
        assert!(policy.contains("script-src 'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng=' "));
        assert!(policy.starts_with("default-src 'none';"));
    }

    #[test]
    fn what_has_no_place_is_an_error() {
        let refused = |change: fn(&mut Parts)| {
            let mut parts = parts();
            change(&mut parts);
            parts.together().unwrap_err().to_string()
        };
        assert!(refused(|parts| parts.extras = "'</SCRIPT>'".to_owned()).contains("</script"));
        assert!(
            refused(|parts| parts.front = "<link rel=stylesheet href=a>".to_owned()).contains("stylesheet")
        );
        assert!(refused(|parts| parts.front = "<script src=a></script>".to_owned()).contains("src=a"));
        assert!(refused(|parts| parts.front = parts.front.replace(POLICY, "")).contains("policy"));
        assert!(
            refused(|parts| parts.front = parts.front.replace("notices.txt", "")).contains(notices::NAME)
        );
    }
}
