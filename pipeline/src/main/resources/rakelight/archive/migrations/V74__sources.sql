-- Evidence that isn't a photograph of the stone.
CREATE TABLE source (
  source      TEXT    NOT NULL PRIMARY KEY,
  decision_id TEXT    NOT NULL REFERENCES decision (id),
  kind        TEXT    NOT NULL,
  title       TEXT    NOT NULL,
  repository  TEXT    NOT NULL,
  reference   TEXT    NOT NULL,
  consulted   TEXT,
  note        TEXT    NOT NULL,
  reader      TEXT    NOT NULL,
  counter     INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

-- Its files among the originals.
CREATE TABLE source_scan (
  decision_id   TEXT    NOT NULL PRIMARY KEY REFERENCES decision (id),
  source        TEXT    NOT NULL,
  sha256        TEXT    NOT NULL,
  extension     TEXT    NOT NULL,
  original_name TEXT    NOT NULL,
  size_bytes    INTEGER NOT NULL,
  counter       INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

-- Persons whom it says are buried here somewhere: the row as JSON.
CREATE TABLE sought (
  decision_id TEXT    NOT NULL REFERENCES decision (id),
  source      TEXT    NOT NULL,
  row         INTEGER NOT NULL,
  document    TEXT    NOT NULL,
  PRIMARY KEY (source, row)
) STRICT, WITHOUT ROWID;

-- Whether a person sought is the one a stone speaks of.
CREATE TABLE sought_opinion (
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
