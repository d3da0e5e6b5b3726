// SPDX-License-Identifier: Apache-2.0
/// docs/labels.md and docs/label.schema.json against the reader.

#include <toml++/toml.h>

#include <set>
#include <sstream>

#include "files.hpp"
#include "label/members.hpp"
#include "schema.hpp"

using namespace fogwright;
using namespace fogwright::test;
using namespace fogwright::profile;
using Json = nlohmann::ordered_json;

namespace {

Json as_json(const std::string& toml_text) {
  const toml::table table = toml::parse(toml_text);
  std::ostringstream out;
  out << toml::json_formatter{table};
  return Json::parse(out.str());
}

Json shipped_schema() { return Json::parse(read_file(root / "docs/label.schema.json")); }

}  // namespace

TEST_CASE("the shipped schema says what the reader's rows say, no more and no less") {
  check_golden("docs/label.schema.json", label_schema().dump(2) + "\n");
}

TEST_CASE("the manual's tables say what the reader's rows say, no more and no less") {
  const std::string begin = "<!-- members -->\n\n", end = "<!-- end of members -->\n";
  std::string manual = read_file(root / "docs/labels.md");
  const auto from = manual.find(begin), to = manual.find(end);
  REQUIRE(from != std::string::npos);
  REQUIRE(to != std::string::npos);
  manual.replace(from + begin.size(), to - from - begin.size(), label_tables_in_markdown());
  check_golden("docs/labels.md", manual);
}

TEST_CASE("every table that a member names exists, once, and every member says what it is for") {
  std::set<std::string_view> tables, named = {"label"};
  for (const TableFacts& table : label_member_table()) {
    CHECK(tables.insert(table.name).second);
    std::set<std::string_view> members;
    for (const MemberFacts& member : table.members) {
      CAPTURE(table.name, member.name);
      CHECK(members.insert(member.name).second);
      CHECK_FALSE(member.doc.empty());
      CHECK_FALSE(member.example.empty());
      CHECK(is_table(member.shape) == !member.table.empty());
      if (is_table(member.shape)) named.insert(member.table);
    }
  }
  CHECK(tables == named);
}

TEST_CASE("the demo labels keep to the shipped schema") {
  const Json schema = shipped_schema();
  for (const std::string& name : demo_names) {
    CAPTURE(name);
    CHECK(schema_faults(as_json(demo_text(name)), schema) == std::vector<std::string>{});
  }
}

TEST_CASE("the shipped schema refuses what the reader refuses") {
  const Json schema = shipped_schema();
  const std::string good = demo_text("fenmist-rtu");
  const auto faults = [&](std::string_view before, std::string_view after) {
    const std::string text = edited(good, before, after);
    CHECK_FALSE(read_label(text, "f").has_value());
    return schema_faults(as_json(text), schema);
  };
  using Found = std::vector<std::string>;
  CHECK(faults("oxidiser = false", "oxidizer = false") ==
        Found{"label: additionalProperties", "label: required"});
  CHECK(faults("oxidiser = false", "oxidiser = \"no\"") == Found{"label.oxidiser: type"});
  CHECK(faults("\"caution\"", "\"Caution\"") == Found{"label.signal_word: enum"});
  CHECK(faults("\"0.2 %\"", "\"0.2\"") == Found{"label.active[0].mass_fraction: pattern"});
  CHECK(faults("release = \"mist\"", "yield = 0\nrelease = \"mist\"") ==
        Found{"label.active[0].yield: exclusiveMinimum"});
  CHECK(faults("[\"fogging\", \"wiping\"]", "[]") == Found{"label.methods: minItems"});
  CHECK(faults("[\"fogging\", \"wiping\"]", "[\"fogging\", \"fogging\"]") ==
        Found{"label.methods: uniqueItems"});
  CHECK(faults("name = \"Fenmist RTU\"", "name = \"\"") == Found{"label.name: minLength"});
  CHECK(faults("format = 1", "format = 2") == Found{"label.format: const"});
}

// The example of each member is what faults offer: it must be good as it stands.
TEST_CASE("every example of the reference is valid TOML and keeps to the schema") {
  const Json schema = label_schema();
  for (const TableFacts& table : label_member_table())
    for (const MemberFacts& member : table.members) {
      if (is_table(member.shape)) continue;
      CAPTURE(table.name, member.name);
      const std::string line = std::string(member.name) + " = " + std::string(member.example) + "\n";
      std::string name(table.name);
      for (char& c : name) c = c == ' ' ? '_' : c;
      Json rules = table.name == "label" ? schema : schema.at("$defs").at(name);
      Json one = {{"type", "object"},
                  {"properties", {{member.name, rules.at("properties").at(std::string(member.name))}}}};
      CHECK(schema_faults(as_json(line), one) == std::vector<std::string>{});
    }
}
