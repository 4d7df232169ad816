-- The cache of a catalog: derived from the YAML files, deleted and rebuilt at will.
-- Every derived row carries the key of the record it came from; a record counts where live is true.

CREATE TABLE stamp (code TEXT);

CREATE TABLE source (path TEXT, name TEXT, rank INTEGER, digest TEXT);

CREATE TABLE record (
    key BIGINT, path TEXT, rank INTEGER, room TEXT, id TEXT, title TEXT, maker TEXT,
    file TEXT, line INTEGER, col INTEGER, body TEXT, origin TEXT, live BOOLEAN
);

CREATE TABLE problem (path TEXT, file TEXT, line INTEGER, col INTEGER, slug TEXT, text TEXT, hint TEXT);

CREATE TABLE reference (key BIGINT, room TEXT, id TEXT, place TEXT, file TEXT, line INTEGER, col INTEGER);

CREATE TABLE name (key BIGINT, room TEXT, id TEXT, variant TEXT, name TEXT, folded TEXT);

CREATE TABLE variant (key BIGINT, unit TEXT, variant TEXT, kind TEXT, maker TEXT, share DOUBLE, tell TEXT);

-- What each variant of a unit presents, its unit's features included.
CREATE TABLE feature (
    key BIGINT, unit TEXT, variant TEXT, feature TEXT, number DOUBLE, low DOUBLE, high DOUBLE, word TEXT, ref TEXT,
    basis TEXT, disputed BOOLEAN
);

CREATE TABLE pattern (
    key BIGINT, id TEXT, holes INTEGER, least_mm DOUBLE, most_mm DOUBLE, depth_mm DOUBLE, shape TEXT
);

CREATE TABLE hole (key BIGINT, id TEXT, i INTEGER, x_mm DOUBLE, y_mm DOUBLE, hole_mm DOUBLE, thread_mm DOUBLE);

CREATE TABLE fitted (key BIGINT, machine TEXT, seat TEXT, kind TEXT, unit TEXT, variant TEXT, share DOUBLE);

CREATE TABLE adapter (
    key BIGINT, id TEXT, kind TEXT, joint TEXT, face_a TEXT, face_b TEXT, thick_mm DOUBLE, price_cents DOUBLE, lead_days DOUBLE
);

CREATE TABLE dimension (
    key BIGINT, kind TEXT, dimension TEXT, position INTEGER, title TEXT, give TEXT, need TEXT, rule TEXT,
    below DOUBLE, above DOUBLE, relative BOOLEAN, otherwise TEXT
);

CREATE TABLE pair (key BIGINT, kind TEXT, dimension TEXT, give TEXT, need TEXT);
