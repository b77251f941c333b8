/** Counted up with each change of the tables; an older program leaves a newer store alone. */
export const SCHEMA = 1;

/** Held while tables are looked at and made, so that two servers that start at once make them once. Any number. */
export const SCHEMA_LOCK = "SELECT pg_advisory_xact_lock(8315168)";

/**
 * As in SQLite, each row with its shop. `shop_head` gives a job's numbers, and its row is locked until the commit: so
 * changes of one job become visible in the order of their numbers, and a base up to n lacks none that comes later with
 * a smaller number. (A sequence gives numbers at once, and commits overtake each other.) It stays after a purge, so
 * that no number is given twice.
 */
export const TABLES = `
CREATE TABLE IF NOT EXISTS shop_schema (version int NOT NULL);
CREATE TABLE IF NOT EXISTS shop_head (shop text, job text, seq bigint NOT NULL, PRIMARY KEY (shop, job));
CREATE TABLE IF NOT EXISTS shop_log (shop text, job text, seq bigint, device text NOT NULL, at bigint NOT NULL,
  seen bigint NOT NULL, bytes bytea NOT NULL, PRIMARY KEY (shop, job, seq));
CREATE TABLE IF NOT EXISTS shop_base (shop text, job text, seq bigint NOT NULL, at bigint NOT NULL,
  bytes bytea NOT NULL, PRIMARY KEY (shop, job));
CREATE TABLE IF NOT EXISTS shop_record (shop text, kind text, id text, value text NOT NULL,
  PRIMARY KEY (shop, kind, id));
CREATE TABLE IF NOT EXISTS shop_blob (shop text, digest text, bytes bytea NOT NULL, PRIMARY KEY (shop, digest));
INSERT INTO shop_schema SELECT ${SCHEMA} WHERE NOT EXISTS (SELECT FROM shop_schema);`;

/**
 * $1 shop, $2 channel, $3 server, $4 call, $5 to $9 jobs, devices, times, seen, updates. Heads are locked in the order
 * of their jobs, or two batches could wait for each other. A notification has numbers alone: its payload ends at 8,000
 * bytes. It is sent when, and only when, this statement commits.
 */
export const APPEND = `
WITH given AS (
  SELECT * FROM unnest($5::text[], $6::text[], $7::bigint[], $8::bigint[], $9::bytea[])
    WITH ORDINALITY AS g(job, device, at, seen, bytes, nth)
), heads AS (
  INSERT INTO shop_head AS h (shop, job, seq)
  SELECT $1::text, job, count(*) FROM given GROUP BY job ORDER BY job
  ON CONFLICT (shop, job) DO UPDATE SET seq = h.seq + excluded.seq
  RETURNING job, seq
), numbered AS (
  SELECT g.*, h.seq - count(*) OVER (PARTITION BY g.job) + row_number() OVER (PARTITION BY g.job ORDER BY g.nth) AS seq
  FROM given g JOIN heads h ON h.job = g.job
), logged AS (
  INSERT INTO shop_log (shop, job, seq, device, at, seen, bytes)
  SELECT $1, job, seq, device, at, seen, bytes FROM numbered
), told AS (
  SELECT pg_notify($2, json_build_object('server', $3::text, 'call', $4::bigint, 'job', job,
    'first', min(seq), 'last', max(seq))::text)
  FROM numbered GROUP BY job
)
SELECT seq, (SELECT count(*) FROM told) FROM numbered ORDER BY nth`;

/** Base and log in one statement, so both are of one moment. The base has no device, and the least number. */
export const READ = `
SELECT seq, NULL AS device, at, NULL AS seen, bytes FROM shop_base WHERE shop = $1 AND job = $2
UNION ALL
SELECT seq, device, at, seen, bytes FROM shop_log WHERE shop = $1 AND job = $2
  AND seq > coalesce((SELECT seq FROM shop_base WHERE shop = $1 AND job = $2), 0)
ORDER BY seq`;

export const HISTORY = `SELECT seq, device, at, seen, bytes FROM shop_log
WHERE shop = $1 AND job = $2 AND seq > $3 ORDER BY seq LIMIT $4`;

export const FETCH = `SELECT seq, device, at, seen, bytes FROM shop_log
WHERE shop = $1 AND job = $2 AND seq = ANY ($3::bigint[]) ORDER BY seq`;

export const COUNTS = `SELECT count(*) AS all, count(*) FILTER (WHERE seq > coalesce(
  (SELECT seq FROM shop_base WHERE shop = $1 AND job = $2), 0)) AS log
FROM shop_log WHERE shop = $1 AND job = $2`;

export const LOCK_HEAD = "SELECT FROM shop_head WHERE shop = $1 AND job = $2 FOR UPDATE";

export const INSERT_ROWS = `INSERT INTO shop_log (shop, job, seq, device, at, seen, bytes)
SELECT $1, $2, * FROM unnest($3::bigint[], $4::text[], $5::bigint[], $6::bigint[], $7::bytea[])`;

export const SET_BASE = `INSERT INTO shop_base (shop, job, seq, at, bytes) VALUES ($1, $2, $3, $4, $5)
ON CONFLICT (shop, job) DO UPDATE SET seq = excluded.seq, at = excluded.at, bytes = excluded.bytes`;

/** A change of one record $5 $6, told where it was one ($1 to $4 as above). `$7` and `$8`: what it is and what it was. */
const tellingOf = (change: string): string => `
WITH done AS (${change} RETURNING id), told AS (
  SELECT pg_notify($2, json_build_object('server', $3::text, 'call', $4::bigint, 'kind', $5::text, 'id', id)::text)
  FROM done
)
SELECT count(*) AS done FROM told`;

const INSERT_RECORD = "INSERT INTO shop_record (shop, kind, id, value) VALUES ($1, $5, $6, $7)";
const THIS_RECORD = "shop = $1 AND kind = $5 AND id = $6";
export const PUT = tellingOf(
  `${INSERT_RECORD} ON CONFLICT (shop, kind, id) DO UPDATE SET value = excluded.value`,
);
export const PUT_NEW = tellingOf(`${INSERT_RECORD} ON CONFLICT (shop, kind, id) DO NOTHING`);
export const PUT_WHERE = tellingOf(`UPDATE shop_record SET value = $7 WHERE ${THIS_RECORD} AND value = $8`);
export const REMOVE = tellingOf(`DELETE FROM shop_record WHERE ${THIS_RECORD}`);
export const REMOVE_WHERE = tellingOf(`DELETE FROM shop_record WHERE ${THIS_RECORD} AND value = $7`);
