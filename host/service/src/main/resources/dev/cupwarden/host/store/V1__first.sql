-- One set for SQLite and PostgreSQL. Times are milliseconds since 1970-01-01T00:00Z.
-- ${clustered} is WITHOUT ROWID on SQLite, so that a row lives in its key's order, and nothing on PostgreSQL.

CREATE TABLE series (
  id BIGINT NOT NULL PRIMARY KEY,
  bench VARCHAR(64) NOT NULL,
  name VARCHAR(140) NOT NULL,
  unit VARCHAR(32),
  UNIQUE (bench, name)
);

CREATE TABLE readings (
  series BIGINT NOT NULL REFERENCES series (id),
  at_ms BIGINT NOT NULL,
  value DOUBLE PRECISION NOT NULL,
  PRIMARY KEY (series, at_ms)
) ${clustered};

CREATE TABLE benches (
  bench VARCHAR(64) NOT NULL PRIMARY KEY,
  presence VARCHAR(16),
  since_ms BIGINT,
  status TEXT,
  status_ms BIGINT
);

CREATE TABLE cups (
  bench VARCHAR(64) NOT NULL,
  cup VARCHAR(64) NOT NULL,
  at_ms BIGINT NOT NULL,
  status TEXT NOT NULL,
  PRIMARY KEY (bench, cup)
);

CREATE TABLE events (
  bench VARCHAR(64) NOT NULL,
  epoch VARCHAR(64) NOT NULL,
  seq BIGINT NOT NULL,
  at_ms BIGINT NOT NULL,
  kind VARCHAR(32) NOT NULL,
  cup VARCHAR(64),
  data TEXT NOT NULL,
  PRIMARY KEY (bench, epoch, seq)
);
CREATE INDEX events_by_time ON events (bench, at_ms);
CREATE INDEX events_by_cup ON events (bench, cup, at_ms);

-- The highest number stored without a gap, per journal of a bench.
CREATE TABLE kept (
  bench VARCHAR(64) NOT NULL,
  epoch VARCHAR(64) NOT NULL,
  seq BIGINT NOT NULL,
  PRIMARY KEY (bench, epoch)
);

-- The last word on each alert; cleared ones stay, so that an older word that comes late does not raise them again.
CREATE TABLE alerts (
  bench VARCHAR(64) NOT NULL,
  code VARCHAR(64) NOT NULL,
  cup VARCHAR(64) NOT NULL,
  state VARCHAR(16) NOT NULL,
  at_ms BIGINT NOT NULL,
  notice TEXT NOT NULL,
  PRIMARY KEY (bench, code, cup)
);

CREATE TABLE orders (
  bench VARCHAR(64) NOT NULL,
  id VARCHAR(64) NOT NULL,
  kind VARCHAR(32) NOT NULL,
  issued_ms BIGINT NOT NULL,
  body TEXT NOT NULL,
  PRIMARY KEY (bench, id)
);
CREATE INDEX orders_by_time ON orders (bench, issued_ms);

CREATE TABLE receipts (
  bench VARCHAR(64) NOT NULL,
  order_id VARCHAR(64) NOT NULL,
  outcome VARCHAR(16) NOT NULL,
  at_ms BIGINT NOT NULL,
  body TEXT NOT NULL,
  PRIMARY KEY (bench, order_id, outcome)
);

-- Messages that could not be understood, with the reason; only the head of each is kept.
CREATE TABLE aside (
  at_ms BIGINT NOT NULL,
  topic VARCHAR(512) NOT NULL,
  reason VARCHAR(512) NOT NULL,
  bytes BIGINT NOT NULL,
  head VARCHAR(600) NOT NULL
);
CREATE INDEX aside_by_time ON aside (at_ms);
