// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>

#include "cli/command.hpp"
#include "fogwright/desk/job.hpp"

namespace fogwright {

/// A stretch of fog whose clock was started, and that is not in the book yet.
struct RunningStretch {
  std::string system, name;    ///< the return
  std::int64_t before_ms = 0;  ///< what the book had of this return when the valve opened
  Moment opened;
};

/// How long ago it was opened: within one boot the uptime tells, else the calendar. Zero where neither can.
[[nodiscard]] std::int64_t open_ms(const RunningStretch& stretch, const Moment& now) noexcept;

/// Keeps the running stretch of a job in the user's data folder: a crash, a dead battery or Ctrl-C does not
/// lose it. Without a home folder, or where the folder cannot be written, nothing is kept: the work goes on all
/// the same.
class StretchFile {
 public:
  /// `origin`: of the book. Two books may each have a job of that id.
  StretchFile(const Call& call, std::string origin, std::string job);

  /// Durable when it returns.
  void keep(const RunningStretch& stretch) const;
  /// None where none is kept, or what is there cannot be read.
  [[nodiscard]] std::optional<RunningStretch> kept() const;
  void remove() const;

 private:
  std::string origin_, job_;
  std::string path_;  ///< empty where there is no home folder
};

}  // namespace fogwright
