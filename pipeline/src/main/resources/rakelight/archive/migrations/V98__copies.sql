-- The original in a kind of file that can't be read here, of which a photograph is a copy that can.
ALTER TABLE photograph ADD COLUMN copy_of TEXT;
