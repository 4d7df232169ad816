-- What things are called, each way.
SELECT DISTINCT n.room, n.id, n.name
FROM name AS n
JOIN record AS r ON r.key = n.key AND r.live
WHERE n.room IN ('units', 'machines') AND n.id IN (SELECT unnest($ids))
ORDER BY ALL;
