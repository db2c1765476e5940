-- From where each person has signed in: guessing at a name elsewhere does not slow these down.
CREATE TABLE known_places (
  name VARCHAR(64) NOT NULL REFERENCES users (name) ON DELETE CASCADE,
  place VARCHAR(64) NOT NULL,
  at_ms BIGINT NOT NULL,
  PRIMARY KEY (name, place)
);

-- Of each host when it last wrote, by its own clock: the proof that a write succeeds.
CREATE TABLE marks (
  host VARCHAR(64) NOT NULL PRIMARY KEY,
  at_ms BIGINT NOT NULL
);

-- When the host last heard a bench's beat, by its own clock. NULL: an older controller, which has none.
ALTER TABLE benches ADD COLUMN beat_ms BIGINT;

-- When one of the host's own alerts was last told to people, by its own clock.
ALTER TABLE alerts ADD COLUMN told_ms BIGINT;
