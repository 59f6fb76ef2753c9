-- Walks that somebody planned, as JSON; a row for each time somebody changed one, the newest stands.
CREATE TABLE planned_walk (
  decision_id TEXT    NOT NULL PRIMARY KEY REFERENCES decision (id),
  walk_id     TEXT    NOT NULL,
  plan        TEXT    NOT NULL,
  reader      TEXT    NOT NULL,
  at          TEXT    NOT NULL,
  counter     INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX planned_walk_walk ON planned_walk (walk_id);
