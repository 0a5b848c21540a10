-- Things that came and that nobody signed: tags, photographs, texts of procedures, examination sheets. `at` is the order in which
-- they came. One that a kept signed word names, or that is used here, is none any more.
CREATE TABLE strays (
    at     INTEGER PRIMARY KEY,
    kind   TEXT NOT NULL CHECK (kind IN ('tag', 'photo', 'procedure', 'sheet')),
    digest BLOB NOT NULL UNIQUE CHECK (length(digest) = 32),
    size   INTEGER NOT NULL CHECK (size >= 0),
    sum    BLOB NOT NULL
) STRICT;

-- What kept signed words name, whether it is here or not.
CREATE TABLE named (
    digest BLOB PRIMARY KEY CHECK (length(digest) = 32),
    sum    BLOB NOT NULL
) STRICT, WITHOUT ROWID;
