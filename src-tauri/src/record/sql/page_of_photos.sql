-- From the newest on by the index of kinds, so that only what comes out is read; CROSS JOIN keeps the order of the loops.
SELECT p.device, p.seq, p.sha256, p.bytes, p.name, p.about, p.kind, p.taken_utc_ms, p.offset_min, p.source,
       p.difference_s, p.mark, p.place, p.orientation, p.width, p.height, p.format, p.state, e.hash, e.tick
FROM entry e INDEXED BY entry_kind CROSS JOIN photo p ON p.device = e.device AND p.seq = e.seq
WHERE e.kind = 'photo_taken'
  AND e.tick <= ?3
  AND (e.tick < ?3 OR (e.device, e.seq) < (?1, ?2))
ORDER BY e.tick DESC, e.device DESC, e.seq DESC
LIMIT ?4
