-- Where the person of a link is named: a face, the first sign of the name, and the place in it.
ALTER TABLE link ADD COLUMN to_face TEXT;
ALTER TABLE link ADD COLUMN to_sign INTEGER;
ALTER TABLE link ADD COLUMN to_place INTEGER;
