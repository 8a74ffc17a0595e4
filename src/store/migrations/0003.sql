-- SPDX-License-Identifier: GPL-3.0-or-later
-- Version 3: how a set, a defence, salvage and a quote count on a claim line, what a payment was
-- for, who carried, a charge statement as it was made out, and two more steps of a claim.

ALTER TABLE handover ADD COLUMN crew TEXT;

ALTER TABLE claim_line ADD COLUMN depreciation_least INTEGER
  CHECK (depreciation_least BETWEEN 0 AND 10000);
ALTER TABLE claim_line ADD COLUMN salvage_taken INTEGER NOT NULL DEFAULT 0
  CHECK (salvage_taken IN (0, 1));
ALTER TABLE claim_line ADD COLUMN salvage_lot TEXT;
ALTER TABLE claim_line ADD COLUMN salvage_sold INTEGER CHECK (salvage_sold >= 0);
ALTER TABLE claim_line ADD COLUMN salvage_on TEXT CHECK (date (salvage_on) IS salvage_on);
ALTER TABLE claim_line ADD COLUMN set_mate INTEGER NOT NULL DEFAULT 0 CHECK (set_mate IN (0, 1));
ALTER TABLE claim_line ADD COLUMN cause TEXT NOT NULL DEFAULT 'none' CHECK (cause IN
    ('none', 'packing', 'handling', 'loading', 'road', 'water', 'storage', 'astray', 'theft',
     'not-known'));
ALTER TABLE claim_line ADD COLUMN defence TEXT NOT NULL DEFAULT 'none' CHECK (defence IN
    ('none', 'act-of-god', 'public-enemy', 'shipper', 'authority', 'inherent-vice', 'hazardous'));

ALTER TABLE charge ADD COLUMN statement TEXT;

ALTER TABLE quote ADD COLUMN taken INTEGER NOT NULL DEFAULT 0 CHECK (taken IN (0, 1));

-- A reference is part of its table, and so is a closed list: these two are made anew.
CREATE TABLE new_payment (
  job_id           TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id               TEXT NOT NULL,
  position         INTEGER NOT NULL CHECK (position >= 0),
  claim            TEXT NOT NULL,
  claim_line       TEXT,
  "on"             TEXT CHECK (date ("on") IS "on"),
  amount           INTEGER CHECK (amount >= 0),
  deductible_taken INTEGER CHECK (deductible_taken >= 0),
  freight_refund   INTEGER CHECK (freight_refund >= 0),
  notes            TEXT,
  PRIMARY KEY (job_id, id),
  FOREIGN KEY (job_id, claim) REFERENCES claim (job_id, id)
    DEFERRABLE INITIALLY DEFERRED,
  FOREIGN KEY (job_id, claim_line) REFERENCES claim_line (job_id, id)
    DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;

INSERT INTO new_payment (job_id, id, position, claim, "on", amount, deductible_taken,
                         freight_refund, notes)
  SELECT job_id, id, position, claim, "on", amount, deductible_taken, freight_refund, notes
    FROM payment;
DROP TABLE payment;
ALTER TABLE new_payment RENAME TO payment;

CREATE TABLE new_step (
  job_id   TEXT NOT NULL REFERENCES job (id) DEFERRABLE INITIALLY DEFERRED,
  id       TEXT NOT NULL,
  position INTEGER NOT NULL CHECK (position >= 0),
  claim    TEXT NOT NULL,
  kind     TEXT NOT NULL CHECK (kind IN
    ('none', 'notice', 'request', 'acknowledged', 'inspection', 'status', 'offer',
     'counter-offer', 'partial-denial', 'denial', 'release', 'reopened', 'closed', 'suit',
     'arbitration', 'mediation', 'transfer', 'other')),
  "on"     TEXT CHECK (date ("on") IS "on"),
  amount   INTEGER CHECK (amount >= 0),
  who      TEXT,
  "by"     TEXT,
  frozen   TEXT,
  letter   TEXT,
  text     TEXT,
  PRIMARY KEY (job_id, id),
  FOREIGN KEY (job_id, claim) REFERENCES claim (job_id, id) ON DELETE CASCADE
    DEFERRABLE INITIALLY DEFERRED
) STRICT, WITHOUT ROWID;

INSERT INTO new_step (job_id, id, position, claim, kind, "on", amount, who, "by", frozen, text)
  SELECT job_id, id, position, claim, kind, "on", amount, who, "by", frozen, text
    FROM step;
DROP TABLE step;
ALTER TABLE new_step RENAME TO step;

-- Every number that a job or a claim ever had, so that none is given out again when what had it is
-- gone: 49 CFR 370.5(b).
CREATE TABLE used_number (
  number TEXT NOT NULL PRIMARY KEY COLLATE NOCASE
) STRICT, WITHOUT ROWID;

INSERT OR IGNORE INTO used_number
  SELECT number FROM "order" WHERE number IS NOT NULL
  UNION ALL SELECT number FROM claim WHERE number IS NOT NULL;

-- What the legal dates of each open claim go by: of its job, what decides which terms govern; of the
-- claim, the line of dates that core makes. It is written with every change and never read back into
-- a job; after a book was brought up to date it is made anew by the program.
CREATE TABLE open_claim (
  doc       INTEGER NOT NULL REFERENCES job (doc) DEFERRABLE INITIALLY DEFERRED,
  claim     TEXT NOT NULL,
  number    TEXT,
  terms     TEXT,
  move_type TEXT NOT NULL,
  region    TEXT,
  pickup    TEXT CHECK (date (pickup) IS pickup),
  input     TEXT NOT NULL,
  PRIMARY KEY (doc, claim)
) STRICT, WITHOUT ROWID;
