//! Serves a built page on the loopback address.
//!
//! tiny_http and not an async stack: a handful of small static files for one person needs no runtime, and it costs four
//! small crates where the alternative costs about fifty.
use std::{
    io::{self, Write},
    sync::Arc,
    thread::{self, JoinHandle},
};

use anyhow::{Result, anyhow};
use tiny_http::{Header, Method, Request, Response, Server as Http};

use crate::page::{INDEX, Packed, Site};

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
    pub(crate) fn start(site: Site, port: u16) -> Result<Self> {
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
        let (http, site) = (Arc::new(outcome?), Arc::new(site));
        let threads = (0..THREADS)
            .map(|_| {
                let (http, site) = (Arc::clone(&http), Arc::clone(&site));
                thread::spawn(move || {
                    for request in http.incoming_requests() {
                        answer(request, &site);
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

fn answer(request: Request, site: &Site) {
    let response = if matches!(request.method(), Method::Get | Method::Head) {
        // Only names of the page's own files are ever found, so nothing a request says can reach the disk.
        let name = request
            .url()
            .split(['?', '#'])
            .next()
            .unwrap_or_default()
            .trim_start_matches('/');
        let name = if name.is_empty() { INDEX } else { name };
        match site.files.get(name) {
            Some(file) => send(name, file, accepted(&request)),
            None => refusal(404, "not found"),
        }
    } else {
        refusal(405, "only GET and HEAD")
    };
    // An error here means that the browser went away.
    drop(respond(request, response));
}

/// Sends a response and ends its connection. The library hands two connections that come at once to one idle thread, and the second would wait
/// until the browser lets the first go; it lets no response say that it ends the connection, so that line is put in here.
fn respond(request: Request, response: Bytes) -> io::Result<()> {
    let without_body = *request.method() == Method::Head;
    let mut text = Vec::new();
    let version = request.http_version().clone();
    response.raw_print(&mut text, version, request.headers(), without_body, None)?;
    let head = text
        .iter()
        .position(|byte| *byte == b'\n')
        .map_or(0, |n| n + 1);
    let (status, rest) = text.split_at(head);
    let mut out = request.into_writer();
    out.write_all(&[status, b"Connection: close\r\n", rest].concat())?;
    out.flush()
}

/// Which encodings the browser accepts, as it wrote them.
fn accepted(request: &Request) -> &str {
    let header = request
        .headers()
        .iter()
        .find(|header| header.field.equiv("Accept-Encoding"));
    header.map_or("", |header| header.value.as_str())
}

type Bytes = Response<io::Cursor<Vec<u8>>>;

fn send(name: &str, file: &Packed, accepted: &str) -> Bytes {
    let takes = |encoding: &str| accepted.split(',').any(|item| item.trim() == encoding);
    let (bytes, encoding) = match &file.compressed {
        Some(copies) if takes("br") => (&copies.brotli, Some("br")),
        Some(copies) if takes("gzip") => (&copies.gzip, Some("gzip")),
        _ => (&file.raw, None),
    };
    // A versioned file never changes; what stands beside the index must be asked for each time, or it would name files that are
    // gone.
    let cache = if name.contains('/') {
        "public, max-age=31536000, immutable"
    } else {
        "no-cache"
    };
    let mut response = Response::from_data(bytes.clone())
        .with_header(header("Content-Type", mime(name)))
        .with_header(header("Cache-Control", cache))
        .with_header(header("Vary", "Accept-Encoding"))
        .with_header(header("X-Content-Type-Options", "nosniff"));
    if let Some(encoding) = encoding {
        response.add_header(header("Content-Encoding", encoding));
    }
    response
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
    use std::{collections::BTreeMap, io::Read, net::TcpStream};

    use super::*;
    use crate::page::Compressed;

    fn site() -> Site {
        let index = Packed {
            raw: b"index".to_vec(),
            compressed: None,
        };
        let copies = Compressed {
            brotli: b"packed".to_vec(),
            gzip: b"zipped".to_vec(),
        };
        let wasm = Packed {
            raw: b"raw".to_vec(),
            compressed: Some(copies),
        };
        Site {
            files: BTreeMap::from([(INDEX.to_owned(), index), ("v1/a.wasm".to_owned(), wasm)]),
        }
    }

    /// What a fresh server says to one request, given as its first line and any headers.
    fn exchange(request: &str) -> String {
        let server = Server::start(site(), 0).expect("a free port");
        let address = server.address();
        let host = address.trim_start_matches("http://").trim_end_matches('/');
        let mut stream = TcpStream::connect(host).expect("connects");
        write!(
            stream,
            "{request}\r\nHost: {host}\r\nConnection: close\r\n\r\n"
        )
        .expect("sends");
        let mut text = String::new();
        stream.read_to_string(&mut text).expect("answers");
        text
    }

    #[test]
    fn wasm_has_its_type_and_is_kept_for_good() {
        let text = exchange("GET /v1/a.wasm?x=1 HTTP/1.1");
        assert!(text.starts_with("HTTP/1.1 200"), "{text}");
        assert!(
            text.contains("Content-Type: application/wasm\r\n"),
            "{text}"
        );
        assert!(text.contains("immutable"), "{text}");
        assert!(text.ends_with("\r\n\r\nraw"), "{text}");
    }

    #[test]
    fn a_browser_gets_the_best_encoding_it_takes() {
        for (accepts, encoding, body) in [
            ("gzip, br", "br", "packed"),
            ("deflate, gzip", "gzip", "zipped"),
        ] {
            let text = exchange(&format!(
                "GET /v1/a.wasm HTTP/1.1\r\nAccept-Encoding: {accepts}"
            ));
            assert!(
                text.contains(&format!("Content-Encoding: {encoding}\r\n")),
                "{text}"
            );
            assert!(text.ends_with(&format!("\r\n\r\n{body}")), "{text}");
        }
    }

    #[test]
    fn a_connection_ends_with_its_response() {
        let server = Server::start(site(), 0).expect("a free port");
        let address = server.address();
        let host = address.trim_start_matches("http://").trim_end_matches('/');
        // As many at once as a browser opens and more, none of which asks for its end.
        let mut streams: Vec<TcpStream> = (0..32)
            .map(|_| TcpStream::connect(host).expect("connects"))
            .collect();
        for stream in &mut streams {
            write!(stream, "GET / HTTP/1.1\r\nHost: {host}\r\n\r\n").expect("sends");
        }
        // A browser closes what has ended.
        for mut stream in streams {
            let mut head = vec![0; 4096];
            let read = stream.read(&mut head).expect("answers");
            let text = String::from_utf8_lossy(&head[..read]);
            assert!(text.contains("\r\nConnection: close\r\n"), "{text}");
        }
    }

    #[test]
    fn the_index_is_asked_for_each_time() {
        let text = exchange("GET / HTTP/1.1");
        assert!(text.contains("Cache-Control: no-cache\r\n"), "{text}");
        assert!(text.ends_with("\r\n\r\nindex"), "{text}");
    }

    #[test]
    fn only_the_pages_own_files_are_found() {
        for path in [
            "/v1/none.js",
            "/../Cargo.toml",
            "/v1/../../Cargo.toml",
            "//etc/passwd",
            "/%2e%2e/Cargo.toml",
        ] {
            let text = exchange(&format!("GET {path} HTTP/1.1"));
            assert!(text.starts_with("HTTP/1.1 404"), "{path}: {text}");
        }
        assert!(exchange("POST / HTTP/1.1").starts_with("HTTP/1.1 405"));
    }

    #[test]
    fn a_taken_port_moves_on_to_the_next() {
        let first = Server::start(site(), 0).expect("a free port");
        let port = first
            .http
            .server_addr()
            .to_ip()
            .expect("an internet address")
            .port();
        let second = Server::start(site(), port).expect("a port above it");
        assert_ne!(first.address(), second.address());
    }
}
