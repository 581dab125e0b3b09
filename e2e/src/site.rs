//! The site under test, on a local server that can be stopped to be truly offline and started again.

use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::time::Duration;

use anyhow::{Context, Result, ensure};
use sidelight_site::serve::Server;

/// A folder that is served, for one spec alone.
pub struct Site {
    dist: PathBuf,
    port: u16,
    server: Option<Server>,
    asked_before: Vec<String>,
}

impl Site {
    /// Serves `dist` on a port of its own.
    pub fn start(dist: &Path) -> Result<Self> {
        let server = Server::start(dist, 0).with_context(|| format!("cannot serve {}", dist.display()))?;
        Ok(Self {
            dist: dist.to_path_buf(),
            port: server.address().port(),
            server: Some(server),
            asked_before: Vec::new(),
        })
    }

    /// The address, the same after a restart.
    pub fn url(&self) -> String {
        format!("http://127.0.0.1:{}/", self.port)
    }

    /// The folder that is served.
    pub fn dist(&self) -> &Path {
        &self.dist
    }

    /// Stops the server and makes sure that nothing answers any more.
    pub fn stop(&mut self) -> Result<()> {
        if let Some(mut server) = self.server.take() {
            self.asked_before.extend(server.requests());
            server.stop();
        }
        ensure!(self.connect().is_err(), "the server still answers after it was stopped");
        Ok(())
    }

    /// Starts the server again on its port.
    pub fn restart(&mut self) -> Result<()> {
        self.stop()?;
        self.server = Some(Server::start(&self.dist, self.port)?);
        Ok(())
    }

    /// Serves another folder from now on, as a new version of the site would be.
    pub fn serve(&mut self, dist: &Path) -> Result<()> {
        self.dist = dist.to_path_buf();
        self.restart()
    }

    /// Every path that was asked for so far.
    pub fn requests(&self) -> Vec<String> {
        let mut requests = self.asked_before.clone();
        if let Some(server) = &self.server {
            requests.extend(server.requests());
        }
        requests
    }

    /// A connection to the server.
    pub fn connect(&self) -> std::io::Result<TcpStream> {
        TcpStream::connect_timeout(&([127, 0, 0, 1], self.port).into(), Duration::from_secs(2))
    }
}
