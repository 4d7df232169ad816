-- The distinct faces or shafts that units of a kind present as one feature, with the hole count where it is known.
SELECT DISTINCT f.ref, p.holes
FROM feature AS f
JOIN variant AS v ON v.unit = f.unit AND v.variant = f.variant AND v.key = f.key
JOIN record AS r ON r.key = f.key AND r.live
LEFT JOIN (SELECT id, any_value(holes) AS holes FROM pattern GROUP BY id) AS p ON p.id = f.ref
WHERE f.feature = $feature AND v.kind = $kind AND f.ref IS NOT NULL AND NOT f.disputed;
