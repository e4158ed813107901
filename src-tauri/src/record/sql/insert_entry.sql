INSERT INTO entry (device, seq, tick, seen, at_utc_ms, offset_min, boot_ms, kind, body, corrects, prev, hash)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12)
