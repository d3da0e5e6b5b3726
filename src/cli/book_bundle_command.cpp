// SPDX-License-Identifier: Apache-2.0
// `book bundle`: one file with all that somebody else needs to check some entries.
#include <fmt/format.h>

#include <numeric>
#include <ostream>

#include "asking/zone_time.hpp"
#include "bundle/members.hpp"
#include "cli/book_command.hpp"
#include "cli/book_keys.hpp"
#include "cli/paper_job.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

Result<std::int64_t> day_of(const std::string& typed, const std::string& option) {
  auto day = read_local_time(typed + " 00:00", "UTC", false, option);
  if (day) return day;
  return fail(ErrorCode::not_understood, fmt::format("\"{}\" is not a day", typed), option,
              fmt::format("write a day in UTC, e.g. {} 2026-03-04", option));
}

Result<bundle::Selection> entries_of_days(const Call& call, Store& store) {
  const auto from = day_of(call.options.text("from").value_or("1970-01-01"), "--from");
  if (!from) return tl::make_unexpected(from.error());
  const auto to = day_of(call.options.text("to").value_or("9999-12-31"), "--to");
  if (!to) return tl::make_unexpected(to.error());
  auto entries = bundle::entries_between(store, *from, *to + day_ms);
  if (!entries.empty()) return entries;
  return fail(ErrorCode::not_found, "nothing happened in these days", "--from",
              "see fogwright book entries --all");
}

Result<bundle::Selection> chosen(const Call& call, Store& store) {
  const auto jobs = call.options.all("job");
  const bool days = call.options.has("from") || call.options.has("to");
  if (!jobs.empty() && days)
    return fail(ErrorCode::bad_usage, "jobs and days are both named", "--job", "choose by jobs or by days");
  if (!jobs.empty()) return bundle::entries_of_jobs(store, jobs);
  if (days) return entries_of_days(call, store);
  bundle::Selection all(static_cast<std::size_t>(store.head().size));
  std::iota(all.begin(), all.end(), 0);
  if (!all.empty()) return all;
  return fail(ErrorCode::not_found, "the book has no entries", "book bundle", "write something down first");
}

Outcome tell_bundle(const Call& call, const std::string& file, std::size_t entries,
                    std::span<const bundle::Member> members) {
  json names = json::array();
  for (const auto& member : members) names.push_back(member.name);
  if (call.json)
    call.outside.out << json{{"bundle", file}, {"entries", entries}, {"members", names}}.dump(2) << '\n';
  else
    call.outside.out << fmt::format(
        "{}: {} entries, {} files\nanyone can check it: python3 verify-book.py --bundle {} (the script is in "
        "it, and "
        "README.txt says more)\n",
        file, entries, members.size(), file);
  return {};
}

/// The record of each job that was named, where names may go along: it has the customer's.
tl::expected<std::vector<bundle::Member>, Faults> papers_of(const Call& call) {
  std::vector<bundle::Member> papers;
  if (!call.options.has("with-private")) return papers;
  const auto made = with_source(call, paper::Language::en, [&](const press::Source& source) -> Outcome {
    for (const std::string& job : call.options.all("job")) {
      auto pdf = job_record_pdf(source, job, source.head.last_received_ms);
      if (!pdf) return refuse(pdf.error());
      papers.push_back({job + "-record.pdf", std::move(*pdf)});
    }
    return {};
  });
  if (!made) return tl::make_unexpected(made.error());
  return papers;
}

Outcome run_bundle(const Call& call) {
  const auto file = call.options.text("out");
  if (!file) return refuse_missing("no file is named", "--out", "write e.g. --out job-7.zip");
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  const auto entries = chosen(call, **store);
  if (!entries) return refuse(entries.error());
  const auto key = load_key(call);
  if (!key) return refuse(key.error());
  const auto note = checkpoint_now(call, **store);
  if (!note) return refuse(note.error());
  auto papers = papers_of(call);
  if (!papers) return tl::make_unexpected(papers.error());
  const NodeSource nodes = nodes_of(**store);
  const auto members = bundle::members_of(
      **store, {*entries, *note, *key, nodes, call.options.has("with-private"), std::move(*papers)});
  if (!members) return refuse(members.error());
  const auto packed = bundle::zip_of(*members);
  if (!packed) return refuse(packed.error());
  if (auto written = write_new_file(*file, *packed); !written) return refuse(written.error());
  return tell_bundle(call, *file, entries->size(), *members);
}

}  // namespace

std::vector<Command> book_bundle_commands() {
  return {{"book", "bundle", "", "one file of evidence that others can check without us",
           with_book_options({
               {"job", "JOB", "the entries of this job and what they rest on", true},
               {"from", "DAY", "the entries of the days (UTC) from this one on"},
               {"to", "DAY", "to this one, itself included"},
               {"out", "FILE", "the new file, a zip"},
               {"with-private", nullptr,
                "names and addresses too, as far as they were not erased, and the records of the jobs named"},
               key_row,
           }),
           run_bundle, "fogwright book bundle --job J1 --out job-1.zip"}};
}

}  // namespace fogwright
