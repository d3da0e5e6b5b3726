// SPDX-License-Identifier: Apache-2.0
#include "job_world.hpp"

#include "desk/vessels.hpp"

namespace desk_test {

using nlohmann::json;

namespace {

PlanRequest request_for(const std::string& product, double area) {
  PlanRequest request;
  auto label = read_label(profile(product), product);
  REQUIRE(label.has_value());
  request.label = std::make_shared<const Label>(std::move(*label));
  AirSystem system;
  system.name = "main";
  system.area = FloorArea(area, unit::square_foot);
  system.returns = {{"hall", {}, {}}, {"den", {}, {}}};
  request.systems = {system};
  request.site.entrances = 2;
  request.zone.airing = AirChanges(5, unit::per_hour);
  return request;
}

void give_papers(Shop& shop) {
  for (const auto& [what, number] :
       {std::pair{CredentialKind::medical_clearance, "M-1"}, {CredentialKind::licence, "L-1"}}) {
    Credential paper;
    paper.handle = "rowan";
    paper.what = what;
    paper.issued = "2026-01-05";
    paper.expires = "2026-12-31";
    paper.number = number;
    shop.done(add_credential(shop.context(), paper));
  }
  Credential fit;
  fit.handle = "rowan";
  fit.what = CredentialKind::fit_test;
  fit.issued = "2026-01-05";
  fit.facepiece = Facepiece::full_facepiece;
  fit.facepiece_model = "Saltwing 40";
  fit.facepiece_size = "M";
  shop.done(add_credential(shop.context(), fit));
}

const std::map<std::string, std::string>& answers() {
  static const std::map<std::string, std::string> all = {
      {"respirator-facepiece", "full-facepiece, Saltwing 40, M"},
      {"cartridge-words", "K1"},
      {"cartridge-hours", "45 min"},
      {"cartridge-hours-added", "40 min"},
      {"product-in-date", "2027-01-31"},
      {"mix-time", "M1"},
      {"volume-before", "20 fl oz"},
      {"volume-after", "7 fl oz"},
      {"animals-out", "1"},
      {"everyone-out", "3"},
      {"entrances-posted", "2"},
      {"signs-down", "2"},
      {"standby-person", "ash"},
  };
  return all;
}

}  // namespace

Calendar days_at(std::int64_t offset_ms) {
  return [offset_ms](const std::string&, std::int64_t ms) {
    const std::int64_t local = ms + offset_ms;
    const std::int64_t into_day = ((local % day_ms) + day_ms) % day_ms;
    return LocalDay{day_of(local), ms - into_day};
  };
}

JobWorld::JobWorld(const std::string& of) : shop(Shop::open()), product(of) {
  give_papers(shop);
  shop.done(register_cartridge(
      shop.context(), {"K1", "Reedmoor 7", {"organic vapor/acid gas", "P100"}, 480, "the maker's table"}));
  if (product == "fenmist-rtu") {
    shop.receive("C1", product, 4 * litre, "2027-01-31");
  } else {
    shop.receive("A1", product, litre, "2027-01-31", "heron", {}, "Part A concentrate");
    shop.receive("B1", product, litre, "2027-01-31", "heron", {}, "Part B activator (citric acid)");
  }
  by("rowan");
  plan();
}

LateRecord JobWorld::done_before(std::int64_t ago_ms) const {
  LateRecord late;
  late.why_late = "no phone";
  late.started_ms = shop.now() - ago_ms;
  late.ended_ms = late.started_ms + 180'000;
  return late;
}

void JobWorld::plan(double area) {
  const auto made = make_plan(request_for(product, area));
  REQUIRE(made.has_value());
  NewJob job;
  job.zone = "America/Chicago";
  job.product = product;
  job.label_digest = shop.document("product", product).at("current");
  job.technician = "rowan";
  job.van = "heron";
  shop.done(plan_job(context(), job, *made));
}

DeskContext JobWorld::context() const {
  DeskContext context = shop.context();
  context.clock = clock;
  return context;
}

JobState JobWorld::state() const { return read_job_state(job().at("state").get<std::string>()).value(); }

void JobWorld::wait(std::int64_t ms) {
  shop.wait(ms);
  clock.uptime_ms += ms;
}

void JobWorld::set_clock(std::int64_t by_ms) { shop.wait(by_ms); }

void JobWorld::reboot(std::int64_t off_ms) {
  shop.wait(off_ms);
  clock = {clock.boot + "+", 1'000};
}

std::string JobWorld::answer_of(const std::string& item) const {
  if (item == "product-right") return product == "fenmist-rtu" ? "DEMO-1" : "demo-2";
  if (item == "lot-noted") return product == "fenmist-rtu" ? "C1" : "A1 B1";
  const auto special = answers().find(item);
  return special == answers().end() ? "yes" : special->second;
}

void JobWorld::met(const std::string& item, const std::string& answer) {
  INFO(item);
  shop.done(meet_requirement(context(), "J1", item, answer, chicago));
}

std::vector<std::string> JobWorld::items_before_start() const {
  std::vector<std::string> items;
  const json document = job();  // kept: the loop below reads out of it
  for (const json& one : document.at("plan").at("requirements")) {
    const Rule* rule = find_rule(one.at("id").get<std::string>());
    if (rule->stage == Stage::before_mixing || rule->stage == Stage::before_fogging)
      items.push_back(one.at("id"));
  }
  return items;
}

void JobWorld::meet_all(Stage stage) {
  const json document = job();
  for (const json& one : document.at("plan").at("requirements")) {
    const std::string id = one.at("id");
    if (find_rule(id)->stage == stage && !decided_by_facts(id)) met(id, answer_of(id));
  }
}

void JobWorld::mix(const std::string& batch, bool respirator) {
  MixRequest request;
  request.batch = batch;
  request.product = product;
  request.made_ul = 2 * litre;
  request.parts = {{"A1", {}}, {"B1", {}}};
  request.place = "heron";
  request.respirator_worn = respirator;
  shop.done(mix_batch(context(), request));
  wait(60'000);
}

void JobWorld::meet_before_start() {
  meet_all(Stage::before_mixing);
  if (product != "fenmist-rtu") mix();
  meet_all(Stage::before_fogging);
}

void JobWorld::write(const Result<Decision>& decision) {
  INFO((decision ? "" : decision.error().message));
  REQUIRE(decision.has_value());
  shop.done(decision->drafts);
}

void JobWorld::start() {
  const auto decision = start_job(context(), "J1", chicago);
  write(decision);
  INFO((decision->refusal ? decision->refusal->message : ""));
  REQUIRE_FALSE(decision->refusal);
}

void JobWorld::fog_all() {
  for (const char* name : {"hall", "den"}) {
    wait(63'000);
    shop.done(record_return(context(), "J1", "main", name, 63'000));
  }
}

void JobWorld::fog_off(std::int64_t left_ul) {
  FogOff off;
  off.left_ul = left_ul;
  shop.done(end_fog(context(), "J1", off));
}

void JobWorld::meet_what_is_open(Stage stage) {
  const json document = job();
  for (const json& one : document.at("plan").at("requirements")) {
    const std::string id = one.at("id");
    if (find_rule(id)->stage != stage || decided_by_facts(id) || document.at("met").contains(id)) continue;
    if (auto drafts = meet_requirement(context(), "J1", id, answer_of(id), chicago)) shop.done(drafts);
  }
}

std::optional<Error> JobWorld::release() {
  meet_what_is_open(Stage::before_release);
  return release_as_it_stands();
}

std::optional<Error> JobWorld::release_as_it_stands() {
  const auto decision = release_job(context(), "J1", chicago);
  write(decision);
  return decision->refusal;
}

}  // namespace desk_test
