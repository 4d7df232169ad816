-- Every name that may be referred to, by room; a unit's variants as unit.variant.
SELECT room, id FROM record
UNION ALL
SELECT 'units', unit || '.' || variant FROM variant WHERE variant <> '';
