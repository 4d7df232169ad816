-- For ads that name nothing word for word: the things that share rare words of their titles, or rare groups of three signs round a
-- digit (letters that look like digits taken for them), best first. $ads, $titles and $numbered are lists of one length: a number
-- for each ad, its title's words, and the stretches of it that have digits.
-- features.sql has made what things are known by. One word, or a maker's, tells nothing by itself: "loader tires" is no loader pump.
WITH asked AS MATERIALIZED (
    SELECT DISTINCT ad, word, false AS gram
    FROM (SELECT unnest($ads) AS ad, unnest([string_split(title, ' ') FOR title IN $titles]) AS words), LATERAL (SELECT unnest(words) AS word)
    UNION ALL
    SELECT DISTINCT ad, '~' || translate(gram, 'oil', '011') AS word, true AS gram
    FROM (
        SELECT ad, unnest([numbered[i : i + 2] FOR i IN range(1, length(numbered) - 1)]) AS gram
        FROM (SELECT unnest($ads) AS ad, unnest($numbered) AS numbered)
    )
    WHERE regexp_matches(gram, '[0-9]') AND NOT contains(gram, ' ')
),
asked_heft AS (
    SELECT ad, sum(coalesce(weight, millionths(ln(things.count + 1)))) AS heft
    FROM asked LEFT JOIN ad_weight USING (word), (SELECT count FROM ad_things) AS things
    WHERE NOT gram
    GROUP BY ad
),
rarest AS (
    SELECT ad, word, weight
    FROM asked
    JOIN ad_weight USING (word)
    WHERE borne_by <= greatest($common, (SELECT count FROM ad_things) // 50)
    QUALIFY row_number() OVER (PARTITION BY ad, gram ORDER BY borne_by, word) <= $rarest
),
shared AS (
    SELECT
        ad, key, sum(weight) AS weight, sum(weight) FILTER (NOT gram) AS words,
        count(*) FILTER (own AND NOT gram) >= 2 AS own_words
    FROM rarest
    JOIN ad_clue USING (word)
    GROUP BY ad, key
    HAVING bool_or(own)
),
best AS MATERIALIZED (
    SELECT ad, one.key AS key, one.words AS words, one.own_words AS own_words
    FROM (SELECT ad, unnest(max_by(shared, row(weight, -key), $most)) AS one FROM shared GROUP BY ad)
)
SELECT ad, key, CASE WHEN own_words THEN words ELSE 0 END / sqrt(heft.heft::DOUBLE * asked_heft.heft) AS cover
FROM best
JOIN ad_heft AS heft USING (key)
JOIN asked_heft USING (ad)
ORDER BY ad, cover DESC, key;
