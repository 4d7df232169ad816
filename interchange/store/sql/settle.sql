-- Of the records that share a room and an id, the one from the last folder of the search path counts; within one folder, the first.
UPDATE record SET live = (
    SELECT record.key = first(r.key ORDER BY r.rank DESC, r.file, r.line)
    FROM record AS r
    WHERE r.room = record.room AND r.id = record.id
);
