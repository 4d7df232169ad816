-- Units that something outright stops, with the dimension that comes first.
SELECT unit, variant, arg_min(title, position) AS title, arg_min(give, position) AS give, arg_min(need, position) AS need
FROM finding
WHERE finding = 'differs' AND otherwise = 'stops'
GROUP BY unit, variant;
