// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "demo/stage_machine.hpp"

namespace fogwright::demo {

/// The demo world: Quillfen Duct Care of Tarn Vale, its vans Heron and Plover, its crew and its products. None
/// of it exists.
class Season {
 public:
  /// Everything is written into this folder, which must be new.
  Season(std::string folder, std::string source);

  /// Returns 0, or the status of the first step that did not do what it should.
  int play();

 private:
  void set_up();
  void set_up_crew();
  void set_up_gear();
  void set_up_stock();
  void routine_jobs();
  void walk_ready_to_use();
  void walk_high_strength();
  void close_the_books();
  void print_papers();
  void answer_for_it();

  /// Plans a job and returns its id.
  std::string plan(const std::string& by, const std::string& product, const std::string& van,
                   std::vector<std::string> more);
  /// Walks a job to its close; the transcript goes into a file where `file` is given.
  void walk(const std::string& by, const std::string& job, const std::string& container,
            const std::string& tank, const std::string& left, const std::string& file = {},
            bool leave_in_hold = false);
  /// Runs a step that must end with `status`; `show` prints the call and what it said.
  Done step(const std::string& by, const std::vector<std::string>& words, bool show = false, int status = 0);
  void say(const std::string& text);
  void keep(const std::string& file, const std::string& text);

  std::string folder_, source_;
  std::vector<std::string> walked_;  ///< the jobs that were walked at the terminal
  StageMachine machine_;
  int failed_ = 0;
};

}  // namespace fogwright::demo
