// SPDX-License-Identifier: Apache-2.0
#include "demo/stage_machine.hpp"

namespace fogwright::demo {
namespace {

constexpr std::int64_t minute_ms = 60'000;

bool holds(std::string_view text, std::string_view words) { return text.find(words) != std::string_view::npos; }

/// What was said since the last line that holds these words.
std::string_view since(std::string_view text, std::string_view words) {
  const auto at = text.rfind(words);
  return at == std::string_view::npos ? std::string_view{} : text.substr(at);
}

}  // namespace

StageMachine::StageMachine(std::string book, std::string labels, std::int64_t now_ms)
    : book_(std::move(book)),
      labels_(std::move(labels)),
      now_ms_(now_ms),
      booted_ms_(now_ms - 60 * minute_ms) {}

void StageMachine::pass(std::int64_t ms) { now_ms_ += ms; }

void StageMachine::set_time(std::int64_t now_ms) { now_ms_ = std::max(now_ms_, now_ms); }

/// The last question asked, with the item it belongs to.
std::optional<std::string> StageMachine::answer(const std::map<std::string, std::string>& answers) {
  pass(5'000);  // a person needs a moment
  const std::string text = out_.str();
  const auto line = text.rfind('\n', text.size() - 2);
  const std::string_view question = std::string_view(text).substr(line == std::string::npos ? 0 : line);
  for (const auto& [words, reply] : answers)
    if (holds(question, words)) return reply;
  if (holds(question, "Enter when the valve opens")) return "";
  if (holds(question, "Type start")) return "start";
  if (holds(question, "Type release")) return "release";
  return "yes";
}

/// Shuts the valve at the target; lets a hold pass a minute a look.
std::optional<char> StageMachine::key(std::int64_t timeout_ms) {
  const std::string text = out_.str();
  const bool holding = holds(text, "The hold. Keys:");
  pass(holding ? minute_ms : timeout_ms);
  if (holding && leave_in_hold_) return 'q';
  if (!holding && holds(since(text, "Enter when the valve opens"), "TARGET")) return 'n';
  return std::nullopt;
}

Done StageMachine::run(const std::string& by, std::vector<std::string> words,
                       const std::map<std::string, std::string>& answers) {
  std::ostringstream err;
  out_.str({});
  const std::map<std::string, std::string> environment = {{"FOGWRIGHT_BOOK", book_},
                                                          {"FOGWRIGHT_BY", by},
                                                          {"FOGWRIGHT_LABELS", labels_},
                                                          {"FOGWRIGHT_ZONE", "America/Chicago"},
                                                          {"LANG", "C.UTF-8"}};
  Outside outside{.out = out_,
                  .err = err,
                  .environment =
                      [&environment](const char* name) {
                        const auto found = environment.find(name);
                        return found == environment.end() ? std::nullopt : std::optional(found->second);
                      },
                  .now_ms = [this] { return now_ms_; },
                  .boot_clock =
                      [this] {
                        return BootClock{"demo-boot", now_ms_ - booted_ms_};
                      },
                  .random =
                      [this](std::span<std::uint8_t> bytes) {
                        for (std::uint8_t& byte : bytes) byte = static_cast<std::uint8_t>(random_());
                      },
                  .device = by + "-phone",
                  .read_line = [this, &answers] { return answer(answers); },
                  .key = [this](std::int64_t timeout_ms) { return key(timeout_ms); }};
  const int status = run_program(words, outside);
  pass(1'000);
  return {status, out_.str(), err.str()};
}

}  // namespace fogwright::demo
