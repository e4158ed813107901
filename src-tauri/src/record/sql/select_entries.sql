SELECT 0 AS position, device, seq, tick, seen, at_utc_ms, offset_min, boot_ms, kind, body, corrects, prev, hash
FROM entry
