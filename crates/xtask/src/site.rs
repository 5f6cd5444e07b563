//! Serves a built page on the loopback address.
//!
//! tiny_http and not an async stack: a handful of small static files for one person needs no runtime, and it costs four
//! small crates where the alternative costs about fifty.
use std::{
    fs,
    path::{Path, PathBuf},
    sync::Arc,
    thread::{self, JoinHandle},
};

use anyhow::{Result, anyhow};
use tiny_http::{Header, Method, Request, Response, Server as Http};

use crate::page::Site;

/// How many ports above the wanted one are tried when it is taken.
const PORTS_TRIED: u16 = 20;
/// A browser opens about six connections at once.
const THREADS: usize = 4;

/// A running server; it stops when dropped.
pub(crate) struct Server {
    http: Arc<Http>,
    threads: Vec<JoinHandle<()>>,
}

impl Server {
    /// Serves `site` on `port`, or the next free port above it; port 0 lets the system choose.
    pub(crate) fn start(site: &Site, port: u16) -> Result<Self> {
        let last = if port == 0 {
            0
        } else {
            port.saturating_add(PORTS_TRIED)
        };
        let mut outcome = Err(anyhow!("no port"));
        for candidate in port..=last {
            outcome = Http::http(("127.0.0.1", candidate))
                .map_err(|error| anyhow!("cannot listen on 127.0.0.1:{candidate}: {error}"));
            if outcome.is_ok() {
                break;
            }
        }
        let http = Arc::new(outcome?);
        let threads = (0..THREADS)
            .map(|_| {
                let (http, dir) = (Arc::clone(&http), site.dir.clone());
                thread::spawn(move || {
                    for request in http.incoming_requests() {
                        answer(request, &dir);
                    }
                })
            })
            .collect();
        Ok(Self { http, threads })
    }

    /// The address to open.
    pub(crate) fn address(&self) -> String {
        format!("http://{}/", self.http.server_addr())
    }

    /// Serves until the process is ended.
    pub(crate) fn wait(mut self) {
        for thread in self.threads.drain(..) {
            if thread.join().is_err() {
                eprintln!("xtask: a serving thread stopped");
            }
        }
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        for _ in 0..self.threads.len() {
            self.http.unblock();
        }
    }
}

fn answer(request: Request, dir: &Path) {
    let head = matches!(request.method(), Method::Head);
    let response = if head || matches!(request.method(), Method::Get) {
        find(dir, request.url(), accepted(&request))
    } else {
        refusal(405, "only GET and HEAD")
    };
    // An error here means that the browser went away.
    drop(request.respond(response));
}

/// Which encodings the browser accepts, as it wrote them.
fn accepted(request: &Request) -> &str {
    let header = request
        .headers()
        .iter()
        .find(|header| header.field.equiv("Accept-Encoding"));
    header.map_or("", |header| header.value.as_str())
}

type Bytes = Response<std::io::Cursor<Vec<u8>>>;

fn find(dir: &Path, url: &str, accepted: &str) -> Bytes {
    let Some(name) = safe_name(url) else {
        return refusal(400, "that is no path of this page");
    };
    let path = dir.join(&name);
    for (encoding, suffix) in [("br", ".br"), ("gzip", ".gz"), ("", "")] {
        let wanted = encoding.is_empty() || accepted.split(',').any(|item| item.trim() == encoding);
        let file = PathBuf::from(format!("{}{suffix}", path.display()));
        if !wanted || !file.is_file() {
            continue;
        }
        let Ok(bytes) = fs::read(&file) else { continue };
        // A versioned file never changes; the index must be asked for each time, or it would name files that are gone.
        let cache = if name == "index.html" {
            "no-cache"
        } else {
            "public, max-age=31536000, immutable"
        };
        let mut response = Response::from_data(bytes)
            .with_header(header("Content-Type", mime(&name)))
            .with_header(header("Cache-Control", cache))
            .with_header(header("Vary", "Accept-Encoding"))
            .with_header(header("X-Content-Type-Options", "nosniff"));
        if !encoding.is_empty() {
            response.add_header(header("Content-Encoding", encoding));
        }
        return response;
    }
    refusal(404, "not found")
}

/// The file a request means, relative to the site, or nothing if it tries to leave the site.
fn safe_name(url: &str) -> Option<String> {
    let path = url.split(['?', '#']).next()?.strip_prefix('/')?;
    if path.is_empty() {
        return Some("index.html".to_owned());
    }
    let plain = |part: &str| {
        !part.starts_with('.')
            && !part.is_empty()
            && part
                .bytes()
                .all(|byte| byte.is_ascii_alphanumeric() || b"-_.".contains(&byte))
    };
    path.split('/').all(plain).then(|| path.to_owned())
}

fn mime(name: &str) -> &'static str {
    match name.rsplit('.').next() {
        Some("html") => "text/html; charset=utf-8",
        Some("js" | "mjs") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("wasm") => "application/wasm",
        Some("json") => "application/json",
        Some("webmanifest") => "application/manifest+json",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("woff2") => "font/woff2",
        Some("txt" | "toml") => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

fn refusal(status: u16, text: &str) -> Bytes {
    Response::from_string(text)
        .with_status_code(status)
        .with_header(header("Cache-Control", "no-store"))
}

fn header(name: &str, value: &str) -> Header {
    Header::from_bytes(name, value).expect("header names and values here are plain ASCII")
}

#[cfg(test)]
mod tests {
    use std::{
        io::{Read, Write},
        net::TcpStream,
    };

    use super::*;

    #[test]
    fn a_request_cannot_leave_the_site() {
        assert_eq!(safe_name("/").as_deref(), Some("index.html"));
        assert_eq!(
            safe_name("/v1/lowside.js?x=1").as_deref(),
            Some("v1/lowside.js")
        );
        for url in [
            "/../Cargo.toml",
            "/v1/..%2f..",
            "//etc/passwd",
            "/.git/config",
            "/v1/./a.js",
            "v1/a.js",
            "/v1\\a",
        ] {
            assert_eq!(safe_name(url), None, "{url}");
        }
    }

    /// A site of its own for one test, and what the server says to one request.
    fn exchange(name: &str, request: &str) -> String {
        let dir = std::env::temp_dir().join(format!("lowside-site-{}-{name}", std::process::id()));
        fs::create_dir_all(dir.join("v1")).expect("makes a directory");
        fs::write(dir.join("index.html"), "<p>index</p>").expect("writes");
        fs::write(dir.join("v1/a.wasm"), "raw").expect("writes");
        fs::write(dir.join("v1/a.wasm.br"), "packed").expect("writes");
        let site = Site {
            dir: dir.clone(),
            sent_bytes: 0,
        };
        let server = Server::start(&site, 0).expect("a free port");
        let address = server.address();
        let host = address.trim_start_matches("http://").trim_end_matches('/');
        let mut stream = TcpStream::connect(host).expect("connects");
        write!(
            stream,
            "{request} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n"
        )
        .expect("sends");
        let mut text = String::new();
        stream.read_to_string(&mut text).expect("answers");
        fs::remove_dir_all(dir).expect("cleans up");
        text
    }

    #[test]
    fn wasm_has_its_type_and_is_kept_for_good() {
        let text = exchange("wasm", "GET /v1/a.wasm");
        assert!(text.starts_with("HTTP/1.1 200"), "{text}");
        assert!(
            text.contains("Content-Type: application/wasm\r\n"),
            "{text}"
        );
        assert!(text.contains("immutable"), "{text}");
        assert!(text.ends_with("\r\n\r\nraw"), "{text}");
    }

    #[test]
    fn a_browser_that_takes_brotli_gets_brotli() {
        let text = exchange(
            "brotli",
            "GET /v1/a.wasm HTTP/1.1\r\nAccept-Encoding: gzip, br\r\nX:",
        );
        assert!(text.contains("Content-Encoding: br\r\n"), "{text}");
        assert!(text.ends_with("\r\n\r\npacked"), "{text}");
    }

    #[test]
    fn the_index_is_asked_for_each_time_and_a_stranger_is_not_found() {
        assert!(exchange("index", "GET /").contains("Cache-Control: no-cache\r\n"));
        assert!(exchange("missing", "GET /v1/none.js").starts_with("HTTP/1.1 404"));
        assert!(exchange("post", "POST /").starts_with("HTTP/1.1 405"));
    }

    #[test]
    fn a_taken_port_moves_on_to_the_next() {
        let site = Site {
            dir: std::env::temp_dir(),
            sent_bytes: 0,
        };
        let first = Server::start(&site, 0).expect("a free port");
        let port = first
            .http
            .server_addr()
            .to_ip()
            .expect("an internet address")
            .port();
        let second = Server::start(&site, port).expect("a port above it");
        assert_ne!(first.address(), second.address());
    }
}
