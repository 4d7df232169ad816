-- Variants that something outright stops, with what comes first.
SELECT unit, variant, arg_min(dimension, position) AS dimension, arg_min(give, position) AS give
FROM finding
WHERE NOT agrees AND list_contains($stopping::TEXT[], dimension)
GROUP BY unit, variant
