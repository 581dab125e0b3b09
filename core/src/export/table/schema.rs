//! What the tables hold, in two open forms: a data package with table schemas (Frictionless), and metadata for tables on
//! the web (CSVW, W3C).

use serde_json::{Map, Value, json};

use super::column::{Column, Kind, NONE, Table};
use super::{Options, PSEUDONYMISED, Who};

/// File of the data package; its name is given by that form.
pub(super) const PACKAGE: &str = "datapackage.json";

/// File of the metadata; its name is given by that form.
pub(super) const METADATA: &str = "csv-metadata.json";

const ABOUT: &str = "Tables of eye movement examinations. An empty cell is absent, never zero. Right and left are the \
                     examined person's own. In text, an apostrophe stands before a character by which a spreadsheet \
                     could take what follows for a formula (= + - @, a tab, a line break, or an apostrophe, at the \
                     beginning of the cell or after a comma, semicolon, bar, quote, tab or line break); take it off \
                     to have the text as it was.";

/// The data package.
pub(super) fn package(tables: &[Table], options: &Options<'_>) -> String {
    let mut whole = Map::new();
    whole.insert("profile".into(), json!("tabular-data-package"));
    whole.insert("name".into(), json!("visits"));
    whole.insert("description".into(), json!(about(options)));
    if let Who::Named = options.who {
        whole.insert("created".into(), json!(options.written.iso()));
        whole.insert("program".into(), json!(options.program));
    }
    // Told, so that nobody guesses it from text full of other separators.
    let dialect = json!({ "delimiter": ",", "quoteChar": "\"", "doubleQuote": true, "lineTerminator": "\r\n" });
    let resource = |table: &Table| {
        json!({
            "name": table.name, "path": table.file(), "description": table.says, "profile": "tabular-data-resource",
            "format": "csv", "mediatype": "text/csv", "encoding": "utf-8", "dialect": dialect,
            "schema": schema(table, tables),
        })
    };
    whole.insert("resources".into(), json!(tables.iter().map(resource).collect::<Vec<_>>()));
    print(whole)
}

fn schema(table: &Table, tables: &[Table]) -> Value {
    let mut schema = Map::new();
    schema.insert("fields".into(), json!(table.columns.iter().map(field).collect::<Vec<_>>()));
    schema.insert("missingValues".into(), json!([""]));
    schema.insert("primaryKey".into(), json!(table.key));
    if let Some((column, other)) = referred(table, tables) {
        let reference = json!({ "resource": other.name, "fields": [column] });
        schema.insert("foreignKeys".into(), json!([{ "fields": [column], "reference": reference }]));
    }
    Value::Object(schema)
}

fn field(column: &Column) -> Value {
    let mut constraints = Map::new();
    if column.required {
        constraints.insert("required".into(), json!(true));
    }
    let mut field = Map::new();
    field.insert("name".into(), json!(column.name));
    let mut typed = |name: &str| field.insert("type".into(), json!(name));
    match &column.kind {
        Kind::Text => typed("string"),
        Kind::Word(words) => {
            constraints.insert("enum".into(), json!(words));
            typed("string")
        }
        Kind::Words(_) | Kind::Id | Kind::Ids | Kind::Age => {
            constraints.insert("pattern".into(), json!(pattern(&column.kind)));
            typed("string")
        }
        Kind::Whole(min, max) => {
            constraints.insert("minimum".into(), json!(min));
            if *max < i64::MAX {
                constraints.insert("maximum".into(), json!(max));
            }
            typed("integer")
        }
        Kind::Number(bounds) => {
            if let Some((min, max)) = bounds {
                constraints.insert("minimum".into(), json!(min));
                constraints.insert("maximum".into(), json!(max));
            }
            typed("number")
        }
        Kind::Yes => typed("boolean"),
        Kind::Day => typed("date"),
        Kind::Moment => typed("datetime"),
    };
    if column.kind == Kind::Moment {
        // The default form would let a moment without an offset pass.
        field.insert("format".into(), json!("%Y-%m-%dT%H:%M:%S%z"));
    }
    if column.kind == Kind::Yes {
        field.insert("trueValues".into(), json!(["true"]));
        field.insert("falseValues".into(), json!(["false"]));
    }
    field.insert("description".into(), json!(says(column)));
    if !column.unit.is_empty() {
        field.insert("unit".into(), json!(column.unit));
    }
    if !constraints.is_empty() {
        field.insert("constraints".into(), Value::Object(constraints));
    }
    Value::Object(field)
}

/// The metadata for tables on the web.
pub(super) fn metadata(tables: &[Table], options: &Options<'_>) -> String {
    let mut whole = Map::new();
    whole.insert("@context".into(), json!(["http://www.w3.org/ns/csvw", { "@language": "en" }]));
    whole.insert("dc:description".into(), json!(about(options)));
    if let Who::Named = options.who {
        let typed = json!({ "@value": options.written.iso(), "@type": "xsd:dateTime" });
        whole.insert("dc:created".into(), typed);
    }
    let dialect = json!({
        "encoding": "utf-8", "delimiter": ",", "quoteChar": "\"", "doubleQuote": true, "header": true,
        "lineTerminators": ["\r\n"], "trim": false,
    });
    whole.insert("dialect".into(), dialect);
    whole.insert("tables".into(), json!(tables.iter().map(|each| web_table(each, tables)).collect::<Vec<_>>()));
    print(whole)
}

fn web_table(table: &Table, tables: &[Table]) -> Value {
    let mut schema = Map::new();
    schema.insert("columns".into(), json!(table.columns.iter().map(web_column).collect::<Vec<_>>()));
    schema.insert("primaryKey".into(), json!(table.key));
    if let Some((column, other)) = referred(table, tables) {
        let reference = json!({ "resource": other.file(), "columnReference": [column] });
        schema.insert("foreignKeys".into(), json!([{ "columnReference": [column], "reference": reference }]));
    }
    json!({ "url": table.file(), "dc:description": table.says, "tableSchema": schema })
}

fn web_column(column: &Column) -> Value {
    let datatype = match &column.kind {
        Kind::Text => json!("string"),
        Kind::Word(_) | Kind::Words(_) | Kind::Id | Kind::Ids | Kind::Age => {
            json!({ "base": "string", "format": pattern(&column.kind) })
        }
        Kind::Whole(min, max) if *max == i64::MAX => json!({ "base": "integer", "minimum": min }),
        Kind::Whole(min, max) => json!({ "base": "integer", "minimum": min, "maximum": max }),
        Kind::Number(None) => json!("decimal"),
        Kind::Number(Some((min, max))) => json!({ "base": "decimal", "minimum": min, "maximum": max }),
        Kind::Yes => json!({ "base": "boolean", "format": "true|false" }),
        Kind::Day => json!({ "base": "date", "format": "yyyy-MM-dd" }),
        Kind::Moment => json!("dateTimeStamp"),
    };
    json!({
        "name": column.name, "titles": column.name, "dc:description": says(column), "datatype": datatype,
        "required": column.required,
    })
}

/// The table that a column stands for a row of, when this export has it.
fn referred<'a>(table: &Table, tables: &'a [Table]) -> Option<(&'static str, &'a Table)> {
    let (column, name) = table.refers?;
    Some((column, tables.iter().find(|other| other.name == name)?))
}

fn pattern(kind: &Kind) -> String {
    let any = |words: &[&str]| words.iter().map(|word| plain(word)).collect::<Vec<_>>().join("|");
    let some = |one: &str| format!("^({NONE}|{one}(;{one})*)$");
    match kind {
        Kind::Word(words) => format!("^({})$", any(words)),
        Kind::Words(words) => some(&format!("({})", any(words))),
        Kind::Id => format!("^{NAME}$"),
        Kind::Ids => some(NAME),
        Kind::Age => "^([0-9]|[1-8][0-9]|90[+])$".to_string(),
        Kind::Text | Kind::Whole(..) | Kind::Number(_) | Kind::Yes | Kind::Day | Kind::Moment => String::new(),
    }
}

const NAME: &str = "[a-z0-9_.]+";

/// A word inside a pattern: what has a meaning there stands in brackets.
fn plain(word: &str) -> String {
    let of = |c: char| match c {
        '[' | ']' | '\\' | '^' => format!("\\{c}"),
        '.' | '/' | '*' | '+' | '?' | '(' | ')' | '{' | '}' | '|' | '$' => format!("[{c}]"),
        c => c.to_string(),
    };
    word.chars().map(of).collect()
}

fn says(column: &Column) -> String {
    match column.unit {
        "" => column.says.clone(),
        unit => format!("{} Unit: {unit}.", column.says),
    }
}

fn about(options: &Options<'_>) -> String {
    match options.who {
        Who::Named => ABOUT.to_string(),
        Who::Coded(_) => format!("{ABOUT} {PSEUDONYMISED}"),
    }
}

fn print(whole: Map<String, Value>) -> String {
    let mut text = format!("{:#}", Value::Object(whole));
    text.push('\n');
    text
}
