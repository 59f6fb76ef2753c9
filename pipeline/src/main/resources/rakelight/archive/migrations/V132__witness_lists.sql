-- Earlier lists of the ground's stones, each of a source: how its columns were read, and every row as JSON with all its cells.
CREATE TABLE witness_list (
  source      TEXT    NOT NULL PRIMARY KEY,
  decision_id TEXT    NOT NULL REFERENCES decision (id),
  file        TEXT    NOT NULL,
  columns     TEXT    NOT NULL,
  called      TEXT    NOT NULL, -- the name of the mapping of columns; empty where it has none
  counter     INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE witness_row (
  decision_id TEXT    NOT NULL REFERENCES decision (id),
  source      TEXT    NOT NULL,
  row         INTEGER NOT NULL,
  document    TEXT    NOT NULL,
  PRIMARY KEY (source, row)
) STRICT, WITHOUT ROWID;

-- Whether a row speaks of a marker.
CREATE TABLE witness_opinion (
  decision_id TEXT    NOT NULL PRIMARY KEY REFERENCES decision (id),
  source      TEXT    NOT NULL,
  row         INTEGER NOT NULL,
  marker_id   TEXT    NOT NULL,
  is_it       INTEGER NOT NULL,
  note        TEXT    NOT NULL,
  reader      TEXT    NOT NULL,
  counter     INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
