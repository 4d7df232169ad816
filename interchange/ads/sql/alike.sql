-- Candidates for names written badly: those that share a whole number of two digits or more, or a maker's name, with the ads.
SELECT DISTINCT n.folded, n.room, n.id, n.variant, n.name, r.maker
FROM name AS n
JOIN record AS r ON r.key = n.key AND r.live
WHERE n.room IN ('units', 'machines')
  AND (regexp_matches(n.folded, $numbers) OR lower(r.maker) IN (SELECT unnest($words)));
