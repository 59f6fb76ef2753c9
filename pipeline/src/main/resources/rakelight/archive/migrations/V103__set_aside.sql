-- Why a photograph waits for no marker: unfit or no-stone; nothing where it may wait.
ALTER TABLE photograph ADD COLUMN set_aside TEXT;
