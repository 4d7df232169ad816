-- One joint for every variant, from what geometry said of each distinct face; a face nobody has noted is not known.
SELECT v.unit, v.variant, v.maker, coalesce(v.share, 1) AS share, $joint AS dimension, $joint AS title, 1000 AS position,
       'fixable' AS otherwise, coalesce(m.finding, 'not known') AS finding, f.ref AS give, NULL AS need
FROM variant AS v
JOIN record AS r ON r.key = v.key AND r.live
LEFT JOIN feature AS f ON f.unit = v.unit AND f.variant = v.variant AND f.key = v.key AND f.feature = $feature
LEFT JOIN mating AS m ON m.ref = f.ref
WHERE v.kind = $kind
