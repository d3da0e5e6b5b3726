// SPDX-License-Identifier: Apache-2.0
#include "fogwright/desk/fold.hpp"

namespace fogwright {
namespace {

constexpr auto policy = Basis::policy;
constexpr auto on_label = Basis::label;
constexpr auto regulation = Basis::regulation;
constexpr auto practice = Basis::common_practice;

constexpr auto company = "company policy";
constexpr auto by_label = "label";

constexpr DepartureRule departure_rows[] = {
    {"late-entry", Severity::note, policy, "Written more than an hour after it happened.", company,
     "Ask why it was not written at the time."},
    {"clock-ahead", Severity::minor, policy, "The device's clock ran ahead of the book's.", company,
     "Set the device's clock."},
    {"clock-set-back", Severity::major, policy, "The clock of the book was set back.", company,
     "Find out who set the clock, and look at the holds that ran then."},
    {"correction", Severity::note, policy, "An earlier entry was put right.", company, "Read both entries."},
    {"unreadable-body", Severity::major, policy, "An entry of a known kind lacks what it must hold.", company,
     "Find the program that wrote it."},
    // Crew, equipment, labels.
    {"unknown-name", Severity::major, policy, "An entry names what the book does not know.", company,
     "Enrol, register or receive it, then correct the entry."},
    {"fogger-drift", Severity::minor, practice,
     "A fogger's flow drifted by more than a tenth between two tests.",
     "common practice for spray nozzles (docs/stock.md)",
     "Clean the nozzle and the filter, test again, and look at the jobs since the last test."},
    {"cartridge-overrun", Severity::major, regulation, "A cartridge was worn longer than its change schedule.",
     "29 CFR 1910.134(d)(3)(iii)(B)(2)", "Retire the cartridge; ask the person who wore it how they are."},
    {"retired-cartridge-used", Severity::major, regulation, "A cartridge was worn after it was retired.",
     "29 CFR 1910.134(d)(3)(iii)(B)(2)", "Destroy retired cartridges."},
    {"unreadable-label", Severity::major, on_label, "The text of an adopted label cannot be read as a profile.",
     by_label, "Adopt the label again with fogwright product adopt."},
    // Stock.
    {"name-taken", Severity::major, policy, "A container or batch was entered under a name that was taken.",
     company, "Enter it again under a name of its own."},
    {"over-draw", Severity::minor, policy, "More was taken from a vessel than the book said it held.", company,
     "Count the vessel, and find what was not written down."},
    {"out-of-turn", Severity::note, policy, "A container was taken although another expires first.", company,
     "Read the reason that was given."},
    {"expired-used", Severity::major, on_label, "Product was used after its last day.", by_label,
     "Dispose of what is left; tell the owner which job got it."},
    {"batch-over-age", Severity::major, on_label, "A mix was used after its life on the label.", by_label,
     "Dispose of what is left; tell the owner which job got it."},
    {"disposed-used", Severity::major, policy, "A vessel was used after it was disposed of.", company,
     "Find out which vessel it was."},
    {"retired-label", Severity::major, on_label, "Product was used by a label that is retired.", by_label,
     "Adopt the label that holds now, and compare the two."},
    {"unknown-label", Severity::major, on_label, "Product goes by a label that was never adopted.", by_label,
     "Adopt the label that stands on the container."},
    {"mixed-off-label", Severity::major, on_label, "A batch was mixed otherwise than the label's table says.",
     by_label, "Dispose of the batch."},
    {"mixed-without-respirator", Severity::grave, on_label,
     "A product that asks for a respirator was mixed without one.", by_label,
     "Ask the person how they are; train before they mix again."},
    {"over-full", Severity::minor, policy, "A vessel holds more than its size after a return.", company,
     "Count the vessel."},
    {"count-variance", Severity::minor, policy, "A count is off by more than a twentieth of the vessel.",
     company, "Find what was not written down, or a leak."},
    {"storage-range", Severity::major, on_label, "A place was colder or hotter than a label kept there allows.",
     by_label, "Follow the label on product that was stored out of range; heat or cool the place."},
    // Jobs.
    {"plan-differs", Severity::major, policy, "A device planned a job otherwise than the office does.", company,
     "Read what differs; the longer hold stands. Let the device load the program anew."},
    {"start-without-item", Severity::grave, policy, "Fog started while an item of the gate was open.", company,
     "Ask what happened; train before the next job."},
    {"credential-lapsed", Severity::grave, regulation, "Fog started without a paper that holds on the day.",
     "29 CFR 1910.134; state pesticide law", "Renew it before this person works again."},
    {"label-changed", Severity::major, on_label, "Fog started by a plan that was made with an earlier label.",
     by_label, "Compare the two labels."},
    {"wrong-person", Severity::grave, policy, "Somebody else fogged than the one for whom the gate was met.",
     company, "Plan the job for the person who does it; check fit test and clearance."},
    {"incompatible-products", Severity::grave, on_label, "Products that must not meet were drawn for one job.",
     by_label, "Air out, keep everyone out, and call the owner."},
    {"time-off-band", Severity::minor, on_label, "A return was fogged for less or longer than its band.",
     by_label, "Look at the other returns; tell the owner."},
    {"total-off-band", Severity::minor, on_label,
     "A whole air system was fogged for less or longer than its band.", by_label,
     "Ask whether all returns were fogged; tell the owner."},
    {"over-fogged", Severity::major, on_label, "More fog was let out than the plan reckoned with at most.",
     by_label,
     "Keep to the hold as it was reckoned anew; read the air with the fan running; find out why it took so "
     "much."},
    {"volume-off-plan", Severity::minor, policy, "Use is more than a fifth off the plan.", company,
     "Test the fogger's flow."},
    {"item-not-kept", Severity::major, policy, "Something that holds while fogging was not kept.", company,
     "Read the reason that was given."},
    {"entered-in-fog", Severity::grave, on_label, "Somebody entered after the fog had started.", by_label,
     "Ask how they are; call a poison control center if they feel anything."},
    {"hold-not-kept", Severity::grave, on_label, "The building was released before its hold was over.",
     "label; company policy", "Ask everyone who went in how they are."},
    {"readings-not-kept", Severity::grave, policy,
     "The building was released early without the readings that allow it.", company,
     "Ask everyone who went in how they are; read again with the fan running."},
    {"released-without-item", Severity::major, policy,
     "The building was released while something that comes before it was open.", company,
     "Air out and look against the light before anybody goes back in; ask everyone who went in how they are."},
    {"released-by-wrong-role", Severity::major, policy, "The building was released by somebody who may not.",
     company, "Let a technician or the safety officer look at the job."},
    {"draw-off-use", Severity::minor, policy, "Stock was drawn for a job otherwise than the job used.", company,
     "Count the containers of that van, and correct the draw."},
    {"clock-set-in-hold", Severity::major, policy, "The device's clock was set while a hold ran.", company,
     "Find out who set it; the hold counted the shorter time."},
    {"hold-by-calendar", Severity::note, policy, "Across a reboot only the calendar tells how long a hold ran.",
     company, "Compare the time with a watch."},
    {"out-of-order", Severity::major, policy, "A step of a job came in a state that does not allow it.",
     company, "Find the program that wrote it."},
    {"done-without-tool", Severity::minor, policy, "A job was done without the tool and recorded afterwards.",
     company, "Ask why the tool was not used."},
};

}  // namespace

std::span<const DepartureRule> departure_rules() { return departure_rows; }

}  // namespace fogwright
