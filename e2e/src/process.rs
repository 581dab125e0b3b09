//! A program this run started, with everything that program started: one process group, ended as a whole.
//! Dropping the value ends the group, so neither a failed spec nor a panic leaves a browser behind.

use std::fs::File;
use std::io::Read;
use std::net::{Ipv4Addr, SocketAddr, TcpListener, TcpStream};
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use anyhow::{Context, Result, bail};

use crate::profile::Profile;
use crate::wait::poll;

/// A running program, its process group and the file that holds what it printed.
pub struct OwnedProcess {
    child: Child,
    name: &'static str,
    output: PathBuf,
    ended: bool,
}

impl OwnedProcess {
    /// Starts `command` at the head of a new process group. What it prints stays in the folder of
    /// `profile`, as do the temporary files that a killed browser leaves behind.
    pub fn start(mut command: Command, profile: &Profile, name: &'static str) -> Result<Self> {
        let output = profile.output(name);
        let stream = File::create(&output).with_context(|| format!("cannot write {}", output.display()))?;
        command.stdin(Stdio::null()).stdout(stream.try_clone()?).stderr(stream);
        // Elsewhere the path would be too long for the sockets that Chromium puts there.
        if cfg!(target_os = "linux") {
            command.env("TMPDIR", profile.scratch());
        }
        lead_group(&mut command);
        let child = command.spawn().with_context(|| format!("cannot start {name}; check that it is installed"))?;
        Ok(Self { child, name, output, ended: false })
    }

    /// Waits until the program accepts connections on `port` of this machine.
    pub async fn wait_for_port(&mut self, port: u16) -> Result<()> {
        let address = SocketAddr::from((Ipv4Addr::LOCALHOST, port));
        let name = self.name;
        poll(&format!("{name} to listen on port {port}"), STARTUP, async || {
            if let Some(status) = self.child.try_wait()? {
                self.ended = true;
                bail!("{name} ended at once ({status}): {}", self.printed());
            }
            let connected = TcpStream::connect_timeout(&address, Duration::from_millis(200));
            Ok(connected.is_ok().then_some(()))
        })
        .await
    }

    /// Everything the program and its children have printed so far.
    pub fn printed(&self) -> String {
        let mut bytes = Vec::new();
        if let Ok(mut file) = File::open(&self.output) {
            // A file that cannot be read any more simply has nothing to tell.
            let _ = file.read_to_end(&mut bytes);
        }
        String::from_utf8_lossy(&bytes).into_owned()
    }

    /// Ends the whole group at once, as a crash would, and waits for its head.
    pub fn kill(&mut self) {
        // Once the head has been waited for, its number may belong to a stranger.
        if std::mem::replace(&mut self.ended, true) {
            return;
        }
        end_group(&self.child);
        // The group may be gone already; what counts is that nothing is left.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

impl Drop for OwnedProcess {
    fn drop(&mut self) {
        self.kill();
    }
}

/// A port of this machine that nothing listens on at this moment.
pub fn free_port() -> Result<u16> {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).context("no free port on 127.0.0.1")?;
    Ok(listener.local_addr()?.port())
}

const STARTUP: Duration = Duration::from_secs(30);

#[cfg(unix)]
fn lead_group(command: &mut Command) {
    use std::os::unix::process::CommandExt;
    command.process_group(0);
}

#[cfg(not(unix))]
fn lead_group(_: &mut Command) {}

#[cfg(unix)]
fn end_group(head: &Child) {
    use rustix::process::{Pid, Signal, kill_process_group};
    // The group carries the id of its head, which is our own child and not yet waited for.
    let group = i32::try_from(head.id()).ok().and_then(Pid::from_raw);
    if let Some(group) = group {
        let _ = kill_process_group(group, Signal::KILL);
    }
}

#[cfg(not(unix))]
fn end_group(head: &Child) {
    let id = head.id().to_string();
    // Windows has no process groups of this kind; `taskkill /T` walks the tree below the head.
    let _ =
        Command::new("taskkill").args(["/F", "/T", "/PID", &id]).stdout(Stdio::null()).stderr(Stdio::null()).status();
}

#[cfg(all(test, unix))]
mod tests {
    use std::panic::{AssertUnwindSafe, catch_unwind};

    use rustix::process::{Pid, test_kill_process_group};

    use super::*;

    #[tokio::test]
    async fn a_panic_leaves_nothing_of_the_group() {
        let profile = Profile::new().expect("a temporary folder");
        let mut command = Command::new("sh");
        command.args(["-c", "sleep 100 & echo begun; wait"]);
        let group = OwnedProcess::start(command, &profile, "sleeper").expect("sh exists");
        let id = Pid::from_child(&group.child);
        let begun = poll("the group to begin", STARTUP, async || Ok(group.printed().contains("begun").then_some(())));
        begun.await.expect("sh prints at once");
        test_kill_process_group(id).expect("the group is alive");

        let panicked = catch_unwind(AssertUnwindSafe(move || {
            let _held = group;
            panic!("as a spec may");
        }));
        assert!(panicked.is_err());
        let gone = poll("the group to go", STARTUP, async || Ok(is_gone(id).then_some(())));
        gone.await.expect("the kernel ends what was killed");
    }

    /// A killed process that nobody has waited for yet still has its number, but does nothing any more.
    fn is_gone(group: Pid) -> bool {
        let Ok(listed) = Command::new("ps").args(["-A", "-o", "pgid=,stat="]).output() else {
            return test_kill_process_group(group).is_err();
        };
        let group = group.as_raw_nonzero().to_string();
        let listed = String::from_utf8_lossy(&listed.stdout).into_owned();
        let mut members = listed.lines().filter_map(|line| line.trim().split_once(char::is_whitespace));
        members.all(|(id, state)| id != group || state.trim_start().starts_with('Z'))
    }
}
