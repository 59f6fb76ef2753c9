-- A photograph of several stones is on one face as a whole, or on none; stones on it that are other faces are parts of it.

CREATE TABLE photograph_part (
  photograph_id TEXT NOT NULL,  -- UUID
  face_id TEXT,                 -- UUID of the face it is; none where a person passed it over
  left_px INTEGER NOT NULL,     -- of upright full-size pixels, as all four
  top_px INTEGER NOT NULL,
  width_px INTEGER NOT NULL,
  height_px INTEGER NOT NULL,
  counter INTEGER NOT NULL PRIMARY KEY
) STRICT;

CREATE INDEX photograph_part_photograph ON photograph_part (photograph_id);
CREATE INDEX photograph_part_face ON photograph_part (face_id);
