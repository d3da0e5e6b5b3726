// SPDX-License-Identifier: Apache-2.0
#include "paper/html_style.hpp"

namespace fogwright::paper {
namespace {

// No '<' or '&' in it, so that the page stays well-formed XML. Nothing here is cut off: words break, rows and
// boxes do not where they fit.
constexpr auto style = R"(
body { font: 15px/1.45 "Open Sans", "DejaVu Sans", sans-serif; color: #1b1f23; background: #fff; max-width: 46rem;
  margin: 2rem auto; padding: 0 1rem; overflow-wrap: anywhere; }
header, footer { color: #57606a; font-size: .85rem; }
footer { border-top: 1px solid #d8dee4; margin-top: 2rem; padding-top: .5rem; }
h1 { font-size: 1.9rem; line-height: 1.2; margin: .2rem 0 1rem; }
h2 { font-size: 1.2rem; margin: 1.6rem 0 .5rem; }
h3 { font-size: 1rem; margin: 1rem 0 .3rem; }
h1, h2, h3 { break-after: avoid; }
p { margin: .4rem 0; }
.small { font-size: .8rem; color: #57606a; }
.lead { font-size: 1.15rem; }
table { border-collapse: collapse; width: 100%; font-size: .85rem; }
th, td { text-align: left; vertical-align: top; padding: .3rem .7rem .3rem 0; border-bottom: 1px solid #d8dee4; }
thead th { border-bottom: 1.5px solid #1b1f23; }
.right { text-align: right; }
.facts th { width: 30%; font-weight: normal; color: #57606a; }
.facts td, .facts th { font-size: .95rem; }
tr { break-inside: avoid; }
section { border: 1px solid #0b5394; border-left-width: 6px; padding: .2rem 1rem .6rem; margin: 1rem 0;
  break-inside: avoid; }
section.caution { border-color: #b3261e; background: #fdf3f2; }
section h3 { margin-top: .6rem; }
section ul { margin: 0; padding-left: 1.1rem; }
.display { text-align: center; margin: 1.5rem 0; }
.display span { display: block; }
.display strong { display: block; font-size: 4.5rem; line-height: 1.15; }
.sign { display: flex; gap: 2rem; margin-top: 4rem; }
.sign span { flex: 1; border-top: 1px solid #1b1f23; font-size: .8rem; padding-top: .2rem; }
.qr { display: flex; gap: 1.2rem; align-items: center; margin: 1rem 0; }
.qr svg { flex: none; }
figure { margin: 1rem 0; break-inside: avoid; }
figcaption { font-size: .8rem; color: #57606a; }
.page-break { break-after: page; }
@media print { body { font-size: 10pt; max-width: none; margin: 0; padding: 0; } }
)";

}  // namespace

std::string html_style(PageSize size) {
  switch (size) {
    case PageSize::letter:
      return std::string(style) + "@page { size: letter; margin: 18mm; }\n";
    case PageSize::a4:
      return std::string(style) + "@page { size: A4; margin: 18mm; }\n";
    case PageSize::label:
      return std::string(style) + "@page { size: 4in 3in; margin: 5mm; }\n";
  }
  return style;
}

}  // namespace fogwright::paper
