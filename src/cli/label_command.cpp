// SPDX-License-Identifier: Apache-2.0
#include "cli/label_command.hpp"

#include <fmt/format.h>
#include <ostream>

#include "cli/label_folder.hpp"
#include "cli/printing.hpp"
#include "report/page.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

tl::unexpected<Faults> no_operand(std::string_view action) {
  return refuse({ErrorCode::missing_value, "no profile is named", fmt::format("label {}", action),
                 fmt::format("write fogwright label {} product_profiles_demo/fenmist-rtu.toml", action)});
}

json summary_json(const std::string& file, const Label& label) {
  const auto ducts = may_fog_ducts(label);
  return {{"file", file},
          {"name", label.name},
          {"registration", label.registration},
          {"signal_word", signal_word_name(label.signal_word)},
          {"strength_class", strength_name(label.strength)},
          {"may_fog_ducts", ducts.has_value()},
          {"reason", ducts ? "" : ducts.error().message}};
}

}  // namespace

Outcome run_label_check(const Call& call) {
  if (call.options.operands().empty()) return no_operand("check");
  Faults faults;
  json good = json::array();
  for (const std::string& name : call.options.operands()) {
    const auto label = load_label(name, call.outside);
    if (!label) {
      faults.insert(faults.end(), label.error().begin(), label.error().end());
      continue;
    }
    good.push_back(summary_json(name, **label));
    if (call.format != Format::text) continue;
    const auto ducts = may_fog_ducts(**label);
    call.outside.out << fmt::format("{}: no fault in {}{}\n", name, (*label)->name,
                                    ducts ? "" : "; but it can't be planned with: " + ducts.error().message);
  }
  if (call.format != Format::text) print_shown(call, {{"checked", good}}, Page(call.style));
  if (!faults.empty()) return tl::make_unexpected(std::move(faults));
  return {};
}

Outcome run_label_show(const Call& call) {
  if (call.options.operands().size() != 1) return no_operand("show");
  const std::string& name = call.options.operands().front();
  const auto label = load_label(name, call.outside);
  if (!label) return tl::make_unexpected(label.error());
  if (call.json)
    call.outside.out << summary_json(name, **label).dump(2) << '\n';
  else
    call.outside.out << label_text(**label, call.style);
  return {};
}

Outcome run_label_list(const Call& call) {
  std::vector<std::string> folders = call.options.operands();
  if (folders.empty()) folders = label_folders(call.outside);
  json list = json::array();
  Faults faults;
  Page page(call.style);
  for (const std::string& folder : folders)
    for (const std::string& file : profile_files(folder)) {
      const auto label = load_label(file, call.outside);
      if (!label) {
        faults.insert(faults.end(), label.error().begin(), label.error().end());
        continue;
      }
      list.push_back(summary_json(file, **label));
      page.paragraph(
          fmt::format("{} ({}), {}{}{}", (*label)->name, (*label)->registration,
                      strength_name((*label)->strength), (*label)->signal_word == SignalWord::none ? "" : ", ",
                      signal_word_name((*label)->signal_word)),
          "");
      page.paragraph(file, "    ", Emphasis::quiet);
    }
  print_shown(call, {{"labels", list}}, std::move(page));
  if (list.empty() && faults.empty())
    return refuse({ErrorCode::not_found, "no profile is there", folders.empty() ? "" : folders.front(),
                   "name a folder: fogwright label list product_profiles_demo, or set FOGWRIGHT_LABELS"});
  if (!faults.empty()) return tl::make_unexpected(std::move(faults));
  return {};
}

}  // namespace fogwright
