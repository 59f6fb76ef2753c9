-- What people decided to keep from whatever is published. A person is named by the face (subject),
-- the first sign of the name and the place in it.
CREATE TABLE withholding (
  decision_id TEXT    NOT NULL PRIMARY KEY REFERENCES decision (id),
  subject     TEXT    NOT NULL,
  kind        TEXT    NOT NULL,
  sign        INTEGER,
  place       INTEGER,
  cause       TEXT    NOT NULL,
  reason      TEXT    NOT NULL,
  asked_by    TEXT,
  asked_on    TEXT    NOT NULL,
  reader      TEXT    NOT NULL,
  counter     INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX withholding_subject ON withholding (subject);

-- How many years a burial must be old before it is told: no row where the ground has no such rule.
CREATE TABLE burials_told_after (
  archive_id TEXT    NOT NULL PRIMARY KEY,
  years      INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
