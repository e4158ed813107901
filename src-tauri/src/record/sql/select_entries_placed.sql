SELECT (SELECT count(*) FROM entry AS o WHERE (o.tick, o.device, o.seq) <= (e.tick, e.device, e.seq)) AS position,
       device, seq, tick, seen, at_utc_ms, offset_min, boot_ms, kind, body, corrects, prev, hash
FROM entry AS e
