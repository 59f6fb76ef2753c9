-- The chain of the journal: each decision's digest takes in the digest of the one before. Rows are added and never changed.
CREATE TABLE decision_chain (
  counter INTEGER PRIMARY KEY REFERENCES decision (counter),
  digest  TEXT    NOT NULL
) STRICT;

CREATE TRIGGER chain_is_never_changed BEFORE UPDATE ON decision_chain
BEGIN SELECT RAISE(ABORT, 'the chain is never changed'); END;
CREATE TRIGGER chain_is_never_removed BEFORE DELETE ON decision_chain
BEGIN SELECT RAISE(ABORT, 'the chain is never removed'); END;
