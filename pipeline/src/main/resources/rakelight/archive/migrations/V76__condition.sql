-- What was seen of markers' condition, a row for each note. Words are those of
-- rakelight.marker.Condition, parted by a comma and a space.
CREATE TABLE condition_note (
  decision_id TEXT    NOT NULL PRIMARY KEY REFERENCES decision (id),
  marker_id   TEXT    NOT NULL,
  seen_on     TEXT    NOT NULL,
  words       TEXT    NOT NULL,
  remark      TEXT    NOT NULL,
  reader      TEXT    NOT NULL,
  at          TEXT    NOT NULL,
  counter     INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX condition_note_marker ON condition_note (marker_id);
