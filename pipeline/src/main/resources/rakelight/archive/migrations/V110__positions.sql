-- Where markers stand, as people noted it; nothing noted replaces another row. Positions WGS 84, errors are standard errors of
-- east and north each.
CREATE TABLE position_note (
  decision_id       TEXT    NOT NULL PRIMARY KEY REFERENCES decision (id),
  marker_id         TEXT    NOT NULL,
  basis             TEXT    NOT NULL,
  latitude_degrees  REAL    NOT NULL,
  longitude_degrees REAL    NOT NULL,
  error_metres      REAL    NOT NULL,
  words             TEXT    NOT NULL,
  reader            TEXT    NOT NULL,
  counter           INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX position_note_marker ON position_note (marker_id);

-- Which place of which row a marker has; the newest note holds.
CREATE TABLE row_place (
  decision_id TEXT    NOT NULL PRIMARY KEY REFERENCES decision (id),
  marker_id   TEXT    NOT NULL,
  row_name    TEXT    NOT NULL,
  place       INTEGER NOT NULL,
  counter     INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX row_place_marker ON row_place (marker_id);

-- Points that tapes are held to, and plots with their boundaries; of one name the newest holds.
CREATE TABLE datum_point (
  decision_id       TEXT    NOT NULL PRIMARY KEY REFERENCES decision (id),
  subject           TEXT    NOT NULL,
  name              TEXT    NOT NULL,
  latitude_degrees  REAL    NOT NULL,
  longitude_degrees REAL    NOT NULL,
  error_metres      REAL    NOT NULL,
  counter           INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE plot (
  decision_id TEXT    NOT NULL PRIMARY KEY REFERENCES decision (id),
  subject     TEXT    NOT NULL,
  name        TEXT    NOT NULL,
  boundary    TEXT    NOT NULL, -- JSON: [[longitude, latitude], ...], closed
  counter     INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
