//! A module of core uses only modules listed before it in `lib.rs`, and no task knows another.

use crate::repository::{files_ending, text};

#[test]
fn modules_use_only_what_is_listed_before_them() {
    let order = layers(&text("core/src/lib.rs"));
    assert!(order.len() > 15, "only {} modules were found", order.len());
    let mut faults = Vec::new();
    for path in files_ending(".rs") {
        let Some(module) = module_of(&path) else { continue };
        let Some(place) = order.iter().position(|name| *name == module) else { continue };
        for used in used_modules(&outside_tests(&text(&path))) {
            if order.iter().position(|name| *name == used).is_some_and(|of| of > place) {
                faults.push(format!("{path} uses `{used}`, which is listed after `{module}`"));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn no_task_knows_another() {
    let tasks: Vec<&str> = sidelight_core::task::ALL.iter().map(|task| task.id).collect();
    let mut faults = Vec::new();
    for path in files_ending(".rs") {
        let Some(own) =
            path.strip_prefix("core/src/task/").map(|rest| rest.split(['/', '.']).next().unwrap_or_default())
        else {
            continue;
        };
        let code = outside_tests(&text(&path));
        for other in tasks.iter().filter(|other| **other != own) {
            if code.contains(&format!("super::{other}")) || code.contains(&format!("task::{other}")) {
                faults.push(format!("{path} knows the task `{other}`"));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn the_rule_finds_a_fault() {
    let order = layers("pub mod first;\npub mod second;\n");
    assert_eq!(order, ["first", "second"]);
    assert_eq!(used_modules("use crate::second::Thing;\nlet x = crate::first::y();"), ["second", "first"]);
    assert_eq!(used_modules("use crate::{second, first::Thing};"), ["second", "first"]);
    assert_eq!(outside_tests("use crate::a;\n#[cfg(test)]\nmod tests {\n use crate::b;\n}\n"), "use crate::a;\n");
}

fn layers(lib: &str) -> Vec<String> {
    let name = |line: &str| Some(line.trim().strip_prefix("pub mod ")?.strip_suffix(';')?.to_string());
    lib.lines().filter_map(name).collect()
}

/// The top module a file of core belongs to.
fn module_of(path: &str) -> Option<String> {
    let inner = path.strip_prefix("core/src/")?;
    if inner == "lib.rs" || inner.contains("/tests") || inner.ends_with("tests.rs") {
        return None;
    }
    inner.split(['/', '.']).next().map(String::from)
}

/// Modules named behind `crate::`, also those in braces.
fn used_modules(code: &str) -> Vec<String> {
    let mut used = Vec::new();
    for (at, _) in code.match_indices("crate::") {
        if code[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_') {
            continue;
        }
        let rest = &code[at + "crate::".len()..];
        match rest.strip_prefix('{') {
            Some(list) => {
                let mut depth = 0;
                let mut word = String::new();
                let mut at_start = true;
                for c in list.chars() {
                    match c {
                        '{' => depth += 1,
                        '}' if depth == 0 => break,
                        '}' => depth -= 1,
                        ',' if depth == 0 => {
                            used.push(std::mem::take(&mut word));
                            at_start = true;
                        }
                        c if depth == 0 && at_start && (c.is_alphanumeric() || c == '_') => word.push(c),
                        c if c.is_whitespace() => {}
                        _ => at_start = false,
                    }
                }
                used.push(word);
            }
            None => used.push(rest.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect()),
        }
    }
    used
}

/// The code before the first test module; tests may look at everything.
fn outside_tests(code: &str) -> String {
    code.split("#[cfg(test)]\n").next().unwrap_or_default().to_string()
}
