-- US places, filled once from a list of ZIPs. Each statement is named by the line above it.

-- name: create
CREATE OR REPLACE TABLE place (
    zip VARCHAR, town VARCHAR, state VARCHAR, county VARCHAR, county_key VARCHAR, lat DOUBLE, lon DOUBLE
);
CREATE OR REPLACE TABLE place_name (town_key VARCHAR, town VARCHAR, state VARCHAR, standing TINYINT, zip VARCHAR);
CREATE OR REPLACE TABLE town (
    town_key VARCHAR, town VARCHAR, state VARCHAR, standing TINYINT,
    lat DOUBLE, lon DOUBLE, spread_mi DOUBLE, zips INTEGER, zip VARCHAR, post_town VARCHAR
);

-- name: miles
-- Straight-line miles on a ball of the mean Earth radius, 6371.0088 km.
CREATE OR REPLACE TEMP MACRO miles(lat_a, lon_a, lat_b, lon_b) AS
    2 * 3958.761357 * asin(least(1, sqrt(
        sin(radians(lat_b - lat_a) / 2) ** 2
        + cos(radians(lat_a)) * cos(radians(lat_b)) * sin(radians(lon_b - lon_a) / 2) ** 2)));

-- name: towns
-- The median of a name's points (the mean is thrown far off by one wrong post-office box). Standing 0 is the post
-- office's own name for a ZIP, 1 a name it accepts, 2 a local name; only a state's best standing of a name is kept.
INSERT INTO town
WITH named AS (
    SELECT n.town_key, n.town, n.state, n.standing, n.zip, p.town AS post_town, p.lat, p.lon
    FROM place_name n JOIN place p ON p.zip = n.zip
),
best AS (
    SELECT * FROM named
    QUALIFY standing = min(standing) OVER (PARTITION BY town_key, state)
),
middle AS (
    SELECT town_key, state, median(lat) AS lat, median(lon) AS lon FROM best GROUP BY town_key, state
)
SELECT
    b.town_key, min(b.town), b.state, min(b.standing), any_value(m.lat), any_value(m.lon),
    max(miles(m.lat, m.lon, b.lat, b.lon)), count(*), min(b.zip), arg_min(b.post_town, b.zip)
FROM best b JOIN middle m ON m.town_key = b.town_key AND m.state = b.state
GROUP BY b.town_key, b.state;

-- name: zip
SELECT p.town, p.state, p.lat, p.lon, t.lat, t.lon, t.zips
FROM place p
JOIN place_name n ON n.zip = p.zip AND n.standing = 0
JOIN town t ON t.town_key = n.town_key AND t.state = p.state
WHERE p.zip = $zip;

-- name: points of a county
SELECT county, state, lat, lon FROM place
WHERE county_key = $county_key AND ($state IS NULL OR state = $state) ORDER BY state, zip;

-- name: town in state
SELECT town, state, standing, lat, lon, spread_mi, zips, zip, post_town
FROM town WHERE town_key = $town_key AND state = $state;

-- name: town alone
SELECT town, state, standing, lat, lon, spread_mi, zips, zip, post_town
FROM town WHERE town_key = $town_key ORDER BY standing, state;

-- name: points of a name
SELECT p.zip, p.town, p.state, p.lat, p.lon
FROM place_name n JOIN place p ON p.zip = n.zip
WHERE n.town_key = $town_key AND n.state = $state AND n.standing = $standing ORDER BY p.zip;

-- name: points of a state
SELECT lat, lon FROM place WHERE state = $state;

-- name: names
SELECT town_key, town, state FROM town
WHERE ($state IS NULL OR state = $state) AND standing < 2 ORDER BY standing, state, town;
