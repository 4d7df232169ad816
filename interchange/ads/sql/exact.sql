-- Names that stand in the ads word for word, once spaces, hyphens and case are folded away. $grams are the runs with a digit,
-- $misread the same with letters that look like digits taken for them; all are null where it is quicker to have every name with one;
-- $letters is each ad's words run together, for the few names without.
SELECT n.folded, n.room, n.id, n.variant, min(n.name), r.maker
FROM name AS n
JOIN record AS r ON r.key = n.key AND r.live
WHERE n.room IN ('units', 'machines')
  AND CASE
      WHEN regexp_matches(n.folded, '[0-9]') THEN $grams::TEXT[] IS NULL OR n.folded IN (SELECT unnest($grams::TEXT[]))
          OR translate(n.folded, 'oil', '011') IN (SELECT unnest($misread::TEXT[]))
          OR regexp_replace(n.folded, '([0-9])[a-z]{1,2}$', '\1') IN (SELECT unnest($grams::TEXT[]))
      ELSE $letters::TEXT IS NULL OR contains($letters::TEXT, n.folded)
  END
GROUP BY n.folded, n.room, n.id, n.variant, r.maker
ORDER BY ALL;
