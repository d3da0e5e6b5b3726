// SPDX-License-Identifier: Apache-2.0
#include "server/route.hpp"

namespace fogwright::server {

const RouteTable& route_table() {
  static const RouteTable table([] {
    std::vector<Route> rows;
    for (const auto& part : {service_routes(), people_routes(), asked_routes(), book_routes(), audit_routes(),
                             paper_routes(), sync_routes(), device_routes()})
      rows.insert(rows.end(), part.begin(), part.end());
    return rows;
  }());
  return table;
}

}  // namespace fogwright::server
