//! The account as tables for a database: a script in SQL that PostgreSQL takes, with typed columns and a comment on each.

use std::fmt::Write as _;

use super::{AccountCell, AccountTable, ColumnType};

/// PostgreSQL's name of a column's type.
fn word(kind: ColumnType) -> &'static str {
    match kind {
        ColumnType::Text => "text",
        ColumnType::Moment => "timestamptz",
        ColumnType::Count => "bigint",
        ColumnType::Number => "numeric",
        ColumnType::Flag => "boolean",
    }
}

/// What begins a script: all of it or nothing, and the tables of a script before are replaced.
pub fn sql_head(schema: &str, comment: &str) -> String {
    format!(
        "-- psql DATABASE -f THIS-FILE: the tables of a file that was read before are replaced, all of them or none.\n\
         \\set ON_ERROR_STOP on\nBEGIN;\nSET LOCAL client_encoding = 'UTF8';\nDROP SCHEMA IF EXISTS {schema} CASCADE;\n\
         CREATE SCHEMA {schema};\nCOMMENT ON SCHEMA {schema} IS {};\n",
        quoted(comment)
    )
}

/// What ends it.
pub const SQL_END: &str = "COMMIT;\n";

/// What makes a table, and begins its rows.
pub fn sql_begin(schema: &str, of: &AccountTable) -> String {
    let table = format!("{schema}.{}", of.name);
    let columns: Vec<String> =
        of.columns.iter().map(|(name, kind, _)| format!("    {name} {}", word(*kind))).collect();
    let mut text = format!("\nCREATE TABLE {table} (\n{}\n);\n", columns.join(",\n"));
    let _ = writeln!(text, "COMMENT ON TABLE {table} IS {};", quoted(of.comment));
    for (name, _, meaning) in of.columns {
        let _ = writeln!(text, "COMMENT ON COLUMN {table}.{name} IS {};", quoted(meaning));
    }
    let names: Vec<&str> = of.columns.iter().map(|(name, ..)| *name).collect();
    let _ = writeln!(text, "COPY {table} ({}) FROM stdin;", names.join(", "));
    text
}

/// What ends the rows of a table.
pub const SQL_ROWS_END: &str = "\\.\n";

/// One row with its end, as COPY takes it: a tab between columns, a backslash before what would end one.
pub fn copy_line(cells: &[AccountCell]) -> String {
    let mut line = String::new();
    for (at, cell) in cells.iter().enumerate() {
        if at > 0 {
            line.push('\t');
        }
        match cell {
            None => line.push_str("\\N"),
            Some(text) => {
                for letter in text.chars() {
                    match letter {
                        '\\' => line.push_str("\\\\"),
                        '\t' => line.push_str("\\t"),
                        '\n' => line.push_str("\\n"),
                        '\r' => line.push_str("\\r"),
                        // no database text holds it
                        '\0' => {}
                        other => line.push(other),
                    }
                }
            }
        }
    }
    line.push('\n');
    line
}

fn quoted(text: &str) -> String {
    format!("'{}'", text.replace('\'', "''"))
}

#[cfg(test)]
mod tests {
    use super::{copy_line, sql_begin, sql_head};
    use crate::report::{AccountTable, ColumnType};

    #[test]
    fn no_text_ends_a_row_or_the_rows() {
        let hostile = ["a\tb", "\\.", "\\N", "x\ny\r", "'; DROP TABLE loads; --", "nul\0"];
        let cells: Vec<_> = hostile.iter().map(|text| Some((*text).to_owned())).chain([None]).collect();
        let line = copy_line(&cells);
        assert_eq!(line, "a\\tb\t\\\\.\t\\\\N\tx\\ny\\r\t'; DROP TABLE loads; --\tnul\t\\N\n");
        assert_eq!(line.matches('\n').count(), 1);
    }

    #[test]
    fn a_table_says_what_it_holds() {
        const TABLE: AccountTable = AccountTable {
            name: "loads",
            comment: "A load's row",
            columns: &[("load", ColumnType::Text, "Its number"), ("lifts", ColumnType::Count, "How often")],
        };
        let text = sql_begin("account", &TABLE);
        assert!(
            text.contains("CREATE TABLE account.loads (\n    load text,\n    lifts bigint\n);"),
            "{text}"
        );
        assert!(text.contains("IS 'A load''s row';"), "{text}");
        assert!(text.ends_with("COPY account.loads (load, lifts) FROM stdin;\n"), "{text}");
        assert!(sql_head("account", "x").contains("DROP SCHEMA IF EXISTS account CASCADE"));
    }
}
