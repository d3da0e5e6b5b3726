// SPDX-License-Identifier: Apache-2.0
/// A job's record as PDF and as HTML. The first PDF of a process also loads the module and the fonts: that one
/// is measured once and printed above the table.
#include <benchmark/benchmark.h>

#include <cstdio>
#include <ctime>

#include "paper/demo_papers.hpp"

namespace {

using namespace fogwright;

paper::Paper record() {
  const auto form = test::demo_form(paper::Language::en, paper::PageSize::letter);
  return paper::job_record(test::demo_job_record(), form).value();
}

void job_record_pdf(benchmark::State& state) {
  const auto sheet = record();
  for (auto _ : state) benchmark::DoNotOptimize(paper::pdf_of(sheet, FOGWRIGHT_PAPER_MODULE).value());
}
BENCHMARK(job_record_pdf)->Unit(benchmark::kMillisecond);

void job_record_html(benchmark::State& state) {
  const auto sheet = record();
  for (auto _ : state) benchmark::DoNotOptimize(paper::html_of(sheet));
}
BENCHMARK(job_record_html)->Unit(benchmark::kMillisecond);

}  // namespace

int main(int argc, char** argv) {
  const std::clock_t start = std::clock();
  benchmark::DoNotOptimize(paper::pdf_of(record(), FOGWRIGHT_PAPER_MODULE).value());
  const double took = 1e3 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
  std::printf("first job record as PDF, with module and fonts loaded: %.1f ms of processor time\n", took);
  benchmark::Initialize(&argc, argv);
  benchmark::RunSpecifiedBenchmarks();
}
