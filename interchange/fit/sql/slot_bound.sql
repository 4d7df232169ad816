-- For every variant and slot the cheapest way; and for every set what mixing its suppliers adds to that, or keeping it whole where that is less.
CREATE OR REPLACE TEMP TABLE slot_bound AS
WITH cheapest AS (
    SELECT form, slot, min(cents) AS cents, min(with_wait) AS with_wait
    FROM way_bound
    GROUP BY form, slot
),
member AS (
    SELECT unnest($sets::INTEGER[]) AS set_, unnest($set_slots::INTEGER[]) AS slot, unnest($set_cents::DOUBLE[]) AS mixing
),
size AS (
    SELECT set_, count(*) AS slots, any_value(mixing) AS mixing
    FROM member
    GROUP BY set_
),
mixed AS (
    SELECT c.form, m.set_, sum(c.cents) AS cents
    FROM cheapest AS c
    JOIN member AS m ON m.slot = c.slot
    GROUP BY c.form, m.set_
),
whole AS (
    SELECT form, set_, min(cents) AS cents
    FROM (
        SELECT w.form, m.set_, w.by_, sum(w.cents) AS cents
        FROM way_bound AS w
        JOIN member AS m ON m.slot = w.slot
        JOIN size AS s ON s.set_ = m.set_
        GROUP BY w.form, m.set_, w.by_, s.slots
        HAVING count(*) = s.slots
    )
    GROUP BY form, set_
)
SELECT form, slot, cents, with_wait
FROM cheapest
UNION ALL
SELECT form, set_, more, more
FROM (
    SELECT m.form, m.set_,
           CASE WHEN isinf(m.cents) THEN 0 ELSE least(coalesce(w.cents, 'inf'::DOUBLE) - m.cents, s.mixing) END AS more
    FROM mixed AS m
    JOIN size AS s ON s.set_ = m.set_
    LEFT JOIN whole AS w ON w.form = m.form AND w.set_ = m.set_
)
