-- Markers and their faces. Numbers are labels; the earlier ones stay findable.
CREATE TABLE marker (
  id          TEXT NOT NULL PRIMARY KEY,
  number      TEXT NOT NULL UNIQUE,
  decision_id TEXT NOT NULL REFERENCES decision (id)
) STRICT, WITHOUT ROWID;

CREATE TABLE marker_earlier_number (
  marker_id TEXT    NOT NULL REFERENCES marker (id),
  place     INTEGER NOT NULL,
  number    TEXT    NOT NULL,
  PRIMARY KEY (marker_id, place)
) STRICT, WITHOUT ROWID;

CREATE TABLE face (
  id              TEXT NOT NULL PRIMARY KEY,
  marker_id       TEXT NOT NULL REFERENCES marker (id),
  name            TEXT NOT NULL,
  bearing_degrees REAL,
  decision_id     TEXT NOT NULL REFERENCES decision (id),
  UNIQUE (marker_id, name)
) STRICT, WITHOUT ROWID;

-- One row per original file. All tags of the file are in the payload of its decision.
CREATE TABLE photograph (
  id                      TEXT    NOT NULL PRIMARY KEY,
  sha256                  TEXT    NOT NULL UNIQUE,
  original_name           TEXT    NOT NULL,
  original_path           TEXT    NOT NULL,
  size_bytes              INTEGER NOT NULL,
  format                  TEXT    NOT NULL,
  picture                 TEXT    NOT NULL,
  preview_offset_bytes    INTEGER,
  preview_length_bytes    INTEGER,
  width_px                INTEGER NOT NULL,
  height_px               INTEGER NOT NULL,
  orientation             INTEGER NOT NULL,
  taken_local             TEXT,
  taken_offset            TEXT,
  taken_source            TEXT,
  latitude_degrees        REAL,
  longitude_degrees       REAL,
  accuracy_metres         REAL,
  altitude_metres         REAL,
  direction_degrees       REAL,
  direction_reference     TEXT,
  camera                  TEXT,
  lens                    TEXT,
  focal_length_mm         REAL,
  focal_length_35mm       REAL,
  photographer            TEXT,
  credit                  TEXT,
  rights                  TEXT,
  face_id                 TEXT    REFERENCES face (id),
  light_azimuth_degrees   REAL,
  light_elevation_degrees REAL,
  card_number             TEXT,
  card_face               TEXT,
  decision_id             TEXT    NOT NULL REFERENCES decision (id)
) STRICT, WITHOUT ROWID;
CREATE INDEX photograph_face ON photograph (face_id);
CREATE INDEX photograph_path ON photograph (original_path);

-- Other files met at ingest that are byte for byte the same.
CREATE TABLE photograph_other_path (
  photograph_id TEXT NOT NULL,
  path          TEXT NOT NULL,
  PRIMARY KEY (photograph_id, path)
) STRICT, WITHOUT ROWID;

-- Files that ingest refused, the latest refusal of each path.
CREATE TABLE refusal (
  id      TEXT    NOT NULL PRIMARY KEY,
  path    TEXT    NOT NULL,
  code    TEXT    NOT NULL,
  reason  TEXT    NOT NULL,
  advice  TEXT    NOT NULL,
  counter INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
