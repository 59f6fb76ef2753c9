-- How the ground numbers its markers; nothing where nobody has said.
ALTER TABLE ground ADD COLUMN numbers TEXT;
