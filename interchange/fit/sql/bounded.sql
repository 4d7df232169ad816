-- What no plan for a variant can be below in all, the least first. The wait of one slot may make another way of it the cheaper.
WITH summed AS (
    SELECT unit, variant, sum(cents) AS cents, max(CASE WHEN isinf(cents) THEN 0 ELSE with_wait - cents END) AS wait
    FROM slot_bound
    GROUP BY unit, variant
)
SELECT $standing_cents + cents + greatest(wait, $hold_day_cents * $standing_days) AS cents, unit, variant
FROM summed
ORDER BY cents, unit, variant
