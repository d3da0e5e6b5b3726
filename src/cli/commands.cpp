// SPDX-License-Identifier: Apache-2.0
#include "cli/book_command.hpp"
#include "cli/command.hpp"
#include "cli/desk_commands.hpp"
#include "cli/dose_commands.hpp"
#include "cli/job_commands.hpp"
#include "cli/label_command.hpp"
#include "cli/paper_commands.hpp"
#include "cli/plan_command.hpp"

namespace fogwright {

const std::vector<OptionRow>& common_options() {
  static const std::vector<OptionRow> rows = {
      {"json", nullptr, "print JSON; errors too, as one object on standard error"},
      {"format", "FORMAT", "text, json, or for lists csv or jsonl, a row a line (default text)"},
      {"units", "us|metric", "units of what is printed (default us)"},
      {"width", "COLUMNS", "columns to fill (default: the terminal's)"},
      {"color", "auto|always|never", "emphasis (default auto: on a terminal, unless NO_COLOR is set)"},
      {"help", nullptr, "tell about the command and stop"},
  };
  return rows;
}

namespace {

Rows label_rows(std::string_view at) {
  return {at, {"name", "registration", "strength_class", "signal_word", "may_fog_ducts", "reason", "file"}};
}

/// What needs no book.
std::vector<Command> engine_commands() {
  return {
      {"plan", "", "", "plan one job: seconds at each return, load, hold, gear, cautions", plan_options(),
       run_plan, "fogwright plan --label product_profiles_demo/fenmist-rtu.toml --area 2400 --returns 3"},
      {"route", "", "", "what to load for several jobs, by tank and weight", route_options(), run_route,
       "fogwright route --label product_profiles_demo/fenmist-rtu.toml --area 2400 --area 1800 --tank '1/2 "
       "gal'"},
      {"mix", "", "", "what to measure out, in which order, in which gear", mix_options(), run_mix,
       "fogwright mix --label product_profiles_demo/brackwater-20.toml --make '1/2 gal'"},
      {"calibrate", "", "", "a fogger's flow from repeated catch tests", calibrate_options(), run_calibrate,
       "fogwright calibrate --catch '178 mL in 60 s' --catch '182 mL in 60 s' --catch '180 mL in 60 s'"},
      {"label",
       "check",
       "FILE...",
       "check product profiles; every fault with line and column",
       {},
       run_label_check,
       "fogwright label check product_profiles_demo/*.toml",
       label_rows("checked")},
      {"label",
       "show",
       "FILE|NAME",
       "what a product's label says",
       {},
       run_label_show,
       "fogwright label show product_profiles_demo/brackwater-20.toml"},
      {"label",
       "list",
       "[FOLDER]",
       "the profiles in a folder",
       {},
       run_label_list,
       "fogwright label list product_profiles_demo",
       label_rows("labels")},
  };
}

}  // namespace

const std::vector<Command>& commands() {
  static const std::vector<Command> table = [] {
    std::vector<Command> rows;
    for (const auto& part : {engine_commands(),
                             book_commands(),
                             book_correct_commands(),
                             book_verify_commands(),
                             book_checkpoint_commands(),
                             book_bundle_commands(),
                             witness_commands(),
                             firm_commands(),
                             crew_commands(),
                             fogger_commands(),
                             cartridge_commands(),
                             product_commands(),
                             place_commands(),
                             stock_commands(),
                             stock_view_commands(),
                             job_commands(),
                             calendar_commands(),
                             chart_commands(),
                             paper_commands(),
                             ask_commands(),
                             audit_commands(),
                             erase_commands(),
                             serve_commands()})
      rows.insert(rows.end(), part.begin(), part.end());
    return rows;
  }();
  return table;
}

}  // namespace fogwright
