// SPDX-License-Identifier: Apache-2.0
// What is done with gear on a job. Registering it is in routes_crew.cpp.
#include "asking/route.hpp"
#include "fogwright/desk/equipment.hpp"

namespace fogwright {
namespace {

using enum MemberType;

std::string text_in(const nlohmann::json& object, const char* member) {
  const auto found = object.find(member);
  return found != object.end() && found->is_string() ? found->get<std::string>() : std::string();
}

Answer catch_tests(const DeskContext& context, Asked& asked) {
  std::vector<CatchTest> runs;
  for (const nlohmann::json& run : asked.body().at("runs")) {
    const LiquidVolume caught = asked.take(read_liquid_volume(text_in(run, "caught"), "runs.caught"));
    runs.push_back({caught, asked.take(read_fog_time(text_in(run, "time"), "runs.time"))});
  }
  return after(asked, [&] { return record_catch_test(context, asked.name(), runs, asked.text("on")); });
}
Answer worn(const DeskContext& context, Asked& asked) {
  const auto minutes = asked.minutes("time");
  const std::string by = asked.has("worn_by") ? asked.text("worn_by") : context.actor;
  return after(asked, [&] { return use_cartridge(context, asked.name(), minutes, asked.text("job"), by); });
}
Answer no_more_cartridge(const DeskContext& context, Asked& asked) {
  return decided(retire_cartridge(context, asked.name(), asked.text("why")));
}

}  // namespace

std::vector<Route> gear_routes() {
  const Member why{"why", text, true, "the reason"};
  return {
      writing("/api/v1/foggers/{fogger}/tests", "testFogger", "fogger-tested", "Catch tests of one day",
              {{"runs", objects, true, "three at least: caught (178 mL), time (60 s)"},
               {"on", text, false, "the day (today)"}},
              catch_tests),
      writing("/api/v1/cartridges/{cartridge}/uses", "useCartridge", "cartridge-used", "The time it was worn",
              {{"time", text, true, "e.g. 40 min"},
               {"worn_by", text, false, "else who writes this"},
               {"job", text, false, "at which job"}},
              worn),
      writing("/api/v1/cartridges/{cartridge}/retirement", "retireCartridge", "cartridge-retired", "Out of use",
              {why}, no_more_cartridge),
  };
}

}  // namespace fogwright
