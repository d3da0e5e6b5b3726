// SPDX-License-Identifier: Apache-2.0
#include "asking/device_documents.hpp"
#include "server/route.hpp"

namespace fogwright::server {
namespace {

Result<nlohmann::json> show_documents(const View& view) {
  return nlohmann::json{{"documents", device_documents(view.now, view.moment.ms)}, {"size", view.size}};
}

}  // namespace

std::vector<Route> device_routes() {
  return {{.method = "GET",
           .path = "/api/v1/documents",
           .id = "listDocuments",
           .access = Access::crew,
           .summary = "What a device starts from to work by itself; go on with the entries from `size` on",
           .answer = "Documents",
           .view = show_documents}};
}

}  // namespace fogwright::server
