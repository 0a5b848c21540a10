-- What a home keeps. Opaque bytes are kept as they came; the columns beside them are an index that the facade writes.
-- `sum` is the first eight bytes of a SHA-256 over the other columns of the row: it finds decay, not forgery.
-- Times are seconds since 1970-01-01T00:00:00Z. Digests are SHA-256, 32 bytes.

CREATE TABLE device (
    one INTEGER PRIMARY KEY CHECK (one = 1),
    id  BLOB NOT NULL CHECK (length(id) = 16),
    sum BLOB NOT NULL
) STRICT;

-- The chain of everything that happened on this device. Never updated, never deleted from.
CREATE TABLE journal (
    seq    INTEGER PRIMARY KEY CHECK (seq > 0),
    time   INTEGER NOT NULL,
    kind   TEXT NOT NULL,
    walk   BLOB CHECK (walk IS NULL OR length(walk) = 16),
    body   BLOB NOT NULL,
    prev   BLOB NOT NULL CHECK (length(prev) = 32),
    digest BLOB NOT NULL CHECK (length(digest) = 32)
) STRICT;
CREATE INDEX journal_by_walk ON journal (walk, seq) WHERE walk IS NOT NULL;
CREATE TRIGGER journal_is_not_rewritten BEFORE UPDATE ON journal
    BEGIN SELECT RAISE(ABORT, 'a journal entry is never changed'); END;
CREATE TRIGGER journal_is_not_cut BEFORE DELETE ON journal
    BEGIN SELECT RAISE(ABORT, 'a journal entry is never removed'); END;

-- Entries of other devices' journals, for audit. A forked device shows as two digests for one number.
CREATE TABLE foreign_journal (
    device BLOB NOT NULL CHECK (length(device) = 16),
    seq    INTEGER NOT NULL CHECK (seq > 0),
    digest BLOB NOT NULL CHECK (length(digest) = 32),
    time   INTEGER NOT NULL,
    kind   TEXT NOT NULL,
    walk   BLOB CHECK (walk IS NULL OR length(walk) = 16),
    body   BLOB NOT NULL,
    prev   BLOB NOT NULL CHECK (length(prev) = 32),
    PRIMARY KEY (device, seq, digest)
) STRICT, WITHOUT ROWID;

-- `entries` says how many journal entries a walk has at least: one that is not found is missed.
CREATE TABLE walks (
    id        BLOB PRIMARY KEY CHECK (length(id) = 16),
    load      TEXT NOT NULL,
    procedure TEXT NOT NULL,
    inspector TEXT NOT NULL,
    state     TEXT NOT NULL CHECK (state IN ('open', 'paused', 'decided', 'sealed', 'abandoned')),
    begun     INTEGER NOT NULL,
    updated   INTEGER NOT NULL,
    entries   INTEGER NOT NULL,
    sum       BLOB NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX walks_by_state ON walks (state, updated);
CREATE INDEX walks_by_load ON walks (load, updated);

CREATE TABLE records (
    id          INTEGER PRIMARY KEY,
    digest      BLOB NOT NULL UNIQUE CHECK (length(digest) = 32),
    load        TEXT NOT NULL,
    tag         BLOB CHECK (tag IS NULL OR length(tag) = 32),
    procedure   TEXT NOT NULL,
    outcome     TEXT NOT NULL CHECK (outcome IN ('fit', 'not_fit')),
    inspector   TEXT NOT NULL,
    rigger      TEXT NOT NULL,
    place       TEXT NOT NULL,
    aircraft    TEXT NOT NULL,
    mass_g      INTEGER,
    found       INTEGER NOT NULL,
    corrected   INTEGER NOT NULL,
    issued      INTEGER NOT NULL,
    valid_until INTEGER NOT NULL,
    standing    TEXT NOT NULL CHECK (standing IN ('current', 'superseded', 'voided')),
    device      BLOB CHECK (device IS NULL OR length(device) = 16),
    received    INTEGER NOT NULL,
    words       TEXT NOT NULL,
    sum         BLOB NOT NULL
) STRICT;
CREATE INDEX records_by_issued ON records (issued, id);
CREATE INDEX records_by_load ON records (load, issued, id);
CREATE INDEX records_by_inspector ON records (inspector, issued, id);
CREATE INDEX records_by_tag ON records (tag) WHERE tag IS NOT NULL;
CREATE INDEX records_by_standing ON records (standing, issued, id);
CREATE INDEX records_by_state ON records (standing, outcome, valid_until);

-- The bytes stand apart, so that a list reads few pages. `body` is empty where only the seal was seen.
CREATE TABLE record_bytes (
    record INTEGER PRIMARY KEY REFERENCES records (id),
    seal   BLOB NOT NULL,
    body   BLOB,
    sum    BLOB NOT NULL
) STRICT;

CREATE TABLE deficiencies (
    record    INTEGER NOT NULL REFERENCES records (id),
    at        INTEGER NOT NULL,
    procedure TEXT NOT NULL,
    point     TEXT NOT NULL,
    name      TEXT NOT NULL,
    rigger    TEXT NOT NULL,
    corrected INTEGER NOT NULL CHECK (corrected IN (0, 1)),
    sum       BLOB NOT NULL,
    PRIMARY KEY (record, at)
) STRICT, WITHOUT ROWID;
CREATE INDEX deficiencies_by_point ON deficiencies (procedure, point, name, rigger, corrected);

CREATE TABLE equipment (
    record INTEGER NOT NULL REFERENCES records (id),
    at     INTEGER NOT NULL,
    serial TEXT NOT NULL,
    kind   TEXT NOT NULL,
    sum    BLOB NOT NULL,
    PRIMARY KEY (record, at)
) STRICT, WITHOUT ROWID;
CREATE INDEX equipment_by_serial ON equipment (serial, kind, record);

-- Words of a record, for search. Holds no text of its own: what it finds is a record's id.
CREATE VIRTUAL TABLE record_words USING fts5 (
    words, content = '', contentless_delete = 1, detail = none, prefix = '1 2 3',
    tokenize = "unicode61 remove_diacritics 2"
);

CREATE TABLE tags (
    digest   BLOB PRIMARY KEY CHECK (length(digest) = 32),
    load     TEXT NOT NULL,
    planned  INTEGER NOT NULL CHECK (planned IN (0, 1)),
    received INTEGER NOT NULL,
    bytes    BLOB NOT NULL,
    sum      BLOB NOT NULL
) STRICT;
CREATE INDEX tags_by_load ON tags (load, received);
CREATE INDEX tags_by_planned ON tags (planned, received);

CREATE TABLE voids (
    digest   BLOB PRIMARY KEY CHECK (length(digest) = 32),
    record   BLOB NOT NULL CHECK (length(record) = 32),
    load     TEXT NOT NULL,
    issued   INTEGER NOT NULL,
    received INTEGER NOT NULL,
    bytes    BLOB NOT NULL,
    sum      BLOB NOT NULL
) STRICT;

CREATE TABLE authorities (
    key     BLOB PRIMARY KEY CHECK (length(key) = 32),
    name    TEXT NOT NULL,
    trusted INTEGER NOT NULL CHECK (trusted IN (0, 1)),
    added   INTEGER NOT NULL,
    bytes   BLOB NOT NULL,
    sum     BLOB NOT NULL
) STRICT;

-- One roster an authority: the highest sequence that was ever seen.
CREATE TABLE rosters (
    authority BLOB PRIMARY KEY CHECK (length(authority) = 32),
    sequence  INTEGER NOT NULL,
    issued    INTEGER NOT NULL,
    received  INTEGER NOT NULL,
    bytes     BLOB NOT NULL,
    sum       BLOB NOT NULL
) STRICT;

CREATE TABLE credentials (
    digest    BLOB PRIMARY KEY CHECK (length(digest) = 32),
    authority BLOB NOT NULL CHECK (length(authority) = 32),
    holder    TEXT NOT NULL,
    roles     TEXT NOT NULL,
    expires   INTEGER NOT NULL,
    own       INTEGER NOT NULL CHECK (own IN (0, 1)),
    received  INTEGER NOT NULL,
    bytes     BLOB NOT NULL,
    sum       BLOB NOT NULL
) STRICT;
CREATE INDEX credentials_by_expiry ON credentials (expires);

CREATE TABLE quarantine (
    digest   BLOB PRIMARY KEY CHECK (length(digest) = 32),
    reason   TEXT NOT NULL,
    received INTEGER NOT NULL,
    bytes    BLOB NOT NULL,
    sum      BLOB NOT NULL
) STRICT;

CREATE TABLE photos (
    digest   BLOB PRIMARY KEY CHECK (length(digest) = 32),
    received INTEGER NOT NULL,
    bytes    BLOB NOT NULL
) STRICT;

-- Keys under a PIN or a passphrase, encrypted before they come here.
CREATE TABLE vaults (
    name       TEXT PRIMARY KEY,
    bytes      BLOB NOT NULL,
    wrong      INTEGER NOT NULL CHECK (wrong >= 0),
    not_before INTEGER NOT NULL,
    sum        BLOB NOT NULL
) STRICT;

CREATE TABLE settings (
    name  TEXT PRIMARY KEY,
    value BLOB NOT NULL,
    sum   BLOB NOT NULL
) STRICT;
