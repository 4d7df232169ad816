-- For every variant of a kind, an amount that no plan for it can be below, the least first.
-- A term is one joint or dimension while its one open slot is filled in one way: what it costs where the unit's figure agrees (nothing), differs, or is not known. Each slot takes its cheapest way, by itself; the waits are bounded likewise.
WITH presented AS (
    SELECT v.key, v.unit, v.variant, v.maker
    FROM variant AS v
    JOIN record AS r ON r.key = v.key AND r.live
    WHERE v.kind = $kind
),
term AS (
    SELECT unnest($terms::INTEGER[]) AS term, unnest($places::INTEGER[]) AS place, unnest($factors::TEXT[]) AS factor,
           unnest($features::TEXT[]) AS feature, unnest($words::TEXT[][]) AS words, unnest($least::DOUBLE[]) AS least,
           unnest($most::DOUBLE[]) AS most, unnest($differ_cents::DOUBLE[]) AS differ_cents,
           unnest($differ_days::DOUBLE[]) AS differ_days, unnest($unknown_cents::DOUBLE[]) AS unknown_cents
),
face AS (
    SELECT unnest($face_terms::INTEGER[]) AS term, unnest($refs::TEXT[]) AS ref, unnest($face_cents::DOUBLE[]) AS cents,
           unnest($face_days::DOUBLE[]) AS days
),
place AS (
    SELECT unnest($way_places::INTEGER[]) AS place, unnest($slots::TEXT[]) AS slot, unnest($way_cents::DOUBLE[]) AS cents,
           unnest($way_days::DOUBLE[]) AS days
),
met AS (
    SELECT p.key, p.variant, p.maker, p.unit, t.place, t.factor, t.unknown_cents,
           CASE
               WHEN t.feature IS NULL OR f.key IS NULL THEN NULL
               WHEN f.disputed THEN 0
               WHEN t.words IS NOT NULL THEN if(list_contains(t.words, lower(f.word)), 0, t.differ_cents)
               WHEN t.least IS NOT NULL THEN if(f.high >= t.least AND f.low <= t.most, 0, t.differ_cents)
               WHEN c.term IS NOT NULL THEN c.cents
               ELSE 0
           END AS cents,
           CASE
               WHEN t.feature IS NULL OR f.key IS NULL OR f.disputed THEN 0
               WHEN t.words IS NOT NULL THEN if(list_contains(t.words, lower(f.word)), 0, t.differ_days)
               WHEN t.least IS NOT NULL THEN if(f.high >= t.least AND f.low <= t.most, 0, t.differ_days)
               WHEN c.term IS NOT NULL THEN c.days
               ELSE 0
           END AS days
    FROM presented AS p
    CROSS JOIN term AS t
    LEFT JOIN feature AS f ON f.key = p.key AND f.variant = p.variant AND f.feature = t.feature
    LEFT JOIN face AS c ON c.term = t.term AND c.ref = f.ref
),
charged AS (
    SELECT m.key, m.variant, m.place, m.days,
           coalesce(m.cents, m.unknown_cents * (1 - (
               coalesce(family.agree, 0) + $weight * (
                   coalesce(same.agree, 0) + $weight * (
                       coalesce(everyone.agree, 0) + $weight * 0.5
                   ) / (coalesce(everyone.known, 0) + $weight)
               ) / (coalesce(same.known, 0) + $weight)
           ) / (coalesce(family.known, 0) + $weight))) AS cents
    FROM met AS m
    LEFT JOIN agreement AS everyone ON m.cents IS NULL AND everyone.dimension = m.factor AND everyone.maker IS NULL
    LEFT JOIN agreement AS same
        ON m.cents IS NULL AND same.dimension = m.factor AND same.maker = m.maker AND same.unit IS NULL AND m.maker <> ''
    LEFT JOIN agreement AS family ON m.cents IS NULL AND family.dimension = m.factor AND family.unit = m.unit AND m.maker <> ''
),
filled AS (
    SELECT c.key, c.variant, any_value(w.slot) AS slot, any_value(w.cents) + sum(c.cents) AS cents,
           greatest(any_value(w.days), max(c.days)) AS days
    FROM charged AS c
    JOIN place AS w ON w.place = c.place
    GROUP BY c.key, c.variant, c.place
),
cheapest AS (
    SELECT key, variant, slot, min(cents) AS cents, min(days) AS days
    FROM filled
    GROUP BY key, variant, slot
),
bounded AS (
    SELECT key, variant, $standing_cents + sum(cents) + $hold_day_cents * greatest($standing_days, max(days)) AS cents
    FROM cheapest
    GROUP BY key, variant
)
SELECT b.cents, p.unit, p.variant
FROM bounded AS b
JOIN presented AS p ON p.key = b.key AND p.variant = b.variant
ORDER BY b.cents, p.unit, p.variant
