-- From where each person has signed in: guessing at a name elsewhere does not slow these down.
CREATE TABLE known_places (
  name VARCHAR(64) NOT NULL REFERENCES users (name) ON DELETE CASCADE,
  place VARCHAR(64) NOT NULL,
  at_ms BIGINT NOT NULL,
  PRIMARY KEY (name, place)
);
