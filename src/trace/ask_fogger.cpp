// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <algorithm>
#include <cmath>

#include "desk/checks.hpp"
#include "trace/facts.hpp"

namespace fogwright {
namespace {

using namespace trace;
using nlohmann::json;

std::string flow_text(std::int64_t ul_min) {
  return fmt::format("{} mL/min", show_number(static_cast<double>(ul_min) / 1e3, 4));
}

std::int64_t fogged_ms(const json& job) {
  std::int64_t ms = 0;
  for (const json& one : job.at("returns")) ms += one.at("actual_ms").get<std::int64_t>();
  return ms;
}

/// Rounded up: more was let out rather than less.
std::int64_t volume_at(std::int64_t flow_ul_min, std::int64_t ms) {
  return (flow_ul_min * ms + 59'999) / 60'000;
}

/// By the later flow, against what the plan could let out at the most and at the least.
std::string verdict(const json& plan, std::int64_t ul) {
  if (ul > plan.at("volume_ul").at("high").get<std::int64_t>()) return "over";
  if (ul < plan.at("volume_ul").at("low").get<std::int64_t>()) return "under";
  return "within";
}

std::string verdict_words(const std::string& word) {
  if (word == "over") return "more than its plan's most";
  if (word == "under") return "less than its plan's least";
  return "within its plan's band";
}

AnswerRow row_of(const Asked& asked, Labels& labels, const json& job, const json& test) {
  const std::int64_t ms = fogged_ms(job);
  const auto planned_flow = job.at("plan").at("flow_ul_min").get<std::int64_t>();
  const auto later_flow = test.at("flow_ul_min").get<std::int64_t>();
  const bool measured = job.value("measured", std::string()) == "before-and-after";
  const std::int64_t by_flow = volume_at(later_flow, ms);
  // What was measured in the tank needs no flow.
  const std::int64_t really = measured ? job.value("used_ul", by_flow) : by_flow;
  const std::string word = verdict(job.at("plan"), really);
  AnswerRow row;
  row.data = job_data(asked, labels, job);
  row.data.update({{"fogged_s", (ms + 999) / 1'000},
                   {"planned_flow_ul_min", planned_flow},
                   {"later_flow_ul_min", later_flow},
                   {"planned_ul", job.at("plan").at("volume_ul").at("target")},
                   {"recorded_ul", job.value("used_ul", std::int64_t{0})},
                   {"measured", measured},
                   {"really_ul", really},
                   {"least_ul", measured ? really : volume_at(test.at("low_ul_min").get<std::int64_t>(), ms)},
                   {"most_ul", measured ? really : volume_at(test.at("high_ul_min").get<std::int64_t>(), ms)},
                   {"against_plan", word}});
  row.label = row.data.at("day");
  row.words =
      fmt::format("{}: {} s; {} recorded, really {} ({}); {}", product_words(row.data), (ms + 999) / 1'000,
                  volume_text(asked, job.value("used_ul", std::int64_t{0})), volume_text(asked, really),
                  measured ? "measured in the tank" : "by the later flow", verdict_words(word));
  return row;
}

/// The day since when the fogger is held to be off.
Result<std::string> since_when(const json& tests, const std::string& typed) {
  if (!typed.empty()) {
    if (const auto date = read_date(typed, "the day", "--off-since"); !date)
      return tl::make_unexpected(date.error());
    return typed;
  }
  if (tests.size() >= 2) return tests[tests.size() - 2].at("on").get<std::string>();
  return fail(ErrorCode::missing_value, "no test tells since when the fogger was off", "--off-since",
              "write --off-since DATE, or test it again with fogwright fogger test");
}

std::string sentence_of(const std::string& fogger, const std::string& since, const json& test,
                        const Answer& answer) {
  std::set<std::string> flows;
  std::size_t over = 0, under = 0;
  for (const AnswerRow& row : answer.rows) {
    flows.insert(flow_text(row.data.at("planned_flow_ul_min").get<std::int64_t>()));
    over += row.data.at("against_plan") == "over" ? 1U : 0U;
    under += row.data.at("against_plan") == "under" ? 1U : 0U;
  }
  const std::string later = flow_text(test.at("flow_ul_min").get<std::int64_t>());
  const std::string on = test.at("on");
  if (answer.rows.empty())
    return fmt::format("No job since {} went by another flow of {} than the {} of its test of {}.", since,
                       fogger, later, on);
  return fmt::format(
      "{} since {} went by {} of {}, which gives {} (test of {}): {} got more than planned, {} less.",
      counted(answer.rows.size(), "job", "jobs"), since, joined(flows), fogger, later, on, over, under);
}

}  // namespace

Result<Answer> ask_fogger(const Asked& asked, const std::string& fogger, const std::string& off_since) {
  const auto known = find(asked.documents, "fogger", fogger, {});
  if (!known) return tl::make_unexpected(known.error());
  const json& tests = known->at("tests");
  const auto since = since_when(tests, off_since);
  if (!since) return tl::make_unexpected(since.error());
  if (tests.empty() || tests.back().at("on").get<std::string>() < *since)
    return fail(ErrorCode::out_of_range, fmt::format("{} was not tested since {}", fogger, *since),
                "--off-since", "test it with fogwright fogger test, then ask again");
  const json& test = tests.back();
  Labels labels(asked.documents);
  Answer answer;
  const auto doubtful = [&](const json& job) {
    return job.value("fogger", std::string()) == fogger && was_fogged(job) &&
           day_of_job(asked, job) >= *since && job.at("plan").at("flow_ul_min") != test.at("flow_ul_min");
  };
  for (const json& job : jobs_by_day(asked, doubtful)) answer.rows.push_back(row_of(asked, labels, job, test));
  answer.sentence = sentence_of(fogger, *since, test, answer);
  return answer;
}

}  // namespace fogwright
