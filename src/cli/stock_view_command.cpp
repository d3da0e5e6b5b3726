// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <cstdlib>
#include <vector>

#include "asking/stock_json.hpp"
#include "cli/desk_call.hpp"
#include "cli/desk_commands.hpp"
#include "desk/money.hpp"
#include "fogwright/desk/views.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// The last moment of use as a day: until the start of a day means through the day before.
std::string until_words(const VesselView& v, std::int64_t now_ms) {
  if (!v.usable) return fmt::format("not to be used since {}", day_text(v.usable_until_ms));
  const std::int64_t left = v.usable_until_ms - now_ms;
  if (left < 2 * day_ms)
    return fmt::format("usable for {}", show(ShelfTime(static_cast<double>(left), unit::millisecond)));
  return fmt::format("usable through {}", day_text(v.usable_until_ms - 1));
}

void show_vessel(const VesselView& v, const Call& call, Page& page) {
  page.field(v.id,
             fmt::format("{} of {} in {}, {}{}", volume_text(v.remaining_ul, call.style.units, Rounding::down),
                         volume_text(v.capacity_ul, call.style.units), v.place, v.opened_ms ? "open, " : "",
                         until_words(v, call.outside.now_ms())),
             v.usable ? Emphasis::plain : Emphasis::alarm);
}

std::string on_hand_words(const StockLine& line, UnitSystem units) {
  std::vector<std::string> words;
  // A product that comes in parts has no containers of its own, only what was mixed.
  if (line.containers.vessels > 0 || line.batches.vessels == 0)
    words.push_back(fmt::format("{} in date", volume_text(line.containers.usable_ul, units, Rounding::down)));
  if (line.containers.total_ul > line.containers.usable_ul)
    words.push_back(fmt::format("{} out of date",
                                volume_text(line.containers.total_ul - line.containers.usable_ul, units)));
  if (line.batches.vessels > 0)
    words.push_back(fmt::format("{} mixed", volume_text(line.batches.usable_ul, units, Rounding::down)));
  return fmt::format("{}", fmt::join(words, ", "));
}

std::string forecast_words(const StockLine& line, UnitSystem units) {
  std::string words = on_hand_words(line, units);
  if (line.jobs_left) words += fmt::format("; {} jobs left", *line.jobs_left);
  if (line.days_of_cover) words += fmt::format("; {} days of cover", *line.days_of_cover);
  if (line.reorder_point_ul)
    words += fmt::format("; order at {}", volume_text(*line.reorder_point_ul, units, Rounding::up));
  return words;
}

Result<json> list_stock(const Call& call, const Documents& now, Page& page, int days) {
  const std::string item = call.options.operands().empty() ? "" : call.options.operands().front();
  const std::string place = call.options.text("place").value_or("");
  const std::int64_t at = call.outside.now_ms();
  json lines = json::array();
  json vessels = json::array();
  for (const StockLine& line : stock_list(now, place, at, days)) {
    if (!item.empty() && line.product != item && line.item != item) continue;
    lines.push_back(stock_line_json(line));
    page.heading(line.item);
    page.paragraph(forecast_words(line, call.style.units), "  ");
    if (line.order_ul > 0)
      page.paragraph(fmt::format("order {}", volume_text(line.order_ul, call.style.units, Rounding::up)), "  ",
                     Emphasis::strong);
    for (const VesselView& vessel : vessels_on_hand(now, line.item, place, at)) {
      if (vessel.item != line.item) continue;
      vessels.push_back(vessel_json(vessel));
      show_vessel(vessel, call, page);
    }
    if (!line.expiring.empty())
      page.paragraph(fmt::format("expiring within {} days: {}", days, fmt::join(line.expiring, ", ")), "  ",
                     Emphasis::strong);
  }
  if (lines.empty()) page.line("nothing is there; receive product with fogwright stock receive");
  return json{{"items", lines}, {"vessels", vessels}};
}

Outcome run_list(const Call& call) {
  OptionReader options(call);
  options.operands(0, 1, "the product");
  const double days = options.number("expiring", 30);
  if (options.fault()) return refuse(*options.fault());
  if (days > 3650)
    return refuse(
        {ErrorCode::out_of_range, "more than ten years is too far ahead", "--expiring", "write e.g. 30"});
  const Rows items{"items", {"item", "name", "on_hand_ul", "usable_ul", "containers", "batches_usable_ul"}};
  const Call asked{call.options, call.outside, call.style,
                   call.json,    call.format,  options.on("items") ? items : call.rows};
  return show_from_book(asked, [&](const Documents& now, Page& page) {
    return list_stock(call, now, page, static_cast<int>(days));
  });
}

Outcome run_order(const Call& call) {
  return show_from_book(call, [&](const Documents& now, Page& page) -> Result<json> {
    json orders = json::array();
    for (const StockLine& line : stock_list(now, {}, call.outside.now_ms())) {
      if (line.order_ul == 0) continue;
      orders.push_back(stock_line_json(line));
      page.field(line.item,
                 fmt::format("order {}; {}", volume_text(line.order_ul, call.style.units, Rounding::up),
                             forecast_words(line, call.style.units)));
    }
    if (orders.empty()) page.line("nothing to order; fogwright stock rule sets when to order a product");
    return json{{"orders", orders}};
  });
}

/// "2026-03-04  drawn  -12 fl oz  rowan  J1".
std::string movement_words(const json& row, UnitSystem units) {
  const auto ul = row.at("ul").get<std::int64_t>();
  std::string words = row.at("what").get<std::string>();
  if (ul != 0) words += fmt::format(" {}{}", ul < 0 ? "-" : "+", volume_text(std::abs(ul), units));
  if (row.contains("over_ul"))
    words +=
        fmt::format(" (and {} more than was there)", volume_text(row["over_ul"].get<std::int64_t>(), units));
  words += fmt::format(" by {}", row.at("actor").get<std::string>());
  for (const char* member : {"job", "into", "to", "note"})
    if (row.contains(member)) words += ", " + row[member].get<std::string>();
  return words;
}

Outcome run_show(const Call& call) {
  OptionReader options(call);
  options.operands(1, 1, "the container or batch");
  if (options.fault()) return refuse(*options.fault());
  return show_from_book(call, [&](const Documents& now, Page& page) -> Result<json> {
    const auto vessel = vessel_view(now, options.operand(), call.outside.now_ms());
    if (!vessel)
      return fail(ErrorCode::not_found,
                  fmt::format("no container or batch is called \"{}\"", options.operand()), {},
                  "fogwright stock list shows what there is");
    json shown = vessel_json(*vessel);
    page.heading(fmt::format("{}, lot {}{}", vessel->item, vessel->lot,
                             vessel->earlier_lots.empty()
                                 ? ""
                                 : fmt::format(" (entered as {})", fmt::join(vessel->earlier_lots, ", "))));
    show_vessel(*vessel, call, page);
    shown["movements"] = json::array();
    if (const auto log = now.get("movements", vessel->id)) shown["movements"] = log->at("rows");
    for (const json& row : shown["movements"])
      page.field(day_text(row.at("at_ms")), movement_words(row, call.style.units));
    return shown;
  });
}

Outcome run_cost(const Call& call) {
  OptionReader options(call);
  options.operands(1, 1, "the job");
  if (options.fault()) return refuse(*options.fault());
  return show_from_book(call, [&](const Documents& now, Page& page) -> Result<json> {
    const JobCost cost = job_cost(now, options.operand());
    if (cost.lines.empty())
      return fail(ErrorCode::not_found, fmt::format("nothing was drawn for a job \"{}\"", options.operand()),
                  {}, "name the job when you draw: fogwright stock draw ID --job JOB");
    for (const JobCost::Line& line : cost.lines)
      page.field(line.from, fmt::format("{}{} of {}, lot {}: {}", line.ul < 0 ? "-" : "",
                                        volume_text(std::abs(line.ul), call.style.units), line.product,
                                        line.lot, line.cents ? show_cents(*line.cents) : "cost not known"));
    page.field("product cost",
               fmt::format("{}{}", show_cents(cost.cents), cost.complete ? "" : ", and what has no known cost"),
               Emphasis::strong);
    json shown = job_cost_json(cost);
    shown["job"] = options.operand();
    return shown;
  });
}

void check_van(const Call& call, const Documents& now, const std::string& van, Page& page, json& vans) {
  const VanLoad load = van_load(now, van);
  json findings = json::array();
  page.heading(fmt::format("{}: {} containers and batches", van, load.load.size()));
  for (const CarriageFinding& finding : load.findings) {
    findings.push_back({{"what", finding.what}, {"citation", finding.citation}, {"package", finding.package}});
    page.field(finding.package.empty() ? "the van" : finding.package,
               fmt::format("{} ({})", finding.what, finding.citation), Emphasis::alarm);
  }
  if (load.findings.empty()) page.paragraph("no finding against the limits that are checked (49 CFR 173.6)");
  json packages = json::array();
  for (const Carried& package : load.load) {
    packages.push_back({{"id", package.id},
                        {"class", package.transport.hazard_class},
                        {"packing_group", package.transport.packing_group},
                        {"un_number", package.transport.un_number},
                        {"volume_ul", package.volume_ul},
                        {"gross_mg", package.gross_mg}});
    const Mass gross(static_cast<double>(package.gross_mg), unit::milligram);
    page.field(package.id, fmt::format("{}, about {} with its packaging",
                                       package.transport.hazard_class.empty()
                                           ? std::string("not regulated")
                                           : fmt::format("class {}, group {}", package.transport.hazard_class,
                                                         package.transport.packing_group),
                                       show(gross, call.style.units, Rounding::up)));
  }
  vans.push_back({{"van", van}, {"packages", packages}, {"findings", findings}});
}

Outcome run_van_check(const Call& call) {
  OptionReader options(call);
  options.operands(0, 1, "the van");
  if (options.fault()) return refuse(*options.fault());
  return show_from_book(call, [&](const Documents& now, Page& page) -> Result<json> {
    json vans = json::array();
    now.each("place", true, [&](const std::string& name, const json& place) {
      const bool asked = options.operand().empty() ? place.at("type") == "van" : name == options.operand();
      if (asked) check_van(call, now, name, page, vans);
    });
    if (vans.empty())
      return fail(ErrorCode::not_found, "there is no such van", {}, "fogwright place list shows the places");
    return json{{"vans", vans}};
  });
}

}  // namespace

std::vector<Command> stock_view_commands() {
  return {
      {"stock",
       "list",
       "[PRODUCT]",
       "what there is, jobs left, days of cover, what expires",
       with_book_options({{"place", "NAME", "only one shop or van"},
                          {"items", nullptr, "as csv or jsonl: a row an item, not a row a container or batch"},
                          {"expiring", "DAYS", "name what expires within so many days (default 30)"}}),
       run_list,
       "fogwright stock list --place heron",
       {"vessels",
        {"id", "item", "lot", "place", "batch", "size_ul", "remaining_ul", "opened_utc", "usable_until_utc",
         "usable"}}},
      {"stock",
       "show",
       "ID",
       "a container or batch and all its movements",
       with_book_options({}),
       run_show,
       "fogwright stock show C12",
       {"movements", {"at_utc", "what", "ul", "actor", "job", "over_ul", "seq"}}},
      {"stock",
       "order",
       "",
       "what to order now",
       with_book_options({}),
       run_order,
       "fogwright stock order",
       {"orders",
        {"item", "name", "order_ul", "reorder_point_ul", "usable_ul", "on_hand_ul", "days_of_cover"}}},
      {"stock",
       "cost",
       "JOB",
       "what the product of a job cost",
       with_book_options({}),
       run_cost,
       "fogwright stock cost J1",
       {"draws", {"from", "product", "lot", "ul", "cents"}}},
      {"stock",
       "van-check",
       "[VAN]",
       "a van's load against the limits of materials of trade (49 CFR 173.6)",
       with_book_options({}),
       run_van_check,
       "fogwright stock van-check heron",
       {"vans.packages", {"van", "id", "class", "packing_group", "un_number", "volume_ul", "gross_mg"}}},
  };
}

}  // namespace fogwright
