-- What people say markers are, a row for each time somebody said it, as JSON; the newest stands. And the
-- ground's own terms for it.
CREATE TABLE marker_description (
  decision_id TEXT    NOT NULL PRIMARY KEY REFERENCES decision (id),
  marker_id   TEXT    NOT NULL,
  description TEXT    NOT NULL,
  reader      TEXT    NOT NULL,
  at          TEXT    NOT NULL,
  counter     INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX marker_description_marker ON marker_description (marker_id);
CREATE TABLE term (
  id      TEXT    NOT NULL PRIMARY KEY,
  list    TEXT    NOT NULL,
  term    TEXT    NOT NULL,
  meaning TEXT    NOT NULL,
  source  TEXT    NOT NULL,
  counter INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
