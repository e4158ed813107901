-- The record of one job. Entries are only ever added; photo rows name the entry that took them.
CREATE TABLE job (
    only    INTEGER PRIMARY KEY CHECK (only = 1),
    id      TEXT    NOT NULL CHECK (length(id) = 36)
) STRICT;

-- 9007199254740991 is the largest whole number that JSON readers keep exactly.
CREATE TABLE entry (
    device     TEXT    NOT NULL CHECK (length(device) = 36),
    seq        INTEGER NOT NULL CHECK (seq BETWEEN 1 AND 9007199254740991),
    tick       INTEGER NOT NULL CHECK (tick BETWEEN 1 AND 9007199254740991),
    seen       TEXT    NOT NULL CHECK (json_valid(seen)),
    at_utc_ms  INTEGER NOT NULL CHECK (at_utc_ms BETWEEN -9007199254740991 AND 9007199254740991),
    offset_min INTEGER NOT NULL CHECK (offset_min BETWEEN -1080 AND 1080),
    boot_ms    INTEGER          CHECK (boot_ms BETWEEN 0 AND 9007199254740991),
    kind       TEXT    NOT NULL CHECK (kind <> ''),
    body       TEXT    NOT NULL CHECK (json_valid(body)),
    corrects   BLOB             REFERENCES entry (hash),
    prev       BLOB    NOT NULL CHECK (length(prev) = 32),
    hash       BLOB    NOT NULL UNIQUE CHECK (length(hash) = 32),
    PRIMARY KEY (device, seq)
) STRICT;

CREATE INDEX entry_fold ON entry (tick, device, seq);
CREATE INDEX entry_kind ON entry (kind, tick);

CREATE TRIGGER entry_no_update BEFORE UPDATE ON entry
BEGIN SELECT raise(ABORT, 'entry is append-only'); END;

CREATE TRIGGER entry_no_delete BEFORE DELETE ON entry
BEGIN SELECT raise(ABORT, 'entry is append-only'); END;

-- INSERT OR REPLACE would delete quietly, so what is there already is refused before the insert.
CREATE TRIGGER entry_follows BEFORE INSERT ON entry
WHEN NEW.seq <> (SELECT coalesce(max(seq), 0) + 1 FROM entry WHERE device = NEW.device)
  OR NEW.prev <> coalesce((SELECT hash FROM entry WHERE device = NEW.device AND seq = NEW.seq - 1), zeroblob(32))
  OR EXISTS (SELECT 1 FROM entry WHERE hash = NEW.hash)
BEGIN SELECT raise(ABORT, 'entry does not follow its chain'); END;

CREATE TRIGGER job_no_update BEFORE UPDATE ON job
BEGIN SELECT raise(ABORT, 'job id is fixed'); END;

CREATE TRIGGER job_no_delete BEFORE DELETE ON job
BEGIN SELECT raise(ABORT, 'job id is fixed'); END;

CREATE TRIGGER job_once BEFORE INSERT ON job
WHEN EXISTS (SELECT 1 FROM job)
BEGIN SELECT raise(ABORT, 'job id is fixed'); END;
