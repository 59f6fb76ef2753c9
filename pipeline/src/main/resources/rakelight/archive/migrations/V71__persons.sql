-- What people decided about persons. A mention is a face, the first sign of a name on it, and a
-- place: 0 for the person named, from 1 for those named in that kinship.
CREATE TABLE person_opinion (
  decision_id TEXT    NOT NULL PRIMARY KEY REFERENCES decision (id),
  subject     TEXT    NOT NULL, -- the face of the first mention, or the marker
  kind        TEXT    NOT NULL,
  one_face    TEXT,
  one_sign    INTEGER,
  one_place   INTEGER,
  other_face  TEXT,
  other_sign  INTEGER,
  other_place INTEGER,
  marker      TEXT,
  note        TEXT    NOT NULL,
  reader      TEXT    NOT NULL,
  at          TEXT    NOT NULL,
  counter     INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
