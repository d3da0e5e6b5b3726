// SPDX-License-Identifier: Apache-2.0
// Papers out of the book, as PDF or as a page of HTML: the same that `fogwright paper` writes.
#include <fmt/format.h>

#include <algorithm>
#include <mutex>

#include "asking/adopted_label.hpp"
#include "asking/zone_time.hpp"
#include "fogwright/desk/firm.hpp"
#include "office/job_papers.hpp"
#include "office/paper_time.hpp"
#include "server/audit_query.hpp"
#include "server/problem.hpp"
#include "server/service.hpp"

namespace fogwright::server {
namespace {

using paper::Language;
using press::Source;

/// How a paper is asked for.
struct Order {
  paper::Form form;
  UnitSystem units = UnitSystem::us_customary;
  std::string zone;
  bool html = false;
};

/// The members of a query, read one after the other; the first fault is kept.
class Query {
 public:
  explicit Query(const Target& target) : target_(target) {}
  [[nodiscard]] std::string text(const char* name, const char* fallback = "") const {
    const auto found = target_.query.find(name);
    return found == target_.query.end() ? fallback : found->second;
  }
  /// Whether the second word was written, and not the first, which need not be.
  bool is_second(const char* name, const char* first, const char* second) {
    const std::string typed = text(name, first);
    if (typed != first && typed != second && !fault_)
      fault_ = Error{ErrorCode::not_understood, fmt::format("\"{}\" is not a choice here", typed), name,
                     fmt::format("write {} or {}", first, second)};
    return typed == second;
  }
  void note(Error fault) {
    if (!fault_) fault_ = std::move(fault);
  }
  [[nodiscard]] const std::optional<Error>& fault() const { return fault_; }

 private:
  const Target& target_;
  std::optional<Error> fault_;
};

Result<Order> read_order(const Target& target) {
  Query query(target);
  Order order;
  order.form.language = query.is_second("language", "en", "es") ? Language::es : Language::en;
  order.form.size = query.is_second("size", "letter", "a4") ? paper::PageSize::a4 : paper::PageSize::letter;
  order.units = query.is_second("units", "us", "metric") ? UnitSystem::metric : UnitSystem::us_customary;
  order.html = query.is_second("as", "pdf", "html");
  order.zone = query.text("zone", "UTC");
  if (auto ok = check_zone_name(order.zone); !ok)
    query.note({ok.error().code, ok.error().message, "zone", ok.error().hint});
  if (query.fault()) return tl::make_unexpected(*query.fault());
  return order;
}

/// A paper and the name of its file, without the ending.
struct Made {
  std::string name;
  paper::Paper paper;
};
using Make = std::function<Result<Made>(const Source& source, const paper::Form& form, const Firm& firm)>;

Result<std::string> pdf_bytes(const paper::Paper& paper) {
  static std::mutex one_at_a_time;  // typesetting takes memory and a core
  const std::lock_guard lock(one_at_a_time);
  return paper::pdf_of(paper);
}

/// A page with its style inside: no script, nothing from elsewhere.
HttpResponse html_response(const paper::Paper& paper) {
  HttpResponse response;
  response.content_type = "text/html; charset=utf-8";
  response.body = paper::html_of(paper);
  response.headers.emplace_back("Content-Security-Policy",
                                "default-src 'none'; style-src 'unsafe-inline'; img-src data:; sandbox "
                                "allow-modals; frame-ancestors 'none'; base-uri 'none'; form-action 'none'");
  return response;
}

/// Names of jobs and places are no part of a header unless they are plain.
std::string file_name(std::string name, const char* ending) {
  std::replace_if(
      name.begin(), name.end(),
      [](char c) {
        return !((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
                 c == '_');
      },
      '_');
  return name + ending;
}

HttpResponse printed(const Made& made, const Order& order) {
  HttpResponse response;
  if (order.html) {
    response = html_response(made.paper);
  } else {
    auto bytes = pdf_bytes(made.paper);
    if (!bytes) return problem(bytes.error());
    response.body = std::move(*bytes);
    response.content_type = "application/pdf";
  }
  response.headers.emplace_back(
      "Content-Disposition",
      fmt::format("inline; filename=\"{}\"", file_name(made.name, order.html ? ".html" : ".pdf")));
  return response;
}

HttpResponse print(Service& service, Visit& visit, const Make& make) {
  auto order = read_order(visit.target);
  if (!order) return problem(order.error());
  Result<Made> made = fail(ErrorCode::internal_fault, "the paper was not made");
  {
    const auto reader = service.books().reader();
    reader->read([&](const Documents& now, const Head& head) {
      const Firm firm = firm_of(now).value_or(Firm{reader->origin(), {}});
      const Moment moment{service.world().now_ms(), service.world().boot_clock()};
      order->form.firm = firm.name;
      order->form.made = iso_time(order->zone, moment.ms);
      const Source source{
          *reader, now, head, moment, paper_time, order->zone, order->units, order->form.language, {}};
      made = make(source, order->form, firm);
    });
  }
  return made ? printed(*made, *order) : problem(made.error());
}

std::string name_of(std::string_view paper, const std::string& of, Language language) {
  return fmt::format("{}{}{}{}", paper, of.empty() ? "" : "-", of, language == Language::es ? "-es" : "");
}

HttpResponse job_paper(Service& service, Visit& visit) {
  const std::string& job = visit.asked.name(0);
  const JobPaper* const kind = find_job_paper(visit.asked.name(1));
  if (kind == nullptr)
    return problem(Error{ErrorCode::not_found, "a job has no such paper", "the address",
                         "ask for record, leave-behind, door or mixing"});
  return print(service, visit,
               [&](const Source& source, const paper::Form& form, const Firm& firm) -> Result<Made> {
                 const auto dressed = dress_job_paper(source, form, firm, job, form.language);
                 if (!dressed) return tl::make_unexpected(dressed.error());
                 auto filled = kind->fill(dressed->source, job, dressed->form);
                 if (!filled) return tl::make_unexpected(filled.error());
                 return Made{job_paper_name(job, kind->name, form.language), std::move(*filled)};
               });
}

Result<void> check_place(const Source& source, const std::string& place) {
  if (place.empty() || source.now.get("place", place)) return {};
  return fail(ErrorCode::not_found, "there is no such place", "place", "GET /api/v1/places lists them");
}

HttpResponse inventory(Service& service, Visit& visit) {
  const std::string place = Query(visit.target).text("place");
  return print(service, visit, [&](const Source& source, const paper::Form& form, const Firm&) -> Result<Made> {
    if (auto ok = check_place(source, place); !ok) return tl::make_unexpected(ok.error());
    return Made{name_of("inventory", place, form.language),
                paper::inventory_report(press::inventory(source, place), form)};
  });
}

Result<std::vector<paper::ContainerLabel>> labels_asked_for(const Source& source, const std::string& vessel,
                                                            const std::string& place) {
  if (vessel.empty() == place.empty())
    return fail(ErrorCode::missing_value, "labels are of one vessel or of all at one place", "vessel",
                "write vessel=C1 or place=heron");
  if (!place.empty()) return press::container_labels(source, place);
  auto label = press::container_label(source, vessel);
  if (!label) return tl::make_unexpected(label.error());
  return std::vector{std::move(*label)};
}

HttpResponse labels(Service& service, Visit& visit) {
  const Query query(visit.target);
  const std::string vessel = query.text("vessel"), place = query.text("place");
  return print(service, visit, [&](const Source& source, const paper::Form& form, const Firm&) -> Result<Made> {
    if (auto ok = check_place(source, place); !ok) return tl::make_unexpected(ok.error());
    const auto wanted = labels_asked_for(source, vessel, place);
    if (!wanted) return tl::make_unexpected(wanted.error());
    auto sheet = paper::container_labels(*wanted, form);
    if (!sheet) return tl::make_unexpected(sheet.error());
    return Made{name_of("labels", vessel.empty() ? place : vessel, form.language), std::move(*sheet)};
  });
}

HttpResponse audit_paper(Service& service, Visit& visit) {
  const auto scope = audit_scope(visit.target);
  if (!scope) return problem(scope.error());
  const auto record = record_check(service, visit.target);
  if (!record) return problem(record.error());
  return print(service, visit, [&](const Source& source, const paper::Form& form, const Firm&) -> Result<Made> {
    if (auto known = check_audit_names(source.now, {source.head.size, source.moment.ms, {}}, *scope, "");
        !known)
      return tl::make_unexpected(known.error());
    const AuditAnswer answer = audit(source.now, {source.head.size, source.moment.ms, *record}, *scope);
    return Made{name_of("audit", "", form.language),
                paper::audit_report(press::audit_report(source, answer), form)};
  });
}

HttpResponse mixing(Service& service, Visit& visit) {
  const std::string& product = visit.asked.name();
  const Query query(visit.target);
  std::optional<LiquidVolume> make;
  if (const std::string typed = query.text("make"); !typed.empty()) {
    const auto volume = read_liquid_volume(typed, "make");
    if (!volume) return problem(volume.error());
    make = *volume;
  }
  return print(service, visit, [&](const Source& source, const paper::Form& form, const Firm&) -> Result<Made> {
    const auto label = adopted_label(source.now, product);
    if (!label) return tl::make_unexpected(label.error());
    const auto facts = mixing_facts_for(*label->label, make, query.text("table"), source.units, form.language);
    if (!facts) return tl::make_unexpected(facts.error());
    return Made{job_paper_name(product, "mixing", form.language), paper::mixing_sheet(*facts, form)};
  });
}

Route printing(const char* path, const char* id, const char* summary, HttpResponse (*act)(Service&, Visit&),
               std::vector<const char*> more = {}) {
  std::vector<const char*> query = {"as", "language", "size", "units", "zone"};
  query.insert(query.end(), more.begin(), more.end());
  return {.method = "GET",
          .path = path,
          .id = id,
          .access = Access::crew,
          .summary = summary,
          .answer = nullptr,
          .query = std::move(query),
          .act = act};
}

}  // namespace

std::vector<Route> paper_routes() {
  return {
      printing("/api/v1/jobs/{job}/papers/{paper}", "printJobPaper",
               "A paper of a job: record, leave-behind, door or mixing; PDF, or HTML with as=html", job_paper),
      printing("/api/v1/papers/inventory", "printInventory", "What there is, what expires, what to order",
               inventory, {"place"}),
      printing("/api/v1/papers/labels", "printLabels", "Labels with a code, to stand beside the maker's own",
               labels, {"place", "vessel"}),
      printing("/api/v1/papers/audit", "printAudit", "What departs from the rules, with a summary of one page",
               audit_paper, audit_query()),
      printing("/api/v1/products/{product}/mixing-sheet", "printMixing",
               "What to measure out, to tick off at the bench", mixing, {"make", "table"}),
  };
}

}  // namespace fogwright::server
