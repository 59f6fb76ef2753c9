-- What people said of the lettering of two faces: one hand, other hands, open; a row for each time.
CREATE TABLE lettering_hand (
  decision_id TEXT    NOT NULL PRIMARY KEY REFERENCES decision (id),
  subject     TEXT    NOT NULL,
  one         TEXT    NOT NULL,
  other       TEXT    NOT NULL,
  said        TEXT    NOT NULL,
  reader      TEXT    NOT NULL,
  at          TEXT    NOT NULL,
  counter     INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX lettering_hand_subject ON lettering_hand (subject);
