// SPDX-License-Identifier: Apache-2.0
// Licence, clearance, facepiece, fit test, cartridge, air.
#include <fmt/format.h>
#include <algorithm>

#include "desk/job_items.hpp"
#include "fogwright/desk/crew.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// The best credential of a kind that holds today and passes a test; nullptr where there is none.
template <class Test>
std::optional<json> credential_today(const GateView& view, std::string_view what, Test test) {
  const auto person = view.documents.get("person", view.technician());
  if (!person) return std::nullopt;
  std::optional<json> best;
  for (const json& held : person->at("credentials")) {
    const bool holds = held.at("what") == what && !held.contains("withdrawn") &&
                       held.at("issued").get<std::string>() <= view.today.date &&
                       view.today.date <= held.at("expires").get<std::string>();
    if (holds && test(held) && (!best || best->at("expires") < held.at("expires"))) best = held;
  }
  return best;
}

/// Fit tests hold for the very facepiece that was brought out.
std::optional<json> credential_for(const GateView& view, std::string_view id) {
  if (id != "fit-test") return credential_today(view, id, [](const json&) { return true; });
  const std::string model = plain_words(evidence_text(view.job, "respirator-facepiece", "model"));
  const std::string size = plain_words(evidence_text(view.job, "respirator-facepiece", "size"));
  const std::string kind = evidence_text(view.job, "respirator-facepiece", "facepiece");
  if (model.empty()) return std::nullopt;
  return credential_today(view, id, [&](const json& held) {
    return plain_words(held.value("facepiece_model", std::string())) == model &&
           plain_words(held.value("facepiece_size", std::string())) == size &&
           held.value("facepiece", std::string()) == kind;
  });
}

Result<json> read_credential(const GateView& view, const Need& need, const std::string& typed) {
  if (!is_yes(typed)) return unclear(need, typed, "write yes; the book knows the crew's papers");
  json evidence = {{"holder", view.technician()}};
  if (const auto held = credential_for(view, need.id)) {
    evidence["credential"] = held->at("entry");
    evidence["expires"] = held->at("expires");
  }
  return evidence;
}

Fault credential_fault(const GateView& view, const Need& need, const json& evidence) {
  if (evidence.at("holder") != view.technician())
    return fmt::format("it was shown for {}, and {} does this job", evidence.at("holder").get<std::string>(),
                       view.technician());
  if (credential_for(view, need.id)) return std::nullopt;
  if (need.id != "fit-test")
    return fmt::format("{} has no {} that holds on {}", view.technician(), need.id, view.today.date);
  if (!met_of(view.job, "respirator-facepiece")) return "the facepiece is not named yet";
  return fmt::format("{} has no fit test for {}, size {}, that holds on {}", view.technician(),
                     evidence_text(view.job, "respirator-facepiece", "model"),
                     evidence_text(view.job, "respirator-facepiece", "size"), view.today.date);
}

Result<json> read_worn(const GateView&, const Need& need, const std::string& typed) {
  const auto parts = parts_of(typed, false);
  const std::string hint = "write kind, model and size, e.g. 'full-facepiece, Saltwing 40, M'";
  if (parts.size() != 3) return unclear(need, typed, hint);
  const auto kind = read_facepiece(parts[0], need.id);
  if (!kind) return tl::make_unexpected(kind.error());
  return json{{"facepiece", facepiece_word(*kind)}, {"model", parts[1]}, {"size", parts[2]}};
}

Facepiece facepiece_in(const json& where) {
  return read_facepiece(where.at("facepiece").get<std::string>(), {}).value_or(Facepiece::none);
}

Fault worn_fault(const GateView& view, const Need&, const json& evidence) {
  const Facepiece worn = facepiece_in(evidence);
  const Facepiece asked_for = facepiece_in(view.job.at("plan").at("respirator"));
  if (worn >= asked_for && protection_factor(worn) >= protection_factor(asked_for)) return std::nullopt;
  return fmt::format("a {} is less than the {} that the plan asks for", respirator_words(worn),
                     respirator_words(asked_for));
}

/// Whoever wears supplied air instead needs no cartridge.
bool wears_supplied_air(const GateView& view) {
  const json* met = met_of(view.job, "respirator-facepiece");
  return met && facepiece_in(met->at("evidence")) >= Facepiece::supplied_air;
}

std::optional<json> cartridge_in(const GateView& view, const json& evidence) {
  return view.documents.get("cartridge", evidence.value("cartridge", std::string()));
}

Result<json> read_cartridge(const GateView& view, const Need& need, const std::string& typed) {
  const auto parts = parts_of(typed, false);
  if (parts.size() != 1) return unclear(need, typed, "write the name of the cartridge, e.g. K4");
  if (!view.documents.get("cartridge", parts[0]))
    return fail(ErrorCode::not_found, fmt::format("no cartridge is called \"{}\"", parts[0]), need.id,
                "the safety officer registers it with fogwright cartridge register");
  return json{{"cartridge", parts[0]}};
}

Fault cartridge_fault(const GateView& view, const Need&, const json& evidence) {
  if (wears_supplied_air(view)) return std::nullopt;
  const auto cartridge = cartridge_in(view, evidence);
  if (!cartridge) return "the book knows no such cartridge";
  if (!cartridge->at("active").get<bool>())
    return fmt::format("cartridge {} is retired", evidence.at("cartridge").get<std::string>());
  const std::vector<std::string> words = cartridge->at("words");
  const std::vector<std::string> asked = view.job.at("plan").at("respirator").at("cartridges");
  if (words_cover(words, asked)) return std::nullopt;
  return fmt::format("cartridge {} reads {}, and the plan asks for {}",
                     evidence.at("cartridge").get<std::string>(), fmt::join(words, ", "),
                     fmt::join(asked, ", "));
}

Result<json> read_wear(const GateView& view, const Need& need, const std::string& typed) {
  const auto time = read_hold_time(typed, need.id, {"min"});
  if (!time) return tl::make_unexpected(time.error());
  return json{{"cartridge", evidence_text(view.job, "cartridge-words", "cartridge")},
              {"minutes", time->ceil_in(unit::minute)},
              {"typed", typed}};
}

/// Minutes of a cartridge that other jobs let it be worn and have not booked yet.
std::int64_t unbooked_minutes(const GateView& view, const std::string& cartridge) {
  std::int64_t minutes = 0;
  view.documents.each("job", true, [&](const std::string& id, const json& job) {
    if (id == view.job.at("job") || !is_unbooked(job)) return;
    const CartridgeWear worn = not_booked(job, cartridge_wear(job));
    if (worn.cartridge == cartridge) minutes += worn.minutes;
  });
  return minutes;
}

Fault hours_fault(const GateView& view, const Need&, const json& evidence) {
  if (wears_supplied_air(view)) return std::nullopt;
  const auto minutes = evidence.at("minutes").get<std::int64_t>();
  const std::int64_t fog_minutes = (target_seconds(view.job) + 59) / 60;
  if (minutes < fog_minutes) return fmt::format("the fog alone takes {} min", fog_minutes);
  const std::string name = evidence_text(view.job, "cartridge-words", "cartridge");
  if (name.empty() || evidence.value("cartridge", std::string()) != name)
    return "the cartridge that is worn is not the one whose hours were checked";
  const auto cartridge = cartridge_in(view, evidence);
  if (!cartridge) return "the book knows no such cartridge";
  const auto used = cartridge->at("used_minutes").get<std::int64_t>() + unbooked_minutes(view, name);
  const auto schedule = cartridge->at("schedule_minutes").get<std::int64_t>();
  if (used + minutes <= schedule) return std::nullopt;
  return fmt::format("cartridge {} has {} min of its {} min behind it; {} min more are too much", name, used,
                     schedule, minutes);
}

Fault worn_minutes_fault(const GateView&, const Need&, const json& evidence) {
  if (evidence.at("minutes").get<std::int64_t>() > 0) return std::nullopt;
  return "the minutes that the cartridge was worn are missing";
}

Result<json> read_air(const GateView&, const Need& need, const std::string& typed) {
  if (typed.find_first_of("123456789") == std::string::npos)
    return unclear(need, typed, "write what the gauge shows, e.g. '2,200 psi'");
  return json{{"typed", typed}};
}

Fault air_fault(const GateView&, const Need&, const json& evidence) {
  if (!evidence.at("typed").get<std::string>().empty()) return std::nullopt;
  return "what the gauge shows is missing";
}

constexpr ItemForm respirator_rows[] = {
    {"licence", "Is it at hand? The book knows the date", read_credential, credential_fault},
    {"medical-clearance", "Does it hold? The book knows the date", read_credential, credential_fault},
    {"respirator-facepiece", "Kind, model and size, e.g. 'full-facepiece, Saltwing 40, M'", read_worn,
     worn_fault},
    {"fit-test", "Is it for this facepiece? The book knows the date", read_credential, credential_fault},
    {"cartridge-words", "Name of the cartridge", read_cartridge, cartridge_fault},
    {"cartridge-hours", "How long will it be worn today, e.g. '45 min'", read_wear, hours_fault},
    {"breathing-air", "What does the gauge show", read_air, air_fault},
    {"cartridge-hours-added", "How long was it worn, e.g. '40 min'", read_wear, worn_minutes_fault},
};

std::string plain_part(std::string_view part) {
  std::string words = plain_words(part);
  if (const auto at = words.find("vapour"); at != std::string::npos) words.erase(at + 4, 1);
  if (words == "hepa" || words == "he") words = "p100";
  return words;
}

std::vector<std::string> printed_parts(const std::vector<std::string>& words) {
  std::vector<std::string> parts;
  for (std::string text : words) {
    for (char& c : text)
      if (c == '/' || c == '+' || c == '&') c = ',';
    for (const std::string& part : parts_of(text, false)) parts.push_back(plain_part(part));
  }
  return parts;
}

}  // namespace

std::span<const ItemForm> respirator_forms() { return respirator_rows; }

bool words_cover(const std::vector<std::string>& printed, const std::vector<std::string>& asked) {
  const auto have = printed_parts(printed);
  const auto want = printed_parts(asked);
  return std::all_of(want.begin(), want.end(), [&](const std::string& part) {
    return std::find(have.begin(), have.end(), part) != have.end();
  });
}

}  // namespace fogwright
