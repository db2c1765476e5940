-- How each bench is set up, as it was last told.
CREATE TABLE setups (
  bench VARCHAR(64) NOT NULL PRIMARY KEY,
  at_ms BIGINT NOT NULL,
  setup TEXT NOT NULL
);

-- Every cutting that ever stood on a bench, also those that were taken out: the season looks back on them.
-- A name given to another plant, or to one struck on another day, is another cutting.
CREATE TABLE cuttings (
  bench VARCHAR(64) NOT NULL,
  cup VARCHAR(64) NOT NULL,
  since_ms BIGINT NOT NULL,
  plant VARCHAR(200) NOT NULL,
  struck VARCHAR(16) NOT NULL,
  gone_ms BIGINT,
  told TEXT NOT NULL,
  PRIMARY KEY (bench, cup, since_ms)
);

CREATE INDEX events_by_cup_and_kind ON events (bench, cup, kind, at_ms);
