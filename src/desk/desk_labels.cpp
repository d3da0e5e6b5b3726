// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "desk/checks.hpp"
#include "fogwright/desk/equipment.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

bool is_digest(std::string_view text) {
  return text.size() == 64 && text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

Result<void> check_text(const LabelAdoption& adoption) {
  if (adoption.text.size() > largest_label_text)
    return fail(
        ErrorCode::out_of_range,
        fmt::format("the profile has {} bytes; the record takes {}", adoption.text.size(), largest_label_text),
        adoption.file, "shorten its comments");
  if (!is_digest(adoption.digest))
    return fail(ErrorCode::internal_fault, "the digest of the profile is not 64 hexadecimal digits",
                adoption.file, "this is a defect of the program");
  return {};
}

}  // namespace

std::string product_key(std::string_view label_name) {
  std::string key;
  for (const char c : label_name) {
    const bool upper = c >= 'A' && c <= 'Z';
    const bool kept = upper || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (c & 0x80) != 0;
    if (kept)
      key += upper ? static_cast<char>(c - 'A' + 'a') : c;
    else if (!key.empty() && key.back() != '-')
      key += '-';
  }
  while (!key.empty() && key.back() == '-') key.pop_back();
  return key;
}

Result<Drafts> adopt_label(const DeskContext& context, const LabelAdoption& adoption) {
  if (auto ok = first_error({may_make(context, "label-adopted"), check_name(adoption.product, "product", {}),
                             check_text(adoption)});
      !ok)
    return tl::make_unexpected(ok.error());
  const auto label = read_label(adoption.text, adoption.file);
  if (!label) return tl::make_unexpected(label.error().front());
  const auto product = context.documents.get("product", adoption.product);
  const std::string current = product ? product->at("current").get<std::string>() : "";
  if (current == adoption.digest)
    return fail(ErrorCode::already_exists,
                fmt::format("this very label of {} is adopted already", adoption.product), adoption.file,
                "nothing is left to do");
  if (const auto taken = context.documents.get("label", adoption.digest);
      taken && taken->at("product") != adoption.product)
    return fail(ErrorCode::already_exists,
                fmt::format("this label is adopted as {}", taken->at("product").get<std::string>()),
                adoption.file, "receive its containers under that name");
  json body = {{"product", adoption.product}, {"name", label->name},   {"registration", label->registration},
               {"digest", adoption.digest},   {"text", adoption.text}, {"label_date", label->label_date}};
  if (!current.empty()) body["replaces"] = current;
  return Drafts{draft(context, "label-adopted", std::move(body))};
}

Result<Drafts> retire_label(const DeskContext& context, const std::string& product, const std::string& digest,
                            const std::string& why) {
  if (auto ok = first_error({may_make(context, "label-retired"), check_words(why, "the reason", "--why")}); !ok)
    return tl::make_unexpected(ok.error());
  const auto known = find(context.documents, "product", product, {});
  if (!known) return tl::make_unexpected(known.error());
  const std::string which = digest.empty() ? known->at("current").get<std::string>() : digest;
  for (const json& version : known->at("versions")) {
    if (version.at("digest") != which) continue;
    if (version.contains("retired"))
      return fail(ErrorCode::wrong_state, "this label is retired already", "--digest", "nothing is left to do");
    return Drafts{draft(context, "label-retired", {{"product", product}, {"digest", which}, {"why", why}})};
  }
  return fail(ErrorCode::not_found, fmt::format("{} has no label that can be retired by that digest", product),
              "--digest", "fogwright product list shows the labels");
}

}  // namespace fogwright
