//! The account as tables for a database: a script in SQL that PostgreSQL takes, with typed columns and a comment on each.

use std::fmt::Write as _;

/// The kind of a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SqlType {
    /// A text.
    Text,
    /// A moment, UTC.
    Moment,
    /// A whole number.
    Count,
    /// A number with decimals.
    Number,
    /// Yes or no.
    Flag,
}

impl SqlType {
    fn word(self) -> &'static str {
        match self {
            Self::Text => "text",
            Self::Moment => "timestamptz",
            Self::Count => "bigint",
            Self::Number => "numeric",
            Self::Flag => "boolean",
        }
    }
}

/// A table: its name, what a row is, and its columns with what each holds.
#[derive(Clone, Copy, Debug)]
pub struct SqlTable {
    /// Its name.
    pub name: &'static str,
    /// What a row is.
    pub comment: &'static str,
    /// Name, kind and meaning of each column.
    pub columns: &'static [(&'static str, SqlType, &'static str)],
}

/// What stands in a column of a row; none where it is not known.
pub type SqlCell = Option<String>;

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

impl SqlTable {
    /// What makes the table, and begins its rows.
    pub fn begin(&self, schema: &str) -> String {
        let table = format!("{schema}.{}", self.name);
        let columns: Vec<String> =
            self.columns.iter().map(|(name, kind, _)| format!("    {name} {}", kind.word())).collect();
        let mut text = format!("\nCREATE TABLE {table} (\n{}\n);\n", columns.join(",\n"));
        let _ = writeln!(text, "COMMENT ON TABLE {table} IS {};", quoted(self.comment));
        for (name, _, meaning) in self.columns {
            let _ = writeln!(text, "COMMENT ON COLUMN {table}.{name} IS {};", quoted(meaning));
        }
        let names: Vec<&str> = self.columns.iter().map(|(name, ..)| *name).collect();
        let _ = writeln!(text, "COPY {table} ({}) FROM stdin;", names.join(", "));
        text
    }

    /// What ends its rows.
    pub const END: &'static str = "\\.\n";
}

/// One row with its end, as COPY takes it: a tab between columns, a backslash before what would end one.
pub fn copy_line(cells: &[SqlCell]) -> String {
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
    use super::{SqlTable, SqlType, copy_line, sql_head};

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
        const TABLE: SqlTable = SqlTable {
            name: "loads",
            comment: "A load's row",
            columns: &[("load", SqlType::Text, "Its number"), ("lifts", SqlType::Count, "How often")],
        };
        let text = TABLE.begin("account");
        assert!(
            text.contains("CREATE TABLE account.loads (\n    load text,\n    lifts bigint\n);"),
            "{text}"
        );
        assert!(text.contains("IS 'A load''s row';"), "{text}");
        assert!(text.ends_with("COPY account.loads (load, lifts) FROM stdin;\n"), "{text}");
        assert!(sql_head("account", "x").contains("DROP SCHEMA IF EXISTS account CASCADE"));
    }
}
