-- What is missing of a file that is kept though it is damaged; what a file says of whose it is and of what it shows, which
-- counts only once somebody takes it.
ALTER TABLE photograph ADD COLUMN damage TEXT;
ALTER TABLE photograph ADD COLUMN offered_photographer TEXT;
ALTER TABLE photograph ADD COLUMN offered_rights TEXT;
ALTER TABLE photograph ADD COLUMN offered_note TEXT;
-- A clock that runs fast or slow: right by shift_seconds at drift_from, by drift_shift_seconds at drift_until, evenly between
-- and beyond.
ALTER TABLE camera_clock ADD COLUMN drift_from TEXT;
ALTER TABLE camera_clock ADD COLUMN drift_until TEXT;
ALTER TABLE camera_clock ADD COLUMN drift_shift_seconds INTEGER;
