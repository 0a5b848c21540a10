-- Every signed word under the SHA-256 of its own bytes, so that none can keep another out by what it claims.
-- The functions row_sum (the check sum of a row) and own_digest (SHA-256) come with the connection. A row that had decayed
-- before this step keeps a check sum that does not match: the step must not make it look sound.

-- One row a seal. `digest` is the record that the seal names: several seals may name one, and only one of them truly.
-- `authority`, `signer`, `credential` and `in_time` tell who signed it, as verified when it came; empty until that was done.
-- `standing`, `reason` and `successor` are a cache of what the judgement said; `judged` is the version of it that spoke, 0 for none.
CREATE TABLE records_3 (
    id          INTEGER PRIMARY KEY,
    seal        BLOB NOT NULL UNIQUE CHECK (length(seal) = 32),
    digest      BLOB NOT NULL CHECK (length(digest) = 32),
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
    standing    TEXT NOT NULL
        CHECK (standing IN ('fit', 'not_fit', 'superseded', 'voided', 'refused', 'wait', 'no_inspection')),
    reason      TEXT NOT NULL,
    successor   BLOB CHECK (successor IS NULL OR length(successor) = 32),
    judged      INTEGER NOT NULL CHECK (judged >= 0),
    authority   BLOB CHECK (authority IS NULL OR length(authority) = 32),
    signer      BLOB CHECK (signer IS NULL OR length(signer) = 32),
    credential  BLOB CHECK (credential IS NULL OR length(credential) = 8),
    in_time     INTEGER NOT NULL CHECK (in_time IN (0, 1)),
    device      BLOB CHECK (device IS NULL OR length(device) = 16),
    received    INTEGER NOT NULL,
    words       TEXT NOT NULL,
    sum         BLOB NOT NULL
) STRICT;
INSERT INTO records_3
    SELECT id, own_digest(b.seal), digest, load, tag, procedure, outcome, inspector, rigger, place, aircraft, mass_g, found,
        corrected, issued, valid_until,
        CASE standing WHEN 'current' THEN outcome ELSE standing END, '', NULL, 0, NULL, NULL, NULL, 0, device, received, words,
        CASE WHEN r.sum IS row_sum(id, digest, load, tag, procedure, outcome, inspector, rigger, place, aircraft, mass_g,
            found, corrected, issued, valid_until, standing, device, received, words)
        THEN row_sum(id, own_digest(b.seal), digest, load, tag, procedure, outcome, inspector, rigger, place, aircraft,
            mass_g, found, corrected, issued, valid_until, CASE standing WHEN 'current' THEN outcome ELSE standing END, '', NULL, 0,
            NULL, NULL, NULL, 0, device, received, words)
        ELSE x'00' END
    FROM records AS r JOIN record_bytes AS b ON b.record = r.id;

-- A record whose bytes are lost is no evidence, and what was counted of it goes with it.
DELETE FROM deficiencies WHERE record NOT IN (SELECT id FROM records_3);
DELETE FROM equipment WHERE record NOT IN (SELECT id FROM records_3);

-- Full records under their own digest, for every seal that names them.
CREATE TABLE bodies (
    digest BLOB NOT NULL UNIQUE CHECK (length(digest) = 32),
    bytes  BLOB NOT NULL
) STRICT;
INSERT OR IGNORE INTO bodies SELECT own_digest(body), body FROM record_bytes WHERE body IS NOT NULL ORDER BY record;

-- The bytes stand apart, so that a list reads few pages. `body` is the digest of the full record, where it is here.
CREATE TABLE record_bytes_3 (
    record INTEGER PRIMARY KEY REFERENCES records (id),
    seal   BLOB NOT NULL,
    body   BLOB CHECK (body IS NULL OR length(body) = 32),
    sum    BLOB NOT NULL
) STRICT;
INSERT INTO record_bytes_3
    SELECT record, seal, own_digest(body), CASE WHEN sum IS row_sum(record, seal, body)
        THEN row_sum(record, seal, own_digest(body)) ELSE x'00' END
    FROM record_bytes WHERE record IN (SELECT id FROM records_3);

DROP TABLE record_bytes;
DROP TABLE records;
ALTER TABLE records_3 RENAME TO records;
ALTER TABLE record_bytes_3 RENAME TO record_bytes;
CREATE INDEX records_by_digest ON records (digest);
CREATE INDEX records_by_issued ON records (issued, id);
CREATE INDEX records_by_load ON records (load, issued, id);
CREATE INDEX records_by_inspector ON records (inspector, issued, id);
CREATE INDEX records_by_standing ON records (standing, issued, id);

-- How each load stands by its latest inspection: a cache of what the judgement said. `state` is what no clock changes; past
-- `valid_until` it has run out, past `turns` it is to be looked into, and so it is where a roster of one of `authorities` (keys of
-- 32 bytes, one behind the other) is too old.
CREATE TABLE loads (
    load        TEXT PRIMARY KEY,
    latest      BLOB NOT NULL CHECK (length(latest) = 32),
    state       TEXT NOT NULL,
    issued      INTEGER NOT NULL,
    valid_until INTEGER NOT NULL,
    turns       INTEGER,
    authorities BLOB NOT NULL CHECK (length(authorities) % 32 = 0),
    judged      INTEGER NOT NULL CHECK (judged >= 0),
    sum         BLOB NOT NULL
) STRICT, WITHOUT ROWID;

CREATE INDEX loads_by_validity ON loads (valid_until);

-- Tags and voids with who signed them. `said` is the time that the signer wrote.
CREATE TABLE tags_3 (
    digest     BLOB PRIMARY KEY CHECK (length(digest) = 32),
    load       TEXT NOT NULL,
    planned    INTEGER NOT NULL CHECK (planned IN (0, 1)),
    received   INTEGER NOT NULL,
    said       INTEGER,
    authority  BLOB CHECK (authority IS NULL OR length(authority) = 32),
    signer     BLOB CHECK (signer IS NULL OR length(signer) = 32),
    credential BLOB CHECK (credential IS NULL OR length(credential) = 8),
    in_time    INTEGER NOT NULL CHECK (in_time IN (0, 1)),
    bytes      BLOB NOT NULL,
    sum        BLOB NOT NULL
) STRICT;
INSERT INTO tags_3
    SELECT digest, load, planned, received, NULL, NULL, NULL, NULL, 0, bytes,
        CASE WHEN sum IS row_sum(digest, load, planned, received, bytes)
        THEN row_sum(digest, load, planned, received, NULL, NULL, NULL, NULL, 0, bytes) ELSE x'00' END
    FROM tags;
DROP TABLE tags;
ALTER TABLE tags_3 RENAME TO tags;
CREATE INDEX tags_by_load ON tags (load, received);
CREATE INDEX tags_by_planned ON tags (planned, received);
CREATE INDEX tags_by_time ON tags (said) WHERE said IS NOT NULL;

CREATE TABLE voids_3 (
    digest     BLOB PRIMARY KEY CHECK (length(digest) = 32),
    record     BLOB NOT NULL CHECK (length(record) = 32),
    load       TEXT NOT NULL,
    issued     INTEGER NOT NULL,
    received   INTEGER NOT NULL,
    authority  BLOB CHECK (authority IS NULL OR length(authority) = 32),
    signer     BLOB CHECK (signer IS NULL OR length(signer) = 32),
    credential BLOB CHECK (credential IS NULL OR length(credential) = 8),
    in_time    INTEGER NOT NULL CHECK (in_time IN (0, 1)),
    bytes      BLOB NOT NULL,
    sum        BLOB NOT NULL
) STRICT;
INSERT INTO voids_3
    SELECT digest, record, load, issued, received, NULL, NULL, NULL, 0, bytes,
        CASE WHEN sum IS row_sum(digest, record, load, issued, received, bytes)
        THEN row_sum(digest, record, load, issued, received, NULL, NULL, NULL, 0, bytes) ELSE x'00' END
    FROM voids;
DROP TABLE voids;
ALTER TABLE voids_3 RENAME TO voids;

-- Every roster that came, each under its own digest; the highest sequence of an authority is the one that holds.
CREATE TABLE rosters_3 (
    digest    BLOB PRIMARY KEY CHECK (length(digest) = 32),
    authority BLOB NOT NULL CHECK (length(authority) = 32),
    sequence  INTEGER NOT NULL,
    issued    INTEGER NOT NULL,
    received  INTEGER NOT NULL,
    bytes     BLOB NOT NULL,
    sum       BLOB NOT NULL
) STRICT;
INSERT INTO rosters_3
    SELECT own_digest(bytes), authority, sequence, issued, received, bytes,
        CASE WHEN sum IS row_sum(authority, sequence, issued, received, bytes)
        THEN row_sum(own_digest(bytes), authority, sequence, issued, received, bytes) ELSE x'00' END
    FROM rosters;
DROP TABLE rosters;
ALTER TABLE rosters_3 RENAME TO rosters;

-- Cards of authorities as they came, each under its own digest: a later card of the same key hides no earlier one.
CREATE TABLE cards (
    digest   BLOB PRIMARY KEY CHECK (length(digest) = 32),
    key      BLOB NOT NULL CHECK (length(key) = 32),
    received INTEGER NOT NULL,
    bytes    BLOB NOT NULL,
    sum      BLOB NOT NULL
) STRICT;
INSERT INTO cards
    SELECT own_digest(bytes), key, added, bytes,
        CASE WHEN sum IS row_sum(key, name, trusted, added, bytes)
        THEN row_sum(own_digest(bytes), key, added, bytes) ELSE x'00' END
    FROM authorities;

-- Texts of procedures under their digest. `id`, `version` and `name` are empty until the text was read.
CREATE TABLE procedure_texts (
    digest  BLOB PRIMARY KEY CHECK (length(digest) = 32),
    id      TEXT,
    version INTEGER,
    name    TEXT,
    text    BLOB NOT NULL,
    sum     BLOB NOT NULL
) STRICT;
-- The unit's own procedures that are walked by: one text an id.
CREATE TABLE procedures_in_use (
    id     TEXT PRIMARY KEY,
    digest BLOB NOT NULL CHECK (length(digest) = 32),
    sum    BLOB NOT NULL
) STRICT, WITHOUT ROWID;
INSERT OR IGNORE INTO procedure_texts
    SELECT own_digest(value), NULL, NULL, NULL, value, row_sum(own_digest(value), NULL, NULL, NULL, value)
    FROM settings WHERE (name GLOB 'procedure-text/*' OR name GLOB 'procedure/*') AND sum IS row_sum(name, value);
INSERT INTO procedures_in_use
    SELECT substr(name, 11), own_digest(value), row_sum(substr(name, 11), own_digest(value))
    FROM settings WHERE name GLOB 'procedure/*' AND sum IS row_sum(name, value);
DELETE FROM settings WHERE name = 'procedures'
    OR ((name GLOB 'procedure-text/*' OR name GLOB 'procedure/*') AND sum IS row_sum(name, value));

-- The ends of other devices' journals, in the order in which they were heard of. `record` is the signed record that tells one;
-- one without is a hint and nothing more.
CREATE TABLE journal_heads (
    at     INTEGER PRIMARY KEY CHECK (at >= 0),
    device BLOB NOT NULL CHECK (length(device) = 16),
    seq    INTEGER NOT NULL CHECK (seq >= 0),
    digest BLOB NOT NULL CHECK (length(digest) = 32),
    record BLOB CHECK (record IS NULL OR length(record) = 32),
    sum    BLOB NOT NULL
) STRICT;

-- What this device remembers of itself. `writes` counts what the journal does not; `judged` is the latest time that its own
-- clock showed when it judged or took in anything; `put_back` is since when an older copy of this file is known to have been
-- put back.
CREATE TABLE memory (
    one      INTEGER PRIMARY KEY CHECK (one = 1),
    writes   INTEGER NOT NULL CHECK (writes >= 0),
    judged   INTEGER,
    put_back INTEGER,
    sum      BLOB NOT NULL
) STRICT;
INSERT INTO memory SELECT 1, 0, NULL, NULL, row_sum(1, 0, NULL, NULL);
