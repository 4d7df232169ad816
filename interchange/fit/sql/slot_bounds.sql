-- What each slot of some units comes to at the least.
SELECT f.unit, f.variant, b.slot, b.cents
FROM form AS f
JOIN slot_bound AS b ON b.form = f.form
WHERE list_contains($units::TEXT[], f.unit)
