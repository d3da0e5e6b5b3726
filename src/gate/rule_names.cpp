// SPDX-License-Identifier: Apache-2.0
#include "fogwright/gate.hpp"

namespace fogwright {

std::string_view evidence_name(Evidence evidence) noexcept {
  switch (evidence) {
    case Evidence::person:
      return "person";
    case Evidence::credential:
      return "credential";
    case Evidence::count:
      return "count";
    case Evidence::time:
      return "time";
    case Evidence::number:
      return "number";
    case Evidence::photo:
      return "photo";
    case Evidence::reading:
      return "reading";
  }
  return "person";
}

std::string_view lapse_name(Lapse lapse) noexcept {
  switch (lapse) {
    case Lapse::never_for_this_job:
      return "never for this job";
    case Lapse::when_someone_enters:
      return "when someone enters";
    case Lapse::at_each_donning:
      return "at each donning";
    case Lapse::end_of_day:
      return "end of day";
    case Lapse::after_minutes:
      return "after minutes";
  }
  return "end of day";
}

std::string_view stage_name(Stage stage) noexcept {
  switch (stage) {
    case Stage::before_mixing:
      return "before mixing or filling";
    case Stage::before_fogging:
      return "before fogging";
    case Stage::during_fogging:
      return "while fogging";
    case Stage::before_release:
      return "before release";
    case Stage::before_close:
      return "before closing";
  }
  return "before mixing or filling";
}

}  // namespace fogwright
