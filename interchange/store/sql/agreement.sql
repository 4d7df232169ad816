-- How often what is asked about agrees, over the units of which it is known: of one maker, and of all.
SELECT dimension, maker, count(*) FILTER (finding = 'agrees') AS agree, count(*) AS known
FROM finding
WHERE finding <> 'not known'
GROUP BY GROUPING SETS ((dimension, maker), (dimension));
