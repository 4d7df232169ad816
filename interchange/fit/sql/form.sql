-- Every form of every unit of a kind, numbered: whole numbers are sooner grouped by than names.
CREATE OR REPLACE TEMP TABLE form AS
SELECT row_number() OVER () AS form, v.key, v.unit, v.variant, v.maker, v.variant <> '' AS forms
FROM variant AS v
JOIN record AS r ON r.key = v.key AND r.live
WHERE v.kind = $kind
