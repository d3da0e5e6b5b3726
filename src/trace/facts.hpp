// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What every question needs of a job: its day, its label, its lots, its address.

#include <map>
#include <memory>
#include <set>
#include <string>
#include <vector>

#include "fogwright/label.hpp"
#include "fogwright/trace.hpp"

namespace fogwright::trace {

/// Labels by their digest, each read once.
class Labels {
 public:
  explicit Labels(const Documents& documents) : documents_(documents) {}
  /// nullptr where the book lacks the text or it cannot be read.
  [[nodiscard]] const Label* find(const std::string& digest);

 private:
  const Documents& documents_;
  std::map<std::string, std::shared_ptr<const Label>> read_;
};

/// What is kept of a job's site.
struct Site {
  enum class Kept { yes, none, erased };
  Kept kept = Kept::none;
  std::string customer, address;
  /// "12 Mill Lane (A. Customer)", "address erased", "no address kept"
  [[nodiscard]] std::string words() const;
};
[[nodiscard]] Site site_of(const Asked& asked, const nlohmann::json& job);

/// The day of the fog at the job's place; of the plan where there was none.
[[nodiscard]] std::string day_of_job(const Asked& asked, const nlohmann::json& job);
[[nodiscard]] bool was_fogged(const nlohmann::json& job);

/// Lots of a container, or of all that went into a batch.
[[nodiscard]] std::set<std::string> lots_of_vessel(const Documents& documents, const std::string& vessel);
/// The vessels that were drawn for the job, or noted for it, and their lots.
[[nodiscard]] std::set<std::string> vessels_of_job(const Documents& documents, const nlohmann::json& job);
[[nodiscard]] std::set<std::string> lots_of_job(const Documents& documents, const nlohmann::json& job);

/// What was fogged: as recorded, else what was drawn for the job; nullopt where neither is known.
[[nodiscard]] std::optional<std::int64_t> used_ul(const Documents& documents, const nlohmann::json& job);

/// "12.8 fl oz"
[[nodiscard]] std::string volume_text(const Asked& asked, std::int64_t ul);
/// "0.41 mg/m3", rounded up
[[nodiscard]] std::string concentration_text(std::int64_t ug_m3);
/// "3 jobs", "1 job"
[[nodiscard]] std::string counted(std::size_t count, std::string_view one, std::string_view many);
[[nodiscard]] std::string joined(const std::set<std::string>& words);
/// ", from 2026-03-02 to 2026-04-10", ", on 2026-03-02", or nothing.
[[nodiscard]] std::string span_words(const std::set<std::string>& days);

/// Members that every row about a job has: job, day, state, product, name, registration, lots.
[[nodiscard]] nlohmann::json job_data(const Asked& asked, Labels& labels, const nlohmann::json& job);
/// "J3, Fenmist RTU (DEMO-1)"
[[nodiscard]] std::string product_words(const nlohmann::json& data);

/// Every job, by its day.
[[nodiscard]] std::vector<nlohmann::json> jobs_by_day(
    const Asked& asked, const std::function<bool(const nlohmann::json& job)>& wanted);

}  // namespace fogwright::trace
