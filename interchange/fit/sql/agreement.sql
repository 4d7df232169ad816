-- How often what is asked about agrees, over the variants of which it is known: of one maker, and of all.
SELECT dimension, maker, count(*) FILTER (agrees) AS agree, count(*) AS known
FROM finding
GROUP BY GROUPING SETS ((dimension, maker), (dimension))
