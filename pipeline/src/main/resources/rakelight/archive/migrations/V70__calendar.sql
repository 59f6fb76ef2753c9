-- When the ground's country changed calendars; nothing where nobody has said.
ALTER TABLE ground ADD COLUMN first_gregorian_day TEXT;
ALTER TABLE ground ADD COLUMN first_year_from_january INTEGER;
