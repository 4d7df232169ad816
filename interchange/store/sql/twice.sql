-- Names that two files of one folder define, with where the first of them stands.
WITH numbered AS (
    SELECT room, id, file, line, col,
           row_number() OVER same AS n,
           first_value(file) OVER same AS first_file,
           first_value(line) OVER same AS first_line,
           first_value(col) OVER same AS first_col
    FROM known
    WHERE variant = ''
    WINDOW same AS (PARTITION BY room, id, rank ORDER BY path, line, col)
)
SELECT room, id, file, line, col, first_file, first_line, first_col FROM numbered WHERE n > 1;
