-- When the host last heard a bench, and last saw its presence turn, both by the host's clock.
ALTER TABLE benches ADD COLUMN heard_ms BIGINT;
ALTER TABLE benches ADD COLUMN turned_ms BIGINT;

-- Who has seen an alert; forgotten when it clears.
ALTER TABLE alerts ADD COLUMN seen_ms BIGINT;
ALTER TABLE alerts ADD COLUMN seen_by VARCHAR(64);

-- Numbers that a journal gave and that never came, passed over after a while.
CREATE TABLE gaps (
  bench VARCHAR(64) NOT NULL,
  epoch VARCHAR(64) NOT NULL,
  first_seq BIGINT NOT NULL,
  last_seq BIGINT NOT NULL,
  at_ms BIGINT NOT NULL,
  PRIMARY KEY (bench, epoch, first_seq)
);

-- Readings of each 10 minutes and each hour by their least and greatest, for long ranges.
CREATE TABLE rollups (
  series BIGINT NOT NULL REFERENCES series (id),
  step_ms BIGINT NOT NULL,
  at_ms BIGINT NOT NULL,
  least DOUBLE PRECISION NOT NULL,
  least_ms BIGINT NOT NULL,
  greatest DOUBLE PRECISION NOT NULL,
  greatest_ms BIGINT NOT NULL,
  PRIMARY KEY (series, step_ms, at_ms)
) ${clustered};

-- Hours whose readings have changed since they were rolled up.
CREATE TABLE unrolled (
  series BIGINT NOT NULL REFERENCES series (id),
  at_ms BIGINT NOT NULL,
  PRIMARY KEY (series, at_ms)
) ${clustered};

INSERT INTO unrolled (series, at_ms) SELECT DISTINCT series, at_ms - at_ms % 3600000 FROM readings;

-- What people are to be told and how far that is; a message is one or more of them sent together.
CREATE TABLE notices (
  id VARCHAR(64) NOT NULL PRIMARY KEY,
  way VARCHAR(16) NOT NULL,
  bench VARCHAR(64) NOT NULL,
  due_ms BIGINT NOT NULL,
  made_ms BIGINT NOT NULL,
  body TEXT NOT NULL,
  message VARCHAR(64),
  tries BIGINT NOT NULL,
  settled_ms BIGINT,
  outcome VARCHAR(200)
);
CREATE INDEX notices_by_due ON notices (settled_ms, due_ms);

CREATE TABLE users (
  name VARCHAR(64) NOT NULL PRIMARY KEY,
  role VARCHAR(16) NOT NULL,
  hash VARCHAR(300) NOT NULL
);

-- A session's token itself is known to its browser only.
CREATE TABLE sessions (
  digest VARCHAR(64) NOT NULL PRIMARY KEY,
  name VARCHAR(64) NOT NULL REFERENCES users (name) ON DELETE CASCADE,
  ends_ms BIGINT NOT NULL
);

-- With which word a bench's controller comes to the broker inside the host.
CREATE TABLE bench_keys (
  bench VARCHAR(64) NOT NULL PRIMARY KEY,
  hash VARCHAR(300) NOT NULL
);
