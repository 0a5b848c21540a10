-- How each full record was walked lies where the record lies, in the order in which records came: under the digests of seals every
-- new one fell on a page of its own. The seal and the record's digest stand in `records`, as those of deficiencies do.
-- A row that had decayed, or that speaks of another record than its seal, is left out: it is derived anew from the full record.
CREATE TABLE walk_facts_7 (
    record  INTEGER PRIMARY KEY REFERENCES records (id),
    device  BLOB NOT NULL CHECK (length(device) = 16),
    seconds INTEGER NOT NULL,
    cards   INTEGER NOT NULL CHECK (cards >= 0),
    head    INTEGER NOT NULL CHECK (head >= 0),
    before  BLOB CHECK (before IS NULL OR length(before) = 32),
    sum     BLOB NOT NULL
) STRICT;
INSERT INTO walk_facts_7
    SELECT r.id, f.device, f.seconds, f.cards, f.head, f.before,
        row_sum(r.id, f.device, f.seconds, f.cards, f.head, f.before)
    FROM walk_facts AS f JOIN records AS r ON r.seal = f.seal AND r.digest = f.record
    WHERE f.sum IS row_sum(f.seal, f.device, f.seconds, f.cards, f.head, f.record, f.before)
    ORDER BY r.id;
DROP TABLE walk_facts;
ALTER TABLE walk_facts_7 RENAME TO walk_facts;

-- What counts for nothing touches no load, and is looked for by its own time when a day is asked for.
CREATE INDEX flow_by_hinted ON flow (hinted) WHERE hinted IS NOT NULL;
