-- The ads of one job as read: derived from the pasted files, deleted and rebuilt at will.

CREATE TABLE paste (path TEXT, digest TEXT);

-- One row for each ad of each paste, with the fields people ask for; reading holds all of them.
CREATE TABLE ad (
    path TEXT, place INTEGER, id TEXT, source TEXT, line INTEGER, day TEXT, body TEXT, title TEXT,
    price_kind TEXT, price_cents BIGINT, currency TEXT, terms TEXT, town TEXT, state TEXT, zip TEXT,
    offer TEXT, subject TEXT, hours DOUBLE, weight_lb DOUBLE, reading TEXT,
    notes TEXT  -- the user's own lines under it, and those that cannot be read
);

-- Every stretch of an ad that something was read from.
CREATE TABLE field (path TEXT, place INTEGER, name TEXT, value TEXT, first INTEGER, last INTEGER, certainty DOUBLE);
