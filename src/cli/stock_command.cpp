// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/desk_commands.hpp"
#include "cli/import_call.hpp"
#include "desk/money.hpp"
#include "fogwright/desk/stock_desk.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

std::string volume_in(const json& body, const char* member = "ul") {
  return volume_text(body.at(member).get<std::int64_t>(), UnitSystem::us_customary);
}
std::string text_in(const json& body, const char* member) { return body.at(member).get<std::string>(); }

Result<Drafts> make_receive(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the product");
  Delivery d;
  d.container = options.text("id");
  d.product = options.operand();
  d.part = options.text("part");
  d.lot = options.needed("lot", "A17");
  d.size_typed = options.needed("size", "'1 gal'");
  d.size_ul = options.volume("size", Rounding::down);
  d.expires = options.needed("expires", "2027-01-31");
  d.place = options.needed("place", "shop");
  if (options.on("cost")) d.cost_cents = options.take(read_cents(options.text("cost"), "--cost"));
  d.supplier = options.text("supplier");
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return receive(context, d);
}
std::string told_receive(const Drafts& drafts) {
  const json& body = drafts.front().body;
  return fmt::format("{}: {} of {}, lot {}, in {}; write {} on the container", text_in(body, "container"),
                     volume_in(body, "size_ul"), text_in(body, "product"), text_in(body, "lot"),
                     text_in(body, "place"), text_in(body, "container"));
}

Result<Drafts> make_correct(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the container");
  ContainerCorrection correction;
  correction.container = options.operand();
  if (options.on("lot")) correction.lot = options.text("lot");
  if (options.on("expires")) correction.expires = options.text("expires");
  if (options.on("supplier")) correction.supplier = options.text("supplier");
  if (options.on("cost")) correction.cost_cents = options.take(read_cents(options.text("cost"), "--cost"));
  correction.why = options.text("why");
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return correct_container(context, correction);
}
std::string told_correct(const Drafts& drafts) {
  const json& body = drafts.front().body;
  std::string words;
  for (const char* member : {"lot", "expires", "supplier"})
    if (body.contains(member)) words += fmt::format(", {} {}", member, text_in(body, member));
  if (body.contains("cost_cents")) words += fmt::format(", cost {}", show_cents(body["cost_cents"]));
  return fmt::format("{} is put right{}; entry {}, which received it, stays as it was written",
                     text_in(body, "container"), words, body.at("corrected").at("seq").get<std::int64_t>());
}

Outcome run_import(const Call& call) {
  const auto text = read_import(call);
  if (!text) return refuse(text.error());
  const auto deliveries = read_deliveries_csv(*text, call.options.operands().front());
  if (!deliveries) return tl::make_unexpected(deliveries.error());
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  return import_to_book(
      call, **store,
      [&](const DeskContext& context) -> tl::expected<Drafts, Faults> {
        auto drafts = receive_many(context, *deliveries);
        if (drafts) return std::move(*drafts);
        if (drafts.error().code != ErrorCode::bad_import) return refuse(drafts.error());
        return tl::make_unexpected(check_deliveries(context, *deliveries));
      },
      [](const Drafts& drafts) { return fmt::format("{} containers received", drafts.size()); });
}

Result<Drafts> make_move(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the container");
  const std::string to = options.needed("to", "heron");
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return move_vessel(context, options.operand(), to);
}
std::string told_move(const Drafts& drafts) {
  const json& body = drafts.front().body;
  return fmt::format("{} is now in {}", text_in(body, "container"), text_in(body, "to"));
}

Result<Drafts> make_open(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the container");
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return open_container(context, options.operand());
}
std::string told_open(const Drafts& drafts) {
  return fmt::format("{} is open; its opened life runs", text_in(drafts.front().body, "container"));
}

Result<Drafts> make_draw(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the container or batch");
  const DrawRequest request{options.operand(), options.volume("volume", Rounding::up), options.text("job"),
                            options.text("reason")};
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return draw_from(context, request);
}
std::string told_draw(const Drafts& drafts) {
  const json& body = drafts.front().body;
  return fmt::format("{} drawn from {}", volume_in(body), text_in(body, "from"));
}

/// "C12" or "C12=1.5 fl oz".
MixPart mix_part(OptionReader& options, const std::string& typed) {
  const auto equals = typed.find('=');
  if (equals == std::string::npos) return {typed, {}};
  return {typed.substr(0, equals), options.read_volume(typed.substr(equals + 1), "--part", Rounding::up)};
}

Result<Drafts> make_mix(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the product");
  MixRequest request;
  request.batch = options.text("id");
  request.product = options.operand();
  request.table = options.text("table");
  request.made_ul = options.volume("make", Rounding::down);
  for (const std::string& typed : options.all("part")) request.parts.push_back(mix_part(options, typed));
  request.place = options.needed("place", "heron");
  request.respirator_worn = options.on("respirator-worn");
  request.reason = options.text("reason");
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return mix_batch(context, request);
}
std::string told_mix(const Drafts& drafts) {
  const json& body = drafts.front().body;
  const std::int64_t life_ms = body.at("usable_until_ms").get<std::int64_t>() - drafts.front().happened_ms;
  return fmt::format("{}: {} of {} mixed, usable for {}", text_in(body, "batch"), volume_in(body, "made_ul"),
                     text_in(body, "product"),
                     show(ShelfTime(static_cast<double>(life_ms), unit::millisecond)));
}

Result<Drafts> make_return(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the container or batch");
  const std::int64_t ul = options.volume("volume", Rounding::down);
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return return_to(context, options.operand(), ul, options.text("job"));
}
std::string told_return(const Drafts& drafts) {
  const json& body = drafts.front().body;
  return fmt::format("{} put back into {}", volume_in(body), text_in(body, "to"));
}

Result<Drafts> make_spill(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the container or batch");
  const std::int64_t ul = options.volume("volume", Rounding::up);
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return record_spill(context, options.operand(), ul, options.text("done"));
}
std::string told_spill(const Drafts& drafts) {
  const json& body = drafts.front().body;
  return fmt::format("{} spilled from {}", volume_in(body), text_in(body, "from"));
}

Result<Drafts> make_dispose(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the container or batch");
  const auto ul = options.volume_if_given("volume", Rounding::up);
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return dispose(context, options.operand(), ul, options.text("how"));
}
std::string told_dispose(const Drafts& drafts) {
  const json& body = drafts.front().body;
  return fmt::format("{} of {} disposed of", volume_in(body), text_in(body, "from"));
}

Result<Drafts> make_count(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the container or batch");
  const std::int64_t found = options.volume("found", Rounding::down);
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return count_vessel(context, options.operand(), found);
}
std::string told_count(const Drafts& drafts) {
  const json& body = drafts.front().body;
  const auto variance = body.at("variance_ul").get<std::int64_t>();
  if (variance == 0) return fmt::format("{} holds what the book says", text_in(body, "of"));
  return fmt::format("{} holds {}, {} {} than the book said", text_in(body, "of"), volume_in(body, "found_ul"),
                     volume_text(std::abs(variance), UnitSystem::us_customary), variance < 0 ? "less" : "more");
}

Result<Drafts> make_rule(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the product");
  const ReorderRule standard;
  const ReorderRule rule{options.number("lead-time", standard.lead_time_days),
                         options.number("deviation", standard.lead_time_deviation_days),
                         options.number("service", standard.service_z)};
  const std::int64_t unit_ul = options.volume("unit", Rounding::down);
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return set_reorder_rule(context, options.operand(), rule, unit_ul);
}
std::string told_rule(const Drafts& drafts) {
  const json& body = drafts.front().body;
  return fmt::format("{} is ordered by the {}, {} days ahead", text_in(body, "product"),
                     volume_in(body, "unit_ul"), body.at("lead_time_days").get<std::int64_t>());
}

}  // namespace

std::vector<Command> stock_commands() {
  const OptionRow volume{"volume", "VOLUME", "how much"};
  const OptionRow job{"job", "JOB", "for which job"};
  const OptionRow reason{"reason", "WORDS", "why this one, where another expires first"};
  const OptionRow place{"place", "NAME", "shop or van"};
  return {
      {"stock", "receive", "PRODUCT", "a container that arrived",
       with_book_options({{"lot", "LOT", "lot number on the container"},
                          {"size", "VOLUME", "what it holds"},
                          {"expires", "DATE", "last day it may be used"},
                          place,
                          {"part", "NAME", "which part of the product, as the label's mixing table names it"},
                          {"cost", "MONEY", "what the container cost, e.g. 84.50"},
                          {"supplier", "NAME", "who delivered it"},
                          {"id", "ID", "id of the container (default: the next number)"}}),
       run_desk<make_receive, told_receive>,
       "fogwright stock receive fenmist-rtu --lot A17 --size '1 gal' --expires 2027-01-31 --place shop"},
      {"stock", "import", "FILE", "many containers from a CSV file, all or nothing",
       with_book_options({dry_run_row}), run_import, "fogwright stock import deliveries.csv"},
      {"stock", "correct", "ID", "what was typed wrongly off a container's label when it was received",
       with_book_options({{"lot", "LOT", "the lot number that is on it"},
                          {"expires", "DATE", "the last day that is on it"},
                          {"supplier", "NAME", "who delivered it"},
                          {"cost", "MONEY", "what it cost, e.g. 84.50"},
                          {"why", "WORDS", "why it is put right"}}),
       run_desk<make_correct, told_correct>,
       "fogwright stock correct C12 --lot A71 --why 'two digits were swapped'"},
      {"stock", "move", "ID", "to another shop or van", with_book_options({{"to", "NAME", "shop or van"}}),
       run_desk<make_move, told_move>, "fogwright stock move C12 --to heron"},
      {"stock", "open", "ID", "a container is opened; its opened life runs", with_book_options({}),
       run_desk<make_open, told_open>, "fogwright stock open C12"},
      {"stock", "draw", "ID", "take from a container or batch", with_book_options({volume, job, reason}),
       run_desk<make_draw, told_draw>, "fogwright stock draw C12 --volume '12 fl oz' --job J1"},
      {"stock", "mix", "PRODUCT", "a batch by the label's mixing table",
       with_book_options(
           {{"make", "VOLUME", "how much mix"},
            {"part", "ID[=VOLUME]", "a container it is mixed from; without a volume by the table", true},
            place,
            {"respirator-worn", nullptr, "the respirator was worn for mixing"},
            {"table", "NAME", "which mixing table of the label"},
            {"id", "ID", "id of the batch (default: the next number)"},
            reason}),
       run_desk<make_mix, told_mix>,
       "fogwright stock mix brackwater-20 --make '1/2 gal' --part C12 --part C13 --place heron "
       "--respirator-worn"},
      {"stock", "return", "ID", "put back what was not used", with_book_options({volume, job}),
       run_desk<make_return, told_return>, "fogwright stock return C12 --volume '3 fl oz' --job J1"},
      {"stock", "spill", "ID", "what was spilled",
       with_book_options({volume, {"done", "WORDS", "what was done about it"}}),
       run_desk<make_spill, told_spill>,
       "fogwright stock spill C12 --volume '2 fl oz' --done 'flushed with water'"},
      {"stock", "dispose", "ID", "throw away what is left, or a volume of it",
       with_book_options({volume, {"how", "WORDS", "how, by the label"}}), run_desk<make_dispose, told_dispose>,
       "fogwright stock dispose B3 --how 'diluted 1 to 20'"},
      {"stock", "count", "ID", "what a container holds by measure",
       with_book_options({{"found", "VOLUME", "what was found; '0 mL' for an empty one"}}),
       run_desk<make_count, told_count>, "fogwright stock count C12 --found '1.5 qt'"},
      {"stock", "rule", "PRODUCT", "when to order a product again",
       with_book_options({{"unit", "VOLUME", "what is ordered at once"},
                          {"lead-time", "DAYS", "from order to delivery (default 7)"},
                          {"deviation", "DAYS", "standard deviation of that (default 0)"},
                          {"service", "Z", "standard normal factor (default 1.645: 5 % risk of running out)"}}),
       run_desk<make_rule, told_rule>, "fogwright stock rule fenmist-rtu --unit '1 gal' --lead-time 7"},
  };
}

}  // namespace fogwright
