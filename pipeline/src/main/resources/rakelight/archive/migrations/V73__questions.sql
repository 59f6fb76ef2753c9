-- What was done about each question, the raising first. Whether it is open follows from the last
-- answer or reopening.
CREATE TABLE question_step (
  decision_id TEXT    NOT NULL PRIMARY KEY REFERENCES decision (id),
  question    TEXT    NOT NULL,
  kind        TEXT    NOT NULL,
  words       TEXT    NOT NULL,
  note        TEXT    NOT NULL,
  marker      TEXT,
  reader      TEXT    NOT NULL,
  at          TEXT    NOT NULL,
  counter     INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX question_step_question ON question_step (question);
