-- The state was one JSON text, written whole at each tick. Now each cup has a whole record of its own,
-- written anew in turn, and a tick writes what differs from those. What was kept is carried over by
-- StateTexts, which drops the old tables.
ALTER TABLE state RENAME TO state_text;
ALTER TABLE start RENAME TO start_text;

-- The last whole record of each cup, in CBOR.
CREATE TABLE cup (
  name TEXT PRIMARY KEY,
  body BLOB NOT NULL
);

-- After the last tick: the bench without its cups, and how each cup differs from its whole record, in
-- CBOR; every pass of that tick counts as given in it.
CREATE TABLE state (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  tick INTEGER NOT NULL,
  at TEXT NOT NULL,
  body BLOB NOT NULL
);

-- From where a journal can be replayed; the state is the whole one, in CBOR.
CREATE TABLE start (
  first_tick INTEGER NOT NULL,
  at TEXT NOT NULL,
  cause TEXT NOT NULL CHECK (cause IN ('start', 'day')),
  epoch TEXT NOT NULL,
  version TEXT NOT NULL,
  bench TEXT NOT NULL,
  state BLOB NOT NULL
);
