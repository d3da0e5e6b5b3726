// SPDX-License-Identifier: Apache-2.0
// A site file from anywhere must be refused or read; what is read must plan or be refused.
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "demo_labels.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace fogwright;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  auto request = read_site(text, "site.toml");
  if (!request) {
    for (const Error& fault : request.error())
      if (fault.message.empty() || fault.hint.empty()) std::abort();
    return 0;
  }
  static const auto label = test::demo_label("brackwater-20.toml");
  request->label = label;
  request->spread_draws = 0;
  if (const auto plan = make_plan(*request)) {
    if (plan->hold.total_minutes < 60) std::abort();  // the label's own hour
    (void)plan_json(*request, *plan).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
  }
  return 0;
}
