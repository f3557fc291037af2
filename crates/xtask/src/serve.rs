//! `cargo xtask serve`, and the small web server that it and the browser tests use.
//!
//! It hands out the files of one folder to this machine only, as a plain static host would.

use std::fs;
use std::net::{Ipv4Addr, TcpListener};
use std::path::{Component, Path, PathBuf};
use std::time::Duration;

use anyhow::{Result, anyhow};
use oxhttp::model::{Body, Method, Request, Response};
use oxhttp::{ListeningServer, Server};
use sha2::{Digest, Sha256};

use crate::build::Made;
use crate::dist;
use crate::project::Project;
use crate::run::run;
use crate::tools;

/// How long a connection may keep a thread waiting for its next bytes.
const PATIENCE: Duration = Duration::from_secs(30);

/// How to serve.
#[derive(Debug, PartialEq)]
pub(crate) struct Options {
    /// The port on 127.0.0.1.
    pub(crate) port: u16,
    /// Show the page in the person's browser.
    pub(crate) open: bool,
    /// Serve a debug build and make it anew at every change.
    pub(crate) watch: bool,
}

impl Default for Options {
    fn default() -> Self {
        Self { port: 8080, open: false, watch: false }
    }
}

/// Builds the page and serves it until interrupted.
pub(crate) fn command(project: &Project, options: &Options) -> Result<()> {
    if options.watch {
        tools::wasm_target(project)?;
        tools::trunk(project)?;
        dist::fetch(project)?;
        let mut trunk = project.command("trunk");
        trunk.args(["serve", "--port", &options.port.to_string()]);
        if options.open {
            trunk.arg("--open");
        }
        return run(&mut trunk);
    }
    tools::for_page(project)?;
    let folder = dist::build(project, None, Made::Soon)?;
    let site = Site::start(folder, "/", options.port)?;
    println!("\nScrubline is at {}  (Ctrl+C stops it)", site.url);
    if options.open {
        open(project, &site.url);
    }
    site.wait()
}

/// A folder being served.
pub(crate) struct Site {
    /// The address of its front page, ending in `/`.
    pub(crate) url: String,
    server: ListeningServer,
}

impl Site {
    /// Serves `folder` under `prefix`, which begins and ends with `/`, on a port of 127.0.0.1;
    /// port 0 is any free one.
    ///
    /// Every connection has a thread of its own: a browser opens several at once and keeps them, and none may
    /// wait for another to end.
    pub(crate) fn start(folder: PathBuf, prefix: &str, port: u16) -> Result<Self> {
        Self::start_with(folder, prefix, port, PATIENCE)
    }

    fn start_with(folder: PathBuf, prefix: &str, port: u16, patience: Duration) -> Result<Self> {
        let refused = |error| anyhow!("port {port} cannot be used ({error}); `--port` names another");
        let port = if port == 0 { free_port()? } else { port };
        let url = format!("http://127.0.0.1:{port}{prefix}");
        let prefix = prefix.to_owned();
        let server = Server::new(move |request| respond(request, port, &folder, &prefix))
            .bind((Ipv4Addr::LOCALHOST, port))
            .with_global_timeout(patience)
            .spawn()
            .map_err(refused)?;
        Ok(Self { url, server })
    }

    fn wait(self) -> Result<()> {
        Ok(self.server.join()?)
    }
}

/// A port of 127.0.0.1 that nobody listens on.
fn free_port() -> Result<u16> {
    Ok(TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?.local_addr()?.port())
}

fn respond(request: &Request<Body>, port: u16, folder: &Path, prefix: &str) -> Response<Body> {
    let host = request.headers().get("Host").and_then(|host| host.to_str().ok());
    let answer = match *request.method() {
        _ if !is_this_machine(host, port) => Answer::plain(421, "This server is for its own machine alone."),
        Method::GET | Method::HEAD => look_up(request.uri().path(), folder, prefix),
        _ => Answer::plain(405, "Only GET and HEAD."),
    };
    let tag = tag(&answer.body);
    let kept = request.headers().get("If-None-Match").is_some_and(|kept| kept == tag.as_str());
    let (status, body) = match answer.status {
        200 if kept => (304, Vec::new()),
        200 if request.method() == Method::HEAD => (200, Vec::new()),
        status => (status, answer.body),
    };
    Response::builder()
        .status(status)
        .header("Content-Type", answer.kind)
        .header("X-Content-Type-Options", "nosniff")
        // A browser keeps the files, and asks every time whether they are still the same.
        .header("Cache-Control", "no-cache")
        .header("ETag", tag)
        .body(body.into())
        .expect("names and values above are plain text")
}

/// Whether a request was meant for a name of this machine.
///
/// A stranger's page can point a name of its own at 127.0.0.1, and the browser would then hand it what is read
/// here; the name still stands in the request.
fn is_this_machine(host: Option<&str>, port: u16) -> bool {
    let names = ["localhost", "127.0.0.1", "[::1]"];
    host.and_then(|host| host.rsplit_once(':')).is_some_and(|(name, asked)| {
        asked.parse() == Ok(port) && names.iter().any(|own| name.eq_ignore_ascii_case(own))
    })
}

/// A name for these bytes, as in the header `ETag`.
fn tag(body: &[u8]) -> String {
    let hash: String = Sha256::digest(body)[..8].iter().map(|byte| format!("{byte:02x}")).collect();
    format!("\"{hash}\"")
}

#[derive(Debug)]
struct Answer {
    status: u16,
    kind: &'static str,
    body: Vec<u8>,
}

impl Answer {
    fn plain(status: u16, sentence: &str) -> Self {
        Self { status, kind: "text/plain; charset=utf-8", body: sentence.as_bytes().to_vec() }
    }
}

fn look_up(path: &str, folder: &Path, prefix: &str) -> Answer {
    let found = path
        .strip_prefix(prefix)
        .and_then(|name| file_in(folder, name))
        .and_then(|file| Some((fs::read(&file).ok()?, kind(&file))));
    match found {
        Some((body, kind)) => Answer { status: 200, kind, body },
        None => Answer::plain(404, "There is no such file."),
    }
}

/// The file called `name` in `folder`, an empty name being its front page; never one outside.
fn file_in(folder: &Path, name: &str) -> Option<PathBuf> {
    let name = if name.is_empty() { "index.html" } else { name };
    let plain = Path::new(name).components().all(|part| matches!(part, Component::Normal(_)));
    let file = folder.join(name);
    (plain && file.is_file()).then_some(file)
}

/// The media type by the end of the name.
fn kind(file: &Path) -> &'static str {
    match file.extension().and_then(|end| end.to_str()) {
        Some("html") => "text/html; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("wasm") => "application/wasm",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("json") => "application/json",
        Some("webmanifest") => "application/manifest+json",
        Some("txt") => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

/// Shows `url` in the person's browser, if the system has a command for that.
fn open(project: &Project, url: &str) {
    let mut command = if cfg!(target_os = "macos") {
        project.command("open")
    } else if cfg!(windows) {
        project.command("explorer")
    } else {
        project.command("xdg-open")
    };
    if let Err(error) = command.arg(url).spawn() {
        println!("The browser could not be started ({error}); open the address by hand.");
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::env;
    use std::io::{Read, Write};
    use std::net::TcpStream;
    use std::time::Instant;

    fn address(site: &Site) -> &str {
        site.url.strip_prefix("http://").unwrap().split('/').next().unwrap()
    }

    fn get(site: &Site, request: &str) -> String {
        asked(site, request, "")
    }

    fn asked(site: &Site, request: &str, headers: &str) -> String {
        asked_of(site, address(site), request, headers)
    }

    fn asked_of(site: &Site, host: &str, request: &str, headers: &str) -> String {
        let mut stream = TcpStream::connect(address(site)).unwrap();
        write!(stream, "{request} HTTP/1.1\r\nHost: {host}\r\n{headers}Connection: close\r\n\r\n").unwrap();
        let mut answer = String::new();
        stream.read_to_string(&mut answer).unwrap();
        answer
    }

    #[test]
    fn files_are_served_under_the_prefix_and_nothing_else_is() {
        let folder = env::temp_dir().join(format!("scrubline-site-{}", std::process::id()));
        fs::create_dir_all(folder.join("inner")).unwrap();
        fs::write(folder.join("inner/index.html"), "front page").unwrap();
        fs::write(folder.join("inner/a.wasm"), "code").unwrap();
        fs::write(folder.join("secret"), "secret").unwrap();
        let site = Site::start(folder.join("inner"), "/some/path/", 0).unwrap();

        let front = get(&site, "GET /some/path/?a=b");
        assert!(front.starts_with("HTTP/1.1 200") && front.ends_with("front page"), "{front}");
        assert!(front.contains("content-type: text/html; charset=utf-8\r\n"), "{front}");
        let code = get(&site, "GET /some/path/a.wasm");
        assert!(code.contains("content-type: application/wasm\r\n") && code.ends_with("code"), "{code}");
        let tag = code.lines().find_map(|line| line.strip_prefix("etag: ")).unwrap();
        let again = asked(&site, "GET /some/path/a.wasm", &format!("If-None-Match: {tag}\r\n"));
        assert!(again.starts_with("HTTP/1.1 304") && !again.ends_with("code"), "{again}");
        let other = asked(&site, "GET /some/path/a.wasm", "If-None-Match: \"0\"\r\n");
        assert!(other.starts_with("HTTP/1.1 200") && other.ends_with("code"), "{other}");
        let head = get(&site, "HEAD /some/path/a.wasm");
        assert!(head.starts_with("HTTP/1.1 200") && !head.ends_with("code"), "{head}");
        for refused in [
            "GET /",
            "GET /some/path",
            "GET /some/path/b.wasm",
            "GET /some/path/../secret",
            "GET /some/path//etc/passwd",
        ] {
            let answer = get(&site, refused);
            assert!(answer.starts_with("HTTP/1.1 404"), "{refused}: {answer}");
        }
        assert!(get(&site, "POST /some/path/").starts_with("HTTP/1.1 405"));
        fs::remove_dir_all(&folder).unwrap();
    }

    #[test]
    fn every_connection_is_answered_while_others_stay_open() {
        let folder = env::temp_dir().join(format!("scrubline-open-{}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        fs::write(folder.join("index.html"), "front page").unwrap();
        let site = Site::start(folder.clone(), "/", 0).unwrap();
        let address = address(&site);
        for _ in 0..500 {
            // As a browser does: several connections at once, each kept for what may be asked later.
            let kept: Vec<TcpStream> = (0..6).map(|_| TcpStream::connect(address).unwrap()).collect();
            for mut stream in &kept {
                stream.set_read_timeout(Some(Duration::from_secs(5))).unwrap();
                write!(stream, "GET / HTTP/1.1\r\nHost: {address}\r\n\r\n").unwrap();
                let mut start = [0; 15];
                stream.read_exact(&mut start).expect("an answer while the others are still open");
                assert_eq!(&start, b"HTTP/1.1 200 OK");
            }
        }
        fs::remove_dir_all(&folder).unwrap();
    }

    /// A name of a stranger's that leads to 127.0.0.1 reads nothing.
    #[test]
    fn only_a_name_of_this_machine_is_answered() {
        let folder = env::temp_dir().join(format!("scrubline-host-{}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        fs::write(folder.join("index.html"), "front page").unwrap();
        let site = Site::start(folder.clone(), "/", 0).unwrap();
        let port = address(&site).rsplit_once(':').unwrap().1;
        for name in ["localhost", "LocalHost", "127.0.0.1", "[::1]"] {
            let answer = asked_of(&site, &format!("{name}:{port}"), "GET /", "");
            assert!(answer.starts_with("HTTP/1.1 200") && answer.ends_with("front page"), "{name}: {answer}");
        }
        let strange = [
            format!("truck.example:{port}"),
            format!("localhost.example:{port}"),
            format!("127.0.0.1.example:{port}"),
            format!("192.168.0.7:{port}"),
            "localhost:1".to_owned(),
            "localhost".to_owned(),
            String::new(),
        ];
        for host in strange {
            let answer = asked_of(&site, &host, "GET /", "");
            assert!(
                !answer.starts_with("HTTP/1.1 200") && !answer.contains("front page"),
                "{host}: {answer}"
            );
        }
        fs::remove_dir_all(&folder).unwrap();
    }

    #[test]
    fn a_connection_that_sends_nothing_or_half_a_request_is_ended() {
        let folder = env::temp_dir().join(format!("scrubline-slow-{}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        let site = Site::start_with(folder.clone(), "/", 0, Duration::from_millis(200)).unwrap();
        for sent in ["", "GET / HT", "GET / HTTP/1.1\r\nHost: loc"] {
            let mut stream = TcpStream::connect(address(&site)).unwrap();
            stream.set_read_timeout(Some(Duration::from_secs(20))).unwrap();
            stream.write_all(sent.as_bytes()).unwrap();
            let start = Instant::now();
            let mut rest = Vec::new();
            stream.read_to_end(&mut rest).expect("the server ends it before this side loses patience");
            assert!(start.elapsed() >= Duration::from_millis(150), "it was given its time");
            assert!(!rest.starts_with(b"HTTP/1.1 200"), "{sent}");
        }
        fs::remove_dir_all(&folder).unwrap();
    }
}
