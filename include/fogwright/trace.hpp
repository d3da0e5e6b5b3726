// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Questions to a book that are asked when something went wrong, or when somebody has a right to know: where a
/// lot went, what was used at an address, what a person was exposed to, which jobs a fogger fogged while it was
/// off, what was used in a month. Read only; the same documents, texts and time give the same answer.

#include <functional>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "fogwright/book/documents.hpp"
#include "fogwright/desk/job.hpp"

namespace fogwright {

/// What an active would come to in the air, by a plan made again from the record.
struct ModelledPeak {
  std::string cas, name;              ///< of what is in the air
  std::optional<std::int64_t> ug_m3;  ///< rounded up; nullopt: not estimable
};
struct Modelled {
  std::vector<ModelledPeak> peaks;
  std::string fault;  ///< why there are none
};

/// What a question is put to.
struct Asked {
  const Documents& documents;
  /// The text that is kept beside the record under this hash (customer, address); nullopt where it was erased.
  std::function<std::optional<std::string>(const std::string& hash)> kept;
  Calendar calendar;  ///< the day of a moment at a job's place
  UnitSystem units =
      UnitSystem::us_customary;  ///< of the words; the data hold whole microlitres and milligrams
  /// Plans a job again for its concentrations; empty: no modelled peak is told.
  std::function<Modelled(const std::string& job)> model = {};
};

/// A row for people (a label, and words beside it) and for programs (members with the unit in their name).
struct AnswerRow {
  std::string label, words;
  nlohmann::json data = nlohmann::json::object();
};

struct Answer {
  std::string sentence;            ///< the answer, in one
  std::vector<AnswerRow> rows;     ///< what it rests on, oldest first
  std::vector<AnswerRow> totals;   ///< sums over the rows, where the question has any
  std::vector<std::string> notes;  ///< what the answer cannot know: erased addresses, figures that are modelled
};

/// What was used at this address, when, of which lots: one row a job. Every word of `text` must begin a word of
/// the address or of the customer's name, whatever its case. Errors: missing_value.
[[nodiscard]] Result<Answer> ask_address(const Asked& asked, const std::string& text);

/// Where a lot went: its containers, the batches made from it, the jobs of either. Errors: missing_value;
/// not_found, where no container of that lot was ever received.
[[nodiscard]] Result<Answer> ask_lot(const Asked& asked, const std::string& lot);

/// What a person was exposed to, one row a job or batch: actives, role, minutes, respirator, readings, and the
/// modelled peak in the building, which no instrument saw. 29 CFR 1910.1020 gives the person a right to it.
/// Errors: not_found.
[[nodiscard]] Result<Answer> ask_exposure(const Asked& asked, const std::string& handle);

/// Which jobs went by a flow that a later catch test of the fogger does not bear out, and what they got by the
/// later one. `off_since` is an ISO date; empty: the day of the test before the last. Errors: not_found;
/// missing_value, where no test tells since when; out_of_range, where there is no test since then.
[[nodiscard]] Result<Answer> ask_fogger(const Asked& asked, const std::string& fogger,
                                        const std::string& off_since = {});

/// Use by month (at the jobs' places) and product, with registration number and the mass of each active where
/// the label tells its strength. `from` and `to` are days or months ("2026-03"), both counted in; empty: no
/// bound. Errors: not_understood.
[[nodiscard]] Result<Answer> ask_use(const Asked& asked, const std::string& from, const std::string& to);

/// {sentence, rows, totals, notes}; rows and totals are the data.
[[nodiscard]] nlohmann::json answer_json(const Answer& answer);

}  // namespace fogwright
