// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <cmath>

#include "desk/checks.hpp"
#include "desk/stock_turn.hpp"
#include "fogwright/desk/stock_desk.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

json with_job(json body, const std::string& job) {
  if (!job.empty()) body["job"] = job;
  return body;
}

Result<Vessel> find_not_disposed(const Documents& documents, const std::string& id) {
  auto vessel = find_vessel(documents, id, {});
  if (vessel && vessel->disposed())
    return fail(ErrorCode::wrong_state, fmt::format("{} was disposed of", id), {},
                "fogwright stock list shows what there is");
  return vessel;
}

/// Errors: out_of_range when a vessel would hold more than its size.
Result<void> check_fits(const Vessel& vessel, std::int64_t ul, std::string_view where) {
  if (ul <= vessel.capacity_ul()) return {};
  return fail(ErrorCode::out_of_range,
              fmt::format("{} would hold {}, and its size is {}", vessel.id, volume_words(ul, Rounding::up),
                          volume_words(vessel.capacity_ul(), Rounding::down)),
              std::string(where), "check the volume; if the book is wrong, count the vessel first");
}

json drawn_body(const DrawRequest& request, const Vessel& vessel) {
  json body = with_job({{"from", request.from}, {"ul", request.ul}}, request.job);
  const std::int64_t over = draw(vessel.remaining_ul(), request.ul).over_ul;
  if (over > 0) body["over_ul"] = over;
  return body;
}

}  // namespace

Result<Drafts> add_place(const DeskContext& context, const std::string& place, const std::string& type,
                         const std::string& note) {
  if (auto ok = first_error({may_make(context, "place-added"), check_name(place, "place", {}),
                             check_free(context.documents, "place", place, {})});
      !ok)
    return tl::make_unexpected(ok.error());
  if (type != "shop" && type != "van")
    return fail(ErrorCode::not_understood, fmt::format("\"{}\" is no kind of place", type), "--type",
                "write shop or van");
  json body = {{"place", place}, {"type", type}};
  if (!note.empty()) body["note"] = note;
  return Drafts{draft(context, "place-added", std::move(body))};
}

Result<Drafts> move_vessel(const DeskContext& context, const std::string& id, const std::string& to) {
  if (auto ok = may_make(context, "container-moved"); !ok) return tl::make_unexpected(ok.error());
  const auto vessel = find_not_disposed(context.documents, id);
  if (!vessel) return tl::make_unexpected(vessel.error());
  if (const auto place = find(context.documents, "place", to, "--to"); !place)
    return tl::make_unexpected(place.error());
  if (vessel->text("place") == to)
    return fail(ErrorCode::wrong_state, fmt::format("{} is in {} already", id, to), "--to",
                "nothing is left to do");
  return Drafts{draft(context, "container-moved", {{"container", id}, {"to", to}})};
}

Result<Drafts> open_container(const DeskContext& context, const std::string& id) {
  if (auto ok = may_make(context, "container-opened"); !ok) return tl::make_unexpected(ok.error());
  const auto vessel = find_not_disposed(context.documents, id);
  if (!vessel) return tl::make_unexpected(vessel.error());
  if (vessel->is_batch())
    return fail(ErrorCode::wrong_state, fmt::format("{} is a batch: its life runs from mixing", id), {},
                "nothing is left to do");
  if (vessel->body.contains("opened_ms"))
    return fail(ErrorCode::wrong_state,
                fmt::format("{} has been open since {}", id, day_of(vessel->body["opened_ms"])), {},
                "nothing is left to do");
  return Drafts{draft(context, "container-opened", {{"container", id}})};
}

Result<Drafts> draw_from(const DeskContext& context, const DrawRequest& request) {
  if (auto ok = first_error({may_make(context, "drawn"), check_volume(request.ul, "--volume")}); !ok)
    return tl::make_unexpected(ok.error());
  const auto vessel = find_vessel(context.documents, request.from, {});
  if (!vessel) return tl::make_unexpected(vessel.error());
  if (auto ok = check_turn(context, *vessel, request.reason); !ok) return tl::make_unexpected(ok.error());
  json body = drawn_body(request, *vessel);
  if (!whose_turn(context, *vessel).empty()) body["out_of_turn"] = request.reason;
  return Drafts{draft(context, "drawn", std::move(body))};
}

Result<Drafts> draw_in_turn(const DeskContext& context, const std::string& item, const std::string& place,
                            std::int64_t ul, const std::string& job) {
  if (auto ok = first_error({may_make(context, "drawn"), check_volume(ul, "--volume")}); !ok)
    return tl::make_unexpected(ok.error());
  const std::string product = item.substr(0, item.find('/'));
  if (const auto known = find(context.documents, "product", product, "--product"); !known)
    return tl::make_unexpected(known.error());
  const auto takes = take_from(containers_at(context.documents, item, place),
                               turn_life(context.documents, product), context.now_ms, ul);
  if (!takes) return tl::make_unexpected(takes.error());
  Drafts drafts;
  for (const Take& take : *takes)
    drafts.push_back(draft(context, "drawn", with_job({{"from", take.container}, {"ul", take.ul}}, job)));
  return drafts;
}

Result<Drafts> return_to(const DeskContext& context, const std::string& to, std::int64_t ul,
                         const std::string& job) {
  if (auto ok = first_error({may_make(context, "returned"), check_volume(ul, "--volume")}); !ok)
    return tl::make_unexpected(ok.error());
  const auto vessel = find_not_disposed(context.documents, to);
  if (!vessel) return tl::make_unexpected(vessel.error());
  if (auto ok = check_fits(*vessel, vessel->remaining_ul() + ul, "--volume"); !ok)
    return tl::make_unexpected(ok.error());
  return Drafts{draft(context, "returned", with_job({{"to", to}, {"ul", ul}}, job))};
}

Result<Drafts> record_spill(const DeskContext& context, const std::string& from, std::int64_t ul,
                            const std::string& what_was_done) {
  if (auto ok = first_error({may_make(context, "spilled"), check_volume(ul, "--volume"),
                             check_words(what_was_done, "what was done about the spill", "--done")});
      !ok)
    return tl::make_unexpected(ok.error());
  if (const auto vessel = find_vessel(context.documents, from, {}); !vessel)
    return tl::make_unexpected(vessel.error());
  return Drafts{draft(context, "spilled", {{"from", from}, {"ul", ul}, {"what_was_done", what_was_done}})};
}

Result<Drafts> dispose(const DeskContext& context, const std::string& from, std::optional<std::int64_t> ul,
                       const std::string& how) {
  if (auto ok =
          first_error({may_make(context, "disposed"), check_words(how, "how it was disposed of", "--how")});
      !ok)
    return tl::make_unexpected(ok.error());
  const auto vessel = find_not_disposed(context.documents, from);
  if (!vessel) return tl::make_unexpected(vessel.error());
  // An empty vessel is thrown away too.
  if (ul)
    if (auto ok = check_volume(*ul, "--volume"); !ok) return tl::make_unexpected(ok.error());
  return Drafts{
      draft(context, "disposed", {{"from", from}, {"ul", ul.value_or(vessel->remaining_ul())}, {"how", how}})};
}

Result<Drafts> count_vessel(const DeskContext& context, const std::string& of, std::int64_t found_ul) {
  if (auto ok = may_make(context, "counted"); !ok) return tl::make_unexpected(ok.error());
  const auto vessel = find_not_disposed(context.documents, of);
  if (!vessel) return tl::make_unexpected(vessel.error());
  if (found_ul < 0)
    return fail(ErrorCode::out_of_range, "less than nothing cannot be found", "--found",
                "write 0 for an empty one");
  if (found_ul > vessel->capacity_ul())
    return fail(ErrorCode::out_of_range,
                fmt::format("{} holds {} at most", of, volume_words(vessel->capacity_ul())), "--found",
                "check the volume and the vessel");
  return Drafts{draft(context, "counted",
                      {{"of", of},
                       {"found_ul", found_ul},
                       {"expected_ul", vessel->remaining_ul()},
                       {"variance_ul", found_ul - vessel->remaining_ul()}})};
}

Result<Drafts> read_storage(const DeskContext& context, const std::string& place, Temperature temperature,
                            const std::string& typed) {
  if (auto ok = may_make(context, "storage-read"); !ok) return tl::make_unexpected(ok.error());
  if (const auto known = find(context.documents, "place", place, {}); !known)
    return tl::make_unexpected(known.error());
  const std::int64_t mk = std::llround(temperature.in_kelvin() * 1'000);
  return Drafts{
      draft(context, "storage-read", {{"place", place}, {"temperature_mk", mk}, {"temperature_typed", typed}})};
}

Result<Drafts> set_reorder_rule(const DeskContext& context, const std::string& product, const ReorderRule& rule,
                                std::int64_t unit_ul) {
  if (auto ok = first_error({may_make(context, "reorder-set"), check_volume(unit_ul, "--unit")}); !ok)
    return tl::make_unexpected(ok.error());
  if (const auto known = find(context.documents, "product", product, {}); !known)
    return tl::make_unexpected(known.error());
  const auto in = [](double value, double low, double high) { return value >= low && value <= high; };
  if (!in(rule.lead_time_days, 1, 365) || !in(rule.lead_time_deviation_days, 0, 365) ||
      !in(rule.service_z, 0, 5))
    return fail(ErrorCode::out_of_range,
                "the lead time is 1 to 365 days, its deviation 0 to 365, and the service factor 0 to 5", {},
                "e.g. --lead-time 7 --service 1.645");
  return Drafts{draft(context, "reorder-set",
                      {{"product", product},
                       {"lead_time_days", std::llround(std::ceil(rule.lead_time_days))},
                       {"lead_time_sd_days", std::llround(std::ceil(rule.lead_time_deviation_days))},
                       {"service_z_milli", std::llround(std::ceil(rule.service_z * 1'000))},
                       {"unit_ul", unit_ul}})};
}

}  // namespace fogwright
