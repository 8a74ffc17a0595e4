/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Examples about charges, weights and dates, and what no row can say yet. */
#include "config.h"

#include "examples.h"

#define UTC \
  "Washington Utilities and Transportation Commission, consumer guide, options 2 and 3"
#define PARTIAL "49 CFR 375.403(a)(11), 375.407(c), 375.707(a)(1)"
#define NOTICE \
  "Department of Defense, notice of loss or damage; how its days are counted was not found"
#define ANSWER "49 CFR 370.5(a), 370.9(a)"

const ChargeExample charge_examples[] = {
  { { "27d", "option 3: 40,000 without a deductible", UTC, MARK_DERIVED },
    "us-washington", "2024-06-03", "40000.00", "0.00", "560.00" },
  { { "27e", "option 2: 40,000 with a deductible of 300", UTC, MARK_DERIVED },
    "us-washington", "2024-06-03", "40000.00", "300.00", "440.00" },
};

const CollectExample collect_examples[] = {
  { { "11", "2,500 of 5,000 lb, binding: half of the estimate", PARTIAL, MARK_SEEN },
    WB_ESTIMATE_BINDING, "100.00", .delivered = "2,500 lb", .shipped = "5,000 lb",
    .maximum = "50.00", .later = "0.00" },
  { { "12", "2,500 of 5,000 lb, non-binding: half of 110 %", PARTIAL, MARK_SEEN },
    WB_ESTIMATE_NON_BINDING, "100.00", .delivered = "2,500 lb", .shipped = "5,000 lb",
    .maximum = "55.00", .later = "0.00" },
  { { "13", "the same, non-binding 4,000", PARTIAL, MARK_DERIVED },
    WB_ESTIMATE_NON_BINDING, "4000.00", .delivered = "2,500 lb", .shipped = "5,000 lb",
    .maximum = "2200.00", .later = "0.00" },
  { { "13b", "the same, binding 4,000", PARTIAL, MARK_DERIVED },
    WB_ESTIMATE_BINDING, "4000.00", .delivered = "2,500 lb", .shipped = "5,000 lb",
    .maximum = "2000.00", .later = "0.00" },
  { { "14", "as 13, with a valuation charge of 120", "49 CFR 375.707(a)(1)(iv)", MARK_DERIVED },
    WB_ESTIMATE_NON_BINDING, "4000.00", .valuation = "120.00", .delivered = "2,500 lb",
    .shipped = "5,000 lb", .maximum = "2320.00", .later = "0.00" },
  { { "15", "everything lost, valuation charge of 120", "49 CFR 375.709", MARK_DERIVED },
    WB_ESTIMATE_NON_BINDING, "4000.00", .valuation = "120.00", .delivered = "0 lb",
    .shipped = "5,000 lb", .maximum = "120.00", .later = "0.00" },
  { { "16", "non-binding 1,000, impracticable operations of 300", "49 CFR 375.703(b)",
      MARK_DERIVED },
    WB_ESTIMATE_NON_BINDING, "1000.00", .impracticable = "300.00", .maximum = "1265.00",
    .later = "135.00" },
  { { "17", "binding 1,000, 200 requested later, impracticable operations of 100",
      "49 CFR 375.703(a)", MARK_DERIVED },
    WB_ESTIMATE_BINDING, "1000.00", .requested = "200.00", .impracticable = "100.00",
    .maximum = "1300.00", .later = "0.00" },
};

const LateExample late_examples[] = {
  { { "32", "1,500, one extension: the least charge", "49 CFR 375.807(c)(2)", MARK_DERIVED },
    "1500.00", 1, "20.00" },
  { { "32b", "3,000, one extension: one percent", "49 CFR 375.807(c)(2)", MARK_DERIVED },
    "3000.00", 1, "30.00" },
};

const NetExample net_examples[] = {
  { { "29", "100 cubic feet of van space", "41 CFR 302-7.13(d)", MARK_DERIVED },
    NET_OF_VOLUME, "100 cuft", "7 lb", "700 lb" },
  { { "30", "crated, 1,000 lb gross", "41 CFR 302-7.13(b)", MARK_DERIVED },
    NET_OF_CRATED, "1,000 lb", NULL, "600 lb" },
  { { "31", "1,200 lb gross, container of 200 lb", "41 CFR 302-7.13(c)", MARK_DERIVED },
    NET_OF_CONTAINERS, "1,200 lb", "200 lb", "850 lb" },
};

const ClockExample clock_examples[] = {
  { { "33", "claim received 2024-03-01: acknowledge", ANSWER, MARK_DERIVED },
    "us-interstate", "2024-01-02", .received = "2024-03-01", .today = "2024-03-02",
    .clock = WB_CLOCK_ACKNOWLEDGE, .last_day = "2024-03-31" },
  { { "33b", "the same: pay, decline or offer", ANSWER, MARK_DERIVED },
    "us-interstate", "2024-01-02", .received = "2024-03-01", .today = "2024-03-02",
    .clock = WB_CLOCK_DECIDE, .last_day = "2024-06-29" },
  { { "33c", "the same: next report", ANSWER, MARK_DERIVED },
    "us-interstate", "2024-01-02", .received = "2024-03-01", .today = "2024-07-01",
    .clock = WB_CLOCK_STATUS, .last_day = "2024-08-28" },
  { { "34b", "delivered 2024-01-15: notice in 180 days", NOTICE, MARK_DERIVED },
    "us-military", "2023-12-18", .delivered = "2024-01-15", .today = "2024-01-16",
    .clock = WB_CLOCK_NOTICE, .last_day = "2024-07-13" },
  { { "34c", "the same: claim at full value", "Full replacement value rules: nine months",
      MARK_DERIVED },
    "us-military", "2023-12-18", .delivered = "2024-01-15", .today = "2024-01-16",
    .clock = WB_CLOCK_CLAIM, .last_day = "2024-10-15" },
  { { "34d", "the same: claim at depreciated value", "Full replacement value rules: two years",
      MARK_DERIVED },
    "us-military", "2023-12-18", .delivered = "2024-01-15", .today = "2024-10-16",
    .clock = WB_CLOCK_LATE_CLAIM, .last_day = "2026-01-15" },
  { { "B1", "declined in writing 2024-06-01: suit", "49 USC 14706(e)", MARK_DERIVED },
    "us-interstate", "2024-01-02", .received = "2024-03-01", .declined = "2024-06-01",
    .today = "2024-06-02", .clock = WB_CLOCK_SUIT, .last_day = "2026-06-01" },
  { { "B5", "Texas, received 2024-12-20: acknowledged in 20 days without Sundays and holidays",
      "43 TAC 218.61", MARK_DERIVED },
    "us-texas", "2024-12-01", .received = "2024-12-20", .today = "2024-12-21",
    .clock = WB_CLOCK_ACKNOWLEDGE, .last_day = "2025-01-15" },
  { { "B6", "Texas, received 2024-03-01, declined 2024-06-10: mediation ends with the 120 days",
      "43 TAC 218.62", MARK_DERIVED },
    "us-texas", "2024-01-02", .received = "2024-03-01", .declined = "2024-06-10",
    .today = "2024-06-11", .clock = WB_CLOCK_MEDIATE, .last_day = "2024-06-29" },
  { { "B2", "delivered 2024-05-31: nine months end with February",
      "49 USC 14706(e); WAC 480-15-800(2)", MARK_DERIVED },
    "us-interstate", "2024-05-20", .delivered = "2024-05-31", .today = "2024-06-02",
    .clock = WB_CLOCK_CLAIM, .last_day = "2025-02-28" },
};

const PeriodExample period_examples[] = {
  { { "34", "delivered 2024-01-15: notice in 75 days, under the rules before 2020", NOTICE,
      MARK_DERIVED },
    "2024-01-15", "75 days", "2024-03-30" },
  { { "B3", "received 2024-12-20: 20 days without Sundays and national holidays",
      "43 TAC 218.61", MARK_DERIVED },
    "2024-12-20", "20 days without sundays and holidays", "2025-01-15" },
  { { "B4", "delivered 2024-11-20: freight bill in 15 days without weekends and federal holidays",
      "49 CFR 375.807", MARK_DERIVED },
    "2024-11-20", "15 days without weekends and holidays", "2024-12-12" },
};

const IntakeExample intake_examples[] = {
  { { "39", "note on a delivery receipt “table leg broken, 80 dollars” and nothing else",
      "49 CFR 370.3(c)", MARK_SEEN },
    .state = WB_INTAKE_NOTE },
  { { "40", "letter: number of the shipment, “you are responsible”, “100 dollars more or less”",
      "49 CFR 370.3(d)", MARK_SEEN },
    .shipment = TRUE, .liability = TRUE, .state = WB_INTAKE_INDEFINITE },
  { { "40b", "the same once it asks for 100 dollars", "49 CFR 370.3(b)", MARK_DERIVED },
    .shipment = TRUE, .liability = TRUE, .amount = TRUE, .state = WB_INTAKE_CLAIM,
    .payable = TRUE },
};

/* Examples without a row, and why. Nothing is left out in silence. */
const LeftOut left_out[] = {
  { "38", "sofa damaged, matching loveseat and chair undamaged", "GAO B-266119 (1996)",
    "No key of the terms says whether undamaged pieces of a set are paid for. The adjuster enters "
    "a line for each piece that is owed; the reckoning takes it as it takes any other." },
  { NULL, "armoire of 15 years, replacement 1,000, depreciated 600",
    "An Army page on full replacement value",
    "The repair figure and the result are cut off in the copy that was read." },
  { NULL, "military depreciation by the yearly percentage of each kind of thing",
    "Joint depreciation guide",
    "The percentages were not seen; the adjuster enters the percentage." },
  { NULL, "china: the lesser of actual cash value and 90 % of replacement",
    "NJC directive d110 v234 s588",
    "A claim line has a flat percentage or a yearly one, and no lesser of both." },
  { NULL, "no demand where recovery would be 25.00 or less", "32 CFR 751.27",
    "The terms have no least amount of a claim." },
  { NULL, "inspection in 75 days of delivery or 45 of dispatch, whichever is later",
    "32 CFR 751.23", "No clock runs from two days." },
  { NULL, "8.33 SDR a kilogram", "CMR Article 23",
    "The special drawing right is not among the currencies." },
  { NULL, "late delivery: three times the freight", "HGB § 431(3)",
    "Delay is no loss or damage of goods." },
  { NULL, "no refund of freight when the shipper caused the loss", "49 CFR 375.707(c)",
    "The reckoning has no field for it; the adjuster denies the line, which is then not counted "
    "as lost." },
  { NULL, "original cost by a price index where a thing cannot be replaced", "49 CFR 370.9(b)",
    "The adjuster works out the indexed cost and enters it as the replacement cost." },
};

const gsize n_charge_examples = G_N_ELEMENTS (charge_examples);
const gsize n_collect_examples = G_N_ELEMENTS (collect_examples);
const gsize n_late_examples = G_N_ELEMENTS (late_examples);
const gsize n_net_examples = G_N_ELEMENTS (net_examples);
const gsize n_clock_examples = G_N_ELEMENTS (clock_examples);
const gsize n_period_examples = G_N_ELEMENTS (period_examples);
const gsize n_intake_examples = G_N_ELEMENTS (intake_examples);
const gsize n_left_out = G_N_ELEMENTS (left_out);
