-- Signed readings, every version. The text is in Leiden signs, one carved line to a line; sign_ids
-- are the ids of its signs in reading order, parted by spaces.
CREATE TABLE reading (
  id            TEXT    NOT NULL PRIMARY KEY,
  face_id       TEXT    NOT NULL,
  version       INTEGER NOT NULL,
  reader        TEXT    NOT NULL,
  at            TEXT    NOT NULL,
  basis         TEXT    NOT NULL,
  basis_date    TEXT,
  basis_light   TEXT,
  basis_witness TEXT,
  proposal_id   TEXT,
  text          TEXT    NOT NULL,
  sign_ids      TEXT    NOT NULL,
  decision_id   TEXT    NOT NULL REFERENCES decision (id),
  counter       INTEGER NOT NULL,
  UNIQUE (face_id, version)
) STRICT, WITHOUT ROWID;

-- What a reader has settled but not signed yet: the face's lines as JSON, one draft for each reader.
CREATE TABLE reading_draft (
  face_id     TEXT NOT NULL,
  reader      TEXT NOT NULL,
  lines       TEXT NOT NULL,
  proposal_id TEXT,
  decision_id TEXT NOT NULL REFERENCES decision (id),
  PRIMARY KEY (face_id, reader)
) STRICT, WITHOUT ROWID;
