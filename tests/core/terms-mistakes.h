/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows of a table in test-terms.c: a mistake in the plain file there, and the message it gets. */
  { "top/no-regime", 1, "",
    "6: there is no “regime” at the top of the file; expected up to 64 small letters, digits "
    "and hyphens, such as “us-interstate”" },
  { "top/no-title", 2, "",
    "6: there is no “title” at the top of the file; expected up to 200 characters that tell "
    "a person which regime it is" },
  { "top/no-currency", 3, "",
    "6: there is no “currency” at the top of the file; expected an ISO 4217 code, such as "
    "“USD”" },
  { "top/regime", 1, "regime = Plain Terms",
    "1: “regime” cannot be “Plain Terms”; expected up to 64 small letters, digits and "
    "hyphens, such as “us-interstate”" },
  { "top/title", 2, "title =",
    "2: “title” has no value; expected up to 200 characters that tell a person which regime "
    "it is" },
  { "top/currency", 3, "currency = XXX",
    "3: “currency” cannot be “XXX”; expected an ISO 4217 code, such as “USD”" },
  { "top/currency-case", 3, "currency = usd",
    "3: “currency” cannot be “usd”; expected an ISO 4217 code, such as “USD”" },
  { "top/move-type", 4, "move-type = local",
    "4: “move-type” cannot be “local”; expected interstate, intrastate, military or other" },
  { "top/move-type-none", 4, "move-type = none",
    "4: “move-type” cannot be “none”; expected interstate, intrastate, military or other" },
  { "top/region", 5, "region = W A",
    "5: “region” cannot be “W A”; expected up to 20 letters, digits and hyphens, such as “WA”" },
  { "top/region-alone", 4, "",
    "5: “region” has no effect without a “move-type”; expected both or neither" },
  { "top/twice", 2, "title = A\ntitle = B",
    "3: “title” stands here a second time; expected it once, and it is on line 2 already" },
  { "top/key-of-edition", 2, "title = A\nfrom = 2010-01-01",
    "3: “from” does not belong at the top of the file; expected in [edition]" },
  { "top/key-of-section", 2, "title = A\ncarton = one-article",
    "3: “carton” does not belong at the top of the file; expected in [articles]" },
  { "top/section-first", 6, "[claims]",
    "6: [claims] stands before the first edition; expected [edition] and its dates first" },
  { "edition/no-from", 7, "",
    "6: this edition has no “from”; expected the first day of pick-up that the edition "
    "governs, such as “2012-05-15”" },
  { "edition/from", 7, "from = 2010-02-30",
    "7: “from” cannot be “2010-02-30”; expected the first day of pick-up that the edition "
    "governs, such as “2012-05-15”" },
  { "edition/from-form", 7, "from = 1/1/2010",
    "7: “from” cannot be “1/1/2010”; expected the first day of pick-up that the edition "
    "governs, such as “2012-05-15”" },
  { "edition/from-cited", 7, "from = 2010-01-01 ; rule 4",
    "7: “from” cannot be “2010-01-01 ; rule 4”; expected the first day of pick-up that the "
    "edition governs, such as “2012-05-15”" },
  { "edition/until", 8, "until = soon",
    "8: “until” cannot be “soon”; expected the last day of pick-up that the edition governs, "
    "such as “2020-05-14”" },
  { "edition/until-before-from", 8, "until = 2009-12-31",
    "8: “until” is before “from”; expected a last day that is not before the first" },
  { "edition/twice", 8, "until = 2015-12-31\nuntil = 2015-12-31",
    "9: “until” stands here a second time; expected it once, and it is on line 8 already" },
  { "edition/open-before-another", 8, "",
    "21: another edition follows the one on line 6, which has no last day; expected “until = "
    "…” in that one" },
  { "edition/overlap", 22, "from = 2015-12-31",
    "22: the edition on line 6 governs pick-ups from 2010-01-01 until 2015-12-31 already; "
    "expected a later first day, with the editions in order of their dates" },
  { "edition/out-of-order", 22, "from = 2009-01-01\nuntil = 2009-12-31",
    "22: the edition on line 6 governs pick-ups from 2010-01-01 until 2015-12-31 already; "
    "expected a later first day, with the editions in order of their dates" },
  { "edition/key-of-top", 8, "title = B",
    "8: “title” does not belong in [edition]; expected at the top of the file" },
  { "edition/key-of-section", 8, "carton = one-article",
    "8: “carton” does not belong in [edition]; expected in [articles]" },
  { "line/nonsense", 10, "rounding half-up",
    "10: “rounding half-up” does not read; expected “key = value”, “[section]” or “# comment”" },
  { "line/no-key", 10, "= half-up",
    "10: “= half-up” does not read; expected “key = value”, “[section]” or “# comment”" },
  { "line/open-heading", 9, "[shipment",
    "9: the heading does not end; expected a line such as “[released]” with nothing after it" },
  { "line/after-heading", 9, "[shipment] # of goods",
    "9: the heading does not end; expected a line such as “[released]” with nothing after it" },
  { "line/comment-after-value", 12, "claim-within = 9 months # nine",
    "12: “claim-within” does not read: *; expected a period of at least one day, such as "
    "“120 days”, “9 months” or “2 years”" },
  { "section/unknown", 9, "[shipmnt]",
    "9: unknown section “shipmnt”; expected perhaps [shipment]" },
  { "section/far-off", 9, "[insurance and other matters]",
    "9: unknown section “insurance and other matters”; expected [edition], [shipment], "
    "[articles], [loss], [freight], [claims], [released] or [full]" },
  { "section/capital", 16, "[Full]",
    "16: unknown section “Full”; expected perhaps [full]" },
  { "section/empty", 9, "[]",
    "9: unknown section “”; expected [edition], [shipment], [articles], [loss], [freight], "
    "[claims], [released] or [full]" },
  { "section/twice", 16, "[full]\n[full]",
    "17: [full] stands here a second time; expected it once, and it is on line 16 already" },
  { "key/unknown", 15, "artcle-rate = 0.60 per lb",
    "15: unknown key “artcle-rate” in [released]; expected perhaps “article-rate”, in "
    "[released] or [full]" },
  { "key/far-off", 15, "zzzzzzzzzzzz = 0.60 per lb",
    "15: unknown key “zzzzzzzzzzzz” in [released]; expected a key of the terms format" },
  { "key/capital", 15, "Article-Rate = 0.60 per lb",
    "15: unknown key “Article-Rate” in [released]; expected perhaps “article-rate”, in "
    "[released] or [full]" },
  { "key/elsewhere", 15, "claim-within = 9 months",
    "15: “claim-within” does not belong in [released]; expected in [claims]" },
  { "key/sets-elsewhere", 12, "sets = only-piece",
    "12: “sets” does not belong in [claims]; expected in [articles]" },
  { "key/of-a-side", 12, "article-rate = 0.60 per lb",
    "12: “article-rate” does not belong in [claims]; expected in [released] or [full]" },
  { "key/salvage-elsewhere", 15, "collect-salvage-within = 30 days",
    "15: “collect-salvage-within” does not belong in [released]; expected in [claims]" },
  { "key/transfer-misspelt", 12, "transfer-within = 30 days",
    "12: unknown key “transfer-within” in [claims]; expected perhaps “transfer-after”, in "
    "[claims]" },
  { "key/of-top", 15, "currency = USD",
    "15: “currency” does not belong in [released]; expected at the top of the file" },
  { "key/twice", 15, "article-rate = 0.60 per lb\narticle-rate = 0.60 per lb",
    "16: “article-rate” stands here a second time; expected it once, and it is on line 15 "
    "already" },
  { "key/no-value", 15, "article-rate =",
    "15: “article-rate” has no value; expected an amount above zero per lb, kg or cwt, such "
    "as “0.60 per lb”" },
  { "key/only-a-citation", 15, "article-rate = ; rule 3",
    "15: “article-rate” has no value; expected an amount above zero per lb, kg or cwt, such "
    "as “0.60 per lb”" },
  { "key/empty-citation", 15, "article-rate = 0.60 per lb ;",
    "15: nothing is cited after the semicolon; expected where the rule is written, or no "
    "semicolon" },
  { "value/word", 10, "rounding = nearest",
    "10: “rounding” does not read: “nearest” is none of its values; expected half-up, "
    "half-even, down or up" },
  { "value/sets", 9, "[articles]\nsets = mates",
    "10: “sets” does not read: “mates” is none of its values; expected with-mates or "
    "only-piece" },
  { "value/yes-no", 20, "deductible = true",
    "20: “deductible” does not read: “true” is neither; expected yes or no" },
  { "value/rate", 15, "article-rate = sixty cents per pound",
    "15: “article-rate” does not read: *; expected an amount above zero per lb, kg or cwt, "
    "such as “0.60 per lb”" },
  { "value/rate-unit", 15, "article-rate = 0.60 per stone",
    "15: “article-rate” does not read: *; expected an amount above zero per lb, kg or cwt, "
    "such as “0.60 per lb”" },
  { "value/rate-alone", 15, "article-rate = 0.60",
    "15: “article-rate” does not read: *; expected an amount above zero per lb, kg or cwt, "
    "such as “0.60 per lb”" },
  { "value/rate-decimals", 15, "article-rate = 0.605 per lb",
    "15: “article-rate” does not read: *; expected an amount above zero per lb, kg or cwt, "
    "such as “0.60 per lb”" },
  { "value/rate-currency", 15, "article-rate = 0.60 EUR per lb",
    "15: “article-rate” does not read: *; expected an amount above zero per lb, kg or cwt, "
    "such as “0.60 per lb”" },
  { "value/rate-zero", 15, "article-rate = 0.00 per lb",
    "15: “article-rate” does not read: “0.00 per lb” is not above zero; expected an amount "
    "above zero per lb, kg or cwt, such as “0.60 per lb”" },
  { "value/rate-negative", 15, "article-rate = -0.60 per lb",
    "15: “article-rate” does not read: *; expected an amount above zero per lb, kg or cwt, "
    "such as “0.60 per lb”" },
  { "value/rate-by-volume", 15, "article-rate = 0.60 per cuft",
    "15: “article-rate” does not read: “0.60 per cuft” is by volume, and an article is "
    "limited by its weight; expected an amount above zero per lb, kg or cwt, such as “0.60 "
    "per lb”" },
  { "value/money", 18, "shipment-minimum = 5.000,00",
    "18: “shipment-minimum” does not read: *; expected an amount above zero, such as "
    "“5000.00”" },
  { "value/money-zero", 18, "shipment-minimum = 0.00",
    "18: “shipment-minimum” does not read: “0.00” is not above zero; expected an amount "
    "above zero, such as “5000.00”" },
  { "value/money-large", 18, "shipment-minimum = 10000000000.01",
    "18: “shipment-minimum” does not read: “10000000000.01” is absurdly large; expected an "
    "amount above zero, such as “5000.00”" },
  { "value/money-overflow", 18, "shipment-minimum = 99999999999999999999",
    "18: “shipment-minimum” does not read: *; expected an amount above zero, such as "
    "“5000.00”" },
  { "value/weight", 10, "constructive-weight = seven",
    "10: “constructive-weight” does not read: *; expected the weight of a cubic foot, such "
    "as “7 lb”" },
  { "value/weight-unit", 10, "constructive-weight = 7",
    "10: “constructive-weight” does not read: *; expected the weight of a cubic foot, such "
    "as “7 lb”" },
  { "value/weight-zero", 10, "constructive-weight = 0 lb",
    "10: “constructive-weight” does not read: “0 lb” is not above zero; expected the weight "
    "of a cubic foot, such as “7 lb”" },
  { "value/weight-absurd", 10, "constructive-weight = 701 lb",
    "10: “constructive-weight” does not read: “701 lb” is heavier than any goods; expected "
    "the weight of a cubic foot, such as “7 lb”" },
  { "value/period", 12, "claim-within = nine months",
    "12: “claim-within” does not read: *; expected a period of at least one day, such as "
    "“120 days”, “9 months” or “2 years”" },
  { "value/period-unit", 12, "claim-within = 9 weeks",
    "12: “claim-within” does not read: *; expected a period of at least one day, such as "
    "“120 days”, “9 months” or “2 years”" },
  { "value/period-zero", 12, "claim-within = 0 days",
    "12: “claim-within” does not read: “0 days” has no day; expected a period of at least "
    "one day, such as “120 days”, “9 months” or “2 years”" },
  { "value/collect-salvage-within", 12, "collect-salvage-within = a month",
    "12: “collect-salvage-within” does not read: *; expected a period of at least one day, such "
    "as “120 days”, “9 months” or “2 years”" },
  { "value/transfer-after", 12, "transfer-after = 0 days",
    "12: “transfer-after” does not read: “0 days” has no day; expected a period of at least one "
    "day, such as “120 days”, “9 months” or “2 years”" },
  { "value/fees-within", 12, "fees-within =",
    "12: “fees-within” has no value; expected a period of at least one day, such as “120 days”, "
    "“9 months” or “2 years”" },
  { "value/bill-within", 12, "bill-within = 15 working days",
    "12: “bill-within” does not read: *; expected a period of at least one day, such as “120 days”, "
    "“9 months” or “2 years”" },
  { "value/contest-bill-within", 12, "contest-bill-within = 0 days",
    "12: “contest-bill-within” does not read: “0 days” has no day; expected a period of at least "
    "one day, such as “120 days”, “9 months” or “2 years”" },
  { "value/percent", 9, "[loss]\ndepreciation-maximum = 75",
    "10: “depreciation-maximum” does not read: “75” has no percent sign at its end; expected "
    "a percentage from 0 to 100, such as “75 %”" },
  { "value/percent-large", 9, "[loss]\ndepreciation-maximum = 100.01 %",
    "10: “depreciation-maximum” does not read: “100.01 %” is more than the whole; expected a "
    "percentage from 0 to 100, such as “75 %”" },
  { "value/percent-decimals", 9, "[loss]\ndepreciation-maximum = 7.555 %",
    "10: “depreciation-maximum” does not read: *; expected a percentage from 0 to 100, such "
    "as “75 %”" },
  { "value/charge", 20, "deductible = yes\ncharge = 1.40",
    "21: “charge” does not read: “1.40” is no charge of the form “AMOUNT per 100 at "
    "DEDUCTIBLE”; expected charges for each 100 of declared value, each at a deductible of "
    "its own, such as “1.40 per 100 at 0.00, 1.10 per 100 at 300.00”" },
  { "value/charge-per", 20, "deductible = yes\ncharge = 1.40 per 1000 at 0.00",
    "21: “charge” does not read: “1.40 per 1000 at 0.00” is no charge of the form “AMOUNT "
    "per 100 at DEDUCTIBLE”; expected charges for each 100 of declared value, each at a "
    "deductible of its own, such as “1.40 per 100 at 0.00, 1.10 per 100 at 300.00”" },
  { "value/charge-comma", 20,
    "deductible = yes\ncharge = 1.40 per 100 at 0.00,1.10 per 100 at 300.00",
    "21: “charge” does not read: *; expected charges for each 100 of declared value, each at "
    "a deductible of its own, such as “1.40 per 100 at 0.00, 1.10 per 100 at 300.00”" },
  { "value/charge-last-comma", 20, "deductible = yes\ncharge = 1.40 per 100 at 0.00, ",
    "21: “charge” does not read: “” is no charge of the form “AMOUNT per 100 at DEDUCTIBLE”; "
    "expected charges for each 100 of declared value, each at a deductible of its own, such "
    "as “1.40 per 100 at 0.00, 1.10 per 100 at 300.00”" },
  { "value/charge-twice", 20,
    "deductible = yes\ncharge = 1.40 per 100 at 0.00, 1.10 per 100 at 0.00",
    "21: “charge” does not read: “1.40 per 100 at 0.00, 1.10 per 100 at 0.00” has two "
    "charges for one deductible; expected charges for each 100 of declared value, each at a "
    "deductible of its own, such as “1.40 per 100 at 0.00, 1.10 per 100 at 300.00”" },
  { "value/charge-negative", 20, "deductible = yes\ncharge = -1.40 per 100 at 0.00",
    "21: “charge” does not read: “-1.40” is negative; expected charges for each 100 of "
    "declared value, each at a deductible of its own, such as “1.40 per 100 at 0.00, 1.10 "
    "per 100 at 300.00”" },
  { "value/charge-many", 20,
    "deductible = yes\ncharge = 1.00 per 100 at 0, 1.00 per 100 at 1, 1.00 per 100 at 2, "
    "1.00 per 100 at 3, 1.00 per 100 at 4, 1.00 per 100 at 5, 1.00 per 100 at 6, "
    "1.00 per 100 at 7, 1.00 per 100 at 8, 1.00 per 100 at 9, 1.00 per 100 at 10, "
    "1.00 per 100 at 11, 1.00 per 100 at 12",
    "21: “charge” does not read: “1.00 per 100 at 0, 1.00 per 100 at 1, 1.00 per 100 at 2, "
    "1.0…” lists more charges than a choice can have; expected charges for each 100 of "
    "declared value, each at a deductible of its own, such as “1.40 per 100 at 0.00, 1.10 "
    "per 100 at 300.00”" },
  { "together/full-without-value", 26, "",
    "21: [full] has no value of the shipment; expected “shipment-rate”, “shipment-minimum” "
    "or “declared-value = yes” in it" },
  { "together/released-without-limit", 24, "",
    "21: [released] has no limit; expected “article-rate” or another limit in it" },
  { "together/minimum-over-maximum", 18, "shipment-minimum = 5000.00\nshipment-maximum = 4999.99",
    "18: “shipment-minimum” is more than “shipment-maximum”; expected no more than that" },
  { "together/late-without-until", 12, "claim-within = 9 months\nlate-claim = actual-value",
    "13: late claims are settled at actual value, but until when is not said; expected "
    "“late-until = …”" },
  { "together/late-without-within", 12, "late-claim = barred",
    "12: “late-claim” has no effect here; expected “claim-within” with it" },
  { "together/until-without-late", 12, "claim-within = 9 months\nlate-until = 2 years",
    "13: “late-until” has no effect here; expected “late-claim = actual-value” with it" },
  { "together/until-flagged", 12,
    "claim-within = 9 months\nlate-claim = flagged\nlate-until = 2 years",
    "14: “late-until” has no effect here; expected “late-claim = actual-value” with it" },
  { "together/until-not-longer", 12,
    "claim-within = 9 months\nlate-claim = actual-value\nlate-until = 270 days",
    "14: “late-until” is not longer than “claim-within”; expected a longer period from "
    "delivery" },
  { "together/until-same", 12,
    "claim-within = 12 months\nlate-claim = actual-value\nlate-until = 1 year",
    "14: “late-until” is not longer than “claim-within”; expected a longer period from "
    "delivery" },
  { "together/claim-not-plain", 12, "claim-within = 90 days without sundays",
    "12: this period counts every day; expected a period without “without”" },
  { "together/until-not-plain", 12,
    "claim-within = 9 months\nlate-claim = actual-value\nlate-until = 2000 days without holidays",
    "14: this period counts every day; expected a period without “without”" },
  { "together/mediate-until-alone", 13, "mediate-until = 120 days",
    "13: “mediate-until” has no effect here; expected “mediate-within” with it" },
  { "together/status-without-decide", 13, "status-every = 60 days",
    "13: “status-every” has no effect here; expected “decide-within” with it" },
  { "together/gross-without-rate", 17, "shipment-weight = gross",
    "17: “shipment-weight” has no effect here; expected a “shipment-rate” by weight with it" },
  { "together/gross-by-volume", 17, "shipment-rate = 620.00 per m3\nshipment-weight = gross",
    "18: “shipment-weight” has no effect here; expected a “shipment-rate” by weight with it" },
  { "together/below-without-declared", 19, "below-minimum = kept",
    "19: “below-minimum” has no effect here; expected “declared-value = yes” with it" },
  { "together/below-without-minimum", 15,
    "article-rate = 0.60 per lb\ndeclared-value = yes\nbelow-minimum = kept",
    "17: “below-minimum” has no effect here; expected “shipment-rate” or “shipment-minimum” "
    "with it" },
  { "together/order-without-deductible", 20, "deductible-order = before-limit",
    "20: “deductible-order” has no effect here; expected “deductible = yes” with it" },
  { "together/charge-without-declared", 19, "charge = 1.00 per 100 at 0.00",
    "19: “charge” has no effect here; expected “declared-value = yes” with it" },
  { "together/charge-without-deductible", 20,
    "charge = 1.00 per 100 at 0.00, 0.50 per 100 at 250.00",
    "20: a charge is for a deductible, and no deductible is taken; expected “deductible = "
    "yes” with it" },
  { "together/extraordinary-without-rate", 20, "extraordinary-weight = thing",
    "20: “extraordinary-weight” has no effect here; expected “extraordinary-rate” with it" },
  { "together/not-offered", 15, "offered = no\narticle-rate = 0.60 per lb",
    "16: “article-rate” has no effect, because [released] is not offered; expected “offered "
    "= yes” with it" },
  { "together/full-not-offered", 16, "[full]\noffered = no",
    "18: “shipment-rate” has no effect, because [full] is not offered; expected “offered = "
    "yes” with it" },
  { "together/neither", 24, "offered = no\n[full]\noffered = no\n[edition]\nfrom = 2017-01-01",
    "21: this edition offers neither choice; expected [released] or [full] in it" },
  { "together/waiver-full-not-offered", 26, "offered = no",
    "21: without a waiver full value governs, and it is not offered; expected [full], or "
    "“without-waiver = released” in [shipment]" },
  { "together/waiver-released-not-offered", 24,
    "offered = no\n[shipment]\nwithout-waiver = released",
    "26: without a waiver released value governs, and it is not offered; expected "
    "[released], or “without-waiver = full”" },
