-- What each slot of some units comes to at the least.
SELECT unit, variant, slot, cents
FROM slot_bound
WHERE list_contains($units::TEXT[], unit)
