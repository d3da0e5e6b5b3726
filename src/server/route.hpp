// SPDX-License-Identifier: Apache-2.0
#pragma once

/// The addresses of the API. One table says who may do what; it also makes the description of the API. What
/// needs nothing but documents is in src/asking.

#include "asking/route.hpp"
#include "server/http.hpp"

namespace fogwright::server {

/// All routes, in the order in which they are described.
[[nodiscard]] const RouteTable& route_table();
[[nodiscard]] inline const std::vector<Route>& routes() { return route_table().rows(); }
[[nodiscard]] std::vector<Route> book_routes();     // routes_book.cpp: entries, checkpoint, proofs
[[nodiscard]] std::vector<Route> audit_routes();    // routes_audit.cpp: departures, retention
[[nodiscard]] std::vector<Route> paper_routes();    // routes_papers.cpp
[[nodiscard]] std::vector<Route> sync_routes();     // routes_sync.cpp
[[nodiscard]] std::vector<Route> device_routes();   // routes_device.cpp: what a device starts from
[[nodiscard]] std::vector<Route> people_routes();   // routes_people.cpp: sessions, passwords
[[nodiscard]] std::vector<Route> service_routes();  // routes_service.cpp: health, counts, description

}  // namespace fogwright::server
