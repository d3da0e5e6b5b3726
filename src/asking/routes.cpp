// SPDX-License-Identifier: Apache-2.0
#include "asking/offline.hpp"
#include "asking/route.hpp"

namespace fogwright {
namespace {

std::vector<Route> joined(std::vector<std::vector<Route>> parts) {
  std::vector<Route> rows;
  for (std::vector<Route>& part : parts)
    for (Route& route : part) rows.push_back(std::move(route));
  return rows;
}

/// Of people and registers the office alone decides; a device does without that code.
std::vector<Route> field_routes() {
  return joined({plan_routes(), reading_routes(), gear_routes(), stock_routes(), job_routes()});
}

}  // namespace

std::vector<Route> asked_routes() { return joined({field_routes(), crew_routes()}); }

std::vector<Route> routes_offline() {
  std::vector<Route> rows;
  for (Route& route : field_routes())
    if (!route.decide || made_offline(route.kind)) rows.push_back(std::move(route));
  return rows;
}

}  // namespace fogwright
