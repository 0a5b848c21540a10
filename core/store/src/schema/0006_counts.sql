-- What records, deficiencies and equipment of all time come to: kept by triggers as SQLite keeps an index, so that a million
-- records are told as fast as ten. They are a cache without check sums: the check of a home holds each against its view, which
-- counts anew, and a salvaged home fills them from the rows that were saved.

CREATE VIEW record_counts_anew AS
    SELECT procedure, rigger, inspector, device IS NOT NULL AS whole, count(*) AS records, sum(found > 0) AS with_findings,
        sum(found) AS found, sum(corrected) AS corrected, sum(outcome = 'fit') AS fit, max(issued) AS last
    FROM records WHERE standing <> 'no_inspection' GROUP BY procedure, rigger, inspector, whole;
-- `whole`: the full record is here.
CREATE TABLE record_counts (
    procedure     TEXT NOT NULL,
    rigger        TEXT NOT NULL,
    inspector     TEXT NOT NULL,
    whole         INTEGER NOT NULL CHECK (whole IN (0, 1)),
    records       INTEGER NOT NULL,
    with_findings INTEGER NOT NULL,
    found         INTEGER NOT NULL,
    corrected     INTEGER NOT NULL,
    fit           INTEGER NOT NULL,
    last          INTEGER NOT NULL,
    PRIMARY KEY (procedure, rigger, inspector, whole)
) STRICT, WITHOUT ROWID;
INSERT INTO record_counts SELECT * FROM record_counts_anew;

-- Answers which record of a group is the last where that one leaves it. The old index answered what is counted now.
DROP INDEX records_in_groups;
CREATE INDEX records_in_groups ON records
    (procedure, rigger, inspector, (device IS NOT NULL), (standing <> 'no_inspection'), issued);

CREATE TRIGGER records_come AFTER INSERT ON records WHEN NEW.standing <> 'no_inspection' BEGIN
    INSERT INTO record_counts VALUES (NEW.procedure, NEW.rigger, NEW.inspector, NEW.device IS NOT NULL, 1, NEW.found > 0,
        NEW.found, NEW.corrected, NEW.outcome = 'fit', NEW.issued)
    ON CONFLICT DO UPDATE SET records = records + 1, with_findings = with_findings + excluded.with_findings,
        found = found + excluded.found, corrected = corrected + excluded.corrected, fit = fit + excluded.fit,
        last = max(last, excluded.last);
END;

CREATE TRIGGER records_go AFTER DELETE ON records WHEN OLD.standing <> 'no_inspection' BEGIN
    UPDATE record_counts SET records = records - 1, with_findings = with_findings - (OLD.found > 0), found = found - OLD.found,
        corrected = corrected - OLD.corrected, fit = fit - (OLD.outcome = 'fit'),
        last = CASE WHEN OLD.issued < last THEN last ELSE coalesce((
            SELECT issued FROM records AS r WHERE r.procedure = OLD.procedure AND r.rigger = OLD.rigger
                AND r.inspector = OLD.inspector AND (r.device IS NOT NULL) = (OLD.device IS NOT NULL)
                AND (r.standing <> 'no_inspection') = 1 ORDER BY issued DESC LIMIT 1), 0) END
    WHERE procedure = OLD.procedure AND rigger = OLD.rigger AND inspector = OLD.inspector AND whole = (OLD.device IS NOT NULL);
    DELETE FROM record_counts WHERE procedure = OLD.procedure AND rigger = OLD.rigger AND inspector = OLD.inspector
        AND whole = (OLD.device IS NOT NULL) AND records = 0;
END;

-- A full record that comes after its seal, a tag that comes after it, somebody who turns out to be no inspector.
CREATE TRIGGER records_change
AFTER UPDATE OF procedure, rigger, inspector, device, found, corrected, outcome, issued, standing ON records
WHEN (OLD.procedure, OLD.rigger, OLD.inspector, OLD.device IS NULL, OLD.found, OLD.corrected, OLD.outcome, OLD.issued,
        OLD.standing = 'no_inspection')
    IS NOT (NEW.procedure, NEW.rigger, NEW.inspector, NEW.device IS NULL, NEW.found, NEW.corrected, NEW.outcome, NEW.issued,
        NEW.standing = 'no_inspection')
BEGIN
    UPDATE record_counts SET records = records - 1, with_findings = with_findings - (OLD.found > 0), found = found - OLD.found,
        corrected = corrected - OLD.corrected, fit = fit - (OLD.outcome = 'fit'),
        last = CASE WHEN OLD.issued < last THEN last ELSE coalesce((
            SELECT issued FROM records AS r WHERE r.procedure = OLD.procedure AND r.rigger = OLD.rigger
                AND r.inspector = OLD.inspector AND (r.device IS NOT NULL) = (OLD.device IS NOT NULL)
                AND (r.standing <> 'no_inspection') = 1 ORDER BY issued DESC LIMIT 1), 0) END
    WHERE OLD.standing <> 'no_inspection' AND procedure = OLD.procedure AND rigger = OLD.rigger
        AND inspector = OLD.inspector AND whole = (OLD.device IS NOT NULL);
    DELETE FROM record_counts WHERE procedure = OLD.procedure AND rigger = OLD.rigger AND inspector = OLD.inspector
        AND whole = (OLD.device IS NOT NULL) AND records = 0;
    INSERT INTO record_counts SELECT NEW.procedure, NEW.rigger, NEW.inspector, NEW.device IS NOT NULL, 1, NEW.found > 0,
        NEW.found, NEW.corrected, NEW.outcome = 'fit', NEW.issued WHERE NEW.standing <> 'no_inspection'
    ON CONFLICT DO UPDATE SET records = records + 1, with_findings = with_findings + excluded.with_findings,
        found = found + excluded.found, corrected = corrected + excluded.corrected, fit = fit + excluded.fit,
        last = max(last, excluded.last);
END;

CREATE VIEW deficiency_counts_anew AS
    SELECT procedure, point, name, rigger, count(*) AS found, sum(corrected) AS corrected
    FROM deficiencies GROUP BY procedure, point, name, rigger;
CREATE TABLE deficiency_counts (
    procedure TEXT NOT NULL,
    point     TEXT NOT NULL,
    name      TEXT NOT NULL,
    rigger    TEXT NOT NULL,
    found     INTEGER NOT NULL,
    corrected INTEGER NOT NULL,
    PRIMARY KEY (procedure, point, name, rigger)
) STRICT, WITHOUT ROWID;
INSERT INTO deficiency_counts SELECT * FROM deficiency_counts_anew;

-- A point that has several deficiencies in one record is counted once for it.
CREATE VIEW point_counts_anew AS
    SELECT procedure, point, count(DISTINCT record) AS records FROM deficiencies GROUP BY procedure, point;
CREATE TABLE point_counts (
    procedure TEXT NOT NULL,
    point     TEXT NOT NULL,
    records   INTEGER NOT NULL,
    PRIMARY KEY (procedure, point)
) STRICT, WITHOUT ROWID;
INSERT INTO point_counts SELECT * FROM point_counts_anew;
DROP INDEX deficiencies_by_point;

CREATE TRIGGER deficiencies_come AFTER INSERT ON deficiencies BEGIN
    INSERT INTO deficiency_counts VALUES (NEW.procedure, NEW.point, NEW.name, NEW.rigger, 1, NEW.corrected)
    ON CONFLICT DO UPDATE SET found = found + 1, corrected = corrected + excluded.corrected;
    INSERT INTO point_counts SELECT NEW.procedure, NEW.point, 1 WHERE NOT EXISTS (
        SELECT 1 FROM deficiencies AS d WHERE d.record = NEW.record AND d.at <> NEW.at AND d.procedure = NEW.procedure
            AND d.point = NEW.point)
    ON CONFLICT DO UPDATE SET records = records + 1;
END;

CREATE TRIGGER deficiencies_go AFTER DELETE ON deficiencies BEGIN
    UPDATE deficiency_counts SET found = found - 1, corrected = corrected - OLD.corrected
    WHERE procedure = OLD.procedure AND point = OLD.point AND name = OLD.name AND rigger = OLD.rigger;
    DELETE FROM deficiency_counts WHERE procedure = OLD.procedure AND point = OLD.point AND name = OLD.name
        AND rigger = OLD.rigger AND found = 0;
    UPDATE point_counts SET records = records - 1 WHERE procedure = OLD.procedure AND point = OLD.point AND NOT EXISTS (
        SELECT 1 FROM deficiencies AS d WHERE d.record = OLD.record AND d.procedure = OLD.procedure AND d.point = OLD.point);
    DELETE FROM point_counts WHERE procedure = OLD.procedure AND point = OLD.point AND records = 0;
END;

CREATE VIEW equipment_counts_anew AS
    SELECT serial, kind, count(*) AS records, max(issued) AS last
    FROM equipment JOIN records ON records.id = record GROUP BY serial, kind;
CREATE TABLE equipment_counts (
    serial  TEXT NOT NULL,
    kind    TEXT NOT NULL,
    records INTEGER NOT NULL,
    last    INTEGER NOT NULL,
    PRIMARY KEY (serial, kind)
) STRICT, WITHOUT ROWID;
INSERT INTO equipment_counts SELECT * FROM equipment_counts_anew;

CREATE TRIGGER equipment_comes AFTER INSERT ON equipment BEGIN
    INSERT INTO equipment_counts VALUES (NEW.serial, NEW.kind, 1,
        coalesce((SELECT issued FROM records WHERE id = NEW.record), 0))
    ON CONFLICT DO UPDATE SET records = records + 1, last = max(last, excluded.last);
END;

CREATE TRIGGER equipment_goes AFTER DELETE ON equipment BEGIN
    UPDATE equipment_counts SET records = records - 1, last = coalesce((
        SELECT max(r.issued) FROM equipment AS e JOIN records AS r ON r.id = e.record
        WHERE e.serial = OLD.serial AND e.kind = OLD.kind), 0)
    WHERE serial = OLD.serial AND kind = OLD.kind;
    DELETE FROM equipment_counts WHERE serial = OLD.serial AND kind = OLD.kind AND records = 0;
END;

-- Pages of what is rare among a million: a rigger, a zone, a procedure.
CREATE INDEX records_by_rigger ON records (rigger, issued, id);
CREATE INDEX records_by_place ON records (place, issued, id);
CREATE INDEX records_by_procedure ON records (procedure, issued, id);
