-- What was withdrawn: its own rows are gone from the other tables. Of a photograph its original's digest, so that it isn't
-- taken in again by accident, and whether its bytes are kept sealed.
CREATE TABLE withdrawn (
  decision_id TEXT    NOT NULL PRIMARY KEY REFERENCES decision (id),
  subject     TEXT    NOT NULL,
  kind        TEXT    NOT NULL,
  counter     INTEGER NOT NULL,
  sha256      TEXT,
  extension   TEXT,
  size_bytes  INTEGER,
  sealed      INTEGER
) STRICT, WITHOUT ROWID;
CREATE INDEX withdrawn_subject ON withdrawn (subject);
CREATE INDEX withdrawn_sha256 ON withdrawn (sha256);
