INSERT INTO photo (device, seq, sha256, bytes, name, about, kind, taken_utc_ms, offset_min, source, difference_s, mark,
                   place, orientation, width, height, format, state)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17, ?18)
