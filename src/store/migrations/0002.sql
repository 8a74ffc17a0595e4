-- SPDX-License-Identifier: GPL-3.0-or-later
-- Version 2 of the office book: papers, contacts, lists of contents, packing checks, materials,
-- photos with their pins, and tallies of handovers; more of the order, the stops, the weight
-- tickets and the pieces. Columns as version 1 says.

-- Documents that stay as they were, by the SHA-256 of their bytes; "packed" is zlib.
CREATE TABLE kept_document (
  hash   TEXT NOT NULL PRIMARY KEY CHECK (length (hash) = 64),
  packed BLOB NOT NULL
) STRICT;

ALTER TABLE "order" ADD COLUMN coordinator TEXT;
ALTER TABLE "order" ADD COLUMN survey TEXT NOT NULL DEFAULT 'none' CHECK (survey IN
  ('none', 'on-site', 'virtual', 'beyond', 'waived'));
ALTER TABLE "order" ADD COLUMN per_diem INTEGER CHECK (per_diem >= 0);
ALTER TABLE "order" ADD COLUMN minimum_charge INTEGER CHECK (minimum_charge >= 0);
ALTER TABLE "order" ADD COLUMN minimum_weight TEXT;
ALTER TABLE "order" ADD COLUMN payment_terms TEXT;
ALTER TABLE "order" ADD COLUMN special_services TEXT;
ALTER TABLE "order" ADD COLUMN requested_charge INTEGER CHECK (requested_charge >= 0);
ALTER TABLE "order" ADD COLUMN impracticable_charge INTEGER CHECK (impracticable_charge >= 0);
ALTER TABLE "order" ADD COLUMN delivered_weight TEXT;
ALTER TABLE "order" ADD COLUMN notify_charges INTEGER NOT NULL DEFAULT 0
  CHECK (notify_charges IN (0, 1));
ALTER TABLE "order" ADD COLUMN insurance TEXT;
ALTER TABLE "order" ADD COLUMN insurance_premium INTEGER CHECK (insurance_premium >= 0);
ALTER TABLE "order" ADD COLUMN storage_days INTEGER CHECK (storage_days >= 0);
ALTER TABLE "order" ADD COLUMN storage_notice_on TEXT
  CHECK (date (storage_notice_on) IS storage_notice_on);
ALTER TABLE "order" ADD COLUMN closed_on TEXT CHECK (date (closed_on) IS closed_on);

ALTER TABLE valuation ADD COLUMN high_value_signed_by TEXT;

ALTER TABLE stop ADD COLUMN until TEXT CHECK (date (until) IS until);
ALTER TABLE stop ADD COLUMN hours TEXT;

ALTER TABLE weighing ADD COLUMN shipper_name TEXT;
ALTER TABLE weighing ADD COLUMN bill_number TEXT;

ALTER TABLE piece ADD COLUMN checked_by TEXT;
ALTER TABLE piece ADD COLUMN packed_on TEXT CHECK (date (packed_on) IS packed_on);
ALTER TABLE piece ADD COLUMN quantity INTEGER CHECK (quantity >= 0);
ALTER TABLE piece ADD COLUMN "set" TEXT;
ALTER TABLE piece ADD COLUMN disassembly TEXT NOT NULL DEFAULT 'none' CHECK (disassembly IN
  ('none', 'carrier', 'owner'));

ALTER TABLE handover ADD COLUMN vehicle TEXT;
ALTER TABLE handover ADD COLUMN count TEXT NOT NULL DEFAULT 'as-listed' CHECK (count IN
  ('as-listed', 'under-way', 'finished'));
ALTER TABLE handover ADD COLUMN counted_by TEXT;

-- A role more. A list of values cannot be altered, so the table is made anew.
CREATE TABLE party_of_version_2 (
  job_id      TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id          TEXT NOT NULL,
  position    INTEGER NOT NULL CHECK (position >= 0),
  role        TEXT NOT NULL CHECK (role IN
    ('none', 'shipper', 'consignee', 'payer', 'carrier', 'booking-agent',
     'origin-agent', 'destination-agent', 'hauler', 'warehouse', 'contact',
     'notify')),
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
INSERT INTO party_of_version_2
  SELECT job_id, id, position, role, name, company, phone, email, street, city, region,
         postal_code, country, dot_number, notes FROM party;
DROP TABLE party;
ALTER TABLE party_of_version_2 RENAME TO party;

CREATE TABLE thing (
  job_id      TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id          TEXT NOT NULL,
  position    INTEGER NOT NULL CHECK (position >= 0),
  piece       TEXT NOT NULL,
  description TEXT,
  quantity    INTEGER CHECK (quantity >= 0),
  value       INTEGER CHECK (value >= 0),
  weight      TEXT,
  notes       TEXT,
  PRIMARY KEY (job_id, id),
  FOREIGN KEY (job_id, piece) REFERENCES piece (job_id, id) ON DELETE CASCADE
    DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;

CREATE TABLE packing_check (
  job_id   TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id       TEXT NOT NULL,
  position INTEGER NOT NULL CHECK (position >= 0),
  piece    TEXT NOT NULL,
  rule     TEXT,
  state    TEXT NOT NULL CHECK (state IN
    ('open', 'met', 'unmet')),
  "by"     TEXT,
  "on"     TEXT CHECK (date ("on") IS "on"),
  notes    TEXT,
  PRIMARY KEY (job_id, id),
  FOREIGN KEY (job_id, piece) REFERENCES piece (job_id, id) ON DELETE CASCADE
    DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;

CREATE TABLE photo (
  job_id       TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id           TEXT NOT NULL,
  position     INTEGER NOT NULL CHECK (position >= 0),
  hash         TEXT,
  name         TEXT,
  media_type   TEXT,
  size         INTEGER CHECK (size >= 0),
  width        INTEGER CHECK (width >= 0),
  height       INTEGER CHECK (height >= 0),
  orientation  INTEGER CHECK (orientation >= 0),
  taken_at     TEXT,
  taken_offset TEXT,
  camera       TEXT,
  imported_at  TEXT,
  moment       TEXT NOT NULL CHECK (moment IN
    ('none', 'packing', 'origin', 'storage', 'delivery', 'claim')),
  piece        TEXT,
  handover     TEXT,
  caption      TEXT,
  notes        TEXT,
  PRIMARY KEY (job_id, id),
  FOREIGN KEY (job_id, piece) REFERENCES piece (job_id, id)
    DEFERRABLE INITIALLY DEFERRED,
  FOREIGN KEY (job_id, handover) REFERENCES handover (job_id, id)
    DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;

CREATE TABLE pin (
  job_id   TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id       TEXT NOT NULL,
  position INTEGER NOT NULL CHECK (position >= 0),
  photo    TEXT NOT NULL,
  piece    TEXT,
  x        INTEGER CHECK (x >= 0),
  y        INTEGER CHECK (y >= 0),
  marks    TEXT,
  notes    TEXT,
  PRIMARY KEY (job_id, id),
  FOREIGN KEY (job_id, photo) REFERENCES photo (job_id, id) ON DELETE CASCADE
    DEFERRABLE INITIALLY DEFERRED,
  FOREIGN KEY (job_id, piece) REFERENCES piece (job_id, id)
    DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;

CREATE TABLE material (
  job_id   TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id       TEXT NOT NULL,
  position INTEGER NOT NULL CHECK (position >= 0),
  item     TEXT,
  planned  INTEGER CHECK (planned >= 0),
  used     INTEGER CHECK (used >= 0),
  notes    TEXT,
  PRIMARY KEY (job_id, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE contact (
  job_id    TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id        TEXT NOT NULL,
  position  INTEGER NOT NULL CHECK (position >= 0),
  "on"      TEXT CHECK (date ("on") IS "on"),
  at        TEXT,
  manner    TEXT NOT NULL CHECK (manner IN
    ('none', 'call', 'message', 'e-mail', 'letter', 'visit')),
  who       TEXT,
  "by"      TEXT,
  complaint INTEGER NOT NULL CHECK (complaint IN (0, 1)),
  subject   TEXT,
  text      TEXT,
  PRIMARY KEY (job_id, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE paper (
  job_id            TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id                TEXT NOT NULL,
  position          INTEGER NOT NULL CHECK (position >= 0),
  kind              TEXT NOT NULL CHECK (kind IN
    ('none', 'estimate', 'booklets', 'tariff-notice', 'arbitration', 'complaints',
     'survey-waiver', 'bill-of-lading', 'inventory', 'valuation', 'high-value-list',
     'insurance', 'weight-ticket', 'delay-notice', 'storage-notice', 'delivery-receipt',
     'freight-bill', 'letter', 'other')),
  number            TEXT,
  made_on           TEXT CHECK (date (made_on) IS made_on),
  given_on          TEXT CHECK (date (given_on) IS given_on),
  signed_by         TEXT,
  signed_on         TEXT CHECK (date (signed_on) IS signed_on),
  carrier_signed_by TEXT,
  filed             TEXT,
  notes             TEXT,
  PRIMARY KEY (job_id, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE tally (
  job_id   TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id       TEXT NOT NULL,
  position INTEGER NOT NULL CHECK (position >= 0),
  handover TEXT NOT NULL,
  lot      TEXT,
  tags     TEXT,
  notes    TEXT,
  PRIMARY KEY (job_id, id),
  FOREIGN KEY (job_id, handover) REFERENCES handover (job_id, id) ON DELETE CASCADE
    DEFERRABLE INITIALLY DEFERRED,
  FOREIGN KEY (job_id, lot) REFERENCES lot (job_id, id)
    DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;

ALTER TABLE party ADD COLUMN claim_limit INTEGER CHECK (claim_limit >= 0);

ALTER TABLE claim ADD COLUMN notice_only INTEGER NOT NULL DEFAULT 0 CHECK (notice_only IN (0, 1));
ALTER TABLE claim ADD COLUMN reserve INTEGER CHECK (reserve >= 0);
ALTER TABLE claim ADD COLUMN inspected_on TEXT CHECK (date (inspected_on) IS inspected_on);

ALTER TABLE claim_line ADD COLUMN category TEXT;
ALTER TABLE claim_line ADD COLUMN proposed TEXT NOT NULL DEFAULT 'none' CHECK (proposed IN
    ('none', 'new', 'already-there', 'owner-packed', 'missing-at-count', 'signed-clean',
     'too-late', 'not-listed', 'defence', 'undecided'));
ALTER TABLE claim_line ADD COLUMN verdict TEXT NOT NULL DEFAULT 'none' CHECK (verdict IN
    ('none', 'new', 'already-there', 'owner-packed', 'missing-at-count', 'signed-clean',
     'too-late', 'not-listed', 'defence', 'undecided'));
ALTER TABLE claim_line ADD COLUMN verdict_reason TEXT;

ALTER TABLE payment ADD COLUMN freight_refund INTEGER CHECK (freight_refund >= 0);

CREATE TABLE step (
  job_id   TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id       TEXT NOT NULL,
  position INTEGER NOT NULL CHECK (position >= 0),
  claim    TEXT NOT NULL,
  kind     TEXT NOT NULL CHECK (kind IN
    ('none', 'notice', 'request', 'acknowledged', 'inspection', 'status', 'offer',
     'counter-offer', 'partial-denial', 'denial', 'release', 'reopened', 'closed', 'suit',
     'arbitration', 'other')),
  "on"     TEXT CHECK (date ("on") IS "on"),
  amount   INTEGER CHECK (amount >= 0),
  who      TEXT,
  "by"     TEXT,
  frozen   TEXT,
  text     TEXT,
  PRIMARY KEY (job_id, id),
  FOREIGN KEY (job_id, claim) REFERENCES claim (job_id, id) ON DELETE CASCADE
    DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;

CREATE TABLE quote (
  job_id     TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id         TEXT NOT NULL,
  position   INTEGER NOT NULL CHECK (position >= 0),
  claim_line TEXT NOT NULL,
  kind       TEXT NOT NULL CHECK (kind IN
    ('none', 'repair', 'replacement')),
  source     TEXT,
  "on"       TEXT CHECK (date ("on") IS "on"),
  amount     INTEGER CHECK (amount >= 0),
  notes      TEXT,
  PRIMARY KEY (job_id, id),
  FOREIGN KEY (job_id, claim_line) REFERENCES claim_line (job_id, id) ON DELETE CASCADE
    DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;

CREATE TABLE share (
  job_id     TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id         TEXT NOT NULL,
  position   INTEGER NOT NULL CHECK (position >= 0),
  claim_line TEXT NOT NULL,
  handler    TEXT,
  percent    INTEGER CHECK (percent BETWEEN 0 AND 10000),
  reason     TEXT,
  PRIMARY KEY (job_id, id),
  FOREIGN KEY (job_id, claim_line) REFERENCES claim_line (job_id, id) ON DELETE CASCADE
    DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;

CREATE TABLE charge (
  job_id       TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id           TEXT NOT NULL,
  position     INTEGER NOT NULL CHECK (position >= 0),
  claim        TEXT NOT NULL,
  handler      TEXT,
  amount       INTEGER CHECK (amount >= 0),
  stated_on    TEXT CHECK (date (stated_on) IS stated_on),
  recovered    INTEGER CHECK (recovered >= 0),
  recovered_on TEXT CHECK (date (recovered_on) IS recovered_on),
  notes        TEXT,
  PRIMARY KEY (job_id, id),
  FOREIGN KEY (job_id, claim) REFERENCES claim (job_id, id) ON DELETE CASCADE
    DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;
