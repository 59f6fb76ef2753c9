-- What people said of families of markers: two of one, two of two, or what the family of a marker is called.
CREATE TABLE family_said (
  decision_id TEXT    NOT NULL PRIMARY KEY REFERENCES decision (id),
  marker_id   TEXT    NOT NULL,
  what        TEXT    NOT NULL, -- together, apart, called
  other       TEXT,
  name        TEXT,
  counter     INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX family_said_marker ON family_said (marker_id);

-- Proposed links that people refused: a marker isn't this person's.
CREATE TABLE link_refused (
  decision_id TEXT    NOT NULL PRIMARY KEY REFERENCES decision (id),
  from_marker TEXT    NOT NULL,
  to_face     TEXT    NOT NULL,
  to_sign     INTEGER NOT NULL,
  to_place    INTEGER NOT NULL,
  to_words    TEXT    NOT NULL,
  note        TEXT    NOT NULL,
  reader      TEXT    NOT NULL,
  at          TEXT    NOT NULL,
  counter     INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX link_refused_from ON link_refused (from_marker);
