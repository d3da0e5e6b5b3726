// SPDX-License-Identifier: Apache-2.0
#include <algorithm>

#include "asking/adopted_label.hpp"
#include "asking/job_json.hpp"
#include "asking/mixing_json.hpp"
#include "asking/paging.hpp"
#include "asking/stock_json.hpp"
#include "desk/checks.hpp"
#include "fogwright/desk/views.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

json as_it_is(const std::string& key, const json& body) {
  (void)key;
  return body;
}

bool all(const View& view) {
  const auto asked = view.query.find("all");
  return asked != view.query.end() && asked->second == "true";
}

/// The documents of a kind, or one of them.
template <const char* const& kind>
Result<json> list(const View& view) {
  return page_of(view, kind, !all(view), as_it_is);
}
template <const char* const& kind>
Result<json> one(const View& view) {
  return find(view.now, kind, view.names.front(), "the address");
}

constexpr const char* person = "person";
constexpr const char* fogger = "fogger";
constexpr const char* cartridge = "cartridge";
constexpr const char* product = "product";
constexpr const char* place = "place";

/// The text, and out of it what somebody must be able to read at once.
Result<json> show_label(const View& view) {
  auto shown = find(view.now, "label", view.names.front(), "the address");
  if (!shown) return shown;
  const auto label = read_label(shown->at("text").get<std::string>(), view.names.front());
  if (!label) return tl::make_unexpected(label.error().front());
  (*shown)["name"] = label->name;
  (*shown)["registration"] = label->registration;
  (*shown)["signal_word"] = signal_word_name(label->signal_word);
  (*shown)["precautions"] = label->precautions;
  (*shown)["first_aid"] = label->first_aid;
  (*shown)["disposal"] = label->disposal;
  return shown;
}

Result<json> list_jobs(const View& view) { return page_of(view, "job", !all(view), job_row); }
Result<json> show_job(const View& view) { return job_json(view.now, view.names.front(), view.moment); }

std::string in_query(const View& view, const char* name) {
  const auto found = view.query.find(name);
  return found == view.query.end() ? std::string() : found->second;
}

Result<json> show_stock(const View& view) {
  std::vector<json> lines;
  for (const StockLine& line : stock_list(view.now, in_query(view, "place"), view.moment.ms))
    lines.push_back(stock_line_json(line));
  return page_of_rows(view, lines, "item");
}

/// What to measure out of a product for a mix; without an amount for one batch of the label, and where a label
/// has several tables and none is named nothing but their names.
Result<json> show_mixing(const View& view) {
  const auto adopted = adopted_label(view.now, view.names.front());
  if (!adopted) return tl::make_unexpected(adopted.error());
  const Label& label = *adopted->label;
  const std::string table = in_query(view, "table"), typed = in_query(view, "make");
  if (table.empty() && label.mixing.size() > 1) {
    MixingSheet unnamed;
    unnamed.gear = label.mixing_gear;
    return mixing_json(label, unnamed);
  }
  auto make =
      typed.empty() ? Result<LiquidVolume>(label_batch(label, table)) : read_liquid_volume(typed, "make");
  if (!make) return tl::make_unexpected(make.error());
  const auto sheet = mixing_sheet(label, *make, table);
  if (!sheet) return tl::make_unexpected(sheet.error());
  return mixing_json(label, *sheet);
}

Result<json> list_vessels(const View& view) {
  std::vector<json> list;
  for (const VesselView& vessel :
       vessels_on_hand(view.now, in_query(view, "item"), in_query(view, "place"), view.moment.ms))
    list.push_back(vessel_json(vessel));
  return page_of_rows(view, list, "id");
}

Result<json> show_vessel(const View& view) {
  const auto vessel = vessel_view(view.now, view.names.front(), view.moment.ms);
  if (!vessel)
    return fail(ErrorCode::not_found, "no container or batch has that id", "the address",
                "GET /api/v1/vessels lists them");
  json shown = vessel_json(*vessel);
  const auto movements = view.now.get("movements", view.names.front());
  shown["movements"] = movements ? movements->at("rows") : json::array();
  return shown;
}

/// What the product of each job cost, as far as prices are known; a job that has drawn nothing is left out.
Result<json> list_costs(const View& view) {
  return page_of(view, "job", false, [&](const std::string& id, const json& job) {
    const JobCost cost = job_cost(view.now, id);
    if (cost.lines.empty()) return json();
    json row = job_row(id, job);
    if (job.contains("used_ul")) row["used_ul"] = job["used_ul"];
    row.update(job_cost_json(cost));
    return row;
  });
}

Result<json> list_departures(const View& view) {
  const std::string about = in_query(view, "job");
  return page_of(view, "departure", false, [&](const std::string& key, const json& body) {
    if (!about.empty() && body.value("job", std::string()) != about) return json();
    json row = body;
    row["departure"] = key;
    return row;
  });
}

Route reading(const char* path, const char* id, const char* summary, const char* answer,
              Result<json> (*view)(const View&), std::vector<const char*> query = {}) {
  return {.method = "GET",
          .path = path,
          .id = id,
          .access = Access::crew,
          .summary = summary,
          .answer = answer,
          .query = std::move(query),
          .view = view};
}

}  // namespace

std::vector<Route> reading_routes() {
  const std::vector<const char*> page = {"after", "limit"};
  const std::vector<const char*> page_all = {"after", "limit", "all"};
  return {
      reading("/api/v1/crew", "listCrew", "The crew with roles and credentials", "People", list<person>,
              page_all),
      reading("/api/v1/crew/{handle}", "showPerson", "One of the crew", "Person", one<person>),
      reading("/api/v1/foggers", "listFoggers", "The foggers and their catch tests", "Foggers", list<fogger>,
              page_all),
      reading("/api/v1/foggers/{fogger}", "showFogger", "One fogger", "Fogger", one<fogger>),
      reading("/api/v1/cartridges", "listCartridges", "Respirator cartridges and the time they were worn",
              "Cartridges", list<cartridge>, page_all),
      reading("/api/v1/products", "listProducts", "The products and the versions of their labels", "Products",
              list<product>, page_all),
      reading("/api/v1/products/{product}/mixing", "showMixing", "What to measure out of a product for a mix",
              "Mixing", show_mixing, {"make", "table"}),
      reading("/api/v1/labels/{digest}", "showLabel", "The text of a label, as it was adopted", "LabelText",
              show_label),
      reading("/api/v1/places", "listPlaces", "Shops and vans", "Places", list<place>, page_all),
      reading("/api/v1/stock", "showStock", "What is on hand, by item: use, cover, what to order", "StockLines",
              show_stock, {"after", "limit", "place"}),
      reading("/api/v1/vessels", "listVessels",
              "Containers and batches that are not empty, first expired first", "Vessels", list_vessels,
              {"after", "limit", "item", "place"}),
      reading("/api/v1/vessels/{vessel}", "showVessel", "One container or batch with its movements", "Vessel",
              show_vessel),
      reading("/api/v1/jobs", "listJobs", "The jobs that are not closed; all of them with all=true", "JobRows",
              list_jobs, page_all),
      reading("/api/v1/jobs/{job}", "showJob", "One job: plan, what is open, how its hold stands", "Job",
              show_job),
      reading("/api/v1/costs", "listJobCosts", "What the product of each job cost, by its draws", "JobCosts",
              list_costs, page),
      reading("/api/v1/departures", "listDepartures", "Where the record departs from the rules", "Departures",
              list_departures, {"after", "limit", "job"}),
  };
}

}  // namespace fogwright
