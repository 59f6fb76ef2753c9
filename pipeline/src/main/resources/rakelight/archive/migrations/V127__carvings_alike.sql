-- What people said of two carvings: one motif, one hand, neither; a row for each time.
CREATE TABLE carving_alike (
  decision_id TEXT    NOT NULL PRIMARY KEY REFERENCES decision (id),
  marker_id   TEXT    NOT NULL,
  one         TEXT    NOT NULL,
  other       TEXT    NOT NULL,
  said        TEXT    NOT NULL,
  reader      TEXT    NOT NULL,
  at          TEXT    NOT NULL,
  counter     INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX carving_alike_marker ON carving_alike (marker_id);
