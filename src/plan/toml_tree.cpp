// SPDX-License-Identifier: Apache-2.0
#include "plan/toml_tree.hpp"

#include <fmt/format.h>

#include "label/syntax.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

class Converter {
 public:
  Converter(TomlTree& tree, std::string_view file, Faults& faults)
      : tree_(tree), file_(file), faults_(faults) {}

  json convert(const toml::node& node, const std::string& pointer) {
    tree_.places.emplace(pointer, place(node.source().begin));
    if (const auto* table = node.as_table()) return convert_table(*table, pointer);
    if (const auto* array = node.as_array()) return convert_array(*array, pointer);
    if (const auto* text = node.as_string()) return text->get();
    if (const auto* whole = node.as_integer()) return whole->get();
    if (const auto* number = node.as_floating_point()) return number->get();
    if (const auto* flag = node.as_boolean()) return flag->get();
    faults_.push_back({ErrorCode::bad_site, "a date or time is not expected here", place(node.source().begin),
                       "write a text in quotes, a number, true or false"});
    return nullptr;
  }

 private:
  json convert_table(const toml::table& table, const std::string& pointer) {
    json object = json::object();
    for (const auto& [key, child] : table)
      object[std::string(key.str())] = convert(child, pointer + "/" + std::string(key.str()));
    return object;
  }
  json convert_array(const toml::array& array, const std::string& pointer) {
    json list = json::array();
    for (std::size_t i = 0; i < array.size(); ++i)
      list.push_back(convert(array[i], fmt::format("{}/{}", pointer, i)));
    return list;
  }
  [[nodiscard]] std::string place(const toml::source_position& at) const {
    return fmt::format("{}:{}:{}", file_, at.line, at.column);
  }

  TomlTree& tree_;
  std::string_view file_;
  Faults& faults_;
};

}  // namespace

std::string TomlTree::where(std::string_view pointer) const {
  for (;;) {
    if (const auto found = places.find(pointer); found != places.end()) return found->second;
    const auto slash = pointer.rfind('/');
    if (slash == std::string_view::npos) return {};
    pointer = pointer.substr(0, slash);
  }
}

tl::expected<TomlTree, Faults> read_toml_tree(std::string_view text, std::string_view file) {
  const profile::Parsed parsed = profile::parse_profile(text);
  Faults faults;
  for (const profile::SyntaxFault& fault : parsed.faults)
    faults.push_back({ErrorCode::bad_site, fault.message,
                      fmt::format("{}:{}:{}", file, fault.at.line, fault.at.column), fault.hint});
  TomlTree tree;
  if (faults.empty()) tree.value = Converter(tree, file, faults).convert(parsed.table, "");
  if (!faults.empty()) return tl::make_unexpected(std::move(faults));
  return tree;
}

}  // namespace fogwright
