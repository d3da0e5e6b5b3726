// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.hpp"

namespace fogwright {

/// The rows of `firm`, `crew`, `fogger`, `cartridge`, `product`, `place` and `stock` in the table of commands.
[[nodiscard]] std::vector<Command> firm_commands();
[[nodiscard]] std::vector<Command> crew_commands();
[[nodiscard]] Outcome run_crew_import(const Call& call);
[[nodiscard]] std::vector<Command> fogger_commands();
[[nodiscard]] std::vector<Command> cartridge_commands();
[[nodiscard]] std::vector<Command> product_commands();
[[nodiscard]] std::vector<Command> place_commands();
[[nodiscard]] std::vector<Command> stock_commands();
/// `ask`
[[nodiscard]] std::vector<Command> ask_commands();
/// `calendar`
[[nodiscard]] std::vector<Command> calendar_commands();
/// `stock list`, `show`, `order`, `cost`, `van-check`.
[[nodiscard]] std::vector<Command> stock_view_commands();
/// `audit`, `audit rules`, `audit retention`.
[[nodiscard]] std::vector<Command> audit_commands();

/// `erase job`, `erase person`.
[[nodiscard]] std::vector<Command> erase_commands();
/// `serve`.
[[nodiscard]] std::vector<Command> serve_commands();

}  // namespace fogwright
