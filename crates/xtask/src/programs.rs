//! Programs that this project does not build: found by environment, then PATH, then the usual
//! places; on Debian as root installed, otherwise refused with the exact command to type.

use std::env;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::Result;

use crate::project::Project;
use crate::run::{Refusal, answer, run, version};

/// A program, and all that is known about where it may be.
#[derive(Debug)]
pub(crate) struct Program {
    /// What people call it.
    pub(crate) title: &'static str,
    /// The environment variable that names it.
    variable: &'static str,
    /// Its file names, best first.
    names: &'static [&'static str],
    /// Where it lies if it is not on PATH; `~` is the person's own folder.
    places: &'static [&'static str],
    /// Debian's packages that hold it.
    packages: &'static [&'static str],
    /// How to get it where Debian's packages do not help.
    elsewhere: &'static str,
}

pub(crate) const CHROMIUM: Program = Program {
    title: "Chromium or Chrome",
    variable: "CHROME",
    names: &["chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "chrome"],
    places: &[
        "/usr/bin/chromium",
        "/usr/lib/chromium/chromium",
        "/opt/google/chrome/chrome",
        "/snap/bin/chromium",
        "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
        "/Applications/Chromium.app/Contents/MacOS/Chromium",
        "~/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
        "C:/Program Files/Google/Chrome/Application/chrome.exe",
        "C:/Program Files (x86)/Google/Chrome/Application/chrome.exe",
        "~/AppData/Local/Google/Chrome/Application/chrome.exe",
        "~/AppData/Local/Chromium/Application/chrome.exe",
    ],
    packages: CHROMIUM_PACKAGES,
    elsewhere: "install Chromium or Chrome, or set CHROME to its path",
};

pub(crate) const CHROMEDRIVER: Program = Program {
    title: "ChromeDriver",
    variable: "CHROMEDRIVER",
    names: &["chromedriver"],
    places: &[
        "/usr/bin/chromedriver",
        "/usr/lib/chromium/chromedriver",
        "/usr/lib/chromium-browser/chromedriver",
        "/snap/bin/chromium.chromedriver",
        "/usr/local/bin/chromedriver",
        "/opt/homebrew/bin/chromedriver",
        "C:/Program Files/chromedriver/chromedriver.exe",
        "C:/chromedriver/chromedriver.exe",
        "~/chromedriver/chromedriver.exe",
    ],
    packages: CHROMIUM_PACKAGES,
    elsewhere: "install the ChromeDriver of the same version as the browser, or set CHROMEDRIVER to its path",
};

pub(crate) const FIREFOX: Program = Program {
    title: "Firefox",
    variable: "FIREFOX",
    names: &["firefox-esr", "firefox"],
    places: &[
        "/usr/bin/firefox-esr",
        "/usr/lib/firefox-esr/firefox-esr",
        "/snap/bin/firefox",
        "/Applications/Firefox.app/Contents/MacOS/firefox",
        "~/Applications/Firefox.app/Contents/MacOS/firefox",
        "C:/Program Files/Mozilla Firefox/firefox.exe",
        "C:/Program Files (x86)/Mozilla Firefox/firefox.exe",
    ],
    packages: &["firefox-esr"],
    elsewhere: "install Firefox, or set FIREFOX to its path",
};

pub(crate) const NODE: Program = Program {
    title: "Node",
    variable: "NODE",
    names: &["node", "nodejs"],
    places: &[
        "/usr/bin/node",
        "/usr/local/bin/node",
        "/opt/homebrew/bin/node",
        "C:/Program Files/nodejs/node.exe",
    ],
    packages: &[],
    elsewhere: "install Node 20.11 or newer with its npm and put both on PATH",
};

pub(crate) const PYTHON: Program = Program {
    title: "Python 3",
    variable: "PYTHON",
    names: &["python3", "python"],
    places: &["/usr/bin/python3", "/usr/local/bin/python3", "/opt/homebrew/bin/python3"],
    packages: &["python3", "python3-venv"],
    elsewhere: "install Python 3.11 or newer, or set PYTHON to its path",
};

const CHROMIUM_PACKAGES: &[&str] = &["chromium", "chromium-driver"];

impl Program {
    /// Where it is on this machine, if it is.
    ///
    /// A path in the environment that leads nowhere is an error: whoever set it meant something.
    pub(crate) fn find(&self, project: &Project) -> Result<Option<PathBuf>> {
        if let Some(named) = env::var_os(self.variable).filter(|path| !path.is_empty()) {
            let path = which::which(&named).map_err(|_| Refusal::Missing {
                what: format!("{} names {}, which cannot be run", self.variable, named.display()),
                how: format!("set {} to the path of {}", self.variable, self.title),
            })?;
            return Ok(Some(path));
        }
        let on_path = self.names.iter().find_map(|name| project.find(name));
        Ok(on_path.or_else(|| {
            let places = self.places.iter().filter_map(|place| from_home(place));
            places.into_iter().find(|place| place.is_file())
        }))
    }

    /// As [`Program::find`]; what is missing is installed where that is ours to do.
    pub(crate) fn need(&self, project: &Project) -> Result<PathBuf> {
        if let Some(path) = self.find(project)? {
            return Ok(path);
        }
        if !self.packages.is_empty() && may_install() {
            install(project, self.packages)?;
            if let Some(path) = self.find(project)? {
                return Ok(path);
            }
        }
        Err(self.missing().into())
    }

    /// Says that it is missing, and what to do.
    pub(crate) fn missing(&self) -> Refusal {
        Refusal::Missing { what: format!("{} is missing", self.title), how: self.how() }
    }

    /// What to type or do to get it.
    pub(crate) fn how(&self) -> String {
        if self.packages.is_empty() || !is_debian() {
            return self.elsewhere.to_owned();
        }
        let sudo = if is_root() { "" } else { "sudo " };
        format!(
            "{sudo}apt-get update && {sudo}apt-get install -y --no-install-recommends {}",
            self.packages.join(" ")
        )
    }
}

/// Installs Debian's packages. Only where [`may_install`] says so.
pub(crate) fn install(project: &Project, packages: &[&str]) -> Result<()> {
    let apt = || {
        let mut command = project.command("apt-get");
        command.env("DEBIAN_FRONTEND", "noninteractive");
        command
    };
    run(apt().arg("update"))?;
    run(apt().args(["install", "-y", "--no-install-recommends"]).args(packages))
}

/// Whether this is a Debian on which we are root.
pub(crate) fn may_install() -> bool {
    is_debian() && is_root()
}

/// Whether we are root, for whom Chromium starts only without its sandbox.
pub(crate) fn is_root() -> bool {
    cfg!(unix) && answer(Command::new("id").arg("-u")).as_deref() == Some("0")
}

/// The switches Chromium needs here: started by a test, quiet towards the network.
pub(crate) fn chromium_switches() -> Vec<&'static str> {
    let mut switches = vec![
        "--disable-gpu",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        "--disable-dev-shm-usage",
    ];
    if is_root() {
        switches.push("--no-sandbox");
    }
    switches
}

/// Says so when browser and driver are not of one version; they must be of the same major one.
pub(crate) fn driver_mismatch(browser: &Path, driver: &Path) -> Option<String> {
    let browser = major(&version(browser)?)?;
    let driver = major(&version(driver)?)?;
    (browser != driver)
        .then(|| format!("the browser is of version {browser}, its driver of version {driver}"))
}

/// The first number of the first word that starts with a digit.
fn major(version: &str) -> Option<u32> {
    let word = version.split_whitespace().find(|word| word.starts_with(|c: char| c.is_ascii_digit()))?;
    word.split('.').next()?.parse().ok()
}

fn from_home(place: &str) -> Option<PathBuf> {
    match place.strip_prefix("~/") {
        Some(rest) => Some(env::home_dir()?.join(rest)),
        None => Some(PathBuf::from(place)),
    }
}

fn is_debian() -> bool {
    Path::new("/etc/debian_version").is_file() && which::which("apt-get").is_ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_major_version_is_found_among_other_words() {
        assert_eq!(major("Chromium 156.0.8078.73 built on Debian"), Some(156));
        assert_eq!(major("ChromeDriver 98.0.1 (abc1234-refs)"), Some(98));
        assert_eq!(major("no number"), None);
    }
}
