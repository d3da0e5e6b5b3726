// SPDX-License-Identifier: Apache-2.0
#include "dose/naming.hpp"

#include <fmt/format.h>

namespace fogwright {

std::string name_of(const AirSystem& system) {
  return system.name.empty() ? "the air system" : fmt::format("system \"{}\"", system.name);
}

std::string name_of_return(const AirSystem& system, std::size_t index) {
  const std::string& name = system.returns[index].name;
  return name.empty() ? fmt::format("return {} of {}", index + 1, name_of(system))
                      : fmt::format("return \"{}\" of {}", name, name_of(system));
}

}  // namespace fogwright
