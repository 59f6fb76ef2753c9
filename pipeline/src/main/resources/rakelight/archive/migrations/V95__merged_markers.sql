-- Markers that turned out to be one with another. Their rows stay, so that their numbers are found; faces that somebody read or
-- photographed have moved to the other.
CREATE TABLE marker_merged (
  marker_id   TEXT NOT NULL PRIMARY KEY,
  into_id     TEXT NOT NULL,
  decision_id TEXT NOT NULL REFERENCES decision (id)
) STRICT, WITHOUT ROWID;
CREATE INDEX marker_merged_into ON marker_merged (into_id);

-- Where a merged marker is found now, also over several steps.
CREATE VIEW marker_now AS
  WITH RECURSIVE step (id, now) AS (
    SELECT marker_id, into_id FROM marker_merged
    UNION
    SELECT s.id, m.into_id FROM step s JOIN marker_merged m ON m.marker_id = s.now
  )
  SELECT id, now FROM step WHERE now NOT IN (SELECT marker_id FROM marker_merged);

-- Every number a marker is found by besides its own: those it had, then those of markers that were merged into it.
CREATE VIEW marker_other_number AS
  SELECT coalesce(n.now, e.marker_id) AS marker_id, n.id AS merged, e.place, e.number
    FROM marker_earlier_number e LEFT JOIN marker_now n ON n.id = e.marker_id
  UNION ALL
  SELECT n.now, n.id, 0, m.number FROM marker_now n JOIN marker m ON m.id = n.id;

-- Faces change places with each other, so for a moment two of one name may stand on one marker. That none do when an act is over
-- is seen to by the program.
PRAGMA defer_foreign_keys = ON;
CREATE TABLE face_before AS SELECT * FROM face;
DROP TABLE face;
CREATE TABLE face (
  id              TEXT NOT NULL PRIMARY KEY,
  marker_id       TEXT NOT NULL REFERENCES marker (id),
  name            TEXT NOT NULL,
  bearing_degrees REAL,
  decision_id     TEXT NOT NULL REFERENCES decision (id)
) STRICT, WITHOUT ROWID;
CREATE INDEX face_marker ON face (marker_id, name);
INSERT INTO face SELECT * FROM face_before;
DROP TABLE face_before;
