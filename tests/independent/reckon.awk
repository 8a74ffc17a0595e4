# SPDX-License-Identifier: GPL-3.0-or-later
#
# A second reckoning of claims, written from data/terms/FORMAT.md and shared by nothing with the
# first, to be compared with it. Run as: gawk -M -f reckon.awk CASES. It knows nothing of reasons.
#
# Reads cases: "case NAME", "terms", the lines of a terms file with one edition, "records", then
# "record KIND ID" and its fields "NAME TEXT", "end". Writes for each case which side governs and
# whether the claim is late, then for each side a line a claim line and one for the whole. Amounts
# are minor units. All figures are whole numbers; -M keeps them exact at any size. At the end stands how
# often each rule was met: "met NAME COUNT".

BEGIN {
  GRAIN["lb"] = 45359237                 # grains in a hundredth
  GRAIN["kg"] = 100000000
  BIT["cuft"] = 28316846592              # bits in a hundredth
  BIT["m3"] = 1000000000000
  A_UNIT["lb"] = 4535923700              # of what a rate counts
  A_UNIT["kg"] = 10000000000
  A_UNIT["cwt"] = 453592370000
  A_UNIT["cuft"] = 2831684659200
  A_UNIT["m3"] = 100000000000000
  DIGITS["JPY"] = 0
  DIGITS["USD"] = 2
  DIGITS["KWD"] = 3
  n_rules = split("waiver-valid waiver-invalid late too-late barred late-actual-value line-denied " \
                  "mate-paid mate-unpaid salvage-deducted salvage-taken depreciation least-depreciation " \
                  "most-depreciation lesser-repair lesser-value demand-caps line-limit paid-elsewhere " \
                  "article-of-parts article-shared each-thing weight-of-thing weight-of-volume " \
                  "article-rate article-limit extraordinary listed listed-less-earlier weight-missing least-raised " \
                  "least-kept shipment-maximum shipment-cut earlier-payments deductible-taken-before " \
                  "deductible-before-limit deductible-after-limit freight-partial freight-total " \
                  "freight-all freight-shipper freight-denied freight-short freight-in-payment", rules, " ")
  for (i = 1; i <= n_rules; i++)
    met[rules[i]] = 0
  reset()
}

function reset ()
{
  delete terms
  delete sections
  delete value
  delete ids
  delete count
  in_section = ""
}

# --- arithmetic -------------------------------------------------------------------------------

function min (a, b) { return a < b ? a : b }
function max (a, b) { return a > b ? a : b }

# Whole part of n / d for n not negative.
function quotient (n, d) { return (n - n % d) / d }

function divide (n, d, mode,    rest, q)
{
  rest = n % d
  q = (n - rest) / d
  if (rest == 0 || mode == "down")
    return q
  if (mode == "up" || 2 * rest > d)
    return q + 1
  if (2 * rest < d)
    return q
  return mode == "half-even" ? q + q % 2 : q + 1
}

# Shares total out over amount[1..n] into part[1..n] by largest remainder.
function share_out (total, amount, n, part,    i, sum, left, rest, best)
{
  sum = 0
  for (i = 1; i <= n; i++)
    sum += amount[i]
  left = total
  for (i = 1; i <= n; i++)
    {
      part[i] = sum > 0 ? quotient(total * amount[i], sum) : 0
      rest[i] = sum > 0 ? total * amount[i] % sum : 0
      left -= part[i]
    }
  for (; left > 0 && sum > 0; left--)
    {
      best = 0
      for (i = 1; i <= n; i++)
        if (rest[i] > 0 && (best == 0 || rest[i] > rest[best]))
          best = i
      part[best]++
      rest[best] = 0
    }
}

# --- texts ------------------------------------------------------------------------------------

# The number at the start of a text, without its point, at so many decimals.
function scaled (text, decimals,    part, number)
{
  sub(/ .*/, "", text)
  split(text, part, ".")
  number = part[1] substr(part[2] "000000", 1, decimals)
  sub(/^0+/, "", number)
  return number == "" ? 0 : 0 + number
}

function hundredths (text) { return scaled(text, 2) }
function minor (text) { return scaled(text, DIGITS[currency]) }
function unit (text) { sub(/.* /, "", text); return text }
function weight (text) { return hundredths(text) * GRAIN[unit(text)] }
function volume (text) { return hundredths(text) * BIT[unit(text)] }

# Days of the Gregorian calendar, counted from some day long ago.
function day_number (y, m, d,    early)
{
  early = m <= 2 ? 1 : 0
  y -= early
  m += 12 * early - 3
  return 365 * y + quotient(y, 4) - quotient(y, 100) + quotient(y, 400) + \
         quotient(153 * m + 2, 5) + d
}

function month_length (y, m)
{
  if (m == 2)
    return y % 4 == 0 && (y % 100 != 0 || y % 400 == 0) ? 29 : 28
  return m == 4 || m == 6 || m == 9 || m == 11 ? 30 : 31
}

function day (text,    part)
{
  split(text, part, "-")
  return day_number(part[1] + 0, part[2] + 0, part[3] + 0)
}

# The last day of "9 months" from a date.
function last_day (text, period,    part, y, m, d, n)
{
  split(text, part, "-")
  y = part[1] + 0
  m = part[2] + 0
  d = part[3] + 0
  n = period + 0
  if (period ~ /day/)
    return day_number(y, m, d) + n
  m += period ~ /month/ ? n : 12 * n
  y += quotient(m - 1, 12)
  m = (m - 1) % 12 + 1
  return day_number(y, m, min(d, month_length(y, m)))
}

# --- what was read ----------------------------------------------------------------------------

function says (section, key) { return (section, key) in terms }
function term (section, key, without) { return says(section, key) ? terms[section, key] : without }
function has (kind, id, name) { return (kind, id, name) in value }
function field (kind, id, name) { return has(kind, id, name) ? value[kind, id, name] : "" }
function money (kind, id, name) { return has(kind, id, name) ? minor(value[kind, id, name]) : 0 }
function line_field (line, name) { return field("claim_line", line, name) }
function line_money (line, name) { return money("claim_line", line, name) }
function order (name) { return field("order", "order", name) }
function valuation (name) { return field("valuation", "valuation", name) }

# A weight of nothing counts as none; "" is none.
function positive_weight (text,    grains)
{
  grains = text == "" ? 0 : weight(text)
  return grains > 0 ? grains : ""
}

function rounded (n, d) { return divide(n, d, term("shipment", "rounding", "half-up")) }

# What "0.60 per lb" comes to for so much.
function at_rate (rate, quantity) { return rounded(minor(rate) * quantity, A_UNIT[unit(rate)]) }

# The weight of a volume, to a hundredth of the unit of the constructive weight.
function weight_of_volume (text,    per, grains)
{
  per = term("shipment", "constructive-weight", "")
  if (text == "" || per == "")
    return ""
  grains = divide(volume(text) * hundredths(per), A_UNIT["cuft"], "half-up") * GRAIN[unit(per)]
  return grains > 0 ? grains : ""
}

# --- the whole claim --------------------------------------------------------------------------

function offered (side) { return term(side, "offered", (side in sections) ? "yes" : "no") == "yes" }
function other_side (side) { return side == "full" ? "released" : "full" }

function waiver_is_valid ()
{
  return valuation("choice") == "released" && valuation("signed_by") != "" && \
         valuation("signed_on") != "" && valuation("signed_how") != "not-signed" && \
         valuation("disclosure") != "" && \
         (order("picked_up_on") == "" || valuation("signed_on") <= order("picked_up_on"))
}

function governing_side (    side)
{
  if (valuation("choice") == "released")
    met[waiver_is_valid() ? "waiver-valid" : "waiver-invalid"]++
  side = valuation("choice") == "full" ? "full" : waiver_is_valid() ? "released" : \
         term("shipment", "without-waiver", "full")
  return offered(side) ? side : other_side(side)
}

function filing (    delivered, received)
{
  delivered = order("delivered_on") != "" ? order("delivered_on") : \
              order("delivery_to") != "" ? order("delivery_to") : order("delivery_from")
  received = field("claim", "claim", "received_on")
  if (!says("claims", "claim-within"))
    return "in-time"
  if (delivered == "" || received == "")
    return "unknown"
  if (day(received) <= last_day(delivered, term("claims", "claim-within")))
    return "in-time"
  if (says("claims", "late-until") && day(received) > last_day(delivered, term("claims", "late-until")))
    return "too-late"
  return "late"
}

# What a ticket says; "" when that is nothing.
function ticket (id, gross,    g, t, n)
{
  g = positive_weight(field("weighing", id, "gross"))
  n = positive_weight(field("weighing", id, "net"))
  t = field("weighing", id, "tare")
  if (gross)
    return g != "" ? g : n != "" && t != "" ? n + weight(t) : ""
  if (n != "")
    return n
  return g != "" && t != "" && g > weight(t) ? g - weight(t) : ""
}

# The weight that governs; "" when none is known.
function shipment_weight (gross,    kinds, k, i, id, found)
{
  split("reweigh weighing constructive", kinds, " ")
  for (k = 1; k <= 3; k++)
    for (i = count["weighing"]; i >= 1; i--)
      {
        id = ids["weighing", i]
        found = ticket(id, gross && k < 3)
        if (field("weighing", id, "kind") == kinds[k] && found != "")
          return found
      }
  found = weight_of_volume(order("volume"))
  return found != "" ? found : positive_weight(order("estimated_weight"))
}

# The least value; sets weight_missing when what it goes by is not known.
function least_value (side,    rate, quantity)
{
  weight_missing = 0
  rate = term(side, "shipment-rate", "")
  if (rate == "")
    return minor(term(side, "shipment-minimum", "0"))
  if (unit(rate) in BIT)
    quantity = order("volume") == "" ? 0 : volume(order("volume"))
  else
    quantity = shipment_weight(term(side, "shipment-weight", "net") == "gross")
  quantity += 0
  weight_missing = quantity == 0
  return max(at_rate(rate, quantity), minor(term(side, "shipment-minimum", "0")))
}

# The limit of the shipment, "" when there is none.
function shipment_limit (side,    has_least, limit, declared, most)
{
  has_least = says(side, "shipment-rate") || says(side, "shipment-minimum")
  limit = has_least ? least_value(side) : ""
  weight_missing = has_least && weight_missing
  most = says(side, "shipment-maximum") ? minor(term(side, "shipment-maximum")) : ""
  if (term(side, "declared-value", "no") == "yes" && valuation("declared_value") != "")
    {
      declared = money("valuation", "valuation", "declared_value")
      if (limit != "" && declared < limit)
        met[term(side, "below-minimum", "raised") == "kept" ? "least-kept" : "least-raised"]++
      if (term(side, "below-minimum", "raised") == "kept" || (most != "" && declared >= most))
        weight_missing = 0
      if (limit == "" || declared >= limit || term(side, "below-minimum", "raised") == "kept")
        limit = declared
    }
  if (most != "" && limit != "" && most < limit)
    met["shipment-maximum"]++
  if (most != "")
    limit = limit == "" ? most : min(limit, most)
  return limit
}

function sum_of_payments (name, of_this_claim,    i, id, sum)
{
  sum = 0
  for (i = 1; i <= count["payment"]; i++)
    {
      id = ids["payment", i]
      if ((field("payment", id, "claim") == "claim") == of_this_claim)
        sum += name == "goods" ? paid_for_goods(id) : money("payment", id, name)
    }
  return sum
}

# --- what other claims were paid for the same ---------------------------------------------------

# A payment without the freight refund in it, which is never more than the payment.
function paid_for_goods (id,    refund)
{
  refund = min(money("payment", id, "amount"), money("payment", id, "freight_refund"))
  if (refund > 0)
    met["freight-in-payment"]++
  return money("payment", id, "amount") - refund
}

# Whether two lines are about the same thing: on the same piece, and that is loose or both call the
# thing in it the same.
function are_of_one_thing (one, another)
{
  if (piece_of(one) == "" || piece_of(one) != piece_of(another))
    return 0
  return !is_packed(piece_of(one)) || \
         (line_field(one, "item") != "" && \
          tolower(line_field(one, "item")) == tolower(line_field(another, "item")))
}

# What payments on other claims that name a line of theirs paid for what a line is about, under the
# choice: for its thing alone, or for all of its article.
function earlier_share (side, line, thing_alone,    i, id, named, sum)
{
  sum = 0
  for (i = 1; i <= count["payment"]; i++)
    {
      id = ids["payment", i]
      named = field("payment", id, "claim_line")
      if (named == "" || line_field(named, "claim") == "claim" || \
          line_field(named, "claim") != field("payment", id, "claim"))
        continue
      if (thing_alone ? !are_of_one_thing(line, named) : article_of(line) != article_of(named))
        continue
      sum += paid_for_goods(id)
      if (term(side, "deductible", "no") == "yes")
        sum += money("payment", id, "deductible_taken")
    }
  return sum
}

# What is left of a limit; counts the rule when there is less for it.
function less_earlier (limit, side, line, thing_alone,    earlier)
{
  earlier = earlier_share(side, line, thing_alone)
  if (earlier > 0)
    met["paid-elsewhere"]++
  return max(0, limit - earlier)
}

# --- losses -----------------------------------------------------------------------------------

function depreciation (line,    percent)
{
  percent = 0
  if (line_field(line, "depreciation_flat") != "")
    percent = hundredths(line_field(line, "depreciation_flat"))
  else if (line_field(line, "depreciation_yearly") != "" && line_field(line, "age_years") != "")
    percent = hundredths(line_field(line, "depreciation_yearly")) * line_field(line, "age_years")
  if (line_field(line, "depreciation_least") != "")
    {
      if (hundredths(line_field(line, "depreciation_least")) > percent)
        met["least-depreciation"]++
      percent = max(percent, hundredths(line_field(line, "depreciation_least")))
    }
  if (percent > hundredths(term("loss", "depreciation-maximum", "100 %")))
    met["most-depreciation"]++
  return min(percent, hundredths(term("loss", "depreciation-maximum", "100 %")))
}

# "" when the replacement cost is not given.
function value_of_thing (side, line,    worth)
{
  if (line_field(line, "replacement") == "")
    return ""
  worth = line_money(line, "replacement")
  if (term(side, "measure", "replacement") == "actual-value" || \
      (late ~ /late/ && term("claims", "late-claim", "flagged") == "actual-value"))
    {
      met["depreciation"]++
      if (term(side, "measure", "replacement") != "actual-value")
        met["late-actual-value"]++
      worth = rounded(worth * (10000 - depreciation(line)), 10000)
    }
  if (line_field(line, "salvage_taken") == "yes")
    met["salvage-taken"]++
  else if (line_money(line, "salvage") > 0 && term("loss", "salvage", "deducted") == "deducted")
    met["salvage-deducted"]++
  if (term("loss", "salvage", "deducted") == "deducted" && line_field(line, "salvage_taken") != "yes")
    worth = max(0, worth - line_money(line, "salvage"))
  return worth
}

# "" when a figure is missing.
function loss_of_line (side, line,    kind, lost, repair)
{
  kind = line_field(line, "loss")
  if (kind == "none")
    return ""
  lost = value_of_thing(side, line)
  if (kind == "damaged" && (line_field(line, "repair") != "" || line_field(line, "appearance") != ""))
    {
      repair = line_money(line, "repair") + line_money(line, "appearance")
      if (lost != "")
        met[repair <= lost ? "lesser-repair" : "lesser-value"]++
      lost = lost == "" ? repair : min(lost, repair)
    }
  if (lost != "" && term("loss", "demand", "caps") == "caps" && line_field(line, "demanded") != "")
    {
      if (line_money(line, "demanded") < lost)
        met["demand-caps"]++
      lost = min(lost, line_money(line, "demanded"))
    }
  return lost
}

# --- articles ---------------------------------------------------------------------------------

function piece_of (line) { return line_field(line, "piece") }
function is_packed (piece) { return field("piece", piece, "form") != "loose" }

function piece_weight (piece,    grains)
{
  grains = positive_weight(field("piece", piece, "weight"))
  return grains != "" ? grains : weight_of_volume(field("piece", piece, "volume"))
}

function article_of (line,    piece)
{
  piece = piece_of(line)
  if (piece == "")
    return "thing " line
  if (term("articles", "parts", "one-article") == "one-article" && field("piece", piece, "article") != "")
    return "parts " field("piece", piece, "article")
  return "piece " piece
}

function each_for_itself (article)
{
  return article ~ /^piece / && is_packed(substr(article, 7)) && \
         term("articles", "carton", "one-article") == "each-thing"
}

function line_weight (line) { return positive_weight(line_field(line, "weight")) }

# Weight of all of an article; "" when it is not known.
function article_weight (article,    i, one, sum)
{
  if (each_for_itself(article))
    return ""
  if (article ~ /^parts /)
    {
      sum = 0
      for (i = 1; i <= count["piece"]; i++)
        if (field("piece", ids["piece", i], "article") == substr(article, 7))
          {
            one = piece_weight(ids["piece", i])
            if (one == "")
              return ""
            sum += one
          }
      return sum
    }
  if (article ~ /^piece /)
    {
      sum = piece_weight(substr(article, 7))
      if (sum != "" || is_packed(substr(article, 7)))
        return sum
    }
  sum = ""
  for (i = 1; i <= n_lines; i++)
    if (article_of(lines[i]) == article && line_weight(lines[i]) != "")
      sum = sum == "" ? line_weight(lines[i]) : max(sum, line_weight(lines[i]))
  return sum
}

# The values on the signed list; "" when the article is not on it.
function listed_value (article,    i, id, sum)
{
  sum = ""
  if (valuation("high_value_list") != "yes")
    return ""
  for (i = 1; i <= count["piece"]; i++)
    {
      id = ids["piece", i]
      if (field("piece", id, "listed_value") != "" && \
          (article == "piece " id || article == "parts " field("piece", id, "article")))
        sum += money("piece", id, "listed_value")
    }
  return sum
}

# --- limits -----------------------------------------------------------------------------------

# Cuts lines member[1..n] down to a limit together.
function cut_to (limit, member, n,    i, amount, part, sum)
{
  sum = 0
  for (i = 1; i <= n; i++)
    {
      amount[i] = allowed[member[i]]
      sum += amount[i]
    }
  if (sum <= limit)
    return
  share_out(limit, amount, n, part)
  for (i = 1; i <= n; i++)
    allowed[member[i]] = part[i]
}

# Whether a line brings nothing, whatever it lost.
function is_not_paid (line)
{
  return barred || line_field(line, "ruling") == "denied" || \
         (line_field(line, "set_mate") == "yes" && term("articles", "sets", "with-mates") == "only-piece")
}

function apply_line_limit (side, line,    worth)
{
  allowed[line] = loss[line]
  if (barred)
    met["barred"]++
  if (line_field(line, "ruling") == "denied")
    met["line-denied"]++
  if (line_field(line, "set_mate") == "yes")
    met[term("articles", "sets", "with-mates") == "only-piece" ? "mate-unpaid" : "mate-paid"]++
  if (is_not_paid(line))
    allowed[line] = 0
  worth = value_of_thing(side, line)
  if (worth != "")
    allowed[line] = min(allowed[line], less_earlier(worth, side, line, 1))
  if (says(side, "line-limit") && minor(term(side, "line-limit")) < allowed[line])
    met["line-limit"]++
  if (says(side, "line-limit"))
    allowed[line] = min(allowed[line], minor(term(side, "line-limit")))
}

function apply_extraordinary (side, article, member, n,    rate, by_thing, i, line, w, cap, caps, total, \
                              unlisted, unknown, listed)
{
  rate = term(side, "extraordinary-rate", "")
  if (rate == "")
    return
  by_thing = each_for_itself(article) || term(side, "extraordinary-weight", "article") == "thing"
  total = unlisted = unknown = 0
  for (i = 1; i <= n; i++)
    {
      line = member[i]
      total += allowed[line]
      caps[line] = allowed[line]
      w = by_thing && line_weight(line) != "" ? line_weight(line) : article_weight(article)
      if (allowed[line] == 0)
        continue
      if (w == "")
        unknown = 1
      else if (by_thing)
        caps[line] = min(allowed[line], less_earlier(at_rate(rate, w), side, line, 1))
      unlisted += caps[line]
    }
  if (total == 0)
    return
  if (!by_thing && !unknown)
    unlisted = min(total, less_earlier(at_rate(rate, article_weight(article)), side, member[1], 0))
  listed = listed_value(article)
  if (listed != "")
    listed = less_earlier(listed, side, member[1], 0)
  if (listed != "" && ((unlisted < total && listed > unlisted) || (unknown && listed >= total)))
    {
      met["listed"]++
      if (listed < total && listed < listed_value(article))
        met["listed-less-earlier"]++
      cut_to(listed, member, n)
      return
    }
  if (unlisted < total)
    met["extraordinary"]++
  for (i = 1; i <= n; i++)
    {
      line = member[i]
      w = by_thing && line_weight(line) != "" ? line_weight(line) : article_weight(article)
      if (w == "" && allowed[line] > 0)
        complete[line] = 0
      if (by_thing)
        allowed[line] = caps[line]
    }
  if (!by_thing)
    cut_to(unlisted, member, n)
}

# One limit for lines member[1..n], whose article, or whose thing alone, weighs w.
function apply_article_limit (side, w, thing_alone, member, n,    i, limit)
{
  if (says(side, "article-rate") && w == "")
    {
      for (i = 1; i <= n; i++)
        if (allowed[member[i]] > 0)
          {
            met["weight-missing"]++
            complete[member[i]] = 0
            allowed[member[i]] = 0
          }
      return
    }
  if (says(side, "article-rate"))
    met["article-rate"]++
  if (says(side, "article-limit"))
    met["article-limit"]++
  limit = says(side, "article-rate") ? at_rate(term(side, "article-rate"), w) : ""
  if (says(side, "article-limit"))
    limit = within(limit, minor(term(side, "article-limit")))
  if (limit != "")
    cut_to(less_earlier(limit, side, member[1], thing_alone), member, n)
}

function limit_articles (side,    i, j, article, done, member, n, one)
{
  for (i = 1; i <= n_lines; i++)
    {
      article = article_of(lines[i])
      if (article in done)
        continue
      done[article] = 1
      n = 0
      delete member
      for (j = i; j <= n_lines; j++)
        if (article_of(lines[j]) == article)
          member[++n] = lines[j]
      if (article ~ /^parts /)
        met["article-of-parts"]++
      if (n > 1)
        met["article-shared"]++
      if (article ~ /^thing / && article_weight(article) != "")
        met["weight-of-thing"]++
      if (article ~ /^piece / && positive_weight(field("piece", substr(article, 7), "weight")) == "" && \
          piece_weight(substr(article, 7)) != "")
        met["weight-of-volume"]++
      if (each_for_itself(article))
        met["each-thing"]++
      for (j = 1; each_for_itself(article) && j <= n; j++)
        {
          one[1] = member[j]
          apply_article_limit(side, line_weight(member[j]), 1, one, 1)
        }
      apply_extraordinary(side, article, member, n)
      if (!each_for_itself(article))
        apply_article_limit(side, article_weight(article), 0, member, n)
    }
}

# --- the shipment's share ---------------------------------------------------------------------

# Shares amount over the lines in proportion to from[line] into to[line].
function share_over_lines (amount, from, to,    i, shares, parts)
{
  for (i = 1; i <= n_lines; i++)
    shares[i] = from[lines[i]]
  share_out(amount, shares, n_lines, parts)
  for (i = 1; i <= n_lines; i++)
    to[lines[i]] = parts[i]
}

function within (left, amount) { return left == "" ? amount : min(left, amount) }

function settle (side, left, deductible,    i, line, total, rest)
{
  total = 0
  for (i = 1; i <= n_lines; i++)
    total += allowed[lines[i]]
  if (left != "" && total > left)
    met["shipment-cut"]++
  if (deductible > 0 && total > 0)
    met["deductible-" term(side, "deductible-order", "after-limit")]++
  if (term(side, "deductible-order", "after-limit") == "after-limit")
    {
      sum_covered = within(left, total)
      sum_deducted = min(deductible, sum_covered)
      sum_owed = sum_covered - sum_deducted
      share_over_lines(sum_covered, allowed, covered)
      share_over_lines(sum_deducted, covered, deducted)
      for (i = 1; i <= n_lines; i++)
        owed[lines[i]] = covered[lines[i]] - deducted[lines[i]]
      return
    }
  sum_deducted = min(deductible, total)
  sum_owed = within(left, total - sum_deducted)
  sum_covered = sum_owed + sum_deducted
  share_over_lines(sum_deducted, allowed, deducted)
  for (i = 1; i <= n_lines; i++)
    rest[lines[i]] = allowed[lines[i]] - deducted[lines[i]]
  share_over_lines(sum_owed, rest, owed)
  for (i = 1; i <= n_lines; i++)
    covered[lines[i]] = owed[lines[i]] + deducted[lines[i]]
}

# --- freight ----------------------------------------------------------------------------------

# Whether the last handover that looked at a piece counted it short.
function counted_short (piece,    h, i, id, found)
{
  found = ""
  for (h = 1; h <= count["handover"]; h++)
    for (i = 1; i <= count["finding"]; i++)
      {
        id = ids["finding", i]
        if (field("finding", id, "piece") == piece && field("finding", id, "handover") == ids["handover", h])
          found = field("finding", id, "found")
      }
  return found == "short"
}

function is_lost (line)
{
  return line_field(line, "loss") ~ /missing|destroyed/ && line_field(line, "set_mate") != "yes" && \
         !(line_field(line, "ruling") == "denied" && line_field(line, "defence") == "shipper")
}

# Weight of what was lost together; sets lost_any and lost_unknown.
function lost_weight (    i, line, key, piece, sum, whole, unknown, done, together, w)
{
  lost_any = lost_unknown = 0
  for (i = 1; i <= n_lines; i++)
    {
      line = lines[i]
      if (line_field(line, "loss") ~ /missing|destroyed/ && line_field(line, "ruling") == "denied" && \
          line_field(line, "set_mate") != "yes")
        met[line_field(line, "defence") == "shipper" ? "freight-shipper" : "freight-denied"]++
      if (!is_lost(line))
        continue
      lost_any = 1
      piece = piece_of(line)
      key = piece == "" ? "thing " line : "piece " piece
      done[key] = piece
      if (piece != "" && counted_short(piece))
        {
          met["freight-short"]++
          whole[key] = 1
        }
      if (line_weight(line) != "")
        sum[key] += line_weight(line)
      else if (piece != "" && !is_packed(piece))
        whole[key] = 1
      else
        unknown[key] = 1
    }
  together = 0
  for (key in done)
    {
      w = done[key] == "" ? "" : piece_weight(done[key])
      if (w != "" && (key in whole || sum[key] > w))
        together += w
      else if (key in unknown || sum[key] == 0)
        lost_unknown = 1
      else
        together += sum[key]
    }
  return together
}

# The freight that goes back; sets freight_missing when a figure is not there.
function freight_refund (    partial, total, lost, whole, rule, freight)
{
  freight_missing = 0
  partial = term("freight", "freight-partial-loss", "not-refunded")
  total = term("freight", "freight-total-loss", "not-refunded")
  if (partial == "not-refunded" && total == "not-refunded")
    return 0
  lost = lost_weight()
  freight_missing = lost_unknown && partial == "by-weight"
  if (!lost_any || (lost == 0 && partial != "all"))
    return 0
  whole = shipment_weight(0)
  if (order("freight_charge") == "" || whole == "")
    {
      freight_missing = 1
      return 0
    }
  rule = lost >= whole ? total : partial
  freight = money("order", "order", "freight_charge")
  if (rule == "not-refunded")
    return 0
  met[lost >= whole ? "freight-total" : "freight-partial"]++
  if (rule == "all")
    met["freight-all"]++
  if (rule == "all")
    return freight + money("order", "order", "other_charge")
  return rounded(freight * min(lost, whole), whole)
}

# --- one case ---------------------------------------------------------------------------------

# The claim's lines by their numbers.
function collect_lines (    i, j, id, number)
{
  n_lines = 0
  delete lines
  for (i = 1; i <= count["claim_line"]; i++)
    {
      id = ids["claim_line", i]
      if (line_field(id, "claim") != "claim")
        continue
      number = line_field(id, "number") + 0
      for (j = n_lines; j >= 1 && line_field(lines[j], "number") + 0 > number; j--)
        lines[j + 1] = lines[j]
      lines[j + 1] = id
      n_lines++
    }
}

function reckon_side (side, refund,    i, line, limit, earlier, left, taken, deductible, paid, \
                      all_there, sum_loss, sum_allowed)
{
  limit = shipment_limit(side)
  all_there = !weight_missing && !freight_missing
  taken = sum_of_payments("deductible_taken", 0)
  earlier = sum_of_payments("goods", 0)
  deductible = 0
  if (earlier > 0 && limit != "")
    met["earlier-payments"]++
  if (term(side, "deductible", "no") == "yes")
    {
      if (taken > 0)
        met["deductible-taken-before"]++
      deductible = max(0, money("valuation", "valuation", "deductible") - taken)
      if (term(side, "deductible-order", "after-limit") == "after-limit")
        earlier += taken
    }
  left = limit == "" ? "" : max(0, limit - earlier)
  sum_loss = sum_allowed = 0
  for (i = 1; i <= n_lines; i++)
    {
      line = lines[i]
      loss[line] = loss_of_line(side, line)
      complete[line] = loss[line] != "" || is_not_paid(line)
      loss[line] += 0
      apply_line_limit(side, line)
    }
  limit_articles(side)
  settle(side, left, deductible)
  for (i = 1; i <= n_lines; i++)
    {
      line = lines[i]
      sum_loss += loss[line]
      sum_allowed += allowed[line]
      all_there = all_there && complete[line]
      print "line", side, line_field(line, "number"), loss[line], allowed[line], covered[line], \
            deducted[line], owed[line], complete[line]
    }
  paid = sum_of_payments("amount", 1)
  print "side", side, limit == "" ? "-" : limit, left == "" ? "-" : left, deductible, sum_loss, \
        sum_allowed, sum_covered, sum_deducted, sum_owed, refund, paid, sum_owed + refund - paid, \
        all_there ? 1 : 0
}

function reckon_case (    refund)
{
  collect_lines()
  late = filing()
  barred = (late ~ /late/ && term("claims", "late-claim", "flagged") == "barred") || late == "too-late"
  if (late == "late" || late == "too-late")
    met[late]++
  print "case", case_name, governing_side(), late
  refund = freight_refund()
  if (offered("released"))
    reckon_side("released", refund)
  if (offered("full"))
    reckon_side("full", refund)
}

# --- reading ----------------------------------------------------------------------------------

$1 == "case" {
  reset()
  case_name = $2
  next
}

$0 == "terms" || $0 == "records" {
  reading = $0
  next
}

$0 == "end" {
  reckon_case()
  next
}

reading == "terms" && /^\[/ {
  in_section = substr($0, 2, length($0) - 2)
  sections[in_section] = 1
  next
}

reading == "terms" {
  entry = substr($0, index($0, "=") + 1)
  sub(/;.*/, "", entry)
  gsub(/^ +| +$/, "", entry)
  if ($1 == "currency")
    currency = entry
  terms[in_section, $1] = entry
  next
}

$1 == "record" {
  of_kind = $2
  of_id = $3
  ids[of_kind, ++count[of_kind]] = of_id
  next
}

{
  value[of_kind, of_id, $1] = substr($0, length($1) + 2)
}

END {
  for (i = 1; i <= n_rules; i++)
    print "met", rules[i], met[rules[i]]
}
