//! No file of core or of the app uses one that uses it back, over however many others: what both need stands in a file of
//! its own. A module and what is inside it count as one thing here, as Rust takes them.

use std::collections::{BTreeMap, BTreeSet};

use proc_macro2::{Delimiter, TokenStream, TokenTree};

use crate::repository::{files_ending, text};

/// Files by the path of their module, such as `["capture", "visit"]`.
type Modules = BTreeMap<Vec<String>, BTreeSet<Vec<String>>>;

#[test]
fn no_file_uses_one_that_uses_it_back() {
    for sources in ["core/src/", "app/src/"] {
        let modules = uses(&files_under(sources));
        let arrows: usize = modules.values().map(BTreeSet::len).sum();
        assert!(arrows > modules.len(), "only {arrows} uses were found in {} files of {sources}", modules.len());
        let circles = circles(&modules);
        assert!(circles.is_empty(), "in {sources}:\n{}", circles.join("\n"));
    }
}

#[test]
fn the_rule_finds_a_circle() {
    let of = |files: &[(&str, &str)]| {
        let files = files.iter().map(|(path, code)| (module(path), (*code).to_string())).collect();
        circles(&uses(&files))
    };
    let first = ("a/one.rs", "use super::{two::{Thing, Other}, three::Third};");
    assert_eq!(
        of(&[first, ("a/two.rs", "use crate::b;"), ("b.rs", "fn f() { crate::a::one::g() }")]),
        ["a::one -> a::two -> b"]
    );
    assert!(
        of(&[first, ("a/two.rs", "use super::three::Third;"), ("a/three.rs", ""), ("a.rs", "use one::Thing;")])
            .is_empty()
    );
}

fn files_under(sources: &str) -> BTreeMap<Vec<String>, String> {
    let inner = |path: &String| {
        let inner = path.strip_prefix(sources)?.to_string();
        let is_test = inner.split(['/', '.']).any(|part| part == "tests" || part == "properties");
        (!is_test && !["lib.rs", "main.rs"].contains(&inner.as_str())).then_some(inner)
    };
    let files = files_ending(".rs");
    files.iter().filter_map(|path| Some((module(&inner(path)?), before_tests(&text(path))))).collect()
}

fn module(path: &str) -> Vec<String> {
    path.trim_end_matches(".rs").split('/').map(String::from).collect()
}

/// The code before the first test module.
fn before_tests(code: &str) -> String {
    code.split("#[cfg(test)]\nmod ").next().unwrap_or_default().to_string()
}

/// What each file uses, whatever contains it or is inside it left out.
fn uses(files: &BTreeMap<Vec<String>, String>) -> Modules {
    let mut all = Modules::new();
    for (own, code) in files {
        let tokens: TokenStream = code.parse().unwrap_or_else(|error| panic!("{}: {error}", own.join("/")));
        let mut paths = Vec::new();
        collect(tokens, &mut paths);
        let used = paths.iter().filter_map(|path| {
            let (start, rest) = match path.first().map(String::as_str) {
                Some("crate") => (Vec::new(), &path[1..]),
                _ => {
                    let up = path.iter().take_while(|part| *part == "super").count();
                    (own[..own.len().checked_sub(up)?].to_vec(), &path[up..])
                }
            };
            let whole: Vec<String> = start.iter().chain(rest).cloned().collect();
            let file =
                (1..=whole.len()).rev().map(|long| whole[..long].to_vec()).find(|path| files.contains_key(path))?;
            (!file.starts_with(own) && !own.starts_with(&file)).then_some(file)
        });
        all.insert(own.clone(), used.collect());
    }
    all
}

/// Every path that begins with `crate` or `super`, those in braces written out.
fn collect(tokens: TokenStream, paths: &mut Vec<Vec<String>>) {
    let tokens: Vec<TokenTree> = tokens.into_iter().collect();
    let mut at = 0;
    while at < tokens.len() {
        match &tokens[at] {
            TokenTree::Ident(first) if first == "crate" || first == "super" => at = follow(&tokens, at, &[], paths),
            TokenTree::Group(group) => {
                collect(group.stream(), paths);
                at += 1;
            }
            _ => at += 1,
        }
    }
}

/// Takes one path from `at` on and gives where it ends.
fn follow(tokens: &[TokenTree], mut at: usize, before: &[String], paths: &mut Vec<Vec<String>>) -> usize {
    let mut path = before.to_vec();
    while let Some(TokenTree::Ident(part)) = tokens.get(at) {
        path.push(part.to_string());
        at += 1;
        let colon = |at: usize| matches!(tokens.get(at), Some(TokenTree::Punct(mark)) if mark.as_char() == ':');
        if !colon(at) || !colon(at + 1) {
            break;
        }
        at += 2;
        if let Some(TokenTree::Group(group)) = tokens.get(at)
            && group.delimiter() == Delimiter::Brace
        {
            let inside: Vec<TokenTree> = group.stream().into_iter().collect();
            let is_comma = |token: &TokenTree| matches!(token, TokenTree::Punct(mark) if mark.as_char() == ',');
            for branch in inside.split(is_comma) {
                follow(branch, 0, &path, paths);
            }
            return at + 1;
        }
    }
    paths.push(path);
    at
}

/// Each circle once, told from the first of its files on.
fn circles(modules: &Modules) -> Vec<String> {
    let reached = |from: &Vec<String>| {
        let mut seen = BTreeSet::new();
        let mut waiting = vec![from];
        while let Some(next) = waiting.pop() {
            waiting.extend(modules.get(next).into_iter().flatten().filter(|used| seen.insert((*used).clone())));
        }
        seen
    };
    let all: BTreeMap<&Vec<String>, BTreeSet<Vec<String>>> = modules.keys().map(|from| (from, reached(from))).collect();
    let mut told = BTreeSet::new();
    let mut circles = Vec::new();
    for (from, reached) in all.iter().filter(|(from, reached)| reached.contains(**from)) {
        let together: Vec<String> = reached
            .iter()
            .filter(|other| all.get(other).is_some_and(|back| back.contains(*from)))
            .map(|it| it.join("::"))
            .collect();
        if told.insert(together.clone()) {
            circles.push(together.join(" -> "));
        }
    }
    circles
}
