//! What leaves the program is well formed, judged by parsers that are not ours, and runs nothing.

use html5ever::tendril::TendrilSink as _;
use markup5ever_rcdom::{Handle, NodeData, RcDom};
use sidelight_core::assess::assess;
use sidelight_core::export::{html, svg, text};
use sidelight_core::summary::{self, Options};

use crate::odd_visit::{Oddness, odd};

const HOSTILE: &str = "<img src=x onerror=\"alert(1)\"> שלום \"Zoë\" & 'co' 👁 </title><script>alert(2)</script>";

#[test]
fn the_page_is_well_formed_and_carries_no_script() {
    for seed in 0..150 {
        let (mut person, visit) = odd(seed, Oddness::Valid);
        person.label = HOSTILE.into();
        let assessment = assess(&person, &visit);
        let options = Options::new("test");
        let page = html::render(&summary::compose(&person, &visit, &assessment, &options));
        let dom = html5ever::parse_document(RcDom::default(), html5ever::ParseOpts::default()).one(page.as_str());
        assert!(dom.errors.borrow().is_empty(), "seed {seed}: {:?}", dom.errors.borrow());
        let mut elements = Vec::new();
        collect(&dom.document, &mut elements);
        assert!(elements.iter().any(|(name, _)| name == "h1"), "seed {seed}: no title");
        for (name, attributes) in &elements {
            assert!(!["script", "img", "iframe", "object", "link"].contains(&name.as_str()), "seed {seed}: a {name}");
            let handler = attributes.iter().find(|attribute| attribute.starts_with("on"));
            assert!(handler.is_none(), "seed {seed}: a handler {handler:?}");
        }
    }
}

#[test]
fn drawings_are_xml_with_words() {
    let mut drawings = 0;
    for seed in 0..150 {
        let (person, visit) = odd(seed, Oddness::Valid);
        for figure in assess(&person, &visit).figures() {
            let drawn = svg::render(figure);
            let parsed = roxmltree::Document::parse(&drawn).unwrap_or_else(|error| panic!("{}: {error}", figure.id));
            let has = |name: &str| {
                parsed
                    .root_element()
                    .children()
                    .any(|child| child.has_tag_name(name) || child.tag_name().name() == name)
            };
            assert!(has("title") && has("desc"), "{} has no words", figure.id);
            assert!(figure.says.len() > 20, "{} says only {:?}", figure.id, figure.says);
            drawings += 1;
        }
    }
    assert!(drawings > 100, "only {drawings} drawings");
}

#[test]
fn text_stays_within_its_lines() {
    for seed in 0..150 {
        let (person, visit) = odd(seed, Oddness::Valid);
        let assessment = assess(&person, &visit);
        let words = text::render(&summary::compose(&person, &visit, &assessment, &Options::new("t")));
        for line in words.lines() {
            assert!(line.chars().count() <= 100, "seed {seed}: a long line: {line}");
        }
    }
}

fn collect(node: &Handle, into: &mut Vec<(String, Vec<String>)>) {
    if let NodeData::Element { name, attrs, .. } = &node.data {
        let attributes = attrs.borrow().iter().map(|attribute| attribute.name.local.to_string()).collect();
        into.push((name.local.to_string(), attributes));
    }
    for child in node.children.borrow().iter() {
        collect(child, into);
    }
}
