-- What things are known by, and how much each word tells: made once for a connection, for the catalog it has open does not change.
CREATE TEMP TABLE IF NOT EXISTS ad_clue AS
WITH named AS MATERIALIZED (
    SELECT n.key, n.folded, lower(n.name) AS name, lower(r.maker) AS maker
    FROM name AS n
    JOIN record AS r ON r.key = n.key AND r.live
    WHERE n.room IN ('units', 'machines')
),
number AS (
    SELECT DISTINCT key, CASE WHEN starts_with(folded, made) THEN substr(folded, length(made) + 1) ELSE folded END AS number
    FROM (SELECT key, folded, regexp_replace(maker, '[^a-z0-9]+', '', 'g') AS made FROM named)
)
-- A maker's word counts, but nothing is like an ad by that alone.
SELECT DISTINCT key, word, false AS gram, NOT list_contains(makers, word) AS own
FROM (
    SELECT DISTINCT key, regexp_extract_all(maker, '[a-z0-9]+') AS makers, unnest(regexp_extract_all(name, '[a-z0-9]+')) AS word
    FROM named
)
UNION ALL
-- Groups of three signs with a digit: a name with one slip still shares some.
SELECT DISTINCT key, '~' || translate(gram, 'oil', '011') AS word, true AS gram, true AS own
FROM (SELECT key, unnest([number[i : i + 2] FOR i IN range(1, length(number) - 1)]) AS gram FROM number)
WHERE regexp_matches(gram, '[0-9]');

CREATE TEMP TABLE IF NOT EXISTS ad_things AS SELECT count(DISTINCT key) AS count FROM ad_clue;

-- Weights are whole millionths: sums of them are the same in whatever order they are made, so equals stay equal.
CREATE TEMP MACRO IF NOT EXISTS millionths(weight) AS round(1000000 * weight)::BIGINT;

CREATE TEMP TABLE IF NOT EXISTS ad_weight AS
SELECT word, count(*) AS borne_by, millionths(ln((any_value(things.count) + 1) / (count(*) + 0.5))) AS weight
FROM ad_clue, ad_things AS things
GROUP BY word;

CREATE TEMP TABLE IF NOT EXISTS ad_heft AS
SELECT key, sum(weight) AS heft FROM ad_clue JOIN ad_weight USING (word) WHERE NOT gram GROUP BY key;
