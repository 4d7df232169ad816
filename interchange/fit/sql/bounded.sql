-- What no plan for a form can be below in all, the least first. The wait of one slot may make another way of it the cheaper.
WITH summed AS (
    SELECT form, sum(cents) AS cents, max(CASE WHEN isinf(cents) THEN 0 ELSE with_wait - cents END) AS wait
    FROM slot_bound
    GROUP BY form
)
SELECT $standing_cents + s.cents + greatest(s.wait, $hold_day_cents * $standing_days) AS cents, f.unit, f.variant
FROM summed AS s
JOIN form AS f ON f.form = s.form
ORDER BY cents, f.unit, f.variant
