// SPDX-License-Identifier: Apache-2.0
#include <algorithm>

#include "files.hpp"
#include "label/members.hpp"

using namespace fogwright;
using namespace fogwright::test;

namespace {

std::string told(const Faults& faults) {
  std::string all;
  for (const Error& fault : faults) all += fault.where + ": " + fault.message + "\n    " + fault.hint + "\n";
  return all;
}

Faults faults_of(const std::string& text, std::string_view file) {
  const auto label = read_label(text, file);
  return label ? Faults{} : label.error();
}

/// One slip in a good profile, and what it must be answered with.
struct Slip {
  std::string_view before, after, answer;
};

}  // namespace

TEST_CASE("each faulty profile is answered with all its faults, in order of place, as reviewed") {
  std::size_t files = 0;
  for (const auto& entry : std::filesystem::directory_iterator(root / "tests/label/faults")) {
    if (entry.path().extension() != ".toml") continue;
    ++files;
    const auto faults = faults_of(read_file(entry.path()), entry.path().filename().string());
    REQUIRE_FALSE(faults.empty());
    check_golden(std::filesystem::path(entry.path()).replace_extension(".txt"), told(faults));
  }
  CHECK(files == 8);
}

TEST_CASE("a profile with ten faults is answered with ten") {
  CHECK(faults_of(read_file(root / "tests/label/faults/ten_faults.toml"), "f").size() == 10);
}

TEST_CASE("one slip gives one fault, at its place") {
  // clang-format off
  const Slip slips[] = {
      {"signal_word = \"caution\"", "signal_word = \"cuation\"",
       "f:8:15: signal_word: \"cuation\" is not a word known here\n"
       "    did you mean \"caution\"? Words here are: danger, warning, caution, none\n"},
      {"mass_fraction = \"0.2 %\"", "mass_fraction = \"120 %\"",
       "f:36:17: mass_fraction: \"120 %\" is more than the whole\n    write for example mass_fraction = \"3.0 %\"\n"},
      {"cas = \"68424-85-1\"", "cas = \"68424-85-2\"",
       "f:35:7: cas: \"68424-85-2\" is not a CAS number: digits, two digits, and a check digit that fits them\n"
       "    write for example cas = \"7722-84-1\"\n"},
      {"empty_time = \"30 min\"\n", "", "f:45:10: source is given without empty_time\n    give the time and where it is printed\n"},
      {"label = \"2024-03-11\"", "label = \"2024-02-30\"",
       "f:59:9: label: \"2024-02-30\" is not a date of the calendar, year-month-day, 1970 to 2099\n"
       "    write for example label = \"2024-03-01\"\n"},
      {"oxidiser = false", "oxidiser = true",
       "f:10:12: oxidiser is true, but the chemistry names nothing that oxidises\n"
       "    add hypochlorite, chlorite, peroxide or peracid to chemistry, or write oxidiser = false\n"},
      {"oxidiser = false", "oxidiser = false\noxidiser = false",
       "f:11:12: not valid TOML: key-value pair: cannot redefine existing boolean 'oxidiser'\n"
       "    each member may be given once: delete one of the two\n"},
      {"cartridges = [\"P100\"]\n", "", "f:41:14: the respirator needs cartridges, and none are named\n"
       "    add cartridges = [\"organic vapor/acid gas\"], or whichever words the label demands\n"},
      {"registration = \"DEMO-1\"\n", "",
       "f:1:1: the profile lacks registration\n    write for example registration = \"DEMO-1\"\n"},
      {"\"hvac-ductwork\", \"hard-surface\"", "", "f:12:13: use_sites: the list is empty\n"
       "    write for example use_sites = [\"hvac-ductwork\"]\n"},
  };
  // clang-format on
  const std::string good = demo_text("fenmist-rtu");
  for (const Slip& slip : slips)
    CHECK(told(faults_of(edited(good, slip.before, slip.after), "f")) == slip.answer);
}

TEST_CASE("a text is at most as long as stated, counted in characters") {
  const std::string good = demo_text("fenmist-rtu");
  const auto with_name = [&](std::size_t length) {
    std::string name;
    for (std::size_t i = 0; i < length; ++i) name += "ü";
    return faults_of(edited(good, "name = \"Fenmist RTU\"", "name = \"" + name + "\""), "f").size();
  };
  CHECK(with_name(profile::longest_text) == 0);
  CHECK(with_name(profile::longest_text + 1) == 1);
}

TEST_CASE("a profile is at most 1 MB") {
  std::string text = demo_text("fenmist-rtu");
  text += "#" + std::string(profile::longest_profile - text.size() - 1, 'x');
  CHECK(read_label(text, "f").has_value());
  const auto faults = faults_of(text + "x", "f");
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].message == "the file has 1048577 bytes");
}

TEST_CASE("a key of very many parts is refused, wherever it hides, and does not end the program") {
  std::string key = "a";
  for (int i = 0; i < 200'000; ++i) key += ".a";
  for (const std::string& text :
       {key + " = 1\n", "[" + key + "]\n", "x = \"\"\"a\"\"\"\"\ny = {" + key + " = 1}\n",
        "x = {y = \"\"\"a\"\"\"\"\", " + key + " = 1}\n", "x = \"\\\\\"\n" + key + " = 1\n",
        "x = '\\'\n" + key + " = 1\n"}) {
    const auto faults = faults_of(text, "f");
    CHECK(std::ranges::any_of(faults, [](const Error& e) { return e.message == "a key has too many parts"; }));
  }
}

TEST_CASE("a profile that was saved on Windows, with a byte order mark, reads the same") {
  std::string text = "\xEF\xBB\xBF";
  for (const char c : demo_text("fenmist-rtu")) text += c == '\n' ? "\r\n" : std::string(1, c);
  CHECK(read_label(text, "f").has_value());
}
