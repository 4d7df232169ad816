-- Names that hold the words folded together, or any one of them; the best few are chosen by likeness afterwards.
SELECT n.room, n.id, n.variant, n.name, n.folded, r.title, r.maker
FROM name AS n
JOIN record AS r ON r.key = n.key AND r.live
WHERE contains(n.folded, $whole)
   OR len(list_filter($words, lambda w: contains(n.folded, w))) > 0
   OR jaro_winkler_similarity(n.folded, $whole) > 0.85;
