-- References to names that no room they may stand in has.
WITH known AS (
    SELECT room, id FROM record
    UNION ALL
    SELECT 'units', unit || '.' || variant FROM variant WHERE variant <> ''
)
SELECT r.room, r.id, r.place, r.file, r.line, r.col
FROM reference AS r
WHERE NOT EXISTS (
    SELECT 1 FROM known AS k WHERE k.id = r.id AND list_contains(string_split(r.room, '|'), k.room)
);
