-- Things of archives that were begun apart and are one: each id with the one that stands for all of them, the lowest. What is
-- decided about any of them is decided about that one. Follows from the journal.
CREATE TABLE same_thing (
  id  TEXT NOT NULL UNIQUE,
  now TEXT NOT NULL
) STRICT;
CREATE INDEX same_thing_now ON same_thing (now);
