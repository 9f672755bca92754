//! A file server for one folder, on this machine only.

use std::fs;
use std::io::Cursor;
use std::net::{Ipv4Addr, TcpListener};
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;
use std::thread::{self, JoinHandle};

use anyhow::{Context, Result, anyhow, bail};
use sha2::{Digest, Sha256};
use tiny_http::{Header, Method, Request, Response, StatusCode};

/// The port tried first.
pub const USUAL_PORT: u16 = 8417;
/// Ports tried after the usual one.
const NEXT_PORTS: u16 = 40;

/// What the page may load and run: its own files and nothing else. `blob:` pictures and workers are its own too.
pub const POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self' blob:; \
     connect-src 'self'; style-src 'self'; img-src 'self' data: blob:; base-uri 'none'; form-action 'none'; \
     frame-ancestors 'none'";

/// A running server; it stops when dropped.
pub struct Server {
    inner: Arc<tiny_http::Server>,
    thread: Option<JoinHandle<()>>,
    address: String,
}

impl Server {
    /// Serves `folder` on `port`, or on the usual port or the next free one.
    ///
    /// # Errors
    /// When the folder has no page or no port is free.
    pub fn start(folder: &Path, port: Option<u16>) -> Result<Self> {
        if !folder.join("index.html").is_file() {
            bail!("{}: no page there; build it with `cargo page --build-only FOLDER`", folder.display());
        }
        let listener = match port {
            Some(port) => TcpListener::bind((Ipv4Addr::LOCALHOST, port))
                .with_context(|| format!("port {port} of 127.0.0.1 cannot be used"))?,
            None => next_free()?,
        };
        Self::on(listener, folder)
    }

    /// Serves `folder` on any free port.
    ///
    /// # Errors
    /// When no port is free.
    pub fn start_anywhere(folder: &Path) -> Result<Self> {
        Self::on(TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).context("no port is free")?, folder)
    }

    fn on(listener: TcpListener, folder: &Path) -> Result<Self> {
        let address = format!("http://{}/", listener.local_addr()?);
        let inner = tiny_http::Server::from_listener(listener, None).map_err(|error| anyhow!("{error}"))?;
        let inner = Arc::new(inner);
        let (server, folder) = (Arc::clone(&inner), folder.to_path_buf());
        let thread = thread::spawn(move || {
            for request in server.incoming_requests() {
                // A visitor who went away is no fault of the server.
                let _ = answer(request, &folder);
            }
        });
        Ok(Self { inner, thread: Some(thread), address })
    }

    /// The page's address, with its port.
    #[must_use]
    pub fn address(&self) -> &str {
        &self.address
    }

    /// Serves until the process ends.
    ///
    /// # Errors
    /// When the serving thread fails.
    pub fn wait(mut self) -> Result<()> {
        match self.thread.take().map(JoinHandle::join) {
            Some(Err(_)) => bail!("the serving thread failed"),
            _ => Ok(()),
        }
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.inner.unblock();
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
    }
}

fn next_free() -> Result<TcpListener> {
    let last = USUAL_PORT + NEXT_PORTS;
    (USUAL_PORT..=last)
        .find_map(|port| TcpListener::bind((Ipv4Addr::LOCALHOST, port)).ok())
        .with_context(|| format!("no port from {USUAL_PORT} to {last} is free; give one with --port"))
}

fn answer(request: Request, folder: &Path) -> std::io::Result<()> {
    if !matches!(request.method(), Method::Get | Method::Head) {
        return request.respond(Response::empty(405).with_header(header("Allow", "GET, HEAD")));
    }
    let found =
        file_of(request.url(), folder).and_then(|path| Some((fs::read(&path).ok()?, content_type(&path))));
    let Some((bytes, kind)) = found else {
        return request.respond(Response::from_string("not found\n").with_status_code(404));
    };
    let tag = format!("\"{}\"", hex(&Sha256::digest(&bytes)[..12]));
    let known = request
        .headers()
        .iter()
        .any(|h| h.field.equiv("If-None-Match") && h.value.as_str().split(',').any(|t| t.trim() == tag));
    let (status, bytes) = if known { (304, Vec::new()) } else { (200, bytes) };
    let headers = vec![
        header("Content-Type", kind),
        header("Content-Security-Policy", POLICY),
        header("X-Content-Type-Options", "nosniff"),
        header("Referrer-Policy", "no-referrer"),
        header("Cache-Control", "no-cache"),
        header("ETag", &tag),
    ];
    let length = bytes.len();
    request.respond(Response::new(StatusCode(status), headers, Cursor::new(bytes), Some(length), None))
}

fn header(name: &str, value: &str) -> Header {
    Header::from_bytes(name, value).expect("the server's own headers are plain ASCII")
}

pub(super) fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|b| format!("{b:02x}")).collect()
}

/// The file for a URL; `None` for what leaves the folder.
fn file_of(url: &str, folder: &Path) -> Option<PathBuf> {
    let path = url.split(['?', '#']).next().unwrap_or_default().trim_start_matches('/');
    let path = Path::new(if path.is_empty() { "index.html" } else { path });
    path.components().all(|part| matches!(part, Component::Normal(_))).then(|| folder.join(path))
}

fn content_type(path: &Path) -> &'static str {
    match path.extension().and_then(|e| e.to_str()) {
        Some("html") => "text/html; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("json") => "application/json",
        Some("wasm") => "application/wasm",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("toml" | "txt") => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::{Read, Write};
    use std::net::TcpStream;

    #[test]
    fn a_url_never_leaves_the_folder() {
        let folder = Path::new("site");
        assert_eq!(file_of("/", folder), Some("site/index.html".into()));
        assert_eq!(file_of("/page.css?x=1#y", folder), Some("site/page.css".into()));
        assert_eq!(file_of("//etc/hosts", folder), Some("site/etc/hosts".into()));
        for url in ["/../Cargo.toml", "/a/../../b", "/./.."] {
            assert_eq!(file_of(url, folder), None, "{url}");
        }
    }

    fn ask(server: &Server, request: &str) -> String {
        let address = server.address().trim_start_matches("http://").trim_end_matches('/');
        let mut stream = TcpStream::connect(address).expect("connects");
        write!(stream, "{request}\r\nHost: {address}\r\nConnection: close\r\n\r\n").expect("sends");
        let mut answer = String::new();
        stream.read_to_string(&mut answer).expect("answers");
        answer
    }

    #[test]
    fn serves_its_files_with_types_and_policy() {
        let server = Server::start_anywhere(&super::super::build::static_folder()).expect("starts");
        assert!(server.address().starts_with("http://127.0.0.1:"));
        let page = ask(&server, "GET / HTTP/1.1");
        assert!(page.starts_with("HTTP/1.1 200"), "{page}");
        assert!(page.contains("Content-Type: text/html; charset=utf-8"), "{page}");
        assert!(page.contains(POLICY), "{page}");
        let script = ask(&server, "GET /boot.js HTTP/1.1");
        assert!(script.contains("Content-Type: text/javascript"), "{script}");
        let tag = script.lines().find_map(|l| l.strip_prefix("ETag: ")).expect("has a tag");
        let again = ask(&server, &format!("GET /boot.js HTTP/1.1\r\nIf-None-Match: {tag}"));
        assert!(again.starts_with("HTTP/1.1 304"), "{again}");
        assert!(ask(&server, "GET /nothing HTTP/1.1").starts_with("HTTP/1.1 404"));
        assert!(ask(&server, "GET /../Cargo.toml HTTP/1.1").starts_with("HTTP/1.1 404"));
        assert!(ask(&server, "POST / HTTP/1.1\r\nContent-Length: 0").starts_with("HTTP/1.1 405"));
    }

    #[test]
    fn a_taken_port_is_passed_over_or_named() {
        let folder = super::super::build::static_folder();
        let first = Server::start(&folder, None).expect("starts");
        let second = Server::start(&folder, None).expect("starts beside it");
        assert_ne!(first.address(), second.address());
        let taken = first.address().trim_end_matches('/').rsplit(':').next().and_then(|p| p.parse().ok());
        let error = Server::start(&folder, taken).err().expect("a given port is used or refused");
        assert!(error.to_string().contains("cannot be used"), "{error}");
    }
}
