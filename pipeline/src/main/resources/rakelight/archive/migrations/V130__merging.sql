-- One more than the highest rank here when a decision was made; nothing where that is its counter. Decisions are in order of
-- rank, then of id: the same in every copy of the archive, whichever was merged into which.
ALTER TABLE decision ADD COLUMN rank INTEGER;
CREATE INDEX decision_rank ON decision (coalesce(rank, counter), id);

-- The place of each decision in that order, from 1. Follows from the journal.
CREATE TABLE decision_place (
  counter INTEGER PRIMARY KEY REFERENCES decision (counter),
  place   INTEGER NOT NULL UNIQUE
) STRICT;
INSERT INTO decision_place (counter, place) SELECT counter, counter FROM decision;

-- Settings of one thing that were decided on two laptops, neither knowing of the other.
CREATE TABLE decided_apart (
  decision_id TEXT    NOT NULL REFERENCES decision (id),
  subject     TEXT    NOT NULL, -- of the joining: the archive
  about       TEXT    NOT NULL, -- the thing that was decided about
  what        TEXT    NOT NULL,
  one         TEXT    NOT NULL,
  other       TEXT    NOT NULL,
  words       TEXT    NOT NULL, -- JSON: what would be seen nowhere any more
  counter     INTEGER NOT NULL,
  left_so     INTEGER NOT NULL DEFAULT 0, -- 1 once somebody said that it may stay as it is
  PRIMARY KEY (one, other)
) STRICT, WITHOUT ROWID;

-- The lending that this archive is the lent part of; no row in any other. No projection: it is of this folder.
CREATE TABLE lent_part (
  lending TEXT NOT NULL PRIMARY KEY
) STRICT, WITHOUT ROWID;

-- Two laptops may give one number to two markers, until the merge has told them apart. Otherwise the program sees to it that a
-- number is given once.
PRAGMA defer_foreign_keys = ON;
CREATE TABLE marker_before AS SELECT * FROM marker;
DROP TABLE marker;
CREATE TABLE marker (
  id          TEXT NOT NULL PRIMARY KEY,
  number      TEXT NOT NULL,
  decision_id TEXT NOT NULL REFERENCES decision (id)
) STRICT, WITHOUT ROWID;
CREATE INDEX marker_number ON marker (number);
CREATE INDEX marker_number_alike ON marker (replace(replace(lower(number), ' ', ''), '0', ''));
INSERT INTO marker SELECT * FROM marker_before;
DROP TABLE marker_before;

-- A photograph that was taken in on two laptops, each for itself, has one row; this is the id it had on the other.
CREATE TABLE photograph_double (
  id     TEXT NOT NULL PRIMARY KEY,
  sha256 TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- The number of a question that had the same as another, raised on another laptop.
CREATE TABLE question_number (
  question TEXT    NOT NULL PRIMARY KEY,
  number   INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
