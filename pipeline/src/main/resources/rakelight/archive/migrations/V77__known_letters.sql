-- 1 where only some letters of the face are known: it is read like any other and its reading stands.
ALTER TABLE known_face ADD COLUMN part INTEGER NOT NULL DEFAULT 0;
