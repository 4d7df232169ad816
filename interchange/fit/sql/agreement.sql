-- How often what is asked about agrees, over the variants of which it is known: of all, of one maker, and of one unit's forms.
CREATE OR REPLACE TEMP TABLE agreement AS
SELECT dimension, maker, NULL AS unit, count(*) FILTER (agrees) AS agree, count(*) AS known
FROM finding
GROUP BY GROUPING SETS ((dimension, maker), (dimension))
UNION ALL
SELECT dimension, maker, unit, count(*) FILTER (agrees), count(*)
FROM finding
WHERE variant <> ''
GROUP BY dimension, maker, unit
