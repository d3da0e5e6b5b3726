// SPDX-License-Identifier: Apache-2.0
// The version of the fold: what it makes of kept entries is held against what it made of them when the version
// was set.
#include <fmt/format.h>

#include <cstdlib>
#include <map>
#include <regex>
#include <sstream>

#include "fogwright/book/encoding.hpp"
#include "fogwright/book/sha256.hpp"
#include "golden.hpp"
#include "shop.hpp"

using namespace fogwright;
using namespace fogwright::test;

namespace {

/// Every document by its kind and key, as it stands at the end.
class AllDocuments : public MapDocuments {
 public:
  void put(std::string_view kind, std::string_view key, const nlohmann::json& body, bool live) override {
    MapDocuments::put(kind, key, body, live);
    last_[{std::string(kind), std::string(key)}] = {body, live};
  }
  [[nodiscard]] std::string digest() const {
    std::string all;
    for (const auto& [place, document] : last_)
      all += fmt::format("{}\n{}\n{}\n{}\n", place.first, place.second, document.first.dump(), document.second);
    const Hash hash = sha256(all);
    return to_hex({reinterpret_cast<const char*>(hash.data()), hash.size()});
  }

 private:
  std::map<std::pair<std::string, std::string>, std::pair<nlohmann::json, bool>> last_;
};

/// 170 entries out of a season of the demo world, of most kinds: departures, jobs of both sorts, stock, people
/// who left.
AllDocuments folded_season() {
  AllDocuments documents;
  std::istringstream lines(read_file(root / "tests/data/season_part.jsonl"));
  for (std::string line; std::getline(lines, line);) {
    const auto entry = read_entry(line, "quillfen.example/tarn-vale");
    INFO(line);
    REQUIRE(entry);
    fold(*entry, documents);
  }
  return documents;
}

}  // namespace

TEST_CASE("what the fold makes of the same entries changes with its version alone") {
  const std::string kept = "tests/data/fold_version.txt";
  const std::string now = fmt::format("version {}\ndocuments {}\n", fold_version, folded_season().digest());
  const std::string before = read_file(root / kept);
  std::smatch version;
  REQUIRE(std::regex_search(before, version, std::regex("version (\\d+)")));
  INFO(
      "The fold makes other documents: raise fold_version (include/fogwright/desk/fold.hpp), so that books "
      "made "
      "before derive theirs anew.");
  REQUIRE((before == now || std::stoll(version[1]) < fold_version));
  check_golden(kept, now);
}

TEST_CASE("documents say by which version they were derived") {
  CHECK(fold_version_of(folded_season()) == fold_version);
  CHECK(fold_version_of(MapDocuments()) == 0);
}
