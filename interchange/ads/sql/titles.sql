-- What things are called in full.
SELECT room, id, title FROM record WHERE live AND room IN ('units', 'machines') AND id IN (SELECT unnest($ids));
