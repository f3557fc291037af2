//! The last touches on the page, after [`crate::build`] or Trunk has put the files together.
//!
//! A release gets: smaller WebAssembly, a security policy without inline scripts, and files named
//! by a hash of their content, so that a name never stands for two contents; and once more the whole
//! page as one file, see [`crate::single`].
//! Every build gets the address to share, if one was given.

use std::env;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::thread;

use anyhow::{Context, Result, bail, ensure};
use base64::Engine;
use base64::engine::general_purpose::STANDARD as BASE64;
use sha2::{Digest, Sha256};

use crate::notices;
use crate::policy::POLICY;
use crate::project::Project;
use crate::run::run;
use crate::single::{self, UNPACK};
use crate::tools;

/// The first module, and what is fetched later; Trunk's page has none of the latter.
const FIRST: &str = "web_bg.wasm";
pub(crate) const LATER: &str = "later.wasm";
/// The two as they are sent; Trunk's page sends its own as it is.
const SENT: [(&str, &str); 2] = [(FIRST, "web_bg.packed"), (LATER, "later.packed")];
/// The files that name them.
const NAMING: [&str; 3] = ["web.js", "boot.js", "index.html"];

/// Where the glue is told the digest of the second module, as it is written and as it is made smaller: bytes
/// that are another's are refused.
const INTEGRITY: [&str; 2] = ["integrity: \"\"", "integrity:\"\""];

/// The scripts that are made smaller before they are named; the worker is, once it knows the names.
const SCRIPTS: &[&str] = &["web.js", "boot.js", "extras.js"];

/// What the page as one file calls by its name in the glue.
const CALLED: &str = "__wbg_init";

/// The files named by content, each after those it mentions, with the files that mention it.
///
/// A new file of the page gets a line here, or one in [`KEPT`].
const HASHED: &[(&str, &[&str])] = &[
    (LATER, &["web.js"]),
    (SENT[1].1, &["web.js"]),
    (FIRST, &NAMING),
    (SENT[0].1, &NAMING),
    ("web.js", &["boot.js", "index.html"]),
    ("extras.js", &["boot.js"]),
    ("boot.js", &["index.html"]),
    ("icon.svg", &["manifest.webmanifest", "index.html"]),
    ("icon-192.png", &["manifest.webmanifest", "index.html"]),
    ("manifest.webmanifest", &["index.html"]),
];

/// The files whose name others rely on.
const KEPT: &[&str] = &["index.html", WORKER];

/// The service worker: it is told what the other files are.
const WORKER: &str = "sw.js";
/// Where it is told the files.
const FILES: &str = "/* FILES */";
/// Where it is told the name of this version.
const VERSION: &str = "/* VERSION */";

/// Finishes the files that Trunk has staged: its page is in one module.
pub(crate) fn command(project: &Project) -> Result<()> {
    let staging = env::var_os("TRUNK_STAGING_DIR")
        .map(PathBuf::from)
        .context("`post-build` is called by Trunk, which says where its files are")?;
    if env::var("TRUNK_PROFILE").as_deref() == Ok("release") {
        return finish(project, &staging, None, None);
    }
    Ok(())
}

/// Finishes a release page whose files lie in `staging`; `page` is the address to share, `pack` the
/// program that arranges its code.
pub(crate) fn finish(
    project: &Project,
    staging: &Path,
    page: Option<&str>,
    pack: Option<&Path>,
) -> Result<()> {
    let html_file = staging.join("index.html");
    let mut html = read(&html_file)?;
    if let Some(address) = page {
        html = with_meta(&html, &format!(r#"name="scrubline-page" content="{}""#, escape(address)))?;
    }
    html = with_meta(&html, &format!(r#"http-equiv="Content-Security-Policy" content="{POLICY}""#))?;
    no_inline_script(&html)?;
    fs::write(&html_file, html)?;
    let wasm = staging.join(FIRST);
    warn_of_costly(&fs::read(&wasm).context("the page has no WebAssembly")?);
    match tools::wasm_opt(project)? {
        None => println!(
            "wasm-opt skipped: it needs Node and `npm ci`; the page works and is half as large again to download"
        ),
        Some(_) => {
            for module in [wasm, staging.join(LATER)].iter().filter(|module| module.is_file()) {
                optimise(module, tools::wasm_opt(project)?)?;
                if let Some(pack) = pack {
                    // Last, since the optimiser has an order of its own: four kilobytes of the download.
                    run(project.command(pack).arg("--arrange").arg(module))?;
                }
            }
        }
    }
    if let Some(pack) = pack {
        send(project, staging, pack)?;
    }
    for script in SCRIPTS {
        minify(project, &staging.join(script), &["--module"])?;
    }
    name_by_content(staging)?;
    name_version(&html_file)?;
    list_for_worker(staging)?;
    // A script of its own kind, whose names are those of its scope.
    minify(project, &staging.join(WORKER), &[])?;
    // After the worker's list: neither is part of a visit, and offline the page does without.
    let notices = notices::text(project)?;
    single::write(project, staging, &notices)?;
    fs::write(staging.join(notices::NAME), notices).with_context(|| format!("cannot write {}", notices::NAME))
}

/// Puts what is sent in place of the modules, and what unpacks it into the scripts.
fn send(project: &Project, staging: &Path, pack: &Path) -> Result<()> {
    // Side by side: each takes a processor for some seconds.
    thread::scope(|scope| {
        let pack = |(module, sent): (&str, &str)| {
            run(project.command(pack).arg("--send").arg(staging.join(module)).arg(staging.join(sent)))
        };
        let sent = SENT.map(|of| scope.spawn(move || pack(of)));
        sent.into_iter().try_for_each(|sent| sent.join().expect("packing does not panic"))
    })?;
    for (module, sent) in SENT {
        let wasm = staging.join(module);
        fs::remove_file(&wasm).with_context(|| format!("cannot remove {module}"))?;
        for file in NAMING {
            let file = staging.join(file);
            fs::write(&file, read(&file)?.replace(module, sent))?;
        }
    }
    mention(&staging.join("boot.js"), UNPACK.1, &project.text(UNPACK.0)?)
}

/// Puts a `<meta>` element before the title, so before anything that is loaded.
fn with_meta(html: &str, attributes: &str) -> Result<String> {
    let (before, after) = html.split_once("<title").context("index.html has no title")?;
    Ok(format!("{before}<meta {attributes}><title{after}"))
}

/// Text inside double quotes of an attribute.
fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('"', "&quot;").replace('<', "&lt;")
}

/// The policy forbids them, so the page would not start.
fn no_inline_script(html: &str) -> Result<()> {
    for script in html.split("<script").skip(1) {
        let tag = script.split('>').next().unwrap_or(script);
        ensure!(tag.contains("src="), "index.html has an inline script: <script{tag}>");
    }
    Ok(())
}

/// Parts of the standard library that cost the download dearly and have a cheap counterpart here:
/// what the compiler calls them, and how they get in unseen.
const COSTLY: &[(&str, &str)] = &[
    (
        "flt2dec",
        "prints an f64 by the standard library, about 10 kB: `{}` or `{:?}` of one or of what holds \
         one; where panics keep their words also `expect` on an error that holds one, and \
         `f64::clamp`",
    ),
    ("dec2flt", "reads an f64 by the standard library, about 15 kB: `parse::<f64>()`"),
];

/// Names what is in [`COSTLY`] while the functions still carry their names.
fn warn_of_costly(wasm: &[u8]) {
    for (name, reason) in COSTLY {
        if holds(wasm, name) {
            println!("Warning: the page {reason}");
        }
    }
}

fn holds(bytes: &[u8], text: &str) -> bool {
    bytes.windows(text.len()).any(|window| window == text.as_bytes())
}

/// Makes WebAssembly smaller, or says that it is left as it is.
pub(crate) fn optimise(wasm: &Path, wasm_opt: Option<Command>) -> Result<()> {
    let Some(mut wasm_opt) = wasm_opt else {
        println!(
            "wasm-opt skipped: it needs Node and `npm ci`; the page works and is half as large again to download"
        );
        return Ok(());
    };
    let smaller = wasm.with_extension("smaller");
    // What one round leaves opens room for another: half a kilobyte of the download. A third finds next to nothing.
    // What no frame of a drag waits for is taken apart first and laid out anew, six tenths of a kilobyte less, and a
    // fourth round finds it another seventh of one.
    // Nothing lies in the first kilobyte: the stack, which comes first, ends there when it overflows.
    // Who made it of what is for tools, and stays out of the download.
    let is_later = wasm.file_name().is_some_and(|name| name == LATER);
    let anew: &[&str] = if is_later { &["--flatten", "--rereloop", "-Oz", "-Oz"] } else { &[] };
    wasm_opt.arg("--low-memory-unused").args(anew).args(["-Oz", "-Oz"]);
    wasm_opt.args(["--strip-producers", "--strip-target-features"]);
    run(wasm_opt.arg(wasm).arg("-o").arg(&smaller))?;
    fs::rename(&smaller, wasm).context("cannot put the optimised WebAssembly in place")
}

/// Makes a script smaller where Node is here, else leaves it as it is. Browsers that run the page's
/// WebAssembly know the words of 2022.
fn minify(project: &Project, script: &Path, kind: &[&str]) -> Result<()> {
    let Some(mut terser) = tools::terser(project)? else { return Ok(()) };
    terser.arg(script).args(kind).args([
        "--ecma",
        "2022",
        "--compress",
        "passes=4,unsafe_methods=true",
        "--mangle",
    ]);
    run(terser.arg(format!("reserved=['{CALLED}']")).arg("--output").arg(script))
}

/// Gives every file of [`HASHED`] its final name, in the file system and wherever it is mentioned.
fn name_by_content(folder: &Path) -> Result<()> {
    for entry in fs::read_dir(folder)? {
        let name = entry?.file_name();
        let known = HASHED.iter().map(|(name, _)| name).chain(KEPT);
        if !known.into_iter().any(|known| name == *known) {
            bail!(
                "the page has a file {} that post_build.rs lists neither in HASHED nor in KEPT",
                name.display()
            );
        }
    }
    let mut final_names: Vec<(&str, String)> = Vec::new();
    let (module, sent) = SENT[0];
    ensure!([module, sent].iter().any(|first| folder.join(first).is_file()), "the page has no code");
    for (name, mentioned_in) in HASHED {
        let is_module = SENT.iter().any(|(module, sent)| [module, sent].contains(&name));
        if is_module && !folder.join(name).is_file() {
            continue;
        }
        if [LATER, SENT[1].1].contains(name) {
            name_digest(folder, name)?;
        }
        let content = fs::read(folder.join(name)).with_context(|| format!("the page has no {name}"))?;
        let final_name = hashed_name(name, &content);
        for other in *mentioned_in {
            mention(&folder.join(other), name, &final_name)?;
        }
        final_names.push((name, final_name));
    }
    for (name, final_name) in final_names {
        fs::rename(folder.join(name), folder.join(final_name))?;
    }
    Ok(())
}

/// Tells the glue what the second module has to be, as Subresource Integrity writes it.
fn name_digest(folder: &Path, second: &str) -> Result<()> {
    let digest = BASE64.encode(Sha256::digest(fs::read(folder.join(second))?));
    let glue = folder.join("web.js");
    let text = read(&glue)?;
    let empty = INTEGRITY.into_iter().find(|empty| text.contains(empty)).unwrap_or(INTEGRITY[0]);
    mention(&glue, empty, &format!("integrity:\"sha256-{digest}\""))
}

/// Names the version in the front page, which mentions every other file by its content.
fn name_version(html_file: &Path) -> Result<()> {
    let html = read(html_file)?;
    let version = digits(html.as_bytes());
    let html = with_meta(&html, &format!(r#"name="scrubline-version" content="{version}""#))?;
    fs::write(html_file, html).context("cannot write index.html")
}

/// Tells the service worker every other file with its hash, and names the version by them and by
/// the worker itself.
fn list_for_worker(folder: &Path) -> Result<()> {
    let mut lines = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        if name != WORKER {
            lines.push(format!("[\"{name}\",\"{}\"]", digits(&fs::read(&path)?)));
        }
    }
    lines.sort();
    let worker = folder.join(WORKER);
    mention(&worker, FILES, &format!("[{}]", lines.join(",")))?;
    let version = digits(&fs::read(&worker)?);
    mention(&worker, VERSION, &version)
}

/// `name.end` becomes `name-0123456789abcdef.end`.
fn hashed_name(name: &str, content: &[u8]) -> String {
    let hash = digits(content);
    match name.rsplit_once('.') {
        Some((stem, end)) => format!("{stem}-{hash}.{end}"),
        None => format!("{name}-{hash}"),
    }
}

/// The first sixteen hexadecimal digits of the SHA-256.
fn digits(content: &[u8]) -> String {
    Sha256::digest(content)[..8].iter().map(|byte| format!("{byte:02x}")).collect()
}

fn mention(file: &Path, name: &str, final_name: &str) -> Result<()> {
    let text = read(file)?;
    ensure!(text.contains(name), "{} does not mention {name}", file.display());
    fs::write(file, text.replace(name, final_name))?;
    Ok(())
}

fn read(file: &Path) -> Result<String> {
    fs::read_to_string(file).with_context(|| format!("cannot read {}", file.display()))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// FIPS 180-4, example "abc".
    #[test]
    fn a_name_holds_the_first_sixteen_digits_of_sha_256() {
        assert_eq!(hashed_name("web.js", b"abc"), "web-ba7816bf8f01cfea.js");
    }

    #[test]
    fn metas_come_before_the_title_and_are_escaped() {
        let html = with_meta("<head><title>T</title>", &format!("x=\"{}\"", escape("a\"&<b")));
        assert_eq!(html.unwrap(), "<head><meta x=\"a&quot;&amp;&lt;b\"><title>T</title>");
        assert!(with_meta("<head></head>", "x").is_err());
    }

    #[test]
    fn an_inline_script_is_found() {
        assert!(no_inline_script("<script type=module src=./boot.js></script>").is_ok());
        assert!(no_inline_script("<script src=a></script><script>go()</script>").is_err());
    }

    /// A page of eight files in a folder of its own, which is removed again.
    fn page(name: &str, change: impl FnOnce(&Path)) -> (Result<()>, Vec<(String, String)>) {
        let folder = env::temp_dir().join(format!("scrubline-{name}-{}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        for (file, text) in [
            ("index.html", "web_bg.wasm web.js boot.js icon.svg icon-192.png manifest.webmanifest"),
            ("manifest.webmanifest", "icon.svg icon-192.png"),
            ("sw.js", "new Map(/* FILES */) \"/* VERSION */\""),
            ("icon-192.png", "small"),
            ("boot.js", "./web_bg.wasm ./web.js ./extras.js"),
            ("extras.js", "more"),
            ("web.js", "web_bg.wasm later.wasm integrity: \"\""),
            ("later.wasm", "abc"),
            ("web_bg.wasm", "bytes"),
            ("icon.svg", "picture"),
        ] {
            fs::write(folder.join(file), text).unwrap();
        }
        change(&folder);
        let result = name_by_content(&folder).and_then(|()| list_for_worker(&folder));
        let mut files: Vec<_> = fs::read_dir(&folder)
            .unwrap()
            .map(|entry| {
                let path = entry.unwrap().path();
                let name = path.file_name().unwrap().to_string_lossy().into_owned();
                (name, fs::read_to_string(path).unwrap())
            })
            .collect();
        files.sort();
        fs::remove_dir_all(&folder).unwrap();
        (result, files)
    }

    #[test]
    fn names_follow_the_content_and_are_mentioned_as_they_are() {
        let (result, files) = page("names", |_| ());
        result.unwrap();
        let (_, html) = files.iter().find(|(name, _)| name == "index.html").unwrap();
        for (name, content) in &files {
            if KEPT.contains(&name.as_str()) {
                continue;
            }
            let boot =
                files.iter().find(|(name, _)| name.starts_with("boot-")).map(|(_, text)| text).unwrap();
            let glue = files.iter().find(|(name, _)| name.starts_with("web-")).map(|(_, text)| text).unwrap();
            let mentioned = [html, boot, glue].iter().any(|text| text.contains(name.as_str()));
            assert!(mentioned, "{name} in {html}");
            let (stem, rest) = name.rsplit_once('-').unwrap();
            let plain = format!("{stem}{}", &rest[16..]);
            assert_eq!(*name, hashed_name(&plain, content.as_bytes()));
        }
    }

    /// FIPS 180-4, example "abc", in base64 as Subresource Integrity has it.
    #[test]
    fn the_glue_takes_a_second_module_of_its_own_version_alone() {
        let (result, files) = page("digest", |_| ());
        result.unwrap();
        let glue = files.iter().find(|(name, _)| name.starts_with("web-")).map(|(_, text)| text).unwrap();
        assert!(glue.contains("later-ba7816bf8f01cfea.wasm"), "{glue}");
        assert!(glue.contains("integrity:\"sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=\""), "{glue}");
        let (result, files) = page("one-module", |folder| {
            fs::remove_file(folder.join(LATER)).unwrap();
            fs::write(folder.join("web.js"), "web_bg.wasm").unwrap();
        });
        result.unwrap();
        assert!(!files.iter().any(|(name, _)| name.starts_with("later")));
    }

    /// What is sent packed has its digest and its name by what is sent.
    #[test]
    fn what_is_packed_is_named_by_what_is_sent() {
        let (result, files) = page("packed", |folder| {
            for (module, sent) in SENT {
                fs::rename(folder.join(module), folder.join(sent)).unwrap();
                for file in NAMING.map(|file| folder.join(file)) {
                    fs::write(&file, read(&file).unwrap().replace(module, sent)).unwrap();
                }
            }
        });
        result.unwrap();
        let glue = files.iter().find(|(name, _)| name.starts_with("web-")).map(|(_, text)| text).unwrap();
        assert!(glue.contains("later-ba7816bf8f01cfea.packed"), "{glue}");
        assert!(glue.contains("integrity:\"sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=\""), "{glue}");
        let (_, worker) = files.iter().find(|(name, _)| name == WORKER).unwrap();
        assert!(worker.contains("\"web_bg-") && worker.contains(".packed\"") && !worker.contains(".wasm"));
        let (result, _) = page("no-code", |folder| fs::remove_file(folder.join(FIRST)).unwrap());
        assert!(result.is_err());
    }

    #[test]
    fn a_script_made_smaller_keeps_what_others_name() {
        let project = Project::here().unwrap();
        let file = env::temp_dir().join(format!("scrubline-minified-{}.js", std::process::id()));
        let script = "// why\nconst FILES = new Map([[\"a\", \"b\"]]);\nfunction initSync(module) { return module; }\n\
            async function __wbg_init() { return fetch(\"later.wasm\", { integrity: \"\" }), FILES.get(\"/* VERSION */\"); }\n\
            export { initSync, __wbg_init as default };\n";
        fs::write(&file, script).unwrap();
        minify(&project, &file, &["--module"]).unwrap();
        let smaller = fs::read_to_string(&file).unwrap();
        fs::remove_file(&file).unwrap();
        for part in ["later.wasm", VERSION, CALLED, "initSync", "default"] {
            assert!(smaller.contains(part), "{part} in {smaller}");
        }
        assert_eq!(INTEGRITY.iter().filter(|empty| smaller.contains(*empty)).count(), 1, "{smaller}");
        // A machine without Node leaves it as it is.
        assert!(smaller == script || smaller.len() < script.len() && !smaller.contains("why"), "{smaller}");
    }

    #[test]
    fn a_change_deep_down_changes_every_name_above_it() {
        let (_, before) = page("before", |_| ());
        let (_, after) = page("after", |folder| {
            fs::write(folder.join("web_bg.wasm"), "other bytes").unwrap();
        });
        let (_, later) = page("later", |folder| {
            fs::write(folder.join(LATER), "other bytes").unwrap();
        });
        for (stem, after) in [("web_bg-", &after), ("web-", &after), ("boot-", &after), ("web-", &later)] {
            let name = |files: &[(String, String)]| {
                let (name, _) = files.iter().find(|(name, _)| name.starts_with(stem)).unwrap();
                name.clone()
            };
            assert_ne!(name(&before), name(after), "{stem}");
        }
    }

    #[test]
    fn the_worker_knows_every_other_file_by_its_hash() {
        let worker = |files: &[(String, String)]| {
            files.iter().find(|(name, _)| name == WORKER).map(|(_, text)| text.clone()).unwrap()
        };
        let (_, files) = page("worker", |_| ());
        let text = worker(&files);
        for (name, content) in files.iter().filter(|(name, _)| name != WORKER) {
            assert!(
                text.contains(&format!("[\"{name}\",\"{}\"]", digits(content.as_bytes()))),
                "{name}: {text}"
            );
        }
        let version = |text: &str| text.rsplit('"').nth(1).unwrap().to_owned();
        assert_eq!(version(&text).len(), 16);
        let (_, other) = page("other-worker", |folder| fs::write(folder.join("icon.svg"), "new").unwrap());
        assert_ne!(version(&worker(&other)), version(&text));
    }

    #[test]
    fn an_unknown_file_and_a_missing_mention_are_errors() {
        let (result, _) = page("unknown", |folder| fs::write(folder.join("a.png"), "").unwrap());
        assert!(result.unwrap_err().to_string().contains("a.png"));
        let (result, _) = page("mention", |folder| fs::write(folder.join("boot.js"), "").unwrap());
        assert!(result.unwrap_err().to_string().contains("boot.js"));
    }
}
