-- Every dimension of a kind against every variant of every unit at once: what is offered, what is needed, and whether they agree.
-- needed holds the machine's and the dead unit's features; mating holds, for pairs of patterns or shafts, what geometry says.
WITH compared AS (
    SELECT d.key, d.dimension, d.title, d.position, d.otherwise, d.rule, d.below, d.above, d.relative,
           v.unit, v.variant, v.maker, coalesce(v.share, 1) AS share, d.give, d.need,
           f.number, f.low, f.high, f.word, f.disputed OR n.disputed AS disputed,
           n.number AS need_number, n.low AS need_low, n.high AS need_high, n.word AS need_word
    FROM dimension AS d
    JOIN variant AS v ON v.kind = d.kind
    LEFT JOIN feature AS f ON f.unit = v.unit AND f.variant = v.variant AND f.feature = d.give AND f.key = v.key
    LEFT JOIN needed AS n ON n.feature = d.need
    WHERE d.kind = $kind AND d.rule IS NOT NULL AND starts_with(d.give, 'core.') AND NOT starts_with(d.need, 'core.')
      AND d.key IN (SELECT key FROM record WHERE live) AND v.key IN (SELECT key FROM record WHERE live)
),
ranged AS (
    SELECT *,
           CASE WHEN relative THEN abs(need_number) ELSE 1 END AS scale,
           1e-6 * greatest(1, abs(need_number)) AS slack
    FROM compared
),
judged AS (
    SELECT *,
           CASE
               WHEN disputed THEN 'not known'
               WHEN (word IS NULL AND number IS NULL) OR (need_word IS NULL AND need_number IS NULL) THEN 'not known'
               WHEN rule = 'pairs' THEN CASE WHEN EXISTS (
                   SELECT 1 FROM pair AS p
                   WHERE p.key = ranged.key AND p.dimension = ranged.dimension AND p.give = ranged.word AND p.need = ranged.need_word
               ) THEN 'agrees' ELSE 'differs' END
               WHEN number IS NULL OR need_number IS NULL THEN CASE WHEN lower(word) = lower(need_word) THEN 'agrees' ELSE 'differs' END
               WHEN rule = 'at least' THEN CASE
                   WHEN high >= need_low - coalesce(below, 0) * scale - slack THEN 'agrees' ELSE 'differs' END
               WHEN rule = 'at most' THEN CASE
                   WHEN low <= need_high + coalesce(above, 0) * scale + slack THEN 'agrees' ELSE 'differs' END
               WHEN rule = 'within' AND above IS NULL THEN CASE
                   WHEN high >= need_low - below * scale - slack THEN 'agrees' ELSE 'differs' END
               WHEN rule = 'within' AND below IS NULL THEN CASE
                   WHEN low <= need_high + above * scale + slack THEN 'agrees' ELSE 'differs' END
               ELSE CASE
                   WHEN high >= need_low - coalesce(below, 0) * scale - slack
                    AND low <= need_high + coalesce(above, 0) * scale + slack THEN 'agrees' ELSE 'differs' END
           END AS finding
    FROM ranged
)
SELECT unit, variant, maker, share, dimension, title, position, otherwise, finding,
       coalesce(word, CAST(number AS TEXT)) AS give, coalesce(need_word, CAST(need_number AS TEXT)) AS need
FROM judged
