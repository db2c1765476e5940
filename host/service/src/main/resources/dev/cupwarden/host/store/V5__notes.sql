-- What people wrote and photographed of a cup. A photo is a JPEG in base64: a text is the same in each database.
CREATE TABLE notes (
  bench VARCHAR(64) NOT NULL,
  cup VARCHAR(64) NOT NULL,
  id VARCHAR(64) NOT NULL,
  at_ms BIGINT NOT NULL,
  day VARCHAR(16) NOT NULL,
  stage VARCHAR(16) NOT NULL,
  writer VARCHAR(64) NOT NULL,
  words TEXT NOT NULL,
  photo TEXT,
  PRIMARY KEY (bench, cup, id)
);
