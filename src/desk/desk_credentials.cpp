// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>

#include "desk/checks.hpp"
#include "desk/vessels.hpp"
#include "fogwright/desk/crew.hpp"
#include "label/words.hpp"

namespace fogwright {
namespace {

using nlohmann::json;
using std::chrono::year_month_day;

constexpr CredentialKind all_kinds[] = {CredentialKind::fit_test, CredentialKind::medical_clearance,
                                        CredentialKind::licence, CredentialKind::training};

/// The same day a year later; 29 February goes to 28 February, the earlier of the two choices.
year_month_day a_year_after(year_month_day date) {
  date += std::chrono::years{1};
  return date.ok() ? date : year_month_day{date.year() / std::chrono::February / 28};
}

std::string date_text(year_month_day date) {
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

Result<void> check_fit_test(const Credential& c) {
  if (c.what != CredentialKind::fit_test) return {};
  if (!c.facepiece || *c.facepiece == Facepiece::none || c.facepiece_model.empty() || c.facepiece_size.empty())
    return fail(ErrorCode::missing_value, "a fit test holds for one facepiece, and that is not named",
                "--facepiece", "give --facepiece half-mask (or another kind), --model and --size");
  return {};
}

Result<void> check_issued(const DeskContext& context, year_month_day issued) {
  if (date_text(issued) <= day_of(context.now_ms + day_ms)) return {};  // a day of grace for zones east of UTC
  return fail(ErrorCode::out_of_range, "it was issued in the future", "--issued", "check the date");
}

Result<year_month_day> expiry_of(const Credential& c, year_month_day issued) {
  const year_month_day year_end = a_year_after(issued);
  if (c.expires.empty() && c.what == CredentialKind::fit_test) return year_end;
  const auto expires = read_date(c.expires, "the last day", "--expires");
  if (!expires) return expires;
  if (*expires < issued)
    return fail(ErrorCode::out_of_range, "it expires before it was issued", "--expires", "check both dates");
  if (c.what == CredentialKind::fit_test && *expires > year_end)
    return fail(ErrorCode::out_of_range, "a fit test is good for one year at most (29 CFR 1910.134(f)(2))",
                "--expires", fmt::format("{} is the latest", date_text(year_end)));
  return expires;
}

json credential_body(const Credential& c, year_month_day issued, year_month_day expires) {
  json body = {{"handle", c.handle},
               {"what", credential_name(c.what)},
               {"issued", date_text(issued)},
               {"expires", date_text(expires)}};
  if (c.facepiece) body["facepiece"] = facepiece_word(*c.facepiece);
  for (const auto& [member, text] : {std::pair{"facepiece_model", &c.facepiece_model},
                                     {"facepiece_size", &c.facepiece_size},
                                     {"number", &c.number},
                                     {"issuer", &c.issuer},
                                     {"result", &c.result}})
    if (!text->empty()) body[member] = *text;
  return body;
}

}  // namespace

std::string_view credential_name(CredentialKind kind) noexcept {
  switch (kind) {
    case CredentialKind::fit_test:
      return "fit-test";
    case CredentialKind::medical_clearance:
      return "medical-clearance";
    case CredentialKind::licence:
      return "licence";
    case CredentialKind::training:
      return "training";
  }
  return "";
}

Result<CredentialKind> read_credential_kind(std::string_view text, std::string_view where) {
  for (const CredentialKind kind : all_kinds)
    if (text == credential_name(kind)) return kind;
  return fail(ErrorCode::not_understood, fmt::format("\"{}\" is not a kind of credential", text),
              std::string(where), "write fit-test, medical-clearance, licence or training");
}

std::string_view facepiece_word(Facepiece facepiece) noexcept {
  return std::find_if(std::begin(profile::facepieces), std::end(profile::facepieces),
                      [facepiece](const auto& word) { return word.value == facepiece; })
      ->written;
}

Result<Facepiece> read_facepiece(std::string_view text, std::string_view where) {
  for (const auto& word : profile::facepieces)
    if (text == word.written || text == word.shown) return word.value;
  return fail(ErrorCode::not_understood, fmt::format("\"{}\" is not a kind of facepiece", text),
              std::string(where),
              fmt::format("write one of {}", fmt::join(profile::written_words<Facepiece>(), ", ")));
}

Result<Drafts> add_credential(const DeskContext& context, const Credential& credential) {
  if (auto ok = first_error({may_make(context, "credential-added"), check_fit_test(credential)}); !ok)
    return tl::make_unexpected(ok.error());
  const auto person = find_active(context.documents, "person", credential.handle, {});
  if (!person) return tl::make_unexpected(person.error());
  const auto issued = read_date(credential.issued, "the day of issue", "--issued");
  if (!issued) return tl::make_unexpected(issued.error());
  if (auto ok = check_issued(context, *issued); !ok) return tl::make_unexpected(ok.error());
  const auto expires = expiry_of(credential, *issued);
  if (!expires) return tl::make_unexpected(expires.error());
  return Drafts{draft(context, "credential-added", credential_body(credential, *issued, *expires))};
}

Result<Drafts> withdraw_credential(const DeskContext& context, const std::string& credential,
                                   const std::string& why) {
  if (auto ok =
          first_error({may_make(context, "credential-withdrawn"), check_words(why, "the reason", "--why")});
      !ok)
    return tl::make_unexpected(ok.error());
  const auto whose = context.documents.get("credential", credential);
  if (!whose)
    return fail(ErrorCode::not_found, fmt::format("no credential has the id \"{}\"", credential), {},
                "fogwright crew show HANDLE lists the ids");
  const auto person = find(context.documents, "person", whose->at("handle").get<std::string>(), {});
  if (!person) return tl::make_unexpected(person.error());
  for (const json& held : person->at("credentials"))
    if (held.at("entry") == credential && held.contains("withdrawn"))
      return fail(ErrorCode::wrong_state, "this credential was withdrawn before", {}, "nothing is left to do");
  return Drafts{draft(context, "credential-withdrawn", {{"credential", credential}, {"why", why}})};
}

}  // namespace fogwright
