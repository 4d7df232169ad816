-- What some things are called; the title first.
SELECT n.key, n.folded, n.room, n.id, n.variant, min(n.name), r.maker
FROM name AS n
JOIN record AS r ON r.key = n.key
WHERE n.key IN (SELECT unnest($keys))
GROUP BY n.key, n.folded, n.room, n.id, n.variant, r.maker
ORDER BY n.key, bool_or(n.name = r.title) DESC, n.folded, n.variant;
