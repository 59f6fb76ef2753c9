-- So that one marker's persons are found without going through what was decided of all others.
CREATE INDEX person_opinion_one ON person_opinion (one_face);
CREATE INDEX person_opinion_other ON person_opinion (other_face);
CREATE INDEX person_opinion_marker ON person_opinion (marker);
