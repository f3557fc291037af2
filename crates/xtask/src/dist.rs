//! `cargo xtask dist`: the page as files that any web server can hand out.

use std::path::PathBuf;

use anyhow::{Result, ensure};

use crate::build::{self, Made};
use crate::project::Project;
use crate::run::{Refusal, run};
use crate::single;
use crate::size;
use crate::tools;

/// Builds the page and says what to do with it.
pub(crate) fn command(project: &Project, page: Option<&str>) -> Result<()> {
    tools::for_page(project)?;
    let dist = build(project, page, Made::Small)?;
    println!("{}", size::check(project, &dist)?);
    println!("The page is in {}: put these files under any address.", dist.display());
    println!("{} in it is the whole page as one file: it opens from a disk.", single::NAME);
    Ok(())
}

/// Builds the release page into `dist/`; the tools must be there.
pub(crate) fn build(project: &Project, page: Option<&str>, made: Made) -> Result<PathBuf> {
    build::release(project, page, made)
}

/// Fetches the libraries, since Trunk builds without a network.
pub(crate) fn fetch(project: &Project) -> Result<()> {
    run(project.cargo().args(["fetch", "--locked"]))
}

/// An address to put a link's fragment behind: absolute, without one of its own, ending in `/`
/// unless it names a file, so that `#` never follows a bare host.
pub(crate) fn page_address(text: &str) -> Result<String> {
    let rest = ["https://", "http://"].iter().find_map(|scheme| text.strip_prefix(scheme));
    let usable = rest.is_some_and(|rest| !rest.is_empty() && !rest.starts_with('/'))
        && !text.contains(|c: char| c == '#' || c == '?' || c.is_whitespace() || c.is_control());
    ensure!(
        usable,
        Refusal::Usage(format!(
            "`--page` takes an address like https://example.org/scrubline/, not `{text}`"
        ))
    );
    let names_a_file =
        rest.and_then(|rest| rest.split_once('/')).is_some_and(|(_, path)| path.ends_with(".html"));
    Ok(if text.ends_with('/') || names_a_file { text.to_owned() } else { format!("{text}/") })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_address_ends_where_a_fragment_can_follow() {
        for (typed, kept) in [
            ("https://example.org", "https://example.org/"),
            ("https://example.org/a/b", "https://example.org/a/b/"),
            ("http://example.org/a/", "http://example.org/a/"),
            ("https://example.org/a.html", "https://example.org/a.html"),
        ] {
            assert_eq!(page_address(typed).unwrap(), kept);
        }
    }

    #[test]
    fn what_is_no_address_is_refused() {
        for typed in [
            "",
            "example.org",
            "https://",
            "https:///a",
            "https://example.org/#x",
            "https://example.org/?x",
            "https://example.org/a b",
            "ftp://example.org/",
        ] {
            assert!(page_address(typed).is_err(), "{typed}");
        }
    }
}
