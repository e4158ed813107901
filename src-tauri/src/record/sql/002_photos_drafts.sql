-- One row each time a photo is added: the same bytes may be added twice, for two props. The facts stand in the entry's
-- body; this table is the index over them.
CREATE TABLE photo (
    device        TEXT    NOT NULL,
    seq           INTEGER NOT NULL,
    sha256        BLOB    NOT NULL CHECK (length(sha256) = 32),
    bytes         INTEGER NOT NULL CHECK (bytes > 0),
    name          TEXT    NOT NULL,
    about         TEXT    NOT NULL,
    kind          TEXT    NOT NULL CHECK (kind IN ('group', 'portrait', 'detail')),
    taken_utc_ms  INTEGER,
    offset_min    INTEGER,
    source        TEXT    NOT NULL CHECK (source IN ('exif', 'phone', 'unknown')),
    difference_s  INTEGER,
    mark          TEXT             CHECK (mark IN ('no_camera_time', 'no_time', 'from_elsewhere', 'clock_ahead')),
    place         INTEGER NOT NULL CHECK (place IN (0, 1)),
    orientation   INTEGER NOT NULL CHECK (orientation BETWEEN 1 AND 8),
    width         INTEGER,
    height        INTEGER,
    format        TEXT    NOT NULL CHECK (format IN ('jpeg', 'png', 'webp', 'heic')),
    state         TEXT    NOT NULL CHECK (state IN ('whole', 'no_view_here', 'damaged', 'too_large')),
    PRIMARY KEY (device, seq),
    FOREIGN KEY (device, seq) REFERENCES entry (device, seq)
) STRICT;

CREATE INDEX photo_sha256 ON photo (sha256);

CREATE TRIGGER photo_no_update BEFORE UPDATE ON photo
BEGIN SELECT raise(ABORT, 'photo is append-only'); END;

CREATE TRIGGER photo_no_delete BEFORE DELETE ON photo
BEGIN SELECT raise(ABORT, 'photo is append-only'); END;

CREATE TRIGGER photo_once BEFORE INSERT ON photo
WHEN EXISTS (SELECT 1 FROM photo WHERE device = NEW.device AND seq = NEW.seq)
BEGIN SELECT raise(ABORT, 'photo is append-only'); END;

-- What is being typed. An emptied field keeps its row and counter, so that a late older write cannot bring it back.
CREATE TABLE draft (
    field   TEXT    PRIMARY KEY,
    text    TEXT,
    counter INTEGER NOT NULL CHECK (counter >= 0)
) STRICT;
