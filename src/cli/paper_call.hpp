// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What the commands that print papers and charts share.

#include "cli/desk_call.hpp"
#include "fogwright/press.hpp"

namespace fogwright {

/// What becomes of a paper.
enum class PaperFormat { pdf, html };

/// How papers are to be printed, as the options say.
struct PaperOrder {
  paper::Form form;  ///< `firm` and `made` are filled in from the book
  bool language_given = false;
  PaperFormat format = PaperFormat::pdf;
  std::string out;   ///< file or folder; empty: the current folder
  std::string firm;  ///< as typed; empty: the book's
  std::vector<FirmContact> contacts;
};
[[nodiscard]] const std::vector<OptionRow>& paper_options();
[[nodiscard]] std::vector<OptionRow> with_paper_options(std::vector<OptionRow> rows);
/// Errors: not_understood.
[[nodiscard]] Result<PaperOrder> read_paper_order(const Call& call);

/// A paper with the name of its file, without folder and ending: "J1-leave-behind".
struct NamedPaper {
  std::string name;
  paper::Paper paper;
};
/// Writes each as a new file; none where one of the names is taken. Tells the files. Errors: already_exists,
/// file_fault; those of pdf_of.
[[nodiscard]] Outcome write_papers(const Call& call, const PaperOrder& order,
                                   const std::vector<NamedPaper>& papers,
                                   const std::vector<std::string>& left_out = {});

/// The firm by option or book. Errors: missing_value, where neither says it.
[[nodiscard]] Result<Firm> firm_for(const PaperOrder& order, const Documents& now);

/// Opens the book and hands one view of it to `use`, with the language of the order.
using UseSource = std::function<Outcome(const press::Source& source)>;
[[nodiscard]] Outcome with_source(const Call& call, paper::Language language, const UseSource& use);

/// "2026-03-04T17:20:00-06:00": when papers are made, in the zone.
[[nodiscard]] std::string made_at(const Call& call, const std::string& zone);

/// A chart in characters, in ASCII where the terminal knows no more.
[[nodiscard]] std::string chart_on_terminal(const Call& call, const paper::Chart& chart);
/// Charts on the terminal, as SVG (--svg FILE) or as JSON.
[[nodiscard]] const OptionRow& svg_row();
[[nodiscard]] Outcome show_chart(const Call& call, const paper::Chart& chart,
                                 const std::vector<std::string>& notes = {});

}  // namespace fogwright
