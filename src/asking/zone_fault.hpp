// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <stdexcept>
#include <string>

#include "fogwright/error.hpp"

namespace fogwright {

/// This system lacks its time zones, or one that the book uses: nothing can be said of the day at a job's
/// place.
class ZoneFault : public std::runtime_error {
 public:
  explicit ZoneFault(const Error& error) : std::runtime_error(error.message), error_(error) {}
  [[nodiscard]] const Error& error() const { return error_; }

 private:
  Error error_;
};

/// Ends the command or the request: throws ZoneFault. In the browser, which has no exceptions, the request
/// alone (src/browser/giving_up.cpp).
[[noreturn]] void no_zones(const Error& error);

}  // namespace fogwright
