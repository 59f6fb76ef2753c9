-- Markers that were lent to somebody to read on another machine, and what came back.
CREATE TABLE lending (
  id          TEXT    NOT NULL PRIMARY KEY,
  decision_id TEXT    NOT NULL REFERENCES decision (id),
  borrower    TEXT    NOT NULL,
  markers     TEXT    NOT NULL, -- JSON: ids
  reader      TEXT    NOT NULL,
  at          TEXT    NOT NULL,
  counter     INTEGER NOT NULL,
  returned_at TEXT
) STRICT, WITHOUT ROWID;
