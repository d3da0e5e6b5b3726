// SPDX-License-Identifier: Apache-2.0
#include "schema.hpp"

#include <fmt/format.h>

#include <regex>
#include <set>
#include <stdexcept>

#include "label/members.hpp"

namespace fogwright::test {
namespace {

using Json = nlohmann::ordered_json;
using namespace fogwright::profile;

std::string definition(std::string_view table) {
  std::string name(table);
  for (char& c : name) c = c == ' ' ? '_' : c;
  return name;
}

Json text_schema(std::size_t longest) { return {{"type", "string"}, {"minLength", 1}, {"maxLength", longest}}; }
Json pattern_schema(const char* pattern) { return {{"type", "string"}, {"pattern", pattern}}; }
Json list_schema(Json items) { return {{"type", "array"}, {"minItems", 1}, {"items", std::move(items)}}; }

Json words_schema(const MemberFacts& member) {
  Json words = Json::array();
  for (const auto word : member.words()) words.push_back(word);
  return {{"enum", words}};
}

Json shape_schema(const MemberFacts& member) {
  const Json inner = {{"$ref", "#/$defs/" + definition(member.table)}};
  switch (member.shape) {
    case Shape::format:
      return {{"const", 1}};
    case Shape::text:
    case Shape::quantity:
      return text_schema(longest_text);
    case Shape::fraction:
      return pattern_schema("(%|ppm)$");
    case Shape::statement:
      return text_schema(longest_statement);
    case Shape::number:
      return {{"type", "number"}, {"exclusiveMinimum", 0}, {"maximum", 1000000}};
    case Shape::flag:
      return {{"type", "boolean"}};
    case Shape::date:
      return pattern_schema("^[0-9]{4}-[0-9]{2}-[0-9]{2}$");
    case Shape::cas:
      return pattern_schema("^[1-9][0-9]{1,6}-[0-9]{2}-[0-9]$");
    case Shape::un_number:
      return pattern_schema("^UN[0-9]{4}$");
    case Shape::word:
      return words_schema(member);
    case Shape::words: {
      Json list = list_schema(words_schema(member));
      list["uniqueItems"] = true;
      return list;
    }
    case Shape::statements:
      return list_schema(text_schema(longest_statement));
    case Shape::table:
      return inner;
    case Shape::tables:
      return list_schema(inner);
  }
  throw std::runtime_error("a shape without a schema");
}

Json table_schema(const TableFacts& table) {
  Json required = Json::array(), properties = Json::object();
  for (const MemberFacts& member : table.members) {
    if (member.required) required.push_back(member.name);
    properties[std::string(member.name)] = shape_schema(member);
    properties[std::string(member.name)]["description"] = member.doc;
  }
  return {{"description", table.doc},
          {"type", "object"},
          {"additionalProperties", false},
          {"required", required},
          {"properties", properties}};
}

std::string_view shape_words(Shape shape) {
  switch (shape) {
    case Shape::format:
      return "the number 1";
    case Shape::text:
      return "text";
    case Shape::statement:
      return "statement";
    case Shape::quantity:
      return "quantity";
    case Shape::fraction:
      return "fraction";
    case Shape::number:
      return "number";
    case Shape::flag:
      return "true or false";
    case Shape::date:
      return "date";
    case Shape::cas:
      return "CAS number";
    case Shape::un_number:
      return "UN number";
    case Shape::word:
      return "one word of";
    case Shape::words:
      return "list of words of";
    case Shape::statements:
      return "list of statements";
    case Shape::table:
      return "table";
    case Shape::tables:
      return "tables";
  }
  throw std::runtime_error("a shape without words");
}

std::string member_row(const MemberFacts& member) {
  std::string type(shape_words(member.shape));
  if (member.words != nullptr)
    for (const auto word : member.words()) type += fmt::format(" `{}`", word);
  return fmt::format("| `{}` | {} | {} | `{}` | {} |\n", member.name, member.required ? "yes" : "", type,
                     member.example, member.doc);
}

class Validator {
 public:
  explicit Validator(const Json& root) : root_(root) {}
  std::vector<std::string> faults;

  void check(const Json& value, const Json& schema, const std::string& at) {
    for (const auto& [keyword, rule] : schema.items())
      if (!holds(keyword, rule, value, schema, at)) faults.push_back(at + ": " + keyword);
  }

 private:
  bool holds(const std::string& keyword, const Json& rule, const Json& value, const Json& schema,
             const std::string& at) {
    if (keyword == "description" || keyword == "$schema" || keyword == "title" || keyword == "$defs")
      return true;
    if (keyword == "$ref")
      return check(value, root_.at(Json::json_pointer(rule.get<std::string>().substr(1))), at), true;
    if (keyword == "type") return is_type(value, rule.get<std::string>());
    if (keyword == "const") return value == rule;
    if (keyword == "enum") return std::ranges::find(rule, value) != rule.end();
    if (keyword == "pattern")
      return value.is_string() &&
             std::regex_search(value.get<std::string>(), std::regex(rule.get<std::string>()));
    if (keyword == "minLength")
      return value.is_string() && value.get<std::string>().size() >= rule.get<std::size_t>();
    if (keyword == "maxLength")
      return value.is_string() && value.get<std::string>().size() <= rule.get<std::size_t>();
    if (keyword == "exclusiveMinimum") return value.is_number() && value.get<double>() > rule.get<double>();
    if (keyword == "maximum") return value.is_number() && value.get<double>() <= rule.get<double>();
    if (keyword == "minItems") return value.is_array() && value.size() >= rule.get<std::size_t>();
    if (keyword == "uniqueItems") return std::set<Json>(value.begin(), value.end()).size() == value.size();
    if (keyword == "items") return each_item(value, rule, at), true;
    if (keyword == "required")
      return std::ranges::all_of(rule,
                                 [&](const Json& name) { return value.contains(name.get<std::string>()); });
    if (keyword == "properties") return each_property(value, rule, at), true;
    if (keyword == "additionalProperties") return only_known(value, schema.at("properties"));
    throw std::runtime_error("unknown keyword " + keyword);
  }

  static bool is_type(const Json& value, const std::string& type) {
    return (type == "string" && value.is_string()) || (type == "number" && value.is_number()) ||
           (type == "boolean" && value.is_boolean()) || (type == "array" && value.is_array()) ||
           (type == "object" && value.is_object());
  }
  static bool only_known(const Json& value, const Json& properties) {
    for (const auto& [name, member] : value.items())
      if (!properties.contains(name)) return false;
    return true;
  }
  void each_item(const Json& value, const Json& rule, const std::string& at) {
    for (std::size_t i = 0; i < value.size(); ++i) check(value[i], rule, fmt::format("{}[{}]", at, i));
  }
  void each_property(const Json& value, const Json& rule, const std::string& at) {
    for (const auto& [name, member] : value.items())
      if (rule.contains(name)) check(member, rule.at(name), at + "." + name);
  }

  const Json& root_;
};

}  // namespace

Json label_schema() {
  const auto& tables = label_member_table();
  Json schema = {{"$schema", "https://json-schema.org/draft/2020-12/schema"},
                 {"title", "Fogwright product profile"}};
  schema.update(table_schema(tables.front()));
  for (std::size_t i = 1; i < tables.size(); ++i)
    schema["$defs"][definition(tables[i].name)] = table_schema(tables[i]);
  return schema;
}

std::string label_tables_in_markdown() {
  std::string all;
  for (const TableFacts& table : label_member_table()) {
    all += fmt::format(
        "### {}\n\n{}\n\n| member | required | how it is written | example | meaning "
        "|\n|---|---|---|---|---|\n",
        table.name == "label" ? std::string("Top level") : fmt::format("`{}`", table.header), table.doc);
    for (const MemberFacts& member : table.members) all += member_row(member);
    all += "\n";
  }
  return all;
}

std::vector<std::string> schema_faults(const Json& value, const Json& schema) {
  Validator validator(schema);
  validator.check(value, schema, "label");
  return validator.faults;
}

}  // namespace fogwright::test
