-- The journal: what was decided, by whom, when, from what. Rows are added and never changed.
CREATE TABLE decision (
  counter INTEGER PRIMARY KEY,
  id      TEXT    NOT NULL UNIQUE,
  reader  TEXT    NOT NULL,
  at      TEXT    NOT NULL,
  kind    TEXT    NOT NULL,
  version INTEGER NOT NULL,
  subject TEXT    NOT NULL,
  payload TEXT    NOT NULL
) STRICT;
CREATE INDEX decision_subject ON decision (subject, counter);

CREATE TRIGGER decision_is_never_changed BEFORE UPDATE ON decision
BEGIN SELECT RAISE(ABORT, 'decisions are never changed'); END;
CREATE TRIGGER decision_is_never_removed BEFORE DELETE ON decision
BEGIN SELECT RAISE(ABORT, 'decisions are never removed'); END;

-- Which decisions a decision rests on.
CREATE TABLE decision_rests_on (
  decision TEXT NOT NULL REFERENCES decision (id),
  rests_on TEXT NOT NULL REFERENCES decision (id),
  PRIMARY KEY (decision, rests_on)
) STRICT, WITHOUT ROWID;
CREATE INDEX decision_rests_on_reverse ON decision_rests_on (rests_on);

-- Which decisions don't stand, and the undo that says so. Follows from the journal.
CREATE TABLE decision_undone (
  decision TEXT NOT NULL PRIMARY KEY REFERENCES decision (id),
  by       TEXT NOT NULL REFERENCES decision (id)
) STRICT, WITHOUT ROWID;

-- The burial ground. One row.
CREATE TABLE ground (
  archive_id        TEXT NOT NULL PRIMARY KEY,
  name              TEXT NOT NULL,
  latitude_degrees  REAL NOT NULL,
  longitude_degrees REAL NOT NULL,
  zone              TEXT NOT NULL
) STRICT, WITHOUT ROWID;
