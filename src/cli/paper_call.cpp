// SPDX-License-Identifier: Apache-2.0
#include "cli/paper_call.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <ostream>

#include "asking/zone_time.hpp"
#include "cli/firm_command.hpp"
#include "office/paper_time.hpp"

namespace fogwright {
namespace {

using nlohmann::json;
namespace fs = std::filesystem;

/// The choice that was typed; the first of them where none was.
template <class T>
T choice(OptionReader& options, const char* name, std::initializer_list<std::pair<const char*, T>> choices) {
  const std::string typed = options.text(name);
  if (typed.empty()) return choices.begin()->second;
  for (const auto& [word, value] : choices)
    if (typed == word) return value;
  std::string known;
  for (const auto& [word, value] : choices) known += fmt::format("{}{}", known.empty() ? "" : " or ", word);
  return options.take(
      Result<T>(fail(ErrorCode::not_understood, fmt::format("\"{}\" is not a choice here", typed),
                     fmt::format("--{}", name), "write " + known)));
}

bool is_folder(const std::string& out) {
  std::error_code ignored;
  return out.ends_with('/') || fs::is_directory(out, ignored);
}

/// --out names a file for one paper, a folder for several.
std::string path_for(const PaperOrder& order, const NamedPaper& one, bool alone) {
  const std::string file = one.name + (order.format == PaperFormat::pdf ? ".pdf" : ".html");
  if (order.out.empty()) return file;
  if (alone && !is_folder(order.out)) return order.out;
  return (fs::path(order.out) / file).string();
}

Result<void> check_free_file(const std::string& path) {
  std::error_code ignored;
  if (!fs::exists(path, ignored)) return {};
  return fail(ErrorCode::already_exists, fmt::format("{} is already there", path), "--out",
              "name another file or folder; nothing is overwritten");
}

Result<std::string> bytes_of_paper(const paper::Paper& paper, PaperFormat format) {
  if (format == PaperFormat::html) return paper::html_of(paper);
  return paper::pdf_of(paper);
}

struct Written {
  std::string path, bytes;
};
Result<std::vector<Written>> make_files(const PaperOrder& order, const std::vector<NamedPaper>& papers) {
  std::vector<Written> files;
  for (const NamedPaper& one : papers) {
    const std::string path = path_for(order, one, papers.size() == 1);
    if (auto ok = check_free_file(path); !ok) return tl::make_unexpected(std::move(ok.error()));
    auto bytes = bytes_of_paper(one.paper, order.format);
    if (!bytes) return tl::make_unexpected(std::move(bytes.error()));
    files.push_back({path, std::move(*bytes)});
  }
  return files;
}

void tell(const Call& call, const std::vector<Written>& files, const std::vector<std::string>& left_out) {
  if (call.json) {
    json list = json::array();
    for (const Written& file : files) list.push_back({{"file", file.path}, {"bytes", file.bytes.size()}});
    call.outside.out << json{{"papers", list}, {"left_out", left_out}}.dump(2) << '\n';
    return;
  }
  for (const Written& file : files) call.outside.out << file.path << '\n';
  Page page(call.style);
  for (const std::string& words : left_out) page.paragraph(words, "left out: ");
  call.outside.out << std::move(page).take();
}

}  // namespace

const std::vector<OptionRow>& paper_options() {
  static const std::vector<OptionRow> rows = {
      {"out", "FILE|FOLDER", "where it goes (default: this folder); nothing is overwritten"},
      {"language", "en|es", "language of the paper; the label's words stay in theirs (default en)"},
      {"size", "letter|a4", "size of its pages (default letter)"},
      {"as", "pdf|html", "what is written (default pdf)"},
      {"firm", "NAME", "in whose name (default: fogwright firm set)"},
      {"contact", "WHO=NUMBER", "whom to call, instead of those of the book", true},
  };
  return rows;
}

std::vector<OptionRow> with_paper_options(std::vector<OptionRow> rows) {
  rows.insert(rows.end(), paper_options().begin(), paper_options().end());
  return with_book_options(std::move(rows));
}

Result<PaperOrder> read_paper_order(const Call& call) {
  OptionReader options(call);
  PaperOrder order;
  order.form.language =
      choice<paper::Language>(options, "language", {{"en", paper::Language::en}, {"es", paper::Language::es}});
  order.language_given = options.on("language");
  order.form.size = choice<paper::PageSize>(options, "size",
                                            {{"letter", paper::PageSize::letter}, {"a4", paper::PageSize::a4}});
  order.format = choice<PaperFormat>(options, "as", {{"pdf", PaperFormat::pdf}, {"html", PaperFormat::html}});
  order.out = options.text("out");
  order.firm = options.text("firm");
  for (const std::string& typed : options.all("contact"))
    order.contacts.push_back(options.take(read_contact(typed)));
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return order;
}

Outcome write_papers(const Call& call, const PaperOrder& order, const std::vector<NamedPaper>& papers,
                     const std::vector<std::string>& left_out) {
  const auto files = make_files(order, papers);
  if (!files) return refuse(files.error());
  std::error_code ignored;
  for (const Written& file : *files) {
    if (const fs::path folder = fs::path(file.path).parent_path(); !folder.empty())
      fs::create_directories(folder, ignored);
    if (auto written = write_new_file(file.path, file.bytes); !written) return refuse(written.error());
  }
  tell(call, *files, left_out);
  return {};
}

Result<Firm> firm_for(const PaperOrder& order, const Documents& now) {
  Firm firm = firm_of(now).value_or(Firm{});
  if (!order.firm.empty()) firm.name = order.firm;
  if (!order.contacts.empty()) firm.contacts = order.contacts;
  if (!firm.name.empty()) return firm;
  return fail(ErrorCode::missing_value, "the book does not say who the firm is, which its papers have to",
              "--firm", "say it once: fogwright firm set NAME --contact 'Office=NUMBER'; or write --firm NAME");
}

Outcome with_source(const Call& call, paper::Language language, const UseSource& use) {
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  const std::string zone = call.outside.environment("FOGWRIGHT_ZONE").value_or("UTC");
  if (auto ok = check_zone_name(zone); !ok) return refuse(ok.error());
  Outcome outcome;
  (*store)->read([&](const Documents& now, const Head& head) {
    outcome = use({**store,
                   now,
                   head,
                   {call.outside.now_ms(), call.outside.boot_clock()},
                   paper_time,
                   zone,
                   call.style.units,
                   language,
                   {}});
  });
  return outcome;
}

std::string made_at(const Call& call, const std::string& zone) { return iso_time(zone, call.outside.now_ms()); }

}  // namespace fogwright
