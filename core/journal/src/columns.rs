//! How ids lie in a database's columns.

use rusqlite::types::{FromSql, FromSqlResult, ToSql, ToSqlOutput, ValueRef};

use crate::{DeviceId, WalkId};

macro_rules! bytes_column {
    ($name:ident) => {
        impl ToSql for $name {
            fn to_sql(&self) -> rusqlite::Result<ToSqlOutput<'_>> {
                Ok(ToSqlOutput::Borrowed(ValueRef::Blob(&self.0)))
            }
        }

        impl FromSql for $name {
            fn column_result(value: ValueRef<'_>) -> FromSqlResult<Self> {
                <[u8; 16]>::column_result(value).map($name)
            }
        }
    };
}
bytes_column!(DeviceId);
bytes_column!(WalkId);
