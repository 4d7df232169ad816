-- Candidates for names written badly: those that share a number of two digits or more, or a maker's name, with the ads.
SELECT DISTINCT n.folded, n.room, n.id, n.variant, n.name, r.maker
FROM name AS n
JOIN record AS r ON r.key = n.key AND r.live
WHERE n.room IN ('units', 'machines')
  AND (list_has_any(regexp_extract_all(n.folded, '[0-9]{2,}'), $numbers)
       OR list_contains($words, lower(r.maker)));
