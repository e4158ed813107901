SELECT p.device, p.seq, p.sha256, p.bytes, p.name, p.about, p.kind, p.taken_utc_ms, p.offset_min, p.source,
       p.difference_s, p.mark, p.place, p.orientation, p.width, p.height, p.format, p.state, e.hash, e.tick
FROM photo p JOIN entry e ON e.device = p.device AND e.seq = p.seq
