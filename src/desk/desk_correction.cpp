// SPDX-License-Identifier: Apache-2.0
#include "fogwright/desk/correction.hpp"

#include <fmt/format.h>
#include <algorithm>

#include "desk/checks.hpp"
#include "fogwright/book/uuid.hpp"
#include "fogwright/desk/permissions.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// Kinds of documents whose key is the name of a thing.
constexpr std::string_view named[] = {"job",    "container", "batch", "person",
                                      "fogger", "cartridge", "place", "product"};

/// Who may write such an entry; of a kind that another program wrote, whoever may write a note.
Result<void> may_correct(const DeskContext& context, const Entry& entry) {
  if (auto ok = may_make(context, "note"); !ok) return ok;
  return roles_that_may_make(entry.kind).empty() ? Result<void>() : may_make(context, entry.kind);
}

}  // namespace

Result<Drafts> write_note(const DeskContext& context, const std::string& about, const std::string& text) {
  if (auto ok = first_error({may_make(context, "note"), check_words(text, "the note", "the text")}); !ok)
    return tl::make_unexpected(ok.error());
  const bool known = std::any_of(std::begin(named), std::end(named), [&](std::string_view kind) {
    return context.documents.get(kind, about).has_value();
  });
  if (!known)
    return fail(ErrorCode::not_found, fmt::format("nothing in the book is called \"{}\"", about), {},
                "name a job, container, batch, person, fogger, cartridge, place or product");
  json body = {{"about", about}, {"text", text}};
  if (context.documents.get("job", about)) body["job"] = about;  // it is found with the job
  return Drafts{draft(context, "note", std::move(body))};
}

Result<Drafts> correct_entry(const DeskContext& context, const Entry& entry, const std::string& text,
                             const std::string& why) {
  if (auto ok = first_error({may_correct(context, entry), check_words(text, "what is right", "the text"),
                             check_words(why, "why it is put right", "--why")});
      !ok)
    return tl::make_unexpected(ok.error());
  json body = {{"about", uuid_text(entry.id)},
               {"text", text},
               {"corrected", {{"seq", entry.seq}, {"kind", entry.kind}}}};
  // What is said about an entry of a job or a container is found with it.
  body.update(job_and_container(entry.body));
  NewEntry correction = draft(context, "note", std::move(body));
  correction.corrects = entry.id;
  correction.reason = why;
  return Drafts{std::move(correction)};
}

json job_and_container(const json& body) {
  json told = json::object();
  for (const char* member : {"job", "container"})
    if (const auto name = body.find(member); name != body.end() && name->is_string()) told[member] = *name;
  return told;
}

Corrections corrections_in(const Documents& documents) {
  Corrections corrections;
  documents.each("corrections", true,
                 [&](const std::string& id, const json& body) { body.at("seqs").get_to(corrections[id]); });
  return corrections;
}

}  // namespace fogwright
