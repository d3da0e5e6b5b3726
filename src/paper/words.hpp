// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <fmt/format.h>

#include <span>
#include <string>
#include <string_view>

#include "fogwright/paper/document.hpp"

namespace fogwright::paper {

/// Everything a paper says by itself. `{0}`, `{1}` stand for what is filled in.
enum class Word {
  page_of,
  continued,
  job,
  address,
  customer,
  technician,
  van,
  fogger,
  state,
  product,
  registration,
  signal_word,
  actives,
  lots,
  erased,
  not_stated,
  label_words,
  cautions,
  first_aid,
  whom_to_call,
  made_on,
  leave_title,
  leave_intro,
  allowed_in,
  allowed_from,
  released_by,
  not_released,
  what_applied,
  where_applied,
  when_applied,
  afterwards,
  unwell,
  unwell_air,
  unwell_call,
  unwell_label,
  door_title,
  door_intro,
  door_until,
  door_release,
  mixing_title,
  makes,
  use_within,
  ventilation,
  gear,
  steps,
  step,
  ingredient,
  amount,
  how,
  wait,
  done,
  disposal,
  mixed_by,
  date_time,
  batch,
  record_title,
  planned,
  actual,
  returns,
  system,
  return_name,
  no_returns,
  gate,
  item,
  met_by,
  at,
  evidence,
  why,
  no_gate,
  readings,
  substance,
  reading,
  fan,
  no_readings,
  departures,
  no_departures,
  verify,
  verify_words,
  checkpoint,
  signature,
  date,
  inventory_title,
  as_of,
  to_order,
  on_hand,
  cover,
  reorder_point,
  order,
  vessels,
  id,
  lot,
  place,
  opened,
  expires,
  left,
  not_usable,
  no_stock,
  stock_over_time,
  audit_title,
  range,
  audit_words,
  severity,
  what_happened,
  entries,
  rule,
  what_to_do,
  departures_by_month,
  in_detail,
  label_title,
  beside_label,
  size,
  received,
  concentration_title,
  minutes,
  mg_m3,
  log_scale,
  hold_end,
  concentration_summary,
  stock_title,
  stock_summary,
  use_title,
  percent,
  jobs_in_order,
  upper_limit,
  lower_limit,
  mean,
  use_summary,
  too_few_points,
  outside,
  months_summary,
  departures_count,
  date_form,
  date_and_time,
  weekdays,
  months,
};

struct WordLine {
  Word word;
  std::string_view text;
};
/// One table a language, every word once, in the order of the enum; a test holds them to it.
[[nodiscard]] std::span<const WordLine> words_en();
[[nodiscard]] std::span<const WordLine> words_es();
[[nodiscard]] std::span<const WordLine> words_of(Language language);

[[nodiscard]] std::string word(Language language, Word word);
/// With its places filled in.
template <class... Values>
[[nodiscard]] std::string word(Language language, Word key, const Values&... values) {
  return fmt::format(fmt::runtime(word(language, key)), values...);
}
/// The n-th of the words that stand in one line (months, weekdays), from 0.
[[nodiscard]] std::string word_in(Language language, Word line, int n);

}  // namespace fogwright::paper
