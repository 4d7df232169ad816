-- Names that stand in the ads word for word, once spaces, hyphens and case are folded away. $grams are the runs with a digit;
-- $letters is each ad's words run together, for the few names that have none.
SELECT DISTINCT n.folded, n.room, n.id, n.variant, n.name, r.maker
FROM name AS n
JOIN record AS r ON r.key = n.key AND r.live
WHERE n.room IN ('units', 'machines')
  AND (n.folded IN (SELECT unnest($grams)) OR (NOT regexp_matches(n.folded, '[0-9]') AND contains($letters, n.folded)));
