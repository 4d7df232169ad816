-- Names that stand in the ads word for word, once spaces, hyphens and case are folded away.
SELECT DISTINCT n.folded, n.room, n.id, n.variant, n.name, r.maker
FROM name AS n
JOIN record AS r ON r.key = n.key AND r.live
WHERE n.room IN ('units', 'machines') AND n.folded IN (SELECT unnest($grams));
