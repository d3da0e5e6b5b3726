// SPDX-License-Identifier: Apache-2.0
// What an audit answers: what it counts, lists, leaves out, and in which order.
#include <algorithm>

#include "rule_pairs.hpp"

using namespace audit_test;
using desk_test::day_ms;
using desk_test::litre;
using desk_test::start_ms;

namespace {

/// A note, a minor, a major and a grave departure, in that order, each on a day of its own.
Book four() {
  Shop shop = Shop::open();
  shop.receive("c", "fenmist-rtu", litre, "2026-03-04");
  shop.receive("late", "fenmist-rtu", litre, "2027-01-31", "plover");
  shop.receive("A", "brackwater-20", litre, "2026-12-31", "heron", {}, "Part A concentrate");
  shop.receive("B", "brackwater-20", litre, "2026-12-31", "heron", {}, "Part B activator (citric acid)");
  NewEntry late = draft(shop.context(), "note", {{"about", "c"}, {"text", "x"}});
  late.happened_ms -= day_ms;  // 1 March
  shop.done(Drafts{late});     // entry 11: note
  shop.wait(day_ms);
  shop.draw("late", litre + 1, "J7");  // entry 12, 3 March: minor, van plover
  shop.wait(2 * day_ms);
  shop.draw("c", 5);  // entry 13, 5 March: major
  shop.wait(30 * day_ms);
  shop.by("rowan");
  MixRequest mix;
  mix.batch = "mix";
  mix.product = "brackwater-20";
  mix.made_ul = litre;
  mix.parts = {{"A", {}}, {"B", {}}};
  mix.place = "heron";
  shop.done(mix_batch(shop.context(), mix));  // entry 14, 4 April: grave
  shop.done(dispose(shop.context(), "c", {}, "as its label says"));
  shop.done(read_storage(shop.context(), "heron", Temperature::fahrenheit(60), "60 F"));
  return shop;
}

std::vector<std::string_view> rules_of(const AuditAnswer& answer) {
  std::vector<std::string_view> rules;
  for (const Departure& one : answer.departures) rules.push_back(one.rule->id);
  return rules;
}

std::vector<std::string_view> found(const AuditScope& scope) { return rules_of(four().audit(scope)); }

using Rules = std::vector<std::string_view>;

}  // namespace

TEST_CASE("An audit lists the gravest first, with the entries that prove it") {
  const AuditAnswer answer = four().audit();
  CHECK(rules_of(answer) == Rules{"mixed-without-respirator", "expired-used", "over-draw", "late-entry"});
  CHECK(answer.by_severity == std::array<std::int64_t, 4>{1, 1, 1, 1});
  CHECK(answer.total() == 4);
  CHECK(answer.left_out == 0);
  const Departure& draw = answer.departures[2];
  CHECK(draw.job == "J7");
  CHECK(draw.product == "fenmist-rtu");
  CHECK(draw.place == "plover");
  CHECK(draw.person == "ash");
  REQUIRE(draw.entries.size() == 2);
  CHECK(draw.entries[0] > draw.entries[1]);  // the draw, then the receipt of what was drawn from
  CHECK(draw.at_ms == start_ms + day_ms);
  CHECK(answer.by_month == std::vector<std::pair<std::string, std::int64_t>>{{"2026-03", 3}, {"2026-04", 1}});
}

TEST_CASE("A departure of a job names its plan, its fog-off and its readings, the entry that raised it first") {
  const auto shown = [](const JobWorld& world, const char* rule) {
    AuditScope scope;
    scope.rule = rule;
    const AuditAnswer answer = Book(world).audit(scope);
    REQUIRE(answer.departures.size() == 1);
    std::vector<std::string> kinds;
    for (const std::int64_t seq : answer.departures.front().entries)
      kinds.push_back(world.shop.entries().at(static_cast<std::size_t>(seq)).kind);
    return kinds;
  };
  using Kinds = std::vector<std::string>;
  JobWorld early = holding();
  early.wait(hold_ms(early) - 1);
  write_release(early);
  CHECK(shown(early, "hold-not-kept") == Kinds{"job-released", "job-planned", "fog-ended"});

  JobWorld unread = holding("brackwater-20");
  unread.wait(hold_ms(unread, "floor"));
  unread.shop.done(take_reading(unread.context(), "J1", {"10049-04-4", 1, "1 ug/m3", true, "meter 3"}));
  write_release(unread, "readings");
  CHECK(shown(unread, "readings-not-kept") ==
        Kinds{"job-released", "job-planned", "fog-ended", "reading-taken"});

  JobWorld brief("fenmist-rtu");
  brief.meet_before_start();
  brief.start();
  brief.shop.done(record_return(brief.context(), "J1", "main", "hall", 1'000));
  brief.shop.done(record_return(brief.context(), "J1", "main", "den", 1'000));
  brief.fog_off();
  CHECK(shown(brief, "total-off-band") == Kinds{"fog-ended", "job-planned", "return-fogged", "return-fogged"});
}

TEST_CASE("An audit looks at what was asked for only") {
  AuditScope scope;
  scope.least = Severity::major;
  CHECK(found(scope) == Rules{"mixed-without-respirator", "expired-used"});
  scope = {};
  scope.from_ms = start_ms + day_ms;
  CHECK(found(scope) == Rules{"mixed-without-respirator", "expired-used", "over-draw"});
  scope.to_ms = start_ms + day_ms + 1;
  CHECK(found(scope) == Rules{"over-draw"});
  scope.to_ms = start_ms + day_ms;
  CHECK(found(scope).empty());
  scope = {};
  scope.person = "rowan";
  CHECK(found(scope) == Rules{"mixed-without-respirator"});
  scope = {};
  scope.product = "fenmist-rtu";
  CHECK(found(scope) == Rules{"expired-used", "over-draw"});
  scope = {};
  scope.place = "plover";
  CHECK(found(scope) == Rules{"over-draw"});
  scope = {};
  scope.job = "J7";
  CHECK(found(scope) == Rules{"over-draw"});
  scope = {};
  scope.rule = "late-entry";
  CHECK(found(scope) == Rules{"late-entry"});
}

TEST_CASE("What is listed can be cut; what is counted cannot") {
  Shop shop = Shop::open();
  shop.receive("c", "fenmist-rtu", litre, "2027-01-31");
  for (int i = 0; i < 5; ++i) shop.draw("c", litre + 1);
  AuditScope scope;
  scope.most = 2;
  const AuditAnswer answer = Book(shop).audit(scope);
  CHECK(answer.departures.size() == 2);
  CHECK(answer.total() == 5);
  CHECK(answer.left_out == 3);
  CHECK(answer.departures[0].entries < answer.departures[1].entries);
  scope.most = 0;
  CHECK(Book(shop).audit(scope).departures.size() == 5);
}

TEST_CASE("A changed record stands in every audit, whatever it looks at") {
  Book book = four();
  book.record = {true, {{2, "entry 2 is not what the tree says"}, {std::nullopt, "a table is missing"}}, {}};
  AuditScope scope;
  scope.person = "rowan";
  scope.to_ms = start_ms;
  const AuditAnswer answer = book.audit(scope);
  CHECK(rules_of(answer) == Rules{"record-changed", "record-changed"});
  CHECK(answer.departures[1].entries == std::vector<std::int64_t>{2});
}

TEST_CASE("A job's use against its plan stands in the charts of its technician and its fogger") {
  const JobWorld world = holding();
  const AuditAnswer answer = Book(world).audit();
  REQUIRE(answer.charts.size() == 2);  // the job named no fogger
  CHECK(answer.charts[0].of == AuditChart::Of::all_jobs);
  CHECK(answer.charts[1].of == AuditChart::Of::technician);
  CHECK(answer.charts[1].name == "rowan");
  REQUIRE(answer.charts[1].points.size() == 1);
  const double planned = world.job().at("plan").at("volume_ul").at("target").get<double>();
  const double used = world.job().at("used_ul").get<double>();
  CHECK(answer.charts[1].points[0].off_percent == Approx(100 * (used - planned) / planned));
  CHECK(answer.jobs_measured == 1);
}

TEST_CASE("The limits of a chart rest on all points, while the newest are held") {
  Book book(Shop::open());
  std::vector<double> all;
  for (int i = 0; i < 500; ++i) {
    const std::int64_t off = (i * 7919) % 41 - 20;
    all.push_back(static_cast<double>(off) / 4);
    book.documents.put("job-use", std::to_string(1000 + i),
                       {{"seq", i},
                        {"at_ms", start_ms},
                        {"job", "J"},
                        {"technician", "rowan"},
                        {"fogger", "gust"},
                        {"planned_ul", 400'000},
                        {"used_ul", 400'000 + off * 1'000}},
                       true);
  }
  const AuditAnswer answer = book.audit();
  const auto whole = individuals_chart(all);
  REQUIRE(answer.charts.size() == 3);
  for (const AuditChart& chart : answer.charts) {
    CHECK(chart.count == 500);
    CHECK(chart.limits.centre == Approx(whole->centre));
    CHECK(chart.limits.upper == Approx(whole->upper));
    REQUIRE(chart.points.size() == chart_points);
    CHECK(chart.points.back().seq == 499);
    CHECK(chart.points.front().seq == 500 - static_cast<std::int64_t>(chart_points));
  }
}

TEST_CASE("An audit of an empty book finds nothing") {
  const AuditAnswer answer = Book(Shop()).audit();
  CHECK(answer.total() == 0);
  CHECK(answer.charts.empty());
}

TEST_CASE("The JSON of an audit names rule, proof and what to do") {
  const nlohmann::json json = audit_json(four().audit());
  CHECK(json.at("by_severity").at("grave") == 1);
  const auto& first = json.at("departures").at(0);
  CHECK(first.at("rule") == "mixed-without-respirator");
  CHECK(first.at("kind") == "label");
  CHECK(first.at("person") == "rowan");
  CHECK_FALSE(first.contains("job"));
  CHECK(first.at("entries").size() == 1);
  CHECK(audit_rules_json().size() == audit_rules().size());
}
