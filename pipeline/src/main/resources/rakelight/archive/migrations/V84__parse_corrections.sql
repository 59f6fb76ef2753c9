-- What people said of how the words of a face are to be taken: these are a name, this is verse, that belongs to another.
CREATE TABLE parse_correction (
  decision_id TEXT PRIMARY KEY,
  face_id TEXT NOT NULL,
  said TEXT NOT NULL, -- the payload, as JSON
  reader TEXT NOT NULL,
  at TEXT NOT NULL,
  counter INTEGER NOT NULL
) STRICT;

CREATE INDEX parse_correction_face ON parse_correction (face_id);
