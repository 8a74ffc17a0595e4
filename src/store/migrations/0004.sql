-- SPDX-License-Identifier: GPL-3.0-or-later
-- Version 4: the file servers of the office, what of each job was last in step with which of them,
-- and what is waiting to be sent or fetched. No password is ever in here.

CREATE TABLE server (
  id        TEXT NOT NULL PRIMARY KEY CHECK (length (id) = 36),
  position  INTEGER NOT NULL CHECK (position >= 0),
  name      TEXT NOT NULL COLLATE NOCASE UNIQUE,
  kind      TEXT NOT NULL CHECK (kind IN ('folder', 'webdav', 'sftp', 's3')),
  address   TEXT NOT NULL,
  "user"    TEXT,
  bucket    TEXT,
  region    TEXT,
  authority TEXT,
  key_file  TEXT
) STRICT, WITHOUT ROWID;

-- The job as it was when it was last sent to a server or fetched from it: the versions there that
-- this book has seen, with blanks between, and the document of the job, which a merge starts from.
CREATE TABLE publication (
  job_id    TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  server    TEXT NOT NULL REFERENCES server (id) ON DELETE CASCADE
    DEFERRABLE INITIALLY DEFERRED,
  heads     TEXT NOT NULL,
  document  TEXT NOT NULL REFERENCES kept_document (hash) DEFERRABLE INITIALLY DEFERRED,
  "at"      TEXT NOT NULL,
  PRIMARY KEY (job_id, server)
) STRICT, WITHOUT ROWID;

-- A job that is fetched for the first time is not in the book yet, so its id refers to nothing.
-- "holder" is the program that is at work on an entry, and "beat" when it last said so: after that
-- has stopped for a while the entry is anybody's. Times are seconds since 1970.
CREATE TABLE share_queue (
  id       INTEGER PRIMARY KEY AUTOINCREMENT,
  job_id   TEXT NOT NULL,
  title    TEXT NOT NULL,
  server   TEXT NOT NULL REFERENCES server (id) ON DELETE CASCADE DEFERRABLE INITIALLY DEFERRED,
  deed     TEXT NOT NULL CHECK (deed IN ('publish', 'fetch')),
  state    TEXT NOT NULL CHECK (state IN ('waiting', 'running', 'paused', 'failed', 'done')),
  tries    INTEGER NOT NULL CHECK (tries >= 0),
  next_try INTEGER NOT NULL CHECK (next_try >= 0),
  fault    TEXT,
  done     INTEGER NOT NULL CHECK (done >= 0),
  "all"    INTEGER NOT NULL CHECK ("all" >= 0),
  added    INTEGER NOT NULL CHECK (added >= 0),
  holder   TEXT,
  beat     INTEGER NOT NULL CHECK (beat >= 0)
) STRICT;
