-- Every dimension against every variant of every unit at once, and joints by what geometry said of their faces. What each dimension lets a unit have comes in as lists of one length: words, or the least and the most of a figure.
-- There is no row where the unit's figure is not known, nor where its sources differ: a plan looks closer.
CREATE OR REPLACE TEMP TABLE finding AS
WITH presented AS (
    SELECT v.key, v.unit, v.variant, v.maker
    FROM variant AS v
    JOIN record AS r ON r.key = v.key AND r.live
    WHERE v.kind = $kind
),
asked AS (
    SELECT unnest($dimensions::TEXT[]) AS dimension, unnest($positions::INTEGER[]) AS position, unnest($gives::TEXT[]) AS give,
           unnest($words::TEXT[][]) AS words, unnest($least::DOUBLE[]) AS least, unnest($most::DOUBLE[]) AS most
),
mating AS (
    SELECT unnest($joints::TEXT[]) AS joint, unnest($joint_positions::INTEGER[]) AS position, unnest($ends::TEXT[]) AS give,
           unnest($refs::TEXT[]) AS ref, unnest($states::TEXT[]) AS state
),
found AS (
    SELECT f.key, f.variant, a.dimension, a.position, coalesce(f.word, CAST(f.number AS TEXT)) AS give,
           CASE
               WHEN a.words IS NOT NULL THEN list_contains(a.words, lower(f.word))
               ELSE f.high >= a.least AND f.low <= a.most
           END AS agrees
    FROM feature AS f
    JOIN asked AS a ON a.give = f.feature
    WHERE NOT f.disputed
    UNION ALL
    SELECT f.key, f.variant, m.joint, m.position, f.ref, m.state = 'agrees'
    FROM feature AS f
    JOIN mating AS m ON m.give = f.feature AND m.ref = f.ref
    WHERE NOT f.disputed AND m.state <> 'not known'
)
SELECT p.unit, p.variant, p.maker, f.dimension, f.position, f.agrees, f.give
FROM found AS f
JOIN presented AS p ON p.key = f.key AND p.variant = f.variant
WHERE f.agrees IS NOT NULL
