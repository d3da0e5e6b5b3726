// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include <set>

#include "golden.hpp"
#include "office.hpp"
#include "server/openapi.hpp"
#include "server/problem.hpp"

using fogwright::Route;
using fogwright::server::openapi_document;
using fogwright::server::routes;
using fogwright::test::Office;
using nlohmann::json;

namespace {

std::string lower(std::string text) {
  for (char& c : text) c = static_cast<char>(std::tolower(c));
  return text;
}

bool is_type(const json& value, const std::string& type) {
  if (type == "object") return value.is_object();
  if (type == "array") return value.is_array();
  if (type == "string") return value.is_string();
  if (type == "integer") return value.is_number_integer();
  if (type == "number") return value.is_number();
  if (type == "boolean") return value.is_boolean();
  return false;
}

/// The part of JSON Schema that our schemas use; what does not fit, each with its place.
void misfits(const json& value, const json& schema, const std::string& place, std::vector<std::string>& found) {
  if (schema.contains("$ref"))
    return misfits(value,
                   openapi_document().at(json::json_pointer(schema["$ref"].get<std::string>().substr(1))),
                   place, found);
  if (schema.contains("type") && !is_type(value, schema["type"]))
    found.push_back(place + " is no " + schema["type"].get<std::string>());
  for (const json& name : schema.value("required", json::array()))
    if (!value.contains(name.get<std::string>())) found.push_back(place + " lacks " + name.get<std::string>());
  const json properties = schema.value("properties", json::object());
  for (const auto& [name, one] : properties.items())
    if (value.is_object() && value.contains(name)) misfits(value[name], one, place + "." + name, found);
  if (schema.contains("items") && value.is_array())
    for (std::size_t i = 0; i < value.size(); ++i)
      misfits(value[i], schema["items"], place + "[" + std::to_string(i) + "]", found);
}

void check_answer(const Route& route, const json& answer, const char* schema) {
  std::vector<std::string> found;
  misfits(answer, openapi_document()["components"]["schemas"].at(schema), "answer", found);
  INFO(route.id << ": " << answer.dump().substr(0, 500));
  CHECK(found == std::vector<std::string>{});
}

}  // namespace

TEST_CASE("the description of the API is as it was reviewed") {
  fogwright::test::check_golden("docs/openapi.json", openapi_document().dump(1) + "\n");
}

TEST_CASE("every route is described, and everything described is a route") {
  std::set<std::string> described, known, ids;
  for (const auto& [path, methods] : openapi_document()["paths"].items())
    for (const auto& [method, operation] : methods.items()) described.insert(method + " " + path);
  for (const Route& route : routes()) {
    known.insert(lower(route.method) + " " + route.path);
    CHECK(ids.insert(route.id).second);
    CHECK((route.view != nullptr) + (route.decide != nullptr) + (route.act != nullptr) +
              (route.work != nullptr) ==
          1);
    CHECK((route.decide != nullptr) == (route.kind != nullptr));
  }
  CHECK(described == known);
}

TEST_CASE("every schema that is pointed to is there") {
  const std::string text = openapi_document().dump();
  const std::string prefix = "#/components/schemas/";
  for (auto at = text.find(prefix); at != std::string::npos; at = text.find(prefix, at + 1)) {
    const std::string name = text.substr(at + prefix.size(), text.find('"', at) - at - prefix.size());
    CHECK(openapi_document()["components"]["schemas"].contains(name));
  }
}

TEST_CASE("answers are as they are described") {
  Office office;
  office.open_shop();
  office.adopt("brackwater-20");
  const std::map<std::string, std::string> names = {{"{handle}", "rowan"},
                                                    {"{fogger}", "gust"},
                                                    {"{vessel}", "C1"},
                                                    {"{job}", "J1"},
                                                    {"{product}", "brackwater-20"}};
  std::size_t looked_at = 0;
  for (const Route& route : routes()) {
    if (std::string(route.method) != "GET" || !route.answer || std::string(route.id) == "showLabel") continue;
    std::string path = route.path;
    for (const auto& [from, to] : names)
      if (const auto at = path.find(from); at != std::string::npos) path.replace(at, from.size(), to);
    const auto response = office.ask("ash", "GET", path);
    if (response.status == 200) {
      check_answer(route, json::parse(response.body), route.answer);
      ++looked_at;
    } else {
      check_answer(route, json::parse(response.body), "Problem");
    }
  }
  CHECK(looked_at >= 19);
}

TEST_CASE("what is written, planned and refused is as it is described") {
  Office office;
  office.open_shop();
  for (const Route& route : routes()) {
    if (std::string(route.id) == "draw")
      check_answer(route, office.done("rowan", "POST", "/api/v1/vessels/C1/draws", {{"volume", "2 gal"}}),
                   route.answer);
    if (std::string(route.id) == "makePlan")
      check_answer(route,
                   office.done("rowan", "POST", route.path,
                               {{"product", "fenmist-rtu"},
                                {"site", {{"system", {{{"area", "2400 sq ft"}, {"returns", 3}}}}}}}),
                   route.answer);
    if (std::string(route.id) == "sync")
      check_answer(route,
                   office.done("rowan", "POST", route.path,
                               {{"device_now_ms", office.now_ms}, {"entries", json::array()}}),
                   route.answer);
    if (route.decide) check_answer(route, office.json_of("ash", "POST", route.path, {{"no", 1}}), "Problem");
  }
}

TEST_CASE("every code has a status, and a fault of the system tells no detail") {
  for (const fogwright::ErrorCode code : fogwright::all_error_codes()) {
    const auto response =
        fogwright::server::problem(fogwright::Error{code, "inside /srv/book.db", "somewhere", "do this"});
    const json body = json::parse(response.body);
    CHECK(response.content_type == "application/problem+json");
    CHECK(body["status"] == response.status);
    CHECK(body["code"] == fogwright::code_name(code));
    CHECK(response.status >= 400);
    if (response.status == 500 || code == fogwright::ErrorCode::storage_fault)
      CHECK(response.body.find("/srv") == std::string::npos);
  }
}
