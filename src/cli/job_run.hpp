// SPDX-License-Identifier: Apache-2.0
#pragma once

/// A walk through a job at the terminal. Everything that happens is in the book before the next question, so
/// that it can be broken off at any point and goes on from there.

#include <string>

#include "cli/book_session.hpp"
#include "cli/job_commands.hpp"
#include "cli/running_stretch.hpp"

namespace fogwright {

/// How a part of the walk ended.
enum class Went {
  on,    ///< the job moved, or the part is done: look again
  left,  ///< nobody answers any more, or the technician leaves it for now
};
using Walk = tl::expected<Went, Faults>;

class JobRun {
 public:
  JobRun(const Call& call, Store& store, std::string id)
      : call_(call), store_(store), id_(std::move(id)), running_(call, store.origin(), id_) {}

  [[nodiscard]] Outcome walk();

 private:
  // job_run.cpp
  [[nodiscard]] Result<nlohmann::json> job() const;
  [[nodiscard]] Walk part(const nlohmann::json& job);
  [[nodiscard]] Walk gate(const nlohmann::json& job);
  [[nodiscard]] Walk put_back(const nlohmann::json& job);

  // job_run_items.cpp
  void say(std::string_view text, bool strong = false, std::string_view indent = {});
  [[nodiscard]] std::optional<std::string> ask(std::string_view question);
  void tell(const Error& error);
  /// Writes what the desk decides; tells why where it refuses.
  bool write(const Request& request);
  [[nodiscard]] std::vector<Missing> open(const nlohmann::json& job, Stage stage) const;
  /// Asks each open item of a stage in turn.
  [[nodiscard]] Went ask_items(Stage stage);
  [[nodiscard]] Went ask_item(const nlohmann::json& job, const std::string& item, const std::string& place);
  [[nodiscard]] bool answer(const std::string& item, const std::string& typed);

  // job_run_fog.cpp
  [[nodiscard]] Walk fog(const nlohmann::json& job);
  /// Asks for the stretch that was being timed when an earlier walk came to its end in the middle of it.
  [[nodiscard]] Went take_up(const nlohmann::json& job);
  [[nodiscard]] Went fog_return(const std::string& system, const nlohmann::json& planned);
  [[nodiscard]] Went time_return(const std::string& system, const nlohmann::json& planned,
                                 std::int64_t before_ms);
  /// Asks for what no clock can tell, since nobody stopped it at the valve.
  [[nodiscard]] Went ask_stretch(const std::string& system, const std::string& name, std::int64_t reckoned_ms);
  bool record(const std::string& system, const std::string& name, std::int64_t ms);
  [[nodiscard]] Walk fog_off();

  // job_run_hold.cpp
  [[nodiscard]] Walk hold(const nlohmann::json& job);
  [[nodiscard]] Went wait_for_hold(const nlohmann::json& job);
  [[nodiscard]] Went ask_reading();
  [[nodiscard]] Walk release();

  [[nodiscard]] Moment now() const { return {call_.outside.now_ms(), call_.outside.boot_clock()}; }
  [[nodiscard]] std::int64_t uptime() const { return call_.outside.boot_clock().uptime_ms; }
  /// Waits for a key; `closed_` is set where nobody can press one any more.
  [[nodiscard]] std::optional<char> key(std::int64_t ms);
  /// One line that is drawn over itself on a terminal; elsewhere a line where `sparse` says so.
  void redraw(std::string_view text, bool sparse);
  void end_redraw();

  const Call& call_;
  Store& store_;
  std::string id_;
  StretchFile running_;
  bool closed_ = false;
  bool drawn_ = false;
};

}  // namespace fogwright
