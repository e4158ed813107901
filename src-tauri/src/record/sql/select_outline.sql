SELECT 0 AS position, device, seq, tick, '[]' AS seen, at_utc_ms, offset_min, boot_ms, kind,
       CASE WHEN kind IN ('note', 'photo_taken', 'round_done', 'proposal_kept', 'wall_described') THEN 'null' ELSE body END AS body,
       corrects, prev, hash
FROM entry
