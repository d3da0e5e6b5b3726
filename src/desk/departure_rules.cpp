// SPDX-License-Identifier: Apache-2.0
#include "fogwright/desk/fold.hpp"

namespace fogwright {
namespace {

constexpr auto policy = "company policy";

constexpr DepartureRule rules[] = {
    {"late-entry", Severity::note, "Written more than an hour after it happened.", policy,
     "Ask why it was not written at the time."},
    {"clock-ahead", Severity::minor, "The device's clock ran ahead of the book's.", policy,
     "Set the device's clock."},
    {"clock-set-back", Severity::major, "The clock of the book was set back.", policy,
     "Find out who set the clock, and look at the holds that ran then."},
    {"correction", Severity::note, "An earlier entry was put right.", policy, "Read both entries."},
    {"unreadable-body", Severity::major, "An entry of a known kind lacks what it must hold.", policy,
     "Find the program that wrote it."},
};

}  // namespace

std::span<const DepartureRule> departure_rules() { return rules; }

}  // namespace fogwright
