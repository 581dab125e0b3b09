//! `cargo site serve`: build, take a port, say the address, stay.

use std::io;
use std::path::Path;

use anyhow::{Context, Result};

use super::Server;
use crate::build::{BuildOptions, build};
use crate::workspace::Workspace;

/// How far to look for a free port before giving up.
const TRIES: u16 = 20;

/// What to serve and where.
#[derive(Clone, Debug)]
pub struct ServeOptions {
    pub port: u16,
    pub debug: bool,
    /// Off: serve the folder as it stands.
    pub build: bool,
}

impl Default for ServeOptions {
    fn default() -> Self {
        Self { port: 8180, debug: false, build: true }
    }
}

/// Builds and serves until the program is ended.
pub fn serve(options: &ServeOptions) -> Result<()> {
    let build_options = BuildOptions { debug: options.debug, ..BuildOptions::default() };
    let dist = if options.build { build(&build_options)?.dir } else { Workspace::find()?.root.join(build_options.out) };
    let server = start_near(&dist, options.port)?;
    if server.address().port() != options.port {
        println!("Port {} is taken by another program; using the next free one.", options.port);
    }
    println!("Sidelight is at {} (only on this machine). Ctrl-C ends it.", server.url());
    server.wait();
    Ok(())
}

fn start_near(dist: &Path, port: u16) -> Result<Server> {
    let last = port.saturating_add(TRIES);
    for candidate in port..=last {
        match Server::start(dist, candidate) {
            Err(error) if error.kind() == io::ErrorKind::AddrInUse => {}
            other => return other.context("the local server could not start"),
        }
    }
    anyhow::bail!("ports {port} to {last} are all taken; choose another with --port")
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    #[test]
    fn a_taken_port_leads_to_the_next_one() {
        let dist = std::env::temp_dir().join(format!("sidelight-port-{}", std::process::id()));
        fs::create_dir_all(&dist).expect("a folder");
        fs::write(dist.join("index.html"), "").expect("a file");
        let first = Server::start(&dist, 0).expect("a server");
        let taken = first.address().port();
        let second = start_near(&dist, taken).expect("a server");
        assert!(second.address().port() > taken);
        let _ = fs::remove_dir_all(&dist);
    }
}
