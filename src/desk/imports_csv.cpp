// SPDX-License-Identifier: Apache-2.0
#include "desk/csv_table.hpp"
#include "fogwright/desk/imports.hpp"

namespace fogwright {
namespace {

constexpr std::string_view crew_all[] = {"handle",    "roles", "name", "contact", "what",   "issued", "expires",
                                         "facepiece", "model", "size", "number",  "issuer", "result"};
constexpr std::string_view crew_needed[] = {"handle"};
constexpr CsvColumns crew_columns{crew_all, crew_needed, "a person"};

constexpr std::string_view job_all[] = {"job",      "product",  "technician", "zone",   "started", "ended",
                                        "released", "area",     "returns",    "fogged", "used",    "fogger",
                                        "van",      "customer", "address",    "why",    "met"};
constexpr std::string_view job_needed[] = {"product", "technician", "started", "ended", "area"};
constexpr CsvColumns job_columns{job_all, job_needed, "a job"};

Credential read_credential(const CsvRow& row, CsvImport& import) {
  Credential c;
  c.handle = row.text("handle");
  c.what = import.take(row, read_credential_kind(row.text("what"), "what"));
  if (const std::string facepiece = row.text("facepiece"); !facepiece.empty())
    c.facepiece = import.take(row, read_facepiece(facepiece, "facepiece"));
  for (const auto& [column, member] : {std::pair{"issued", &c.issued},
                                       {"expires", &c.expires},
                                       {"model", &c.facepiece_model},
                                       {"size", &c.facepiece_size},
                                       {"number", &c.number},
                                       {"issuer", &c.issuer},
                                       {"result", &c.result}})
    *member = row.text(column);
  return c;
}

CrewRow read_person(const CsvRow& row, CsvImport& import) {
  CrewRow person{{row.text("handle"), {}, {}}, row.text("name"), row.text("contact"), {}, row.where};
  for (const std::string& role : csv_words(row.text("roles")))
    person.person.roles.push_back(import.take(row, read_role(role, "roles")));
  if (!row.text("what").empty()) person.credential = read_credential(row, import);
  if (row.text("roles").empty() && !person.credential)
    import.fault(row, {ErrorCode::missing_value,
                       "neither roles nor a credential stand here",
                       {},
                       "fill in roles to enrol the person, or what and issued for a credential"});
  if (row.text("roles").empty() && !(person.name.empty() && person.contact.empty()))
    import.fault(row, {ErrorCode::missing_value,
                       "name and contact are kept when a person enrols",
                       {},
                       "write them on the line that has the roles"});
  return person;
}

/// "everyone-out=3": the item and its evidence.
std::pair<std::string, std::string> item_of_text(const std::string& typed) {
  const auto at = std::min(typed.find('='), typed.size());
  return {typed.substr(0, at), at < typed.size() ? typed.substr(at + 1) : std::string()};
}

OldJobRow read_job_row(const CsvRow& row) {
  OldJobRow job;
  for (const auto& [column, member] : {std::pair{"job", &job.job},
                                       {"product", &job.product},
                                       {"technician", &job.technician},
                                       {"zone", &job.zone},
                                       {"started", &job.started},
                                       {"ended", &job.ended},
                                       {"released", &job.released},
                                       {"area", &job.area},
                                       {"returns", &job.returns},
                                       {"fogged", &job.fogged},
                                       {"used", &job.used},
                                       {"fogger", &job.fogger},
                                       {"van", &job.van},
                                       {"customer", &job.customer},
                                       {"address", &job.address},
                                       {"why", &job.why}})
    *member = row.text(column);
  for (const std::string& typed : csv_words(row.text("met"), ";")) job.met.push_back(item_of_text(typed));
  job.where = row.where;
  return job;
}

}  // namespace

tl::expected<std::vector<CrewRow>, Faults> read_crew_csv(std::string_view text, std::string_view file) {
  CsvImport import(text, file, crew_columns);
  std::vector<CrewRow> rows;
  for (const CsvRow& row : import.rows()) rows.push_back(read_person(row, import));
  if (!import.clean()) return tl::make_unexpected(std::move(import).faults());
  return rows;
}

tl::expected<std::vector<OldJobRow>, Faults> read_old_jobs_csv(std::string_view text, std::string_view file) {
  CsvImport import(text, file, job_columns);
  std::vector<OldJobRow> rows;
  for (const CsvRow& row : import.rows()) {
    rows.push_back(read_job_row(row));
    if (row.text("returns").empty() && row.text("fogged").empty())
      import.fault(row, {ErrorCode::missing_value,
                         "the returns are not told",
                         {},
                         "write how many in returns, or each with its time in fogged: hall=42 s; den=40 s"});
  }
  if (!import.clean()) return tl::make_unexpected(std::move(import).faults());
  return rows;
}

}  // namespace fogwright
