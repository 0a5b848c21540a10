-- Ten questions of an analyst, for the tables that `slingseal records export ACCOUNT.sql` writes.
-- Load them first: psql DATABASE -f ACCOUNT.sql. Each table and column says what it holds: \d+ slingseal_account.*
-- What the tables hold was judged by the desk that wrote them; evidence are the signed words alone.
SET search_path = slingseal_account;

-- 1. How many loads were inspected each day, and how many of those inspections said not fit?
SELECT date_trunc('day', issued AT TIME ZONE 'UTC')::date AS day,
       count(DISTINCT load) AS loads, count(*) AS inspections,
       count(*) FILTER (WHERE outcome = 'not_fit') AS not_fit
FROM inspections GROUP BY day ORDER BY day;

-- 2. Which points are deficient most often, for each hundred inspections of their list?
SELECT procedure, point, count(DISTINCT seal) AS inspections,
       round(100.0 * count(DISTINCT seal) / (SELECT count(*) FROM inspections AS i WHERE i.procedure = f.procedure), 1) AS per_hundred
FROM findings AS f GROUP BY procedure, point ORDER BY per_hundred DESC, procedure, point LIMIT 10;

-- 3. Whose loads have the most deficiencies an inspection, and how many of them were put right at once?
SELECT coalesce(rigger, 'not named') AS rigger, count(*) AS inspections,
       round(avg(found), 2) AS found_each, sum(corrected) AS corrected
FROM inspections GROUP BY rigger ORDER BY found_each DESC, rigger;

-- 4. Which loads stand fit, and for how many hours from the last thing that was told?
WITH told AS (SELECT greatest((SELECT max(issued) FROM inspections), (SELECT max(reported) FROM movements)) AS latest)
SELECT load, round(extract(epoch FROM valid_until - latest)::numeric / 3600, 1) AS hours
FROM loads, told WHERE state = 'fit' AND event IS NULL AND valid_until >= latest ORDER BY hours, load;

-- 5. Which loads were lifted, and nobody said that they were set down?
SELECT load, max(happened) AT TIME ZONE 'UTC' AS lifted FROM movements AS m WHERE event = 'lifted'
  AND NOT EXISTS (SELECT FROM movements AS d WHERE d.load = m.load AND d.event IN ('set-down', 'lost') AND d.happened >= m.happened)
GROUP BY load ORDER BY load;

-- 6. How long does a load wait from its seal to its lift?
SELECT count(*) AS lifts, percentile_cont(0.5) WITHIN GROUP (ORDER BY waited) AS median, max(waited) AS longest
FROM (SELECT m.happened - max(i.issued) AS waited FROM movements AS m JOIN inspections AS i ON i.load = m.load AND i.issued <= m.happened
      WHERE m.event = 'lifted' GROUP BY m.report, m.happened) AS each;

-- 7. Which equipment is not back, and where was it last?
SELECT serial, kind, state, load FROM equipment WHERE state IN ('out', 'lost', 'damaged') ORDER BY state, serial;

-- 8. Which equipment carried most?
SELECT serial, lifts, carried_kg FROM equipment WHERE lifts > 0 ORDER BY carried_kg DESC, serial LIMIT 10;

-- 9. Who sealed how many, how many of them said not fit, and may they still seal?
SELECT holder, sealed, sealed - fit AS not_fit, good FROM people WHERE sealed > 0 ORDER BY sealed DESC, holder;

-- 10. How much of what is told of movements did somebody known sign, by device?
SELECT left(device, 8) AS device, count(*) AS reports, count(reported_by) AS signed,
       string_agg(DISTINCT reported_by, ', ') AS by
FROM movements GROUP BY movements.device ORDER BY reports DESC, device;
