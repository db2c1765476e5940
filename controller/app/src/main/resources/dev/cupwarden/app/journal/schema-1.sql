-- Who numbers the events, how far it got, and how far a host has stored them.
CREATE TABLE numbering (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  epoch TEXT NOT NULL,
  last_seq INTEGER NOT NULL,
  kept_seq INTEGER NOT NULL
);

-- From where a journal can be replayed: at each start of the controller and at each day's end.
CREATE TABLE start (
  first_tick INTEGER NOT NULL,
  at TEXT NOT NULL,
  cause TEXT NOT NULL CHECK (cause IN ('start', 'day')),
  epoch TEXT NOT NULL,
  version TEXT NOT NULL,
  bench TEXT NOT NULL,
  state TEXT NOT NULL
);

-- What each tick saw, as a line of advise input.
CREATE TABLE observation (
  tick INTEGER PRIMARY KEY,
  at TEXT NOT NULL,
  line TEXT NOT NULL
);

-- The state after the last tick; every pass of that tick counts as given in it.
CREATE TABLE state (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  tick INTEGER NOT NULL,
  at TEXT NOT NULL,
  state TEXT NOT NULL
);

-- An intent is put down before the pump starts, its outcome after it stopped.
CREATE TABLE pass (
  id INTEGER PRIMARY KEY,
  tick INTEGER NOT NULL,
  at TEXT NOT NULL,
  cup TEXT NOT NULL,
  plain_ml REAL NOT NULL,
  feed_ml REAL NOT NULL,
  strength REAL NOT NULL,
  why TEXT NOT NULL,
  outcome TEXT CHECK (outcome IN ('given', 'failed', 'unknown')),
  outcome_at TEXT,
  ran_plain_ml REAL,
  ran_feed_ml REAL,
  detail TEXT
);
CREATE INDEX pass_open ON pass (id) WHERE outcome IS NULL;

-- Outbox: an event stays until a host has kept it.
CREATE TABLE event (
  seq INTEGER PRIMARY KEY,
  at TEXT NOT NULL,
  kind TEXT NOT NULL,
  cup TEXT,
  data TEXT NOT NULL
);

-- Outbox: a pack of readings stays until a broker has taken it.
CREATE TABLE pack (
  tick INTEGER PRIMARY KEY,
  at TEXT NOT NULL,
  senml TEXT NOT NULL
);

-- An order is here before the broker hears that it arrived, so none is lost or taken twice.
CREATE TABLE inbox (
  id TEXT PRIMARY KEY,
  received TEXT NOT NULL,
  expires TEXT NOT NULL,
  body TEXT NOT NULL,
  taken_tick INTEGER
);
