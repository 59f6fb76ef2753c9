-- For a third reader's reading: the ids of the two it settles, parted by a space.
ALTER TABLE reading ADD COLUMN settles TEXT;

-- How many readers must read each face: 1 where there is no row.
CREATE TABLE readings_required (
  archive_id TEXT    NOT NULL PRIMARY KEY,
  readers    INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

-- Faces whose truth is known and which measure readers; the text is in Leiden signs.
CREATE TABLE known_face (
  face_id     TEXT NOT NULL PRIMARY KEY,
  text        TEXT NOT NULL,
  decision_id TEXT NOT NULL REFERENCES decision (id)
) STRICT, WITHOUT ROWID;

-- Faces put aside: for another reader, or for a visit in other light.
CREATE TABLE face_left (
  face_id     TEXT NOT NULL PRIMARY KEY,
  reason      TEXT NOT NULL,
  note        TEXT NOT NULL,
  reader      TEXT NOT NULL,
  at          TEXT NOT NULL,
  decision_id TEXT NOT NULL REFERENCES decision (id)
) STRICT, WITHOUT ROWID;

-- Named readers and what they may do.
CREATE TABLE reader (
  name        TEXT NOT NULL PRIMARY KEY COLLATE NOCASE,
  id          TEXT NOT NULL UNIQUE,
  role        TEXT NOT NULL,
  decision_id TEXT NOT NULL REFERENCES decision (id)
) STRICT, WITHOUT ROWID;

-- Their passphrases, as digests. No projection: a secret is no decision, it can be forgotten.
CREATE TABLE reader_passphrase (
  name       TEXT    NOT NULL PRIMARY KEY COLLATE NOCASE,
  iterations INTEGER NOT NULL,
  salt       TEXT    NOT NULL,     -- base64
  digest     TEXT    NOT NULL      -- base64, PBKDF2 with HMAC-SHA-256
) STRICT, WITHOUT ROWID;
