-- Of the records that share a room and an id, the one from the last folder of the search path counts; within one folder, the first.
UPDATE record SET live = record.key = chosen.key
FROM (
    SELECT room, id, first(key ORDER BY rank DESC, path, line, col) AS key
    FROM record
    GROUP BY room, id
) AS chosen
WHERE chosen.room = record.room AND chosen.id = record.id;
