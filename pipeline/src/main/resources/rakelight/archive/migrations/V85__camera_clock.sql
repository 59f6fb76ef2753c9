-- How far a camera's clock was wrong, in a span of days by that clock. The time as written stays in the photograph's row.
CREATE TABLE camera_clock (
  id            TEXT    NOT NULL PRIMARY KEY,
  camera        TEXT,
  serial        TEXT,
  folder        TEXT,
  from_day      TEXT,
  to_day        TEXT,
  shift_seconds INTEGER NOT NULL,
  counter       INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
