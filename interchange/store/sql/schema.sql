-- The cache of a catalog: derived from the YAML files, deleted and rebuilt at will.
-- Every derived row carries the key of the record it came from; a record counts where live is true.
-- A text column that may be empty but is always there is NOT NULL: that is how the loader knows '' from NULL.

CREATE TABLE stamp (code TEXT NOT NULL);

CREATE TABLE source (path TEXT NOT NULL, name TEXT NOT NULL, rank INTEGER, digest TEXT NOT NULL);

-- Every name a file defines, its faulty records' included.
CREATE TABLE known (
    path TEXT NOT NULL, rank INTEGER, room TEXT NOT NULL, id TEXT NOT NULL, variant TEXT NOT NULL,
    file TEXT NOT NULL, line INTEGER, col INTEGER
);

CREATE TABLE record (
    key BIGINT, path TEXT NOT NULL, rank INTEGER, room TEXT NOT NULL, id TEXT NOT NULL, title TEXT NOT NULL, maker TEXT NOT NULL,
    file TEXT NOT NULL, line INTEGER, col INTEGER,
    body TEXT NOT NULL, body_line INTEGER, origin TEXT NOT NULL, live BOOLEAN
);

CREATE TABLE problem (
    path TEXT NOT NULL, file TEXT NOT NULL, line INTEGER, col INTEGER, slug TEXT NOT NULL, text TEXT NOT NULL, hint TEXT NOT NULL
);

CREATE TABLE reference (key BIGINT, room TEXT NOT NULL, id TEXT NOT NULL, place TEXT NOT NULL, line INTEGER, col INTEGER);

CREATE TABLE name (
    key BIGINT, room TEXT NOT NULL, id TEXT NOT NULL, variant TEXT NOT NULL, name TEXT NOT NULL, folded TEXT NOT NULL
);

CREATE TABLE variant (
    key BIGINT, unit TEXT NOT NULL, variant TEXT NOT NULL, kind TEXT NOT NULL, maker TEXT NOT NULL, share DOUBLE,
    tell TEXT NOT NULL
);

-- What each variant of a unit presents, its unit's features included.
CREATE TABLE feature (
    key BIGINT, unit TEXT NOT NULL, variant TEXT NOT NULL, feature TEXT NOT NULL, number DOUBLE, low DOUBLE, high DOUBLE,
    word TEXT, ref TEXT, basis TEXT, disputed BOOLEAN
);

CREATE TABLE pattern (
    key BIGINT, id TEXT NOT NULL, holes INTEGER, least_mm DOUBLE, most_mm DOUBLE, depth_mm DOUBLE, shape TEXT
);

CREATE TABLE hole (key BIGINT, id TEXT NOT NULL, i INTEGER, x_mm DOUBLE, y_mm DOUBLE, hole_mm DOUBLE, thread_mm DOUBLE);

CREATE TABLE fitted (
    key BIGINT, machine TEXT NOT NULL, seat TEXT NOT NULL, kind TEXT NOT NULL, unit TEXT NOT NULL, variant TEXT NOT NULL,
    share DOUBLE
);

CREATE TABLE adapter (
    key BIGINT, id TEXT NOT NULL, kind TEXT NOT NULL, joint TEXT NOT NULL, face_a TEXT, face_b TEXT, thick_mm DOUBLE,
    price_cents DOUBLE, lead_days DOUBLE
);
