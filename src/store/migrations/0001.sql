-- SPDX-License-Identifier: GPL-3.0-or-later
-- Version 1 of the office book.
--
-- One table for each kind of record, named as in core's field tables and with a column for each
-- field: text as it is, references the id of another record of the same job, yes or no as 1 or 0,
-- whole numbers and hundredths of a percent as they are, one of a list as its nick, dates as
-- YYYY-MM-DD, money as minor units of the job's currency, weights and volumes as canonical text
-- ("120 lb"). NULL is "not given". "position" is the record's place in its job, from 0.

-- A job, also one that was removed: then only this row and its history are left. What a list of
-- jobs shows stands here too; it is written with every change and never read back into a job.
CREATE TABLE job (
  doc           INTEGER PRIMARY KEY,
  id            TEXT NOT NULL UNIQUE,
  currency      TEXT NOT NULL CHECK (length (currency) = 3),
  revision      INTEGER NOT NULL CHECK (revision > 0),
  removed       INTEGER NOT NULL CHECK (removed IN (0, 1)),
  first_stored  TEXT NOT NULL CHECK (date (first_stored) IS first_stored),
  listed_by     TEXT NOT NULL CHECK (date (listed_by) IS listed_by),
  number        TEXT,
  bill_number   TEXT,
  stage         TEXT NOT NULL,
  shipper       TEXT,
  from_city     TEXT,
  to_city       TEXT,
  pickup        TEXT,
  delivery      TEXT,
  n_pieces      INTEGER NOT NULL,
  claims        TEXT,
  n_open_claims INTEGER NOT NULL
) STRICT;

CREATE INDEX job_by_day ON job (listed_by DESC, doc DESC) WHERE removed = 0;

-- What a search looks through: one row a job, numbered by job.doc.
CREATE VIRTUAL TABLE job_words USING fts5 (
  words,
  tokenize = 'unicode61 remove_diacritics 2',
  prefix = '1 2 3'
);

-- Every deed, also of jobs that were removed; "changes" is JSON packed with zlib.
CREATE TABLE history (
  job_id   TEXT NOT NULL,
  revision INTEGER NOT NULL CHECK (revision > 0),
  "when"   TEXT NOT NULL,
  who      TEXT NOT NULL,
  deed     TEXT NOT NULL,
  changes  BLOB NOT NULL,
  PRIMARY KEY (job_id, revision)
) STRICT;

-- The last number given out for each beginning.
CREATE TABLE number_series (
  prefix TEXT NOT NULL PRIMARY KEY,
  last   INTEGER NOT NULL CHECK (last > 0)
) STRICT, WITHOUT ROWID;

CREATE TABLE "order" (
  job_id           TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id               TEXT NOT NULL CHECK (id = 'order'),
  position         INTEGER NOT NULL CHECK (position = 0),
  number           TEXT,
  bill_number      TEXT,
  stage            TEXT NOT NULL CHECK (stage IN
    ('inquiry', 'booked', 'packed', 'on-the-road', 'in-storage', 'delivered',
     'closed', 'cancelled')),
  move_type        TEXT NOT NULL CHECK (move_type IN
    ('none', 'interstate', 'intrastate', 'military', 'other')),
  region           TEXT,
  terms            TEXT,
  booked_on        TEXT CHECK (date (booked_on) IS booked_on),
  survey_on        TEXT CHECK (date (survey_on) IS survey_on),
  pack_on          TEXT CHECK (date (pack_on) IS pack_on),
  pickup_from      TEXT CHECK (date (pickup_from) IS pickup_from),
  pickup_to        TEXT CHECK (date (pickup_to) IS pickup_to),
  picked_up_on     TEXT CHECK (date (picked_up_on) IS picked_up_on),
  delivery_from    TEXT CHECK (date (delivery_from) IS delivery_from),
  delivery_to      TEXT CHECK (date (delivery_to) IS delivery_to),
  delivered_on     TEXT CHECK (date (delivered_on) IS delivered_on),
  guaranteed       INTEGER NOT NULL CHECK (guaranteed IN (0, 1)),
  storage_from     TEXT CHECK (date (storage_from) IS storage_from),
  storage_to       TEXT CHECK (date (storage_to) IS storage_to),
  estimate_kind    TEXT NOT NULL CHECK (estimate_kind IN ('none', 'binding', 'non-binding')),
  estimate         INTEGER CHECK (estimate >= 0),
  estimated_on     TEXT CHECK (date (estimated_on) IS estimated_on),
  estimated_weight TEXT,
  volume           TEXT,
  freight_charge   INTEGER CHECK (freight_charge >= 0),
  other_charge     INTEGER CHECK (other_charge >= 0),
  payment_form     TEXT,
  vehicle          TEXT,
  notes            TEXT,
  PRIMARY KEY (job_id, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE valuation (
  job_id               TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id                   TEXT NOT NULL CHECK (id = 'valuation'),
  position             INTEGER NOT NULL CHECK (position = 0),
  choice               TEXT NOT NULL CHECK (choice IN ('none', 'released', 'full')),
  declared_value       INTEGER CHECK (declared_value >= 0),
  deductible           INTEGER CHECK (deductible >= 0),
  charge               INTEGER CHECK (charge >= 0),
  signed_by            TEXT,
  signed_on            TEXT CHECK (date (signed_on) IS signed_on),
  signed_how           TEXT NOT NULL CHECK (signed_how IN ('not-signed', 'paper', 'electronic')),
  disclosure           TEXT,
  high_value_list      INTEGER NOT NULL CHECK (high_value_list IN (0, 1)),
  high_value_signed_on TEXT CHECK (date (high_value_signed_on) IS high_value_signed_on),
  notes                TEXT,
  PRIMARY KEY (job_id, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE party (
  job_id      TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id          TEXT NOT NULL,
  position    INTEGER NOT NULL CHECK (position >= 0),
  role        TEXT NOT NULL CHECK (role IN
    ('none', 'shipper', 'consignee', 'payer', 'carrier', 'booking-agent',
     'origin-agent', 'destination-agent', 'hauler', 'warehouse', 'contact')),
  name        TEXT,
  company     TEXT,
  phone       TEXT,
  email       TEXT,
  street      TEXT,
  city        TEXT,
  region      TEXT,
  postal_code TEXT,
  country     TEXT,
  dot_number  TEXT,
  notes       TEXT,
  PRIMARY KEY (job_id, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE stop (
  job_id      TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id          TEXT NOT NULL,
  position    INTEGER NOT NULL CHECK (position >= 0),
  kind        TEXT NOT NULL CHECK (kind IN
    ('none', 'pickup', 'extra-pickup', 'warehouse', 'extra-delivery',
     'delivery')),
  name        TEXT,
  street      TEXT,
  city        TEXT,
  region      TEXT,
  postal_code TEXT,
  country     TEXT,
  phone       TEXT,
  "on"        TEXT CHECK (date ("on") IS "on"),
  access      TEXT,
  PRIMARY KEY (job_id, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE weighing (
  job_id     TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id         TEXT NOT NULL,
  position   INTEGER NOT NULL CHECK (position >= 0),
  kind       TEXT NOT NULL CHECK (kind IN ('none', 'weighing', 'reweigh', 'constructive')),
  "on"       TEXT CHECK (date ("on") IS "on"),
  scale      TEXT,
  ticket     TEXT,
  vehicle    TEXT,
  gross      TEXT,
  tare       TEXT,
  net        TEXT,
  weighed_by TEXT,
  PRIMARY KEY (job_id, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE lot (
  job_id   TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id       TEXT NOT NULL,
  position INTEGER NOT NULL CHECK (position >= 0),
  colour   TEXT,
  number   TEXT,
  first    INTEGER CHECK (first >= 0),
  last     INTEGER CHECK (last >= 0),
  PRIMARY KEY (job_id, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE piece (
  job_id        TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id            TEXT NOT NULL,
  position      INTEGER NOT NULL CHECK (position >= 0),
  lot           TEXT,
  tag           INTEGER CHECK (tag >= 0),
  form          TEXT NOT NULL CHECK (form IN ('carton', 'loose', 'crate')),
  carton        TEXT,
  description   TEXT,
  contents      TEXT,
  room          TEXT,
  packed_by     TEXT NOT NULL CHECK (packed_by IN ('unknown', 'CP', 'PBO')),
  packer        TEXT,
  marks         TEXT,
  weight        TEXT,
  volume        TEXT,
  article       TEXT,
  serial_number TEXT,
  listed_value  INTEGER CHECK (listed_value >= 0),
  notes         TEXT,
  PRIMARY KEY (job_id, id),
  FOREIGN KEY (job_id, lot) REFERENCES lot (job_id, id)
    DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;

CREATE TABLE handover (
  job_id      TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id          TEXT NOT NULL,
  position    INTEGER NOT NULL CHECK (position >= 0),
  kind        TEXT NOT NULL CHECK (kind IN
    ('none', 'pickup', 'into-storage', 'out-of-storage', 'transfer',
     'delivery')),
  "on"        TEXT CHECK (date ("on") IS "on"),
  place       TEXT,
  from_holder TEXT,
  to_holder   TEXT,
  from_signed TEXT,
  to_signed   TEXT,
  notes       TEXT,
  PRIMARY KEY (job_id, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE finding (
  job_id   TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id       TEXT NOT NULL,
  position INTEGER NOT NULL CHECK (position >= 0),
  handover TEXT NOT NULL,
  piece    TEXT NOT NULL,
  found    TEXT NOT NULL CHECK (found IN ('present', 'short', 'over')),
  marks    TEXT,
  notes    TEXT,
  PRIMARY KEY (job_id, id),
  FOREIGN KEY (job_id, handover) REFERENCES handover (job_id, id) ON DELETE CASCADE
    DEFERRABLE INITIALLY DEFERRED,
  FOREIGN KEY (job_id, piece) REFERENCES piece (job_id, id)
    DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;

CREATE TABLE claim (
  job_id              TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id                  TEXT NOT NULL,
  position            INTEGER NOT NULL CHECK (position >= 0),
  number              TEXT,
  status              TEXT NOT NULL CHECK (status IN ('open', 'offered', 'settled', 'declined', 'closed')),
  received_on         TEXT CHECK (date (received_on) IS received_on),
  claimant            TEXT,
  identifies_shipment INTEGER NOT NULL CHECK (identifies_shipment IN (0, 1)),
  asserts_liability   INTEGER NOT NULL CHECK (asserts_liability IN (0, 1)),
  states_amount       INTEGER NOT NULL CHECK (states_amount IN (0, 1)),
  acknowledged_on     TEXT CHECK (date (acknowledged_on) IS acknowledged_on),
  decided_on          TEXT CHECK (date (decided_on) IS decided_on),
  notes               TEXT,
  PRIMARY KEY (job_id, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE claim_line (
  job_id              TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id                  TEXT NOT NULL,
  position            INTEGER NOT NULL CHECK (position >= 0),
  claim               TEXT NOT NULL,
  number              INTEGER CHECK (number >= 0),
  piece               TEXT,
  item                TEXT,
  loss                TEXT NOT NULL CHECK (loss IN ('none', 'missing', 'destroyed', 'damaged')),
  demanded            INTEGER CHECK (demanded >= 0),
  replacement         INTEGER CHECK (replacement >= 0),
  repair              INTEGER CHECK (repair >= 0),
  appearance          INTEGER CHECK (appearance >= 0),
  salvage             INTEGER CHECK (salvage >= 0),
  weight              TEXT,
  age_years           INTEGER CHECK (age_years >= 0),
  depreciation_yearly INTEGER CHECK (depreciation_yearly BETWEEN 0 AND 10000),
  depreciation_flat   INTEGER CHECK (depreciation_flat BETWEEN 0 AND 10000),
  ruling              TEXT NOT NULL CHECK (ruling IN ('open', 'allowed', 'denied')),
  ruling_reason       TEXT,
  notes               TEXT,
  PRIMARY KEY (job_id, id),
  FOREIGN KEY (job_id, claim) REFERENCES claim (job_id, id) ON DELETE CASCADE
    DEFERRABLE INITIALLY DEFERRED,
  FOREIGN KEY (job_id, piece) REFERENCES piece (job_id, id)
    DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;

CREATE TABLE payment (
  job_id           TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id               TEXT NOT NULL,
  position         INTEGER NOT NULL CHECK (position >= 0),
  claim            TEXT NOT NULL,
  "on"             TEXT CHECK (date ("on") IS "on"),
  amount           INTEGER CHECK (amount >= 0),
  deductible_taken INTEGER CHECK (deductible_taken >= 0),
  notes            TEXT,
  PRIMARY KEY (job_id, id),
  FOREIGN KEY (job_id, claim) REFERENCES claim (job_id, id)
    DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;


-- Numbers that people say on the telephone; upper and lower case are the same number.
CREATE UNIQUE INDEX order_by_number ON "order" (number COLLATE NOCASE) WHERE number IS NOT NULL;
CREATE UNIQUE INDEX claim_by_number ON claim (number COLLATE NOCASE);
CREATE INDEX order_by_bill_number ON "order" (bill_number COLLATE NOCASE)
  WHERE bill_number IS NOT NULL;
