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

-- Reports of what became of loads, each under its own digest. The table lies in the order of its key, so that the reports of a load
-- are found without an index that could decay and hide one. `own`: this device wrote it, and its journal names it. `signed`: somebody
-- signed it, whether known here or not.
CREATE TABLE movements (
    load       TEXT NOT NULL,
    digest     BLOB NOT NULL CHECK (length(digest) = 32),
    event      TEXT NOT NULL,
    happened   INTEGER NOT NULL,
    issued     INTEGER NOT NULL,
    device     BLOB NOT NULL CHECK (length(device) = 16),
    before     BLOB CHECK (before IS NULL OR length(before) = 32),
    seal       BLOB CHECK (seal IS NULL OR length(seal) = 32),
    own        INTEGER NOT NULL CHECK (own IN (0, 1)),
    signed     INTEGER NOT NULL CHECK (signed IN (0, 1)),
    received   INTEGER NOT NULL,
    authority  BLOB CHECK (authority IS NULL OR length(authority) = 32),
    signer     BLOB CHECK (signer IS NULL OR length(signer) = 32),
    credential BLOB CHECK (credential IS NULL OR length(credential) = 8),
    in_time    INTEGER NOT NULL CHECK (in_time IN (0, 1)),
    bytes      BLOB NOT NULL,
    sum        BLOB NOT NULL,
    PRIMARY KEY (load, digest)
) STRICT, WITHOUT ROWID;
CREATE INDEX movements_by_time ON movements (issued) WHERE in_time = 1;

-- Where each load is on its way and what its tag says of it: a cache for the board, made anew when a word of the load comes.
-- `event` is the last report that counts since the latest inspection, `hint` the last that does not; empty where there is none.
CREATE TABLE flow (
    load             TEXT PRIMARY KEY,
    event            TEXT NOT NULL,
    happened         INTEGER,
    who              TEXT NOT NULL,
    verdict          TEXT NOT NULL,
    hint             TEXT NOT NULL,
    hinted           INTEGER,
    zone             TEXT NOT NULL,
    grid             TEXT NOT NULL,
    destination      TEXT NOT NULL,
    destination_grid TEXT NOT NULL,
    aircraft         TEXT NOT NULL,
    description      TEXT NOT NULL,
    gross            TEXT NOT NULL,
    planner          TEXT NOT NULL,
    rigger           TEXT NOT NULL,
    planned          INTEGER,
    touched          INTEGER NOT NULL,
    judged           INTEGER NOT NULL CHECK (judged >= 0),
    sum              BLOB NOT NULL
) STRICT, WITHOUT ROWID;

-- How each full record was walked, and which record its device sealed before: what a closing asks, without reading ten thousand records.
CREATE TABLE walk_facts (
    seal    BLOB PRIMARY KEY CHECK (length(seal) = 32),
    device  BLOB NOT NULL CHECK (length(device) = 16),
    seconds INTEGER NOT NULL,
    cards   INTEGER NOT NULL CHECK (cards >= 0),
    head    INTEGER NOT NULL CHECK (head >= 0),
    record  BLOB NOT NULL CHECK (length(record) = 32),
    before  BLOB CHECK (before IS NULL OR length(before) = 32),
    sum     BLOB NOT NULL
) STRICT, WITHOUT ROWID;

-- What leaders handed up.
CREATE TABLE closings (
    digest     BLOB PRIMARY KEY CHECK (length(digest) = 32),
    issued     INTEGER NOT NULL,
    received   INTEGER NOT NULL,
    authority  BLOB CHECK (authority IS NULL OR length(authority) = 32),
    signer     BLOB CHECK (signer IS NULL OR length(signer) = 32),
    credential BLOB CHECK (credential IS NULL OR length(credential) = 8),
    in_time    INTEGER NOT NULL CHECK (in_time IN (0, 1)),
    bytes      BLOB NOT NULL,
    sum        BLOB NOT NULL
) STRICT;
