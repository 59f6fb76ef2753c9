-- A register of graves moved here from older grounds: which column of the file each field was taken
-- from, and the figures the register gives itself, as JSON.
CREATE TABLE removal_register (
  source      TEXT NOT NULL PRIMARY KEY,
  decision_id TEXT NOT NULL REFERENCES decision (id),
  file        TEXT NOT NULL,
  columns     TEXT NOT NULL,
  stated      TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- Its rows as JSON.
CREATE TABLE removal (
  decision_id TEXT    NOT NULL REFERENCES decision (id),
  source      TEXT    NOT NULL,
  row         INTEGER NOT NULL,
  document    TEXT    NOT NULL,
  PRIMARY KEY (source, row)
) STRICT, WITHOUT ROWID;

-- Whether the person of a row is the one a stone speaks of.
CREATE TABLE removal_opinion (
  decision_id TEXT    NOT NULL PRIMARY KEY REFERENCES decision (id),
  source      TEXT    NOT NULL,
  row         INTEGER NOT NULL,
  found       INTEGER NOT NULL,
  face        TEXT    NOT NULL,
  sign        INTEGER NOT NULL,
  place       INTEGER NOT NULL,
  note        TEXT    NOT NULL,
  reader      TEXT    NOT NULL,
  counter     INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
