-- Names of the patterns that stand in the ads (H52D is h##d) with their makers.
SELECT n.folded, regexp_replace(n.folded, '[0-9]', '#', 'g'), coalesce(r.maker, ''), n.room, n.id
FROM name AS n
JOIN record AS r ON r.key = n.key AND r.live
WHERE n.room IN ('units', 'machines')
  AND (regexp_replace(n.folded, '[0-9]', '#', 'g') IN (SELECT unnest($patterns::TEXT[]))
       OR lower(r.maker) IN (SELECT unnest($denied::TEXT[])));
