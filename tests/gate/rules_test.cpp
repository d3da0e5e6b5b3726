// SPDX-License-Identifier: Apache-2.0
#include "gate/rules.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "golden.hpp"

using namespace fogwright;
using test::check_golden;

namespace {

std::size_t count_of(std::string_view text, std::string_view what) {
  std::size_t n = 0;
  for (auto at = text.find(what); at != std::string_view::npos; at = text.find(what, at + 1)) ++n;
  return n;
}

std::string lapse_words(const Rule& rule) {
  if (rule.lapse != Lapse::after_minutes) return std::string(lapse_name(rule.lapse));
  return "after " + std::to_string(rule.lapse_minutes) + " minutes";
}

/// The citation, with the basis in front of it where it does not say so itself.
std::string basis_words(const Rule& rule) {
  const std::string_view basis = basis_name(rule.basis);
  std::string words = rule.citation.find(basis) == std::string_view::npos ? std::string(basis) + ": " : "";
  return words.append(rule.citation);
}

std::string table_line(const GateRow& row) {
  const Rule& rule = row.rule;
  std::string line;
  for (const std::string& cell :
       {"`" + std::string(rule.id) + "`", std::string(rule.words), std::string(rule.why), basis_words(rule),
        std::string(evidence_name(rule.evidence)), lapse_words(rule), std::string(when_words(row.when))})
    line += "| " + cell + " ";
  return line + "|\n";
}

std::string rules_page() {
  std::string page =
      "# Rules of the gate\n\n"
      "Made from the table in `src/gate/rules.cpp` by its test (`FOGWRIGHT_APPROVE=1` rewrites this page). The "
      "label, "
      "the data sheet and local code outrank every line. `{}` stands for a figure or a list of the job at "
      "hand.\n";
  std::string_view stage;
  for (const GateRow& row : gate_rows()) {
    if (stage_name(row.rule.stage) != stage) {
      stage = stage_name(row.rule.stage);
      page += "\n## ";
      page += static_cast<char>(stage[0] - 'a' + 'A');
      page.append(stage.substr(1));
      page +=
          "\n\n| id | words | why | basis | evidence | lapses | asked for |\n|---|---|---|---|---|---|---|\n";
    }
    page += table_line(row);
  }
  return page;
}

}  // namespace

TEST_CASE("docs/rules.md lists the rules as they are") { check_golden("docs/rules.md", rules_page()); }

TEST_CASE("every rule has an id of its own, words, a reason and a citation") {
  std::set<std::string_view> ids;
  for (const Rule& rule : all_rules()) {
    CAPTURE(rule.id);
    CHECK(ids.insert(rule.id).second);
    CHECK(find_rule(rule.id) == &rule);
    CHECK(std::ranges::all_of(rule.id, [](char c) { return (c >= 'a' && c <= 'z') || c == '-'; }));
    for (const std::string_view text : {rule.words, rule.why}) {
      REQUIRE(text.size() > 4);
      CHECK(text.size() < 110);
      CHECK((text[0] >= 'A' && text[0] <= 'Z'));
      CHECK(text.back() == '.');
    }
    CHECK_FALSE(rule.citation.empty());
    CHECK((rule.lapse == Lapse::after_minutes) == (rule.lapse_minutes > 0));
  }
  CHECK(find_rule("no-such-rule") == nullptr);
}

TEST_CASE("the basis of a rule matches its citation") {
  for (const Rule& rule : all_rules()) {
    CAPTURE(rule.id, rule.citation);
    switch (rule.basis) {
      case Basis::label:
        CHECK(rule.citation.starts_with("label"));
        break;
      case Basis::policy:
        CHECK(rule.citation.starts_with("company policy"));
        break;
      case Basis::common_practice:
        CHECK(rule.citation == "common practice, no source");
        break;
      case Basis::regulation:
        CHECK((rule.citation.starts_with("29 CFR ") || rule.citation.starts_with("FIFRA ") ||
               rule.citation == "state pesticide law"));
        break;
      default:
        FAIL("no rule rests on " << basis_name(rule.basis));
    }
  }
}

TEST_CASE("no rule promises that anything is safe") {
  for (const Rule& rule : all_rules()) {
    CAPTURE(rule.id);
    for (const std::string_view text : {rule.id, rule.words, rule.why, rule.citation})
      CHECK(text.find("safe") == std::string_view::npos);
  }
}

TEST_CASE("a rule has one place for a value exactly where it is filled") {
  for (const GateRow& row : gate_rows()) {
    CAPTURE(row.rule.id);
    CHECK(count_of(row.rule.words, "{}") == (row.fill == Fill::nothing ? 0 : 1));
    CHECK(row.rule.why.find('{') == std::string_view::npos);
  }
}

TEST_CASE("stages follow each other, and every condition has words and a rule") {
  CHECK(std::ranges::is_sorted(all_rules(), {}, &Rule::stage));
  CHECK(static_cast<int>(When::readings_needed) == when_count - 1);
  std::set<std::string_view> words;
  for (int i = 0; i < when_count; ++i) {
    const auto when = static_cast<When>(i);
    CAPTURE(i);
    CHECK_FALSE(when_words(when).empty());
    CHECK(words.insert(when_words(when)).second);
    CHECK(std::ranges::any_of(gate_rows(), [&](const GateRow& row) { return row.when == when; }));
  }
}

TEST_CASE("what is done anew each time lapses each time") {
  CHECK(find_rule("seal-check-fogging")->lapse == Lapse::at_each_donning);
  CHECK(find_rule("seal-check-mixing")->lapse == Lapse::at_each_donning);
  CHECK(find_rule("everyone-out")->lapse == Lapse::when_someone_enters);
  CHECK(find_rule("animals-out")->lapse == Lapse::when_someone_enters);
  CHECK(find_rule("fit-test")->lapse == Lapse::end_of_day);
  CHECK(find_rule("fit-test")->evidence == Evidence::credential);
  CHECK(find_rule("airflow-proved")->lapse == Lapse::after_minutes);
}

TEST_CASE("evidence, lapses and stages are named, each otherwise") {
  std::set<std::string_view> names;
  for (const auto e : {Evidence::person, Evidence::credential, Evidence::count, Evidence::time,
                       Evidence::number, Evidence::photo, Evidence::reading})
    CHECK(names.insert(evidence_name(e)).second);
  for (const auto l : {Lapse::never_for_this_job, Lapse::when_someone_enters, Lapse::at_each_donning,
                       Lapse::end_of_day, Lapse::after_minutes})
    CHECK(names.insert(lapse_name(l)).second);
  for (const auto s : {Stage::before_mixing, Stage::before_fogging, Stage::during_fogging,
                       Stage::before_release, Stage::before_close})
    CHECK(names.insert(stage_name(s)).second);
}
