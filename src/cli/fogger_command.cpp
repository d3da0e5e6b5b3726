// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/desk_call.hpp"
#include "cli/desk_commands.hpp"
#include "cli/dose_commands.hpp"
#include "fogwright/desk/equipment.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

std::string name_of(const Drafts& drafts, const char* member) {
  return drafts.front().body.at(member).get<std::string>();
}

Result<Drafts> make_add(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the name of the fogger");
  NewFogger fogger{options.operand(), {}, {}, options.text("note")};
  if (options.on("tank")) fogger.tank = options.take(read_liquid_volume(options.text("tank"), "--tank"));
  if (options.on("empty-weight"))
    fogger.empty_mass = options.take(read_mass(options.text("empty-weight"), "--empty-weight"));
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return add_fogger(context, fogger);
}
std::string told_add(const Drafts& drafts) {
  return fmt::format("fogger {} is added; measure its flow with fogwright fogger test",
                     name_of(drafts, "fogger"));
}

Result<Drafts> make_test(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the name of the fogger");
  std::vector<CatchTest> runs;
  for (const std::string& typed : options.all("catch")) runs.push_back(options.take(read_catch(typed)));
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return record_catch_test(context, options.operand(), runs, options.text("on"));
}
/// "180 mL/min (177 to 183), spread 1.1 %".
std::string flow_words(const json& test) {
  const auto ml = [&](const char* member) {
    return show_number(static_cast<double>(test.at(member).get<std::int64_t>()) / 1e3, 4);
  };
  return fmt::format("{} mL/min ({} to {}), spread {} %", ml("flow_ul_min"), ml("low_ul_min"),
                     ml("high_ul_min"),
                     show_number(static_cast<double>(test.at("spread_ppm").get<std::int64_t>()) / 1e4, 2));
}
std::string told_test(const Drafts& drafts) {
  return fmt::format("fogger {}: {}", name_of(drafts, "fogger"), flow_words(drafts.front().body));
}

Result<Drafts> make_retire(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the name of the fogger");
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return retire_fogger(context, options.operand(), options.text("why"));
}
std::string told_retire(const Drafts& drafts) {
  return fmt::format("fogger {} is retired", name_of(drafts, "fogger"));
}

Outcome run_list(const Call& call) {
  return show_from_book(call, [](const Documents& now, Page& page) -> Result<json> {
    json list = json::array();
    now.each("fogger", false, [&](const std::string& name, const json& fogger) {
      list.push_back(fogger);
      const json& tests = fogger.at("tests");
      std::string words = fogger.at("active").get<bool>() ? "" : "retired; ";
      words += tests.empty() ? "flow never measured"
                             : fmt::format("{}, on {}", flow_words(tests.back()),
                                           tests.back().at("on").get<std::string>());
      page.field(name, words);
    });
    if (list.empty()) page.line("no fogger yet; add one with fogwright fogger add");
    return json{{"foggers", list}};
  });
}

Result<Drafts> make_register(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the name of the cartridge");
  const NewCartridge cartridge{options.operand(), options.text("model"), options.all("words"),
                               options.minutes("schedule", "'8 h'"), options.text("basis")};
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return register_cartridge(context, cartridge);
}
std::string told_register(const Drafts& drafts) {
  return fmt::format("cartridge {} is registered for {} min", name_of(drafts, "cartridge"),
                     drafts.front().body.at("schedule_minutes").get<std::int64_t>());
}

Result<Drafts> make_use(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the name of the cartridge");
  const std::int64_t minutes = options.minutes("worn", "'40 min'");
  if (options.fault()) return tl::make_unexpected(*options.fault());
  const std::string worn_by = options.on("worn-by") ? options.text("worn-by") : context.actor;
  return use_cartridge(context, options.operand(), minutes, options.text("job"), worn_by);
}
std::string told_use(const Drafts& drafts) {
  return fmt::format("cartridge {} was worn {} min", name_of(drafts, "cartridge"),
                     drafts.front().body.at("minutes").get<std::int64_t>());
}

Result<Drafts> make_retire_cartridge(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the name of the cartridge");
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return retire_cartridge(context, options.operand(), options.text("why"));
}
std::string told_retire_cartridge(const Drafts& drafts) {
  return fmt::format("cartridge {} is retired", name_of(drafts, "cartridge"));
}

Outcome run_list_cartridges(const Call& call) {
  return show_from_book(call, [](const Documents& now, Page& page) -> Result<json> {
    json list = json::array();
    now.each("cartridge", true, [&](const std::string& name, const json& cartridge) {
      list.push_back(cartridge);
      const auto used = cartridge.at("used_minutes").get<std::int64_t>();
      const auto schedule = cartridge.at("schedule_minutes").get<std::int64_t>();
      std::string printed;
      for (const json& word : cartridge.at("words"))
        printed += (printed.empty() ? "" : ", ") + word.get<std::string>();
      page.field(name,
                 fmt::format("{} of {} min used; {} ({})", used, schedule, printed,
                             cartridge.at("model").get<std::string>()),
                 used >= schedule ? Emphasis::alarm : Emphasis::plain);
    });
    if (list.empty()) page.line("no cartridge in use; register one with fogwright cartridge register");
    return json{{"cartridges", list}};
  });
}

}  // namespace

std::vector<Command> fogger_commands() {
  const OptionRow why{"why", "WORDS", "the reason"};
  return {
      {"fogger", "add", "NAME", "a fogger of the firm",
       with_book_options({{"tank", "VOLUME", "what its tank holds"},
                          {"empty-weight", "MASS", "weight of the empty fogger"},
                          {"note", "WORDS", "e.g. its serial number"}}),
       run_desk<make_add, told_add>, "fogwright fogger add gust --tank '1 gal'"},
      {"fogger", "test", "NAME", "record catch tests: the plan uses the last ones",
       with_book_options({{"catch", "VOLUME in TIME", "one catch test; three at least", true},
                          {"on", "DATE", "day of the test (default today)"}}),
       run_desk<make_test, told_test>,
       "fogwright fogger test gust --catch '178 mL in 60 s' --catch '182 mL in 60 s' --catch '180 mL in 60 s'"},
      {"fogger", "retire", "NAME", "take a fogger out of use", with_book_options({why}),
       run_desk<make_retire, told_retire>, "fogwright fogger retire gust --why 'pump is worn'"},
      {"fogger",
       "list",
       "",
       "the foggers and their flow",
       with_book_options({}),
       run_list,
       "fogwright fogger list",
       {"foggers", {"fogger", "active", "tank_ul", "empty_mg", "tests"}}},
  };
}

std::vector<Command> cartridge_commands() {
  const OptionRow why{"why", "WORDS", "the reason"};
  return {
      {"cartridge", "register", "NAME", "a respirator cartridge with its maker's change schedule",
       with_book_options({{"model", "MODEL", "maker's model"},
                          {"words", "WORDS", "as printed on it; the colour does not count", true},
                          {"schedule", "TIME", "the maker's change schedule; never estimated"},
                          {"basis", "WORDS", "where the schedule comes from"}}),
       run_desk<make_register, told_register>,
       "fogwright cartridge register y1 --model OV-60 --words 'organic vapor/acid gas' --words P100 --schedule "
       "'8 h' "
       "--basis 'maker table of 2026-01'"},
      {"cartridge", "use", "NAME", "count the time a cartridge was worn",
       with_book_options({{"worn", "TIME", "how long"},
                          {"worn-by", "HANDLE", "who wore it (default: who writes this)"},
                          {"job", "JOB", "at which job"}}),
       run_desk<make_use, told_use>, "fogwright cartridge use y1 --worn '40 min' --job J1"},
      {"cartridge", "retire", "NAME", "take a cartridge out of use", with_book_options({why}),
       run_desk<make_retire_cartridge, told_retire_cartridge>,
       "fogwright cartridge retire y1 --why 'schedule is used up'"},
      {"cartridge",
       "list",
       "",
       "the cartridges in use and their hours",
       with_book_options({}),
       run_list_cartridges,
       "fogwright cartridge list",
       {"cartridges", {"cartridge", "active", "model", "words", "used_minutes", "schedule_minutes", "basis"}}},
  };
}

}  // namespace fogwright
