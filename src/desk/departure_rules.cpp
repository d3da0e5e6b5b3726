// SPDX-License-Identifier: Apache-2.0
#include "fogwright/desk/fold.hpp"

namespace fogwright {
namespace {

constexpr auto policy = "company policy";
constexpr auto label = "label";

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
    // Crew, equipment, labels.
    {"unknown-name", Severity::major, "An entry names what the book does not know.", policy,
     "Enrol, register or receive it, then correct the entry."},
    {"fogger-drift", Severity::minor, "A fogger's flow drifted by more than a tenth between two tests.",
     "practice for spray nozzles (docs/stock.md)",
     "Clean the nozzle and the filter, test again, and look at the jobs since the last test."},
    {"cartridge-overrun", Severity::major, "A cartridge was worn longer than its change schedule.",
     "29 CFR 1910.134(d)(3)(iii)(B)(2)", "Retire the cartridge; ask the person who wore it how they are."},
    {"retired-cartridge-used", Severity::major, "A cartridge was worn after it was retired.",
     "29 CFR 1910.134(d)(3)(iii)(B)(2)", "Destroy retired cartridges."},
    {"unreadable-label", Severity::major, "The text of an adopted label cannot be read as a profile.", label,
     "Adopt the label again with fogwright product adopt."},
    // Stock.
    {"name-taken", Severity::major, "A container or batch was entered under a name that was taken.", policy,
     "Enter it again under a name of its own."},
    {"over-draw", Severity::minor, "More was taken from a vessel than the book said it held.", policy,
     "Count the vessel, and find what was not written down."},
    {"out-of-turn", Severity::note, "A container was taken although another expires first.", policy,
     "Read the reason that was given."},
    {"expired-used", Severity::major, "Product was used after its last day.", label,
     "Dispose of what is left; tell the owner which job got it."},
    {"batch-over-age", Severity::major, "A mix was used after its life on the label.", label,
     "Dispose of what is left; tell the owner which job got it."},
    {"disposed-used", Severity::major, "A vessel was used after it was disposed of.", policy,
     "Find out which vessel it was."},
    {"retired-label", Severity::major, "Product was used by a label that is retired.", label,
     "Adopt the label that holds now, and compare the two."},
    {"unknown-label", Severity::major, "Product goes by a label that was never adopted.", label,
     "Adopt the label that stands on the container."},
    {"mixed-off-label", Severity::major, "A batch was mixed otherwise than the label's table says.", label,
     "Dispose of the batch."},
    {"mixed-without-respirator", Severity::grave, "A product that asks for a respirator was mixed without one.",
     label, "Ask the person how they are; train before they mix again."},
    {"over-full", Severity::minor, "A vessel holds more than its size after a return.", policy,
     "Count the vessel."},
    {"count-variance", Severity::minor, "A count is off by more than a twentieth of the vessel.", policy,
     "Find what was not written down, or a leak."},
    {"storage-range", Severity::major, "A place was colder or hotter than a label kept there allows.", label,
     "Follow the label on product that was stored out of range; heat or cool the place."},
    // Jobs.
    {"start-without-item", Severity::grave, "Fog started while an item of the gate was open.", policy,
     "Ask what happened; train before the next job."},
    {"credential-lapsed", Severity::grave, "Fog started without a paper that holds on the day.",
     "29 CFR 1910.134; state pesticide law", "Renew it before this person works again."},
    {"label-changed", Severity::major, "Fog started by a plan that was made with an earlier label.", label,
     "Compare the two labels."},
    {"wrong-person", Severity::grave, "Somebody else fogged than the one for whom the gate was met.", policy,
     "Plan the job for the person who does it; check fit test and clearance."},
    {"incompatible-products", Severity::grave, "Products that must not meet were drawn for one job.", label,
     "Air out, keep everyone out, and call the owner."},
    {"time-off-band", Severity::minor, "A return was fogged for less or longer than its band.", label,
     "Look at the other returns; tell the owner."},
    {"volume-off-plan", Severity::minor, "Use is more than a fifth off the plan.", policy,
     "Test the fogger's flow."},
    {"item-not-kept", Severity::major, "Something that holds while fogging was not kept.", policy,
     "Read the reason that was given."},
    {"entered-in-fog", Severity::grave, "Somebody entered after the fog had started.", label,
     "Ask how they are; call a poison control center if they feel anything."},
    {"hold-not-kept", Severity::grave, "The building was released before its hold was over.",
     "label; company policy", "Ask everyone who went in how they are."},
    {"released-by-wrong-role", Severity::major, "The building was released by somebody who may not.", policy,
     "Let a technician or the safety officer look at the job."},
    {"clock-set-in-hold", Severity::major, "The device's clock was set while a hold ran.", policy,
     "Find out who set it; the hold counted the shorter time."},
    {"hold-by-calendar", Severity::note, "Across a reboot only the calendar tells how long a hold ran.", policy,
     "Compare the time with a watch."},
    {"out-of-order", Severity::major, "A step of a job came in a state that does not allow it.", policy,
     "Find the program that wrote it."},
    {"done-without-tool", Severity::minor, "A job was done without the tool and recorded afterwards.", policy,
     "Ask why."},
};

}  // namespace

std::span<const DepartureRule> departure_rules() { return rules; }

}  // namespace fogwright
