//! A small static file server for this machine alone: it shows the built site and lets tests stop the network for
//! real. It is our own because stopping must also end open connections at once, so that "server stopped" in a test
//! means what it says.

mod local;
mod request;
mod respond;

pub use local::{ServeOptions, serve};

use std::collections::HashMap;
use std::io;
use std::net::{Ipv4Addr, Shutdown, SocketAddr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::thread::{self, JoinHandle};
use std::time::Duration;

/// A browser may open a connection ahead of need; one that stays silent this long is closed.
const PATIENCE: Duration = Duration::from_secs(20);

/// A running server. Dropping it stops it.
#[derive(Debug)]
pub struct Server {
    address: SocketAddr,
    shared: Arc<Shared>,
    accepting: Option<JoinHandle<()>>,
}

#[derive(Debug)]
struct Shared {
    dist: PathBuf,
    stopping: AtomicBool,
    requests: Mutex<Vec<String>>,
    open: Mutex<HashMap<u64, TcpStream>>,
}

impl Server {
    /// Serves a folder on 127.0.0.1. Port 0 takes any free one.
    pub fn start(dist: &Path, port: u16) -> io::Result<Self> {
        if !dist.join("index.html").is_file() {
            let text = format!("{} holds no index.html; build the site first", dist.display());
            return Err(io::Error::new(io::ErrorKind::NotFound, text));
        }
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port))?;
        let address = listener.local_addr()?;
        let shared = Arc::new(Shared {
            dist: dist.canonicalize()?,
            stopping: AtomicBool::new(false),
            requests: Mutex::default(),
            open: Mutex::default(),
        });
        let accepting = thread::spawn({
            let shared = Arc::clone(&shared);
            move || accept(&listener, &shared)
        });
        Ok(Self { address, shared, accepting: Some(accepting) })
    }

    /// Where it listens.
    pub fn address(&self) -> SocketAddr {
        self.address
    }

    /// The address of the app, with a closing slash.
    pub fn url(&self) -> String {
        format!("http://{}/", self.address)
    }

    /// Stops listening and ends open connections. After this call the port is free.
    pub fn stop(&mut self) {
        let Some(accepting) = self.accepting.take() else {
            return;
        };
        self.shared.stopping.store(true, Ordering::SeqCst);
        // The accepting thread waits for a connection; this one wakes it.
        let _ = TcpStream::connect(self.address);
        let _ = accepting.join();
        for stream in lock(&self.shared.open).values() {
            let _ = stream.shutdown(Shutdown::Both);
        }
    }

    /// Paths asked for since the start, in order, with their query.
    pub fn requests(&self) -> Vec<String> {
        lock(&self.shared.requests).clone()
    }

    /// Waits until the server is stopped from elsewhere, which for the command line means until the program ends.
    pub(crate) fn wait(mut self) {
        if let Some(accepting) = self.accepting.take() {
            let _ = accepting.join();
        }
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.stop();
    }
}

fn accept(listener: &TcpListener, shared: &Arc<Shared>) {
    for (number, stream) in (0u64..).zip(listener.incoming()) {
        if shared.stopping.load(Ordering::SeqCst) {
            return;
        }
        let Ok(stream) = stream else { continue };
        let Ok(handle) = stream.try_clone() else { continue };
        lock(&shared.open).insert(number, handle);
        thread::spawn({
            let shared = Arc::clone(shared);
            move || {
                // A browser that goes away in the middle of an answer is no fault of the server.
                let _ = answer(stream, &shared);
                lock(&shared.open).remove(&number);
            }
        });
    }
}

/// One request a connection: simple, and nothing stays open that a stop would have to wait for.
fn answer(mut stream: TcpStream, shared: &Shared) -> io::Result<()> {
    stream.set_read_timeout(Some(PATIENCE))?;
    stream.set_write_timeout(Some(PATIENCE))?;
    let Some(request) = request::read(&mut stream)? else {
        return Ok(());
    };
    lock(&shared.requests).push(request.target.clone());
    respond::respond(&mut stream, &shared.dist, &request)
}

/// A thread that panicked left a list of requests or connections, which is still whole.
fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;
    use std::io::{Read as _, Write as _};

    struct Site(PathBuf);

    impl Site {
        fn new(name: &str) -> Self {
            let dir = std::env::temp_dir().join(format!("sidelight-serve-{name}-{}", std::process::id()));
            let _ = fs::remove_dir_all(&dir);
            fs::create_dir_all(dir.join("inner")).expect("a folder");
            fs::write(dir.join("index.html"), "<title>start</title>").expect("a file");
            fs::write(dir.join("app-0123456789abcdef.wasm"), b"\0asm").expect("a file");
            fs::write(dir.join("inner/a b.txt"), "inner").expect("a file");
            Self(dir)
        }
    }

    impl Drop for Site {
        fn drop(&mut self) {
            let _ = fs::remove_dir_all(&self.0);
        }
    }

    fn get(server: &Server, request: &str) -> String {
        let mut stream = TcpStream::connect(server.address()).expect("a connection");
        write!(stream, "{request} HTTP/1.1\r\nHost: localhost\r\n\r\n").expect("sent");
        let mut bytes = Vec::new();
        stream.read_to_end(&mut bytes).expect("an answer");
        String::from_utf8_lossy(&bytes).into_owned()
    }

    #[test]
    fn files_come_with_their_type_policy_and_caching() {
        let site = Site::new("files");
        let server = Server::start(&site.0, 0).expect("a server");
        let start = get(&server, "GET /?x=1");
        assert!(start.starts_with("HTTP/1.1 200 "), "{start}");
        assert!(start.contains(&format!("\r\nContent-Security-Policy: {}\r\n", crate::csp::header())));
        assert!(start.contains("\r\nCache-Control: no-store\r\n"));
        assert!(start.contains("\r\nX-Content-Type-Options: nosniff\r\n"));
        assert!(start.ends_with("<title>start</title>"));

        let wasm = get(&server, "GET /app-0123456789abcdef.wasm");
        assert!(wasm.contains("\r\nContent-Type: application/wasm\r\n"));
        assert!(wasm.contains("\r\nCache-Control: public, max-age=31536000, immutable\r\n"));

        assert!(get(&server, "GET /inner/a%20b.txt").ends_with("inner"));
        assert!(get(&server, "HEAD /").ends_with("\r\n\r\n"));
        assert!(get(&server, "GET /none").starts_with("HTTP/1.1 404 "));
        assert!(get(&server, "POST /").starts_with("HTTP/1.1 405 "));
        assert_eq!(server.requests().len(), 6);
        assert_eq!(server.requests()[0], "/?x=1");
    }

    #[test]
    fn nothing_outside_the_folder_is_served() {
        let site = Site::new("outside");
        let server = Server::start(&site.0.join("inner").join(".."), 0).expect("a server");
        let secret = site.0.with_extension("secret");
        fs::write(&secret, "secret").expect("a file");
        let name = secret.file_name().and_then(|it| it.to_str()).expect("a name");
        for path in [format!("/../{name}"), format!("/%2e%2e/{name}"), format!("/inner/../../{name}")] {
            let answer = get(&server, &format!("GET {path}"));
            assert!(answer.starts_with("HTTP/1.1 404 "), "{path}: {answer}");
        }
        let _ = fs::remove_file(secret);
    }

    #[test]
    fn a_stopped_server_answers_nobody_and_its_port_can_be_taken_again() {
        let site = Site::new("stop");
        let mut server = Server::start(&site.0, 0).expect("a server");
        let address = server.address();
        let mut idle = TcpStream::connect(address).expect("a connection");
        // The answer to a later connection shows that the earlier one was accepted.
        assert!(get(&server, "GET /").starts_with("HTTP/1.1 200 "));
        server.stop();
        server.stop();
        assert!(TcpStream::connect(address).is_err());
        assert_eq!(idle.read(&mut [0; 1]).unwrap_or(0), 0);

        let again = Server::start(&site.0, address.port()).expect("the same port");
        assert_eq!(again.address(), address);
        assert!(get(&again, "GET /").starts_with("HTTP/1.1 200 "));
        drop(again);
        assert!(TcpStream::connect(address).is_err());
    }

    #[test]
    fn a_folder_without_a_site_is_refused() {
        let site = Site::new("empty");
        let error = Server::start(&site.0.join("inner"), 0).expect_err("no site");
        assert!(error.to_string().contains("build the site first"));
    }
}
