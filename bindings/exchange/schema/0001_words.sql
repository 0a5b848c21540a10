-- Slingseal's common place, step 1: many desks' words under one roof. Run once, by whoever owns the database.
BEGIN;

CREATE SCHEMA slingseal;

-- What is here: the steps that were taken. A program that knows fewer refuses.
CREATE TABLE slingseal.step (
    number integer NOT NULL PRIMARY KEY
);

-- What this place calls itself: a desk remembers by it how far it has read.
CREATE TABLE slingseal.place (
    id uuid NOT NULL PRIMARY KEY
);

-- Every desk that has put words here.
CREATE TABLE slingseal.source (
    id bytea NOT NULL PRIMARY KEY CHECK (octet_length(id) = 16)
);

-- The words, opaque. A desk numbers its own from one on, without a gap, and in no two transactions at once: the primary key
-- lets only one of them have the next number. So nothing with a lower number is ever committed after one with a higher.
CREATE TABLE slingseal.word (
    source bytea    NOT NULL,
    number bigint   NOT NULL CHECK (number > 0),
    key    bytea    NOT NULL UNIQUE CHECK (octet_length(key) = 32),
    kind   smallint NOT NULL CHECK (kind BETWEEN 1 AND 255),
    body   bytea    NOT NULL CHECK (octet_length(body) <= 16777216),
    PRIMARY KEY (source, number)
);

COMMENT ON SCHEMA slingseal IS 'Signed words of many desks, opaque and trusted with nothing: each desk judges what it reads';
COMMENT ON COLUMN slingseal.word.key IS 'SHA-256 over the kind and the SHA-256 of each part: a word lies here once';

INSERT INTO slingseal.place (id) VALUES (gen_random_uuid());
INSERT INTO slingseal.step (number) VALUES (1);

COMMIT;
