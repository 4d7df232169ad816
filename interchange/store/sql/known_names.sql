-- Every name that may be referred to, by room; a unit's variants as unit.variant. Where folders share an id, the last folder's count.
WITH counted AS (
    SELECT * FROM known QUALIFY rank = max(rank) OVER (PARTITION BY room, id)
)
SELECT DISTINCT room, CASE WHEN variant = '' THEN id ELSE id || '.' || variant END FROM counted;
