// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <algorithm>
#include <cmath>

#include "desk/checks.hpp"
#include "desk/label_facts.hpp"
#include "desk/stock_turn.hpp"
#include "dose/naming.hpp"
#include "fogwright/desk/stock_desk.hpp"
#include "fogwright/dose.hpp"
#include "fogwright/quantity/measured.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// A mix whose parts differ from the table by more than this is off label.
constexpr double off_label_share = 0.02;
/// Company policy where the label gives no life of the mix.
constexpr std::int64_t silent_life_ms = day_ms;

/// One part as it is drawn: from which container, of which ingredient, how much.
struct Part {
  Vessel vessel;
  std::string ingredient;
  std::int64_t ul = 0;
};

Result<Label> current_label(const Documents& documents, const std::string& product) {
  const auto known = find(documents, "product", product, "--product");
  if (!known) return tl::make_unexpected(known.error());
  const auto text = documents.get("label", known->at("current").get<std::string>());
  if (!text)
    return fail(ErrorCode::wrong_state, fmt::format("{} has no label that stands", product), "--product",
                "adopt one with fogwright product adopt");
  auto label = read_label(text->at("text").get<std::string>(), product);
  if (!label) return tl::make_unexpected(label.error().front());
  if (label->strength == StrengthClass::ready_to_use)
    return fail(ErrorCode::label_forbids, fmt::format("{} is ready to use: it is not mixed", label->name),
                "--product", "fog it as it is");
  return std::move(*label);
}

/// The ingredients that come from containers.
std::vector<MixingSheetLine> ingredients(const MixingSheet& sheet) {
  std::vector<MixingSheetLine> lines;
  for (const MixingSheetLine& line : sheet.lines)
    if (!is_water(line.ingredient)) lines.push_back(line);
  return lines;
}

/// Which ingredient a container holds; a vessel without a part holds the only one there is.
Result<const MixingSheetLine*> line_for(const std::vector<MixingSheetLine>& lines, const Vessel& vessel) {
  const std::string part = vessel.text("part");
  if (part.empty() && lines.size() == 1) return &lines.front();
  const auto found =
      std::find_if(lines.begin(), lines.end(), [&](const auto& l) { return l.ingredient == part; });
  if (found != lines.end()) return &*found;
  std::string names;
  for (const MixingSheetLine& line : lines)
    names += fmt::format("{}\"{}\"", names.empty() ? "" : ", ", line.ingredient);
  return fail(ErrorCode::not_understood,
              fmt::format("{} holds {}, which is no ingredient of this mix", vessel.id,
                          part.empty() ? "no named part" : fmt::format("\"{}\"", part)),
              "--part", fmt::format("take containers of {}", names));
}

Result<Part> part_for(const DeskContext& context, const MixRequest& request,
                      const std::vector<MixingSheetLine>& lines, const MixPart& asked) {
  auto vessel = find_vessel(context.documents, asked.container, "--part");
  if (!vessel) return tl::make_unexpected(vessel.error());
  if (vessel->is_batch())
    return fail(ErrorCode::wrong_state, fmt::format("{} is a batch already", asked.container), "--part",
                "mix from containers");
  if (vessel->text("product") != request.product)
    return fail(ErrorCode::incompatible_chemistry,
                fmt::format("{} holds {}, not {}", asked.container, vessel->text("product"), request.product),
                "--part", "never mix two products in one batch");
  const auto line = line_for(lines, *vessel);
  if (!line) return tl::make_unexpected(line.error());
  const std::int64_t ul = asked.ul.value_or((*line)->amount.ceil_in(unit::microlitre));
  if (auto ok = first_error({check_volume(ul, "--part"), check_turn(context, *vessel, request.reason)}); !ok)
    return tl::make_unexpected(ok.error());
  return Part{std::move(*vessel), (*line)->ingredient, ul};
}

Result<std::vector<Part>> parts_for(const DeskContext& context, const MixRequest& request,
                                    const std::vector<MixingSheetLine>& lines) {
  std::vector<Part> parts;
  for (const MixPart& asked : request.parts) {
    auto part = part_for(context, request, lines, asked);
    if (!part) return tl::make_unexpected(part.error());
    parts.push_back(std::move(*part));
  }
  for (const MixingSheetLine& line : lines)
    if (std::none_of(parts.begin(), parts.end(),
                     [&](const Part& p) { return p.ingredient == line.ingredient; }))
      return fail(ErrorCode::missing_value, fmt::format("no container of \"{}\" is given", line.ingredient),
                  "--part", "give one, e.g. --part C12 or --part 'C12=1.5 fl oz'");
  return parts;
}

/// How the parts differ from the table; empty where they do not.
std::string off_label(const std::vector<MixingSheetLine>& lines, const std::vector<Part>& parts) {
  std::string words;
  for (const MixingSheetLine& line : lines) {
    std::int64_t ul = 0;
    for (const Part& part : parts) ul += part.ingredient == line.ingredient ? part.ul : 0;
    const double wanted = line.amount.value_in(unit::microlitre);
    if (std::abs(static_cast<double>(ul) - wanted) <= off_label_share * wanted) continue;
    words += fmt::format("{}{} of {} instead of {}", words.empty() ? "" : "; ", volume_words(ul),
                         line.ingredient, show_measured(line.amount, UnitSystem::us_customary));
  }
  return words;
}

bool any_out_of_turn(const DeskContext& context, const std::vector<Part>& parts) {
  return std::any_of(parts.begin(), parts.end(),
                     [&](const Part& part) { return !whose_turn(context, part.vessel).empty(); });
}

json mixed_body(const DeskContext& context, const MixRequest& request, const MixingSheet& sheet,
                const std::vector<Part>& parts) {
  json list = json::array();
  for (const Part& part : parts) list.push_back({{"container", part.vessel.id}, {"ul", part.ul}});
  const std::int64_t life = sheet.life ? sheet.life->floor_in(unit::millisecond) : silent_life_ms;
  json body = {{"batch", request.batch.empty() ? next_id(context.documents, "batch") : request.batch},
               {"product", request.product},
               {"label_digest", context.documents.get("product", request.product)->at("current")},
               {"table", sheet.table},
               {"made_ul", sheet.makes.floor_in(unit::microlitre)},
               {"parts", std::move(list)},
               {"usable_until_ms", context.now_ms + life},
               {"place", request.place},
               {"mixed_by", context.actor},
               {"respirator_worn", request.respirator_worn}};
  if (std::string words = off_label(ingredients(sheet), parts); !words.empty())
    body["off_label"] = std::move(words);
  if (any_out_of_turn(context, parts)) body["out_of_turn"] = request.reason;
  return body;
}

Result<void> check_batch_id(const DeskContext& context, const std::string& id) {
  if (id.empty()) return {};
  return first_error({check_name(id, "batch", "--id"), check_free(context.documents, "batch", id, "--id"),
                      check_free(context.documents, "container", id, "--id")});
}

}  // namespace

Result<Drafts> mix_batch(const DeskContext& context, const MixRequest& request) {
  if (auto ok = first_error({may_make(context, "batch-mixed"), check_volume(request.made_ul, "--make"),
                             check_batch_id(context, request.batch)});
      !ok)
    return tl::make_unexpected(ok.error());
  const auto label = current_label(context.documents, request.product);
  if (!label) return tl::make_unexpected(label.error());
  if (const auto place = find(context.documents, "place", request.place, "--place"); !place)
    return tl::make_unexpected(place.error());
  const LiquidVolume make(static_cast<double>(request.made_ul), unit::microlitre);
  const auto sheet = mixing_sheet(*label, make, request.table);
  if (!sheet) return tl::make_unexpected(sheet.error());
  const auto parts = parts_for(context, request, ingredients(*sheet));
  if (!parts) return tl::make_unexpected(parts.error());
  return Drafts{draft(context, "batch-mixed", mixed_body(context, request, *sheet, *parts))};
}

}  // namespace fogwright
