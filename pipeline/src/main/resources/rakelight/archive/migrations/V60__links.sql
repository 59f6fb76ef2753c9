-- Confirmed links of a marker: to another marker, or to a person in words.
CREATE TABLE link (
  decision_id TEXT    NOT NULL PRIMARY KEY REFERENCES decision (id),
  from_marker TEXT    NOT NULL,
  kind        TEXT    NOT NULL,
  to_marker   TEXT,
  to_words    TEXT,
  note        TEXT    NOT NULL,
  reader      TEXT    NOT NULL,
  at          TEXT    NOT NULL,
  counter     INTEGER NOT NULL,
  CHECK ((to_marker IS NULL) <> (to_words IS NULL))
) STRICT, WITHOUT ROWID;
CREATE INDEX link_from ON link (from_marker);
CREATE INDEX link_to ON link (to_marker);
