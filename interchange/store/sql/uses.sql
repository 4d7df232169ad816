-- Where each pattern and shaft stands: the shape's room and id, who has it, of which kind that is, and at which feature.
-- What is written in place has no reference of its own: it is found by its id, owner:slot.feature.
WITH
seat AS (SELECT DISTINCT machine, seat, kind FROM fitted JOIN record USING (key) WHERE record.live),
kind_of AS (SELECT DISTINCT unit, kind FROM variant JOIN record USING (key) WHERE record.live),
named AS (
    SELECT reference.room, reference.id, record.id AS owner, string_split(reference.place, '.') AS steps, record.room AS owners
    FROM reference JOIN record USING (key)
    WHERE record.live AND reference.room IN ('patterns', 'shafts') AND record.room IN ('units', 'machines')
)
SELECT DISTINCT named.room, named.id, named.owner, coalesce(kind_of.kind, '') AS kind, steps[-2] || '.' || steps[-1] AS path
FROM named LEFT JOIN kind_of ON kind_of.unit = named.owner
WHERE named.owners = 'units' AND len(steps) > 3
UNION
SELECT DISTINCT named.room, named.id, named.owner, coalesce(seat.kind, ''), 'seat.' || steps[-1]
FROM named LEFT JOIN seat ON seat.machine = named.owner AND seat.seat = steps[-3]
WHERE named.owners = 'machines' AND len(steps) > 4
UNION
SELECT DISTINCT 'patterns', pattern.id, record.id, coalesce(kind_of.kind, ''), string_split(pattern.id, ':')[-1]
FROM pattern JOIN record USING (key) LEFT JOIN kind_of ON kind_of.unit = record.id
WHERE record.live AND contains(pattern.id, ':')
UNION
SELECT DISTINCT 'shafts', feature.ref, record.id, coalesce(kind_of.kind, ''), feature.feature
FROM feature JOIN record USING (key) LEFT JOIN kind_of ON kind_of.unit = record.id
WHERE record.live AND contains(feature.ref, ':')
    AND NOT EXISTS (SELECT 1 FROM pattern WHERE pattern.id = feature.ref)
ORDER BY ALL
