-- What hides the low sun from the ground, as azimuth:height in degrees; nothing where nobody has said.
ALTER TABLE ground ADD COLUMN horizon TEXT;
