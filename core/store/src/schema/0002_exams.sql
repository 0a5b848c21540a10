-- Examinations of students: never inspections, and in tables of their own, so that none stands among the records.
-- What travels: keys (an instructor's lock), sheets (a run that ended) and results, each by the digest of its bytes.
CREATE TABLE exam_papers (
    digest    BLOB PRIMARY KEY CHECK (length(digest) = 32),
    kind      TEXT NOT NULL CHECK (kind IN ('key', 'sheet', 'result')),
    key       BLOB NOT NULL CHECK (length(key) = 32),
    load      TEXT NOT NULL,
    procedure TEXT NOT NULL,
    student   TEXT NOT NULL,
    made      INTEGER NOT NULL,
    received  INTEGER NOT NULL,
    bytes     BLOB NOT NULL,
    sum       BLOB NOT NULL
) STRICT;
CREATE INDEX exam_papers_by_key ON exam_papers (key, kind);
CREATE INDEX exam_papers_by_kind ON exam_papers (kind, made);

-- Runs of this device. Their events stand in the journal under `walk`; `entries` says how many there are at least.
CREATE TABLE exam_runs (
    walk      BLOB PRIMARY KEY CHECK (length(walk) = 16),
    key       BLOB NOT NULL CHECK (length(key) = 32),
    load      TEXT NOT NULL,
    procedure TEXT NOT NULL,
    student   TEXT NOT NULL,
    state     TEXT NOT NULL CHECK (state IN ('open', 'ended', 'lost')),
    begun     INTEGER NOT NULL,
    updated   INTEGER NOT NULL,
    entries   INTEGER NOT NULL,
    sum       BLOB NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX exam_runs_by_state ON exam_runs (state, updated);
