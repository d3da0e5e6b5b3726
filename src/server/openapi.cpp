// SPDX-License-Identifier: Apache-2.0
#include "server/openapi.hpp"

#include "fogwright/desk/permissions.hpp"
#include "server/route.hpp"

namespace fogwright::server {
namespace {

using nlohmann::json;

json reference(const std::string& schema) { return {{"$ref", "#/components/schemas/" + schema}}; }

json type_schema(MemberType type) {
  switch (type) {
    case MemberType::text:
      return {{"type", "string"}};
    case MemberType::texts:
      return {{"type", "array"}, {"items", {{"type", "string"}}}};
    case MemberType::whole_number:
      return {{"type", "integer"}};
    case MemberType::flag:
      return {{"type", "boolean"}};
    case MemberType::object:
      return {{"type", "object"}};
    case MemberType::objects:
      return {{"type", "array"}, {"items", {{"type", "object"}}}};
  }
  return {};
}

json body_schema(const Route& route) {
  json schema = {{"type", "object"}, {"additionalProperties", false}, {"properties", json::object()}};
  std::vector<Member> members = route.members;
  if (route.password) members.push_back({"password", MemberType::text, true, "your password, once more"});
  for (const Member& member : members) {
    json one = type_schema(member.type);
    one["description"] = member.help;
    schema["properties"][member.name] = std::move(one);
    if (member.needed) schema["required"].push_back(member.name);
  }
  return schema;
}

json parameter(const std::string& name, const char* in, const char* help) {
  return {{"name", name},
          {"in", in},
          {"required", std::string_view(in) != "query"},
          {"schema", {{"type", "string"}}},
          {"description", help}};
}

json parameters(const Route& route) {
  json list = json::array();
  const auto target = read_target(route.path);
  for (const std::string& segment : target->segments)
    if (segment.starts_with('{'))
      list.push_back(parameter(segment.substr(1, segment.size() - 2), "path", "its name or id"));
  for (const char* name : route.query)
    list.push_back(parameter(name, "query", "narrows the answer, or goes on after a page"));
  if (route.decide)
    list.push_back(
        parameter("Idempotency-Key", "header",
                  "the id of the entry, a UUIDv7 that the client made; sent twice, it is one entry"));
  if (std::string_view(route.method) != "GET" && route.access != Access::open)
    list.push_back(parameter("X-CSRF-Token", "header", "the token that GET /api/v1/session gives"));
  return list;
}

std::string who_may(const Route& route) {
  switch (route.access) {
    case Access::open:
      return "anybody";
    case Access::here:
      return "this machine";
    case Access::crew:
      return "the crew";
    case Access::owner:
      return "owner";
    case Access::by_entry:
      break;
  }
  std::string words;
  for (const Role role : {Role::technician, Role::owner, Role::safety_officer})
    if (role_may_make(role, route.kind)) words += (words.empty() ? "" : ", ") + std::string(role_name(role));
  return words;
}

json answer(const Route& route) {
  json described = {{"description", "done"}};
  if (route.answer) described["content"]["application/json"]["schema"] = reference(route.answer);
  return described;
}

json operation(const Route& route) {
  json shown = {{"operationId", route.id}, {"summary", route.summary}, {"x-who", who_may(route)}};
  if (const json list = parameters(route); !list.empty()) shown["parameters"] = list;
  if (route.kind) shown["x-entry"] = route.kind;
  if (route.access == Access::open || route.access == Access::here) shown["security"] = json::array();
  if (std::string_view(route.method) != "GET" && (!route.members.empty() || route.password))
    shown["requestBody"] = {{"required", true},
                            {"content", {{"application/json", {{"schema", body_schema(route)}}}}}};
  shown["responses"][route.decide ? "201" : "200"] = answer(route);
  if (route.decide) shown["responses"]["200"] = answer(route);
  if (route.view) shown["responses"]["304"] = {{"description", "as the ETag says"}};
  shown["responses"]["default"] = {
      {"description", "a refusal"},
      {"content", {{"application/problem+json", {{"schema", reference("Problem")}}}}}};
  return shown;
}

std::string lower(std::string text) {
  for (char& c : text)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return text;
}

json make_document() {
  json document = {
      {"openapi", "3.1.0"},
      {"info",
       {{"title", "Fogwright"},
        {"version", "1"},
        {"summary", "Plan, gate, record and audit the fogging of cleaned air ducts"},
        {"description",
         "Quantities are texts as people type them (12 fl oz). Times are UTC milliseconds. Members of "
         "documents are described in docs/entries.md."}}},
      {"security", {{{"session", json::array()}}}}};
  for (const Route& route : routes()) document["paths"][route.path][lower(route.method)] = operation(route);
  document["components"]["schemas"] = answer_schemas();
  document["components"]["securitySchemes"]["session"] = {
      {"type", "apiKey"}, {"in", "cookie"}, {"name", "__Host-fogwright"}};
  return document;
}

}  // namespace

const json& openapi_document() {
  static const json document = make_document();
  return document;
}

}  // namespace fogwright::server
