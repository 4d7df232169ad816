-- Towns outside the United States, filled once. Each statement is named by the line above it.

-- name: create
CREATE OR REPLACE TABLE world_town (town_key VARCHAR, town VARCHAR, region VARCHAR, country VARCHAR, lat DOUBLE, lon DOUBLE);
CREATE OR REPLACE TABLE country (country_key VARCHAR, country VARCHAR, name VARCHAR);

-- name: towns
SELECT DISTINCT t.town, t.region, t.country, t.lat, t.lon, c.name
FROM world_town t JOIN country c ON c.country = t.country AND c.country_key = lower(t.country)
WHERE t.town_key = $town_key AND ($country IS NULL OR t.country = $country) AND ($region IS NULL OR t.region = $region)
ORDER BY c.name, t.region, t.town, t.lat, t.lon;

-- name: country
SELECT DISTINCT country FROM country WHERE country_key = $country_key;
