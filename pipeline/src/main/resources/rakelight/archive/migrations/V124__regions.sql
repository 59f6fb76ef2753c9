-- Whose fashions the ground's markers follow, parted by spaces; nothing where nobody has said.
ALTER TABLE ground ADD COLUMN regions TEXT;
