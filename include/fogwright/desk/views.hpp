// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What people ask of the documents: stock, what to order, cost of a job, load of a van. Read only; the same
/// documents and time give the same answer. An item is a product, or one of its parts (docs/entries.md).

#include <optional>
#include <string>
#include <vector>

#include "fogwright/book/documents.hpp"
#include "fogwright/stock.hpp"

namespace fogwright {

/// One container or batch with what the label and the clock make of it.
struct VesselView {
  std::string id, item, lot, place;
  std::vector<std::string> earlier_lots;  ///< that it was entered under before they were put right
  bool batch = false;
  std::int64_t capacity_ul = 0, remaining_ul = 0;
  std::optional<std::int64_t> opened_ms;
  std::int64_t usable_until_ms = 0;
  bool usable = false;  ///< in date now
  bool disposed = false;
};
[[nodiscard]] std::optional<VesselView> vessel_view(const Documents& documents, const std::string& id,
                                                    std::int64_t at_ms);
/// Everything that is not empty, by item and then in the order of expiry. An empty item or place means all.
[[nodiscard]] std::vector<VesselView> vessels_on_hand(const Documents& documents, const std::string& item,
                                                      const std::string& place, std::int64_t at_ms);

struct OnHand {
  std::int64_t total_ul = 0;
  std::int64_t usable_ul = 0;  ///< of it in date
  int vessels = 0;
};
/// What containers hold; batches apart. An empty place means all.
[[nodiscard]] OnHand on_hand(const Documents& documents, const std::string& item, const std::string& place,
                             std::int64_t at_ms);

/// Days that demand is reckoned from: full UTC days before today, at most so many, since the first receipt.
inline constexpr int demand_days = 90;
/// Use per day, oldest first.
[[nodiscard]] std::vector<std::int64_t> use_by_day(const Documents& documents, const std::string& item,
                                                   std::int64_t at_ms);
/// Mean use of the last 20 jobs, rounded up; nullopt before the first.
[[nodiscard]] std::optional<std::int64_t> typical_job_ul(const Documents& documents, const std::string& item);

/// One item, all places together, or one place.
struct StockLine {
  std::string item, product, name;
  OnHand containers, batches;
  std::optional<std::int64_t> jobs_left;         ///< at the typical use of a job
  std::optional<std::int64_t> days_of_cover;     ///< nullopt: less than 7 days of record, or no use
  std::optional<std::int64_t> reorder_point_ul;  ///< nullopt: no rule, or demand is not known yet
  std::int64_t order_ul = 0;                     ///< whole units that bring the stock above the point
  std::vector<std::string> expiring;             ///< ids of containers that expire within the days asked for
};
/// Cover and order look at what is in date only. Orders are for all places: with a place they stay empty.
[[nodiscard]] std::vector<StockLine> stock_list(const Documents& documents, const std::string& place,
                                                std::int64_t at_ms, int expiring_days = 30);

struct JobCost {
  struct Line {
    std::string from, product, lot;
    std::int64_t ul = 0;
    std::optional<std::int64_t> cents;
  };
  std::vector<Line> lines;  ///< a return stands with minus
  std::int64_t cents = 0;   ///< of what has a known cost
  bool complete = true;     ///< every line has one
};
[[nodiscard]] JobCost job_cost(const Documents& documents, const std::string& job);

struct VanLoad {
  std::vector<Carried> load;
  std::vector<CarriageFinding> findings;
};
/// What stands on a van, against the limits of materials of trade. Gross mass is estimated to the safe side:
/// what remains at its density, and a tenth for the packaging (assumed). Mixed product counts like what it was
/// mixed from, since the label gives no class for it.
[[nodiscard]] VanLoad van_load(const Documents& documents, const std::string& place);

}  // namespace fogwright
