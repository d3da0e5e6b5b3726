// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <algorithm>
#include <map>

#include "desk/rehearsal.hpp"
#include "fogwright/desk/imports.hpp"

namespace fogwright {
namespace {

/// Each line is asked for in turn, against the book as the lines above would leave it.
class Lines {
 public:
  explicit Lines(const DeskContext& context) : rehearsal_(context) {}

  /// Takes what the desk makes of a line; a fault is kept with the line.
  bool take(const std::string& where, const Result<Drafts>& drafts) {
    if (drafts)
      rehearsal_.take(*drafts);
    else if (drafts.error().where == "--by")  // it is the person that is refused, not the line
      refused_ = drafts.error();
    else
      fault(where, drafts.error().message, drafts.error().hint);
    return drafts.has_value();
  }
  void fault(const std::string& where, std::string message, std::string hint) {
    faults_.push_back({ErrorCode::bad_import, std::move(message), where, std::move(hint)});
  }
  [[nodiscard]] DeskContext context() const { return rehearsal_.context(); }
  [[nodiscard]] tl::expected<Drafts, Faults> drafts() && {
    if (refused_) return tl::make_unexpected(Faults{std::move(*refused_)});
    if (!faults_.empty()) return tl::make_unexpected(std::move(faults_));
    return rehearsal_.drafts();
  }

 private:
  Rehearsal rehearsal_;
  Faults faults_;
  std::optional<Error> refused_;
};

/// The entry that closes an old job. Nobody asks for its gate now: the job is long over.
NewEntry closing(const DeskContext& context, const std::string& job, const LateRecord& record) {
  return draft(context, "job-closed",
               {{"job", job}, {"used_ul", record.used_ul.value_or(0)}, {"leave_behind", false}});
}

void take_job(Lines& lines, const OldJob& old, const Calendar& calendar) {
  const auto planned = plan_job(lines.context(), old.job, old.plan);
  if (!lines.take(old.where, planned)) return;
  const std::string id = planned->front().body.at("job");
  if (!lines.take(old.where, record_job(lines.context(), id, old.record, calendar))) return;
  if (old.record.released_ms) lines.take(old.where, Drafts{closing(lines.context(), id, old.record)});
}

}  // namespace

tl::expected<Drafts, Faults> import_crew(const DeskContext& context, const std::vector<CrewRow>& rows) {
  Lines lines(context);
  std::map<std::string, std::vector<Role>> enrolled;
  for (const CrewRow& row : rows) {
    const std::string& handle = row.person.handle;
    const auto before = enrolled.find(handle);
    if (!row.person.roles.empty() && before == enrolled.end()) {
      if (!lines.take(row.where, enrol_person(lines.context(), row.person))) continue;
      enrolled[handle] = row.person.roles;
    } else if (!row.person.roles.empty() && before->second != row.person.roles) {
      lines.fault(row.where, fmt::format("{} stands above with other roles", handle),
                  "write the roles on one line, or the same on each");
    }
    if (row.credential) lines.take(row.where, add_credential(lines.context(), *row.credential));
  }
  return std::move(lines).drafts();
}

tl::expected<Drafts, Faults> import_old_jobs(const DeskContext& context, const std::vector<OldJob>& jobs,
                                             const Calendar& calendar) {
  Lines lines(context);
  for (const OldJob& job : jobs) take_job(lines, job, calendar);
  return std::move(lines).drafts();
}

}  // namespace fogwright
