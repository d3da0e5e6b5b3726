// SPDX-License-Identifier: Apache-2.0
#include "cli/desk_call.hpp"

#include <fmt/format.h>
#include <ostream>

#include "asking/written_json.hpp"
#include "cli/printing.hpp"
#include "desk/vessels.hpp"
#include "fogwright/book/encoding.hpp"
#include "fogwright/book/sha256.hpp"
#include "fogwright/press.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

json departures_of(Store& store, const std::vector<Receipt>& receipts) {
  json list;
  std::vector<std::int64_t> seqs;
  for (const Receipt& receipt : receipts) seqs.push_back(receipt.seq);
  store.read([&](const Documents& now, const Head&) { list = departures_json(now, seqs); });
  return list;
}

json entries_json(const std::vector<Receipt>& receipts, const Drafts& drafts) {
  json entries = json::array();
  for (std::size_t i = 0; i < receipts.size(); ++i)
    entries.push_back({{"seq", receipts[i].seq},
                       {"id", uuid_text(receipts[i].id)},
                       {"kind", drafts[i].kind},
                       {"body", drafts[i].body}});
  return entries;
}

std::string written_text(const Call& call, const std::string& told, const json& departures) {
  Page page(call.style);
  page.paragraph(told, "");
  for (const json& departure : departures)
    page.paragraph(fmt::format("departure ({}): {}", departure.at("severity").get<std::string>(),
                               departure.at("what").get<std::string>()),
                   "  ", Emphasis::alarm);
  return std::move(page).take();
}

}  // namespace

void OptionReader::note(Error error) {
  if (!fault_) fault_ = std::move(error);
}

void OptionReader::operands(std::size_t least, std::size_t most, std::string_view what) {
  const std::size_t given = call_.options.operands().size();
  if (given < least)
    note({ErrorCode::missing_value, fmt::format("{} is not given", what), {}, "see --help for an example"});
  if (given > most)
    note({ErrorCode::bad_usage,
          fmt::format("\"{}\" is not expected here", call_.options.operands()[most]),
          {},
          "put a name with spaces in quotes"});
}

std::string OptionReader::operand(std::size_t index) const {
  const auto& given = call_.options.operands();
  return index < given.size() ? given[index] : std::string();
}

std::string OptionReader::text(std::string_view name) const { return call_.options.text(name).value_or(""); }

std::string OptionReader::needed(std::string_view name, std::string_view example) {
  const auto typed = call_.options.text(name);
  if (typed && !typed->empty()) return *typed;
  note({ErrorCode::missing_value, fmt::format("--{} is not given", name), fmt::format("--{}", name),
        fmt::format("write e.g. --{} {}", name, example)});
  return {};
}

std::int64_t OptionReader::read_volume(std::string_view typed, std::string_view where, Rounding rounding) {
  const LiquidVolume volume = take(read_liquid_volume(typed, where));
  return rounding == Rounding::up ? volume.ceil_in(unit::microlitre) : volume.floor_in(unit::microlitre);
}

std::int64_t OptionReader::volume(std::string_view name, Rounding rounding) {
  const std::string typed = needed(name, "'12 fl oz'");
  return typed.empty() ? 0 : read_volume(typed, fmt::format("--{}", name), rounding);
}

std::optional<std::int64_t> OptionReader::volume_if_given(std::string_view name, Rounding rounding) {
  if (!on(name)) return std::nullopt;
  return volume(name, rounding);
}

std::int64_t OptionReader::minutes(std::string_view name, std::string_view example) {
  const std::string typed = needed(name, example);
  if (typed.empty()) return 0;
  return take(read_hold_time(typed, fmt::format("--{}", name))).ceil_in(unit::minute);
}

double OptionReader::number(std::string_view name, double fallback) {
  const auto typed = call_.options.text(name);
  return typed ? take(read_number(*typed, fmt::format("--{}", name))) : fallback;
}

Outcome write_to_book(const Call& call, Store& store, const Request& request, const Told& told) {
  Drafts drafts;
  const auto receipts = submit(call, store, [&](const DeskContext& context) {
    auto made = request(context);
    if (made) drafts = *made;
    return made;
  });
  if (!receipts) return tl::make_unexpected(receipts.error());
  const json departures = departures_of(store, *receipts);
  if (call.json)
    call.outside.out << json{{"entries", entries_json(*receipts, drafts)}, {"departures", departures}}.dump(2)
                     << '\n';
  else
    call.outside.out << written_text(call, told(drafts), departures);
  return {};
}

Outcome write_to_book(const Call& call, const Request& request, const Told& told) {
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  return write_to_book(call, **store, request, told);
}

std::string keep_beside(const Call& call, Store& store, const json& members) {
  json kept = json::object();
  for (const auto& [member, text] : members.items())
    if (!text.get_ref<const std::string&>().empty()) kept[member] = text;
  if (kept.empty()) return {};
  Salt salt{};
  call.outside.random(salt);
  const std::string text = kept.dump(-1, ' ', false, json::error_handler_t::replace);
  const std::string hash = to_hex(as_bytes(salted_hash(salt, text)));
  store.keep_private(hash, as_bytes(salt), text);
  return hash;
}

Outcome show_from_book(const Call& call, const Show& show) {
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  Page page(call.style);
  Result<json> shown = json();
  (*store)->read([&](const Documents& now, const Head&) { shown = show(now, page); });
  if (!shown) return refuse(shown.error());
  print_shown(call, *shown, std::move(page));
  return {};
}

std::string volume_text(std::int64_t ul, UnitSystem units, Rounding rounding) {
  return press::recorded_volume(ul, units, rounding);
}

std::string day_text(std::int64_t ms) { return day_of(ms); }

}  // namespace fogwright
