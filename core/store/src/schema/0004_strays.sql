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

-- Signed inspections of what is no load, each under the SHA-256 of its own bytes. `name` is a serial number in capitals, an aircraft,
-- a zone or a load number. `record` is the digest of the full record, whether it is here or not. No index: a decayed one must not hide
-- that a piece was withdrawn.
CREATE TABLE inspections (
    digest     BLOB PRIMARY KEY CHECK (length(digest) = 32),
    subject    TEXT NOT NULL CHECK (subject IN ('piece', 'aircraft', 'zone', 'handling')),
    name       TEXT NOT NULL,
    procedure  TEXT NOT NULL,
    version    INTEGER NOT NULL,
    inspector  TEXT NOT NULL,
    fit        INTEGER NOT NULL CHECK (fit IN (0, 1)),
    issued     INTEGER NOT NULL,
    fit_until  INTEGER,
    record     BLOB NOT NULL CHECK (length(record) = 32),
    received   INTEGER NOT NULL,
    authority  BLOB CHECK (authority IS NULL OR length(authority) = 32),
    signer     BLOB CHECK (signer IS NULL OR length(signer) = 32),
    credential BLOB CHECK (credential IS NULL OR length(credential) = 8),
    in_time    INTEGER NOT NULL CHECK (in_time IN (0, 1)),
    bytes      BLOB NOT NULL,
    sum        BLOB NOT NULL
) STRICT;
