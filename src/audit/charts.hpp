// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Control charts over a whole book: use per technician and fogger, counts per product. The rows ("job-use",
/// "count") are read twice, first for the limits; only the newest points are held.

#include <functional>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "audit/glance.hpp"
#include "fogwright/audit/audit.hpp"

namespace fogwright {

class Charts {
 public:
  explicit Charts(const Documents& documents);

  [[nodiscard]] std::vector<AuditChart> take() &&;

  /// A row and the charts beyond whose limits it lies; rows inside all of them are left out.
  using Visit =
      std::function<void(const Glance& row, double off_percent, const std::vector<const AuditChart*>& beyond)>;
  void each_use_beyond(const Visit& visit) const;
  void each_count_beyond(const Visit& visit) const;

 private:
  using Subject = std::pair<AuditChart::Of, std::string>;
  struct Growing {
    ChartLimits limits;
    AuditChart chart;
  };

  void read(const char* kind);
  void add(const Subject& subject, const ChartPoint& point);
  void finish();
  void each_beyond(const char* kind, const Visit& visit) const;

  const Documents& documents_;
  std::map<Subject, Growing> charts_;
};

}  // namespace fogwright
