-- Corrections are few among many entries, and what they correct is looked up for each page of the record.
CREATE INDEX entry_corrects ON entry (corrects) WHERE corrects IS NOT NULL;
