// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <rapidcheck.h>
#include <toml++/toml.h>

#include <algorithm>
#include <set>
#include <sstream>

#include "files.hpp"
#include "invariants.hpp"
#include "label/members.hpp"

using namespace fogwright;
using namespace fogwright::test;
using namespace fogwright::profile;

namespace {

const TableFacts& table_named(std::string_view name) {
  const auto& all = label_member_table();
  const auto found = std::ranges::find(all, name, &TableFacts::name);
  REQUIRE(found != all.end());
  return *found;
}

/// Calls `visit` with every table of the profile and its facts.
template <class Visit>
void walk(toml::table& node, const TableFacts& facts, Visit visit) {
  visit(node, facts);
  for (const MemberFacts& member : facts.members) {
    if (!is_table(member.shape) || !node.contains(member.name)) continue;
    if (auto* inner = node.get_as<toml::table>(member.name)) walk(*inner, table_named(member.table), visit);
    if (auto* list = node.get_as<toml::array>(member.name))
      for (auto& item : *list) walk(*item.as_table(), table_named(member.table), visit);
  }
}

std::string written(const toml::table& profile) {
  std::ostringstream out;
  out << profile;
  return out.str();
}

void check_missing(const toml::table& profile, std::string_view member) {
  const auto label = read_label(written(profile), "f");
  CAPTURE(member);
  REQUIRE_FALSE(label);
  const std::string words = fmt::format("lacks {}", member);
  CHECK(std::ranges::any_of(label.error(), [&](const Error& e) { return e.message.ends_with(words); }));
}

}  // namespace

TEST_CASE("each required member, taken out of a good profile, is missed by name") {
  std::set<std::string> seen;
  for (const std::string& name : demo_names) {
    toml::table profile = toml::parse(demo_text(name));
    REQUIRE(read_label(written(profile), "f").has_value());
    walk(profile, table_named("label"), [&](toml::table& node, const TableFacts& facts) {
      const toml::table whole = node;
      for (const MemberFacts& member : facts.members) {
        if (!member.required) continue;
        node.erase(member.name);
        check_missing(profile, member.name);
        node = whole;
        seen.insert(fmt::format("{}.{}", facts.name, member.name));
      }
    });
  }
  std::size_t required = 0;
  for (const TableFacts& table : label_member_table())
    required += static_cast<std::size_t>(std::ranges::count_if(table.members, &MemberFacts::required));
  CHECK(seen.size() == required);  // the demo labels between them hold every table that requires something
}

TEST_CASE("a member that the reference does not know is refused in every table") {
  for (const std::string& name : demo_names) {
    toml::table profile = toml::parse(demo_text(name));
    walk(profile, table_named("label"), [&](toml::table& node, const TableFacts& facts) {
      node.insert("qqqqqqqq", 1);
      const auto label = read_label(written(profile), "f");
      CAPTURE(facts.name);
      REQUIRE_FALSE(label);
      CHECK(label.error().at(0).message == "unknown member \"qqqqqqqq\"");
      node.erase("qqqqqqqq");
    });
  }
}

TEST_CASE("whatever is done to a profile, the answer is a whole label or faults with a place and words") {
  std::vector<std::string> texts;
  for (const std::string& name : demo_names) texts.push_back(demo_text(name));
  CHECK(rc::check("mutated profiles", [&] {
    std::string text = *rc::gen::elementOf(texts);
    const int edits = *rc::gen::inRange(1, 6);
    for (int i = 0; i < edits && !text.empty(); ++i) {
      const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
      const auto length = *rc::gen::inRange<std::size_t>(0, 40);
      const auto piece = *rc::gen::oneOf(
          rc::gen::arbitrary<std::string>(),
          rc::gen::elementOf(std::vector<std::string>{"\"", "[", "]", "\n", "\"\"\"", "=", ".", "0"}));
      text.replace(at, length, piece);
    }
    const auto broken = broken_invariant(text);
    if (!broken.empty()) RC_FAIL(broken + ":\n" + text);
  }));
}
