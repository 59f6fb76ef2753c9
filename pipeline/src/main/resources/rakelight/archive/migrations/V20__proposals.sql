-- Proposals that a person has used: kept as they were, and never changed.
CREATE TABLE kept_proposal (
  id TEXT PRIMARY KEY,          -- UUID of the proposal
  face_id TEXT,                 -- UUID of the face it is about; none for a photograph on no face
  counter INTEGER NOT NULL,     -- of the decision that kept it
  document TEXT NOT NULL        -- the proposal as JSON
) STRICT;
CREATE INDEX kept_proposal_face ON kept_proposal (face_id);
