// SPDX-License-Identifier: Apache-2.0
#include "fogwright/quantity.hpp"

namespace fogwright {

std::string_view basis_name(Basis basis) noexcept {
  switch (basis) {
    case Basis::label:
      return "label";
    case Basis::data_sheet:
      return "data sheet";
    case Basis::regulation:
      return "regulation";
    case Basis::policy:
      return "policy";
    case Basis::measured:
      return "measured";
    case Basis::estimated:
      return "estimated";
    case Basis::common_practice:
      return "common practice";
    case Basis::assumed:
      return "assumed";
    case Basis::entered:
      return "entered";
  }
  return "assumed";
}

}  // namespace fogwright
