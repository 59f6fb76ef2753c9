-- Where on the marker what was seen is, as JSON: parts, areas of the face, when it happened.
ALTER TABLE condition_note ADD COLUMN place TEXT NOT NULL DEFAULT '{"parts":[],"areas":[]}';
