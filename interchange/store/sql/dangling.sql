-- References to names that no room they may stand in has.
WITH counted AS (
    SELECT * FROM known QUALIFY rank = max(rank) OVER (PARTITION BY room, id)
),
named AS (
    SELECT DISTINCT room, CASE WHEN variant = '' THEN id ELSE id || '.' || variant END AS id FROM counted
),
used AS (
    SELECT DISTINCT room, id FROM reference
),
missing AS (
    SELECT room, id FROM used AS u
    WHERE NOT EXISTS (SELECT 1 FROM named AS n WHERE n.id = u.id AND list_contains(string_split(u.room, '|'), n.room))
)
SELECT f.room, f.id, f.place, r.file, f.line, f.col
FROM reference AS f
JOIN missing AS m ON m.room = f.room AND m.id = f.id
JOIN record AS r ON r.key = f.key;
