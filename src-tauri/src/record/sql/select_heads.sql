-- From one device to the next by the primary key: a scan would read every entry for each one that is added.
WITH RECURSIVE known (device) AS (
    SELECT min(device) FROM entry
    UNION ALL
    SELECT (SELECT min(device) FROM entry WHERE device > known.device) FROM known WHERE known.device IS NOT NULL
)
SELECT entry.device, entry.seq, entry.hash
FROM known
JOIN entry ON entry.device = known.device
          AND entry.seq = (SELECT max(seq) FROM entry AS last WHERE last.device = known.device)
ORDER BY entry.device
