-- Which camera of a make and model took a photograph; what ingest read before stands in the tags of its decision.
ALTER TABLE photograph ADD COLUMN camera_serial TEXT;
