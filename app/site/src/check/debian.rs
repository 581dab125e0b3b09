//! Installs packages where that is certain to be wanted: on Debian and its relatives, as root.

use std::path::Path;
use std::process::{Command, Stdio};

use super::Outcome;
use super::run::run;

/// Installs packages, or says why it does not. Steps look for the programs again afterwards, so a failure here shows as
/// a named gap there.
pub fn install(packages: &[&str]) {
    if !Path::new("/etc/debian_version").exists() || !is_root() {
        println!("Some programs are missing; only on Debian as root does this command install them.");
        return;
    }
    println!("Installing with apt-get: {}", packages.join(" "));
    let updated = apt_get(&["update", "-q"]);
    // One by one, so that a package this release lacks does not keep the others out.
    for package in packages {
        if !apt_get(&["install", "-q", "-y", "--no-install-recommends", package]) {
            let hint = if updated { "" } else { "; the package lists could not be read either" };
            println!("apt-get could not install {package}{hint}.");
        }
    }
}

fn apt_get(arguments: &[&str]) -> bool {
    let mut command = Command::new("apt-get");
    command.args(arguments).env("DEBIAN_FRONTEND", "noninteractive").stdin(Stdio::null());
    matches!(run(&mut command), Ok(Outcome::Passed))
}

fn is_root() -> bool {
    let output = Command::new("id").arg("-u").output();
    output.is_ok_and(|output| output.stdout.trim_ascii() == b"0")
}
