// SPDX-License-Identifier: Apache-2.0
/// What holds between members of the whole label.

#include <algorithm>
#include <set>

#include "label/tables.hpp"

namespace fogwright::profile {
namespace {

bool has(const Label& label, Chemistry chemistry) {
  return std::find(label.chemistry.begin(), label.chemistry.end(), chemistry) != label.chemistry.end();
}

void check_fractions(Reading& reading, const toml::table& node, const Label& label) {
  double sum = 0;
  for (const Active& active : label.actives) sum += active.mass_fraction.value_or(0);
  if (sum > 1 + 1e-9)
    reading.fault(place_of(node, "active"), fmt::format("the mass fractions add up to {:.4g} %", sum * 100),
                  "they can't exceed 100 %: compare them with the label");
}

/// An oxidiser owes that to one of these.
void check_oxidiser(Reading& reading, const toml::table& node, const Label& label) {
  if (!node.contains("oxidiser") || label.chemistry.empty()) return;
  const bool oxidising = has(label, Chemistry::hypochlorite) || has(label, Chemistry::chlorite) ||
                         has(label, Chemistry::peroxide) || has(label, Chemistry::peracid);
  const bool high_strength = label.strength == StrengthClass::high_strength_oxidiser;
  if (label.oxidiser && !oxidising)
    reading.fault(place_of(node, "oxidiser"), "oxidiser is true, but the chemistry names nothing that oxidises",
                  "add hypochlorite, chlorite, peroxide or peracid to chemistry, or write oxidiser = false");
  if (high_strength && !label.oxidiser)
    reading.fault(place_of(node, "strength_class"), "a high-strength oxidiser with oxidiser = false",
                  "write oxidiser = true, or another strength_class");
  if (label.transport.hazard_class == "5.1" && !label.oxidiser)
    reading.fault(place_of(node, "oxidiser"), "oxidiser is false, but the transport class is 5.1, oxidiser",
                  "write oxidiser = true");
}

void check_chemistry(Reading& reading, const toml::table& node, const Label& label) {
  if (has(label, Chemistry::none) && label.chemistry.size() > 1)
    reading.fault(place_of(node, "chemistry"), "chemistry names none beside others", "delete \"none\"");
}

void check_mixing_needs(Reading& reading, const toml::table& node, const Label& label) {
  const bool mixing = node.contains("mixing");
  if (label.strength == StrengthClass::dilutable && !mixing)
    reading.fault(place_of(node, "strength_class"), "a dilutable product without a mixing table",
                  "add [[mixing]] with its [[mixing.step]] tables");
  if (node.contains("strength_class") && label.strength == StrengthClass::ready_to_use && mixing)
    reading.fault(place_of(node, "mixing"), "a ready-to-use product with a mixing table",
                  "delete [[mixing]], or write strength_class = \"dilutable\"");
  const auto* gear = node.get_as<toml::table>("gear");
  if (mixing && gear != nullptr && !gear->contains("mixing"))
    reading.fault(gear->source().begin, "there is a mixing table, but no gear for mixing",
                  "add a table [gear.mixing]");
}

/// Skin destruction (class 8, packing group I or II: 49 CFR 173.137, from memory) is toxicity category I (40
/// CFR 156.62), and that calls for DANGER (156.64(a)). Category IV may go without a word; a high-strength
/// oxidiser is never that.
void check_signal_word(Reading& reading, const toml::table& node, const Label& label) {
  const auto& transport = label.transport;
  const bool corrosive =
      transport.hazard_class == "8" && (transport.packing_group == "I" || transport.packing_group == "II");
  if (!node.contains("signal_word")) return;
  if (corrosive && label.signal_word != SignalWord::danger)
    reading.fault(place_of(node, "signal_word"),
                  "a corrosive of packing group I or II whose signal word is not danger",
                  "compare with the label: such a product carries DANGER (40 CFR 156.62 and 156.64)");
  else if (label.strength == StrengthClass::high_strength_oxidiser && label.signal_word == SignalWord::none)
    reading.fault(place_of(node, "signal_word"), "a high-strength oxidiser without a signal word",
                  "copy the word from the front of the label (40 CFR 156.64)");
}

/// 40 CFR 156.64(b): one signal word, neither a higher nor a lower one beside it.
void check_precautions(Reading& reading, const toml::table& node, const Label& label) {
  const auto* list = node.get_as<toml::array>("precautions");
  if (list == nullptr) return;
  for (const toml::node& item : *list) {
    const std::string_view text = item.value_or(std::string_view{});
    for (const auto& word : signal_words)
      if (!word.shown.empty() && text.starts_with(word.shown) && word.value != label.signal_word)
        reading.fault(item.source().begin,
                      fmt::format("the statement opens with {}, which is not the signal word", word.shown),
                      "a label carries one signal word (40 CFR 156.64(b)): compare both with the label");
  }
}

template <class T, class Key>
void check_unique(Reading& reading, const toml::table& node, std::string_view table, std::string_view member,
                  const std::vector<T>& items, Key key) {
  const auto* list = node.get_as<toml::array>(table);
  std::set<std::string> seen;
  for (std::size_t i = 0; i < items.size() && list != nullptr && i < list->size(); ++i) {
    const auto* inner = (*list)[i].as_table();
    if (inner == nullptr || (items[i].*key).empty() || seen.insert(items[i].*key).second) continue;
    reading.fault(place_of(*inner, member), fmt::format("two [[{}]] tables with the same {}", table, member),
                  "delete one of the two, or correct it");
  }
}

}  // namespace

void check_pair(Reading& reading, const toml::table& node, std::string_view one, std::string_view other,
                std::string_view hint) {
  const bool has_one = node.contains(one);
  if (has_one == node.contains(other)) return;
  const auto given = has_one ? one : other, lacking = has_one ? other : one;
  reading.fault(place_of(node, given), fmt::format("{} is given without {}", given, lacking),
                std::string(hint));
}

void check_agreement(Reading& reading, const toml::table& node, const Label& label) {
  check_fractions(reading, node, label);
  check_oxidiser(reading, node, label);
  check_chemistry(reading, node, label);
  check_mixing_needs(reading, node, label);
  check_signal_word(reading, node, label);
  check_precautions(reading, node, label);
  check_unique(reading, node, "active", "cas", label.actives, &Active::cas);
  check_unique(reading, node, "mixing", "name", label.mixing, &MixingTable::name);
}

}  // namespace fogwright::profile
