// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "fogwright/label.hpp"

namespace fogwright::test {

inline bool is_utf8(const std::string& text) {
  try {
    return !nlohmann::json(text).dump().empty();
  } catch (const nlohmann::json::type_error&) {
    return false;
  }
}

inline std::string broken_in(const Faults& faults) {
  if (faults.empty()) return "refused without a fault";
  for (const Error& fault : faults) {
    if (fault.code != ErrorCode::bad_label) return "a fault of another code";
    if (!fault.where.starts_with("f:")) return "a fault without a place";
    if (fault.message.empty() || fault.hint.empty()) return "a fault without words";
    if (!is_utf8(fault.message) || !is_utf8(fault.hint)) return "a fault that cannot be printed";
  }
  return {};
}

inline std::string broken_in(const Label& label) {
  if (label.name.empty() || label.maker.empty() || label.registration.empty()) return "a label without a name";
  if (label.chemistry.empty() || label.use_sites.empty() || label.methods.empty())
    return "a label without a use";
  if (label.actives.empty() || label.precautions.empty() || label.first_aid.empty())
    return "a label without its lists";
  if (label.label_date.size() != 10 || label.data_sheet_date.size() != 10) return "a label without a date";
  if (!(label.density.si() > 0)) return "a label without a density";
  double sum = 0;
  for (const Active& active : label.actives) {
    if (active.cas.empty() || active.mass_fraction.value_or(0) < 0 || !(active.yield > 0))
      return "an impossible active";
    sum += active.mass_fraction.value_or(0);
  }
  if (!(sum <= 1 + 1e-9)) return "more than all of it is active";
  for (const std::string& line : label.precautions)
    if (!is_utf8(line) || line.find('\n') != std::string::npos)
      return "a statement that is not one line of text";
  return {};
}

/// What must hold of every answer, whatever the text; empty: it does.
inline std::string broken_invariant(std::string_view text) {
  const auto label = read_label(text, "f");
  return label ? broken_in(*label) : broken_in(label.error());
}

}  // namespace fogwright::test
