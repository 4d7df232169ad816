-- For every variant of a kind and every way to fill a slot, an amount that no plan can be below there; what hangs on no choice has a slot of its own.
-- A term is one joint or dimension while its one open slot is filled in one way (a place): what it costs where the unit's figure agrees (nothing), differs, or is not known (the doubt times a way out). Terms of one bundle may share a remedy: together they cost what the dearest does. Each slot takes its cheapest way, by itself; the wait of one slot may make another way of it the cheaper.
CREATE OR REPLACE TEMP TABLE way_bound AS
WITH term AS (
    SELECT unnest($terms::INTEGER[]) AS term, unnest($places::INTEGER[]) AS place, unnest($bundles::INTEGER[]) AS bundle,
           unnest($factors::TEXT[]) AS factor, unnest($features::TEXT[]) AS feature, unnest($words::TEXT[][]) AS words,
           unnest($least::DOUBLE[]) AS least, unnest($most::DOUBLE[]) AS most, unnest($differ_cents::DOUBLE[]) AS differ_cents,
           unnest($differ_days::DOUBLE[]) AS differ_days, unnest($unknown_cents::DOUBLE[]) AS unknown_cents,
           unnest($parts::INTEGER[]) AS parts
),
face AS (
    SELECT unnest($face_terms::INTEGER[]) AS term, unnest($refs::TEXT[]) AS ref, unnest($face_cents::DOUBLE[]) AS cents,
           unnest($face_days::DOUBLE[]) AS days, unnest($face_thick::DOUBLE[]) AS thick
),
part AS (
    SELECT unnest($part_terms::INTEGER[]) AS term, unnest($part_features::TEXT[]) AS feature, unnest($part_times::DOUBLE[]) AS times,
           unnest($part_faces::INTEGER[]) AS face_term
),
place AS (
    SELECT unnest($way_places::INTEGER[]) AS place, unnest($slots::INTEGER[]) AS slot, unnest($way_by::INTEGER[]) AS by_,
           unnest($way_cents::DOUBLE[]) AS cents,
           unnest($way_days::DOUBLE[]) AS days
),
-- How likely each factor agrees for a maker's units, smoothed as a plan smooths it; of a unit's own forms the best chance there is.
everyone AS (
    SELECT t.factor, (coalesce(any_value(a.agree), 0) + $weight * 0.5) / (coalesce(any_value(a.known), 0) + $weight) AS chance
    FROM (SELECT DISTINCT factor FROM term) AS t
    LEFT JOIN agreement AS a ON a.dimension = t.factor AND a.maker IS NULL
    GROUP BY t.factor
),
of_maker AS (
    SELECT e.factor, m.maker,
           CASE WHEN m.maker = '' THEN e.chance
                ELSE (coalesce(a.agree, 0) + $weight * e.chance) / (coalesce(a.known, 0) + $weight) END AS chance
    FROM everyone AS e
    CROSS JOIN (SELECT DISTINCT maker FROM form) AS m
    LEFT JOIN agreement AS a ON a.dimension = e.factor AND a.maker = m.maker AND a.unit IS NULL
),
doubt AS (
    SELECT factor, maker, FALSE AS forms, 1 - chance AS doubt
    FROM of_maker
    UNION ALL
    SELECT o.factor, o.maker, TRUE,
           1 - greatest(o.chance, coalesce(max((a.agree + $weight * o.chance) / (a.known + $weight)), 0)) AS doubt
    FROM of_maker AS o
    LEFT JOIN agreement AS a ON a.dimension = o.factor AND a.maker = o.maker AND a.unit IS NOT NULL
    GROUP BY o.factor, o.maker, o.chance
),
-- A place as it stands while nothing of the unit is known.
unknown AS (
    SELECT w.place, d.maker, d.forms, any_value(w.slot) AS slot, any_value(w.days) AS days,
           any_value(w.cents) + sum(t.unknown_cents * d.doubt) AS cents
    FROM place AS w
    JOIN term AS t ON t.place = w.place
    JOIN doubt AS d ON d.factor = t.factor
    GROUP BY w.place, d.maker, d.forms
),
-- Stack-ups of which all the unit's terms are known, with what has to stand in their joints at the least.
summed AS (
    SELECT p.form, p.maker, p.forms, q.term, 
           sum(q.times * CASE WHEN q.face_term IS NULL THEN f.number ELSE coalesce(c.thick, 0) END) AS total,
           count(*) FILTER (q.face_term IS NULL) AS parts
    FROM feature AS f
    JOIN part AS q ON q.feature = f.feature
    LEFT JOIN face AS c ON c.term = q.face_term AND c.ref = f.ref AND NOT f.disputed
    JOIN form AS p ON p.key = f.key AND p.variant = f.variant
    GROUP BY p.form, p.maker, p.forms, q.term
),
met AS (
    SELECT p.form, t.place, t.bundle, t.unknown_cents * d.doubt AS spared,
           CASE
               WHEN f.disputed THEN 0
               WHEN t.words IS NOT NULL THEN if(list_contains(t.words, lower(f.word)), 0, t.differ_cents)
               WHEN t.least IS NOT NULL THEN if(f.high >= t.least AND f.low <= t.most, 0, t.differ_cents)
               ELSE coalesce(c.cents, 0)
           END AS cents,
           CASE
               WHEN f.disputed THEN 0
               WHEN t.words IS NOT NULL THEN if(list_contains(t.words, lower(f.word)), 0, t.differ_days)
               WHEN t.least IS NOT NULL THEN if(f.high >= t.least AND f.low <= t.most, 0, t.differ_days)
               ELSE coalesce(c.days, 0)
           END AS days
    FROM feature AS f
    JOIN term AS t ON t.feature = f.feature
    JOIN form AS p ON p.key = f.key AND p.variant = f.variant
    JOIN doubt AS d ON d.factor = t.factor AND d.maker = p.maker AND d.forms = p.forms
    LEFT JOIN face AS c ON c.term = t.term AND c.ref = f.ref
    UNION ALL
    SELECT s.form, t.place, t.bundle, t.unknown_cents * d.doubt,
           if(s.total BETWEEN t.least AND t.most, 0, t.differ_cents), if(s.total BETWEEN t.least AND t.most, 0, t.differ_days)
    FROM summed AS s
    JOIN term AS t ON t.term = s.term AND t.parts = s.parts
    JOIN doubt AS d ON d.factor = t.factor AND d.maker = s.maker AND d.forms = s.forms
),
bundled AS (
    SELECT form, place, max(cents) - sum(spared) AS cents, max(days) AS days
    FROM met
    GROUP BY form, place, bundle
),
known AS (
    SELECT form, place, sum(cents) AS cents, max(days) AS days
    FROM bundled
    GROUP BY form, place
)
SELECT p.form, u.slot, w.by_, u.cents + coalesce(k.cents, 0) AS cents,
       u.cents + coalesce(k.cents, 0) + $hold_day_cents * greatest(u.days, coalesce(k.days, 0)) AS with_wait
FROM form AS p
JOIN unknown AS u ON u.maker = p.maker AND u.forms = p.forms
JOIN place AS w ON w.place = u.place
LEFT JOIN known AS k ON k.form = p.form AND k.place = u.place
