// SPDX-License-Identifier: Apache-2.0
#pragma once

/// The crew and its credentials: which entries a request becomes. Each function first asks may_make; every
/// error says what to do next. Errors common to all: not_permitted, not_found, missing_value, not_understood.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/desk/context.hpp"
#include "fogwright/label.hpp"

namespace fogwright {

[[nodiscard]] Result<Role> read_role(std::string_view text, std::string_view where);

struct Enrolment {
  std::string handle;
  std::vector<Role> roles;
  std::string details;  ///< hash of what may be erased (name, contact); empty: nothing is kept
};
/// The first person of a book must be an owner. Somebody who was retired can enrol again. Errors:
/// already_exists.
[[nodiscard]] Result<Drafts> enrol_person(const DeskContext& context, const Enrolment& enrolment);

/// Errors: wrong_state when nobody would be left as owner.
[[nodiscard]] Result<Drafts> change_roles(const DeskContext& context, const std::string& handle,
                                          const std::vector<Role>& roles, const std::string& why);
/// Errors: wrong_state for the last owner.
[[nodiscard]] Result<Drafts> retire_person(const DeskContext& context, const std::string& handle,
                                           const std::string& why);

enum class CredentialKind { fit_test, medical_clearance, licence, training };
[[nodiscard]] std::string_view credential_name(CredentialKind kind) noexcept;  ///< "fit-test", ...
[[nodiscard]] Result<CredentialKind> read_credential_kind(std::string_view text, std::string_view where);

/// The words of a label profile: "half-mask", "full-facepiece", ...
[[nodiscard]] std::string_view facepiece_word(Facepiece facepiece) noexcept;
[[nodiscard]] Result<Facepiece> read_facepiece(std::string_view text, std::string_view where);

struct Credential {
  std::string handle;
  CredentialKind what{};
  std::string issued, expires;  ///< ISO dates; `expires` is the last day
  std::optional<Facepiece> facepiece;
  std::string facepiece_model, facepiece_size;  ///< of the very facepiece that was tested
  std::string number, issuer, result;           ///< may be empty
};
/// A fit test names its facepiece and is good for a year at most (29 CFR 1910.134(f)(2)); without `expires` for
/// exactly that year. Errors: out_of_range (issued in the future, expiry before issue, a fit test beyond its
/// year).
[[nodiscard]] Result<Drafts> add_credential(const DeskContext& context, const Credential& credential);

/// `credential` is the id of the entry that added it. Errors: wrong_state when it was withdrawn before.
[[nodiscard]] Result<Drafts> withdraw_credential(const DeskContext& context, const std::string& credential,
                                                 const std::string& why);

}  // namespace fogwright
