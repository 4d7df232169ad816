-- The distinct faces or shafts that units of a kind present at some features.
SELECT DISTINCT f.feature, f.ref
FROM feature AS f
WHERE list_contains($features, f.feature) AND f.ref IS NOT NULL AND NOT f.disputed
  AND f.key IN (SELECT v.key FROM variant AS v JOIN record AS r ON r.key = v.key AND r.live WHERE v.kind = $kind)
