#include "files/rig_edit.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <variant>

#include <fmt/format.h>

#include "base/input_error.h"
#include "files/document.h"
#include "files/rig_sections.h"
#include "files/rig_text_edit.h"
#include "files/table_reader.h"
#include "files/units.h"
#include "rig/find_problems.h"
#include "rig/tape_layout.h"

namespace spanloom {
namespace {

constexpr double kSamePlace = 1e-6;            // [m]

/// How [backup] says how much of it hangs.
struct WrittenAmount {
  const char* key;
  Wanted wanted;
  double per_si;           ///< written units in one of SI
  const char* unit;
  int decimals;
  double same;             ///< what reading back may be off by [SI]
};
constexpr WrittenAmount kSlack{"slack", kShare, 100.0, "%", 7, 1e-9};
constexpr WrittenAmount kLoopLength{"length", kLength, 1.0, "m", 6, 1e-6};

struct Amount {
  WrittenAmount as;
  std::vector<double> of_bay;
};

// --- What is written ---

/// A number with as many decimals as it needs. @param least, most  decimals
std::string decimal(double value, int least, int most) {
  std::string text = fmt::format("{:.{}f}", value, most);
  const std::size_t shortest = text.find('.') + 1 + static_cast<std::size_t>(least);
  while (text.size() > shortest && text.back() == '0') text.pop_back();
  if (text.starts_with('-') && text.find_first_not_of("-0.") == text.npos) text.erase(0, 1);
  return text;
}

NewValue tapes_of(const std::vector<double>& positions) {
  NewValue value{"at", {}};
  for (double at : positions) value.entries.push_back('"' + decimal(at, 2, 6) + " m\"");
  return value;
}

NewValue phrase_of(const std::vector<double>& arm_spans) {
  NewValue value{"repeat", {}};
  for (double spans : arm_spans) value.entries.push_back(fmt::format("{}", spans));
  return value;
}

/// One value for each bay, or one alone where all have the same.
NewValue amount_of(const Amount& amount) {
  const auto text = [&](double si, int least) {
    return '"' + decimal(si * amount.as.per_si, least, amount.as.decimals) + ' ' + amount.as.unit + '"';
  };
  NewValue value{amount.as.key, {}};
  for (double of_bay : amount.of_bay) value.entries.push_back(text(of_bay, 2));
  if (std::all_of(value.entries.begin(), value.entries.end(), [&](const auto& e) { return e == value.entries[0]; })) {
    return {amount.as.key, {text(amount.of_bay[0], 1)}, false};
  }
  return value;
}

// --- The certificate ---

/// The document without the keys that an edit may write or rename.
Value rest_of(const RigText& rig) {
  return without(without(rig.document(), {"spacing"}, keys_like({"spacing"}, "at")), {"backup"}, keys_like({"backup"}, "slack"));
}

bool near(const std::vector<double>& a, const std::vector<double>& b, double most) {
  const auto close = [most](double x, double y) { return std::abs(x - y) <= most; };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), close);
}

Spacing spacing_of(const Value& document, const std::string& file) {
  Findings findings;  // of a text that is known to be a rig: stays empty
  return read_spacing(TableReader(*document.find("spacing"), "spacing", file, findings), rig_with_defaults().spacing);
}

std::vector<double> amount_in(const Value& document, const std::string& file, const Amount& amount) {
  Findings findings;
  TableReader backup(*document.find("backup"), "backup", file, findings);
  std::vector<double> read = backup.quantities(amount.as.key, amount.as.wanted).value_or(std::vector<double>{});
  return read.size() == 1 ? std::vector<double>(amount.of_bay.size(), read[0]) : read;
}

/// The places of the tapes of a rig of our defaults with another taping.
/// @throws InputError where that cannot be written
std::vector<double> places_asked(const Rig& asked, const Amount& amount) {
  const std::vector<double>& places = std::get<TapesAt>(asked.spacing.pattern).positions;
  if (places.empty()) throw InputError("layout", "1 bay", "two bays or more, with a tape between them");
  std::vector<Problem> problems = find_problems(asked);
  // A rig of defaults lacks much; only its taping matters here.
  std::erase_if(problems, [&](const Problem& p) {
    return !p.key.starts_with("spacing.at") && !p.key.starts_with(std::string("backup.") + amount.as.key);
  });
  if (!problems.empty()) throw InputError(std::move(problems));
  return places;
}

/// @throws InputError unless a spacing with this phrase puts the tapes where they are asked
void demand_phrase(Spacing spacing, const std::vector<double>& phrase, const Layout& layout,
                   const std::vector<double>& positions) {
  for (double spans : phrase) {
    const bool is_bay = spans >= 0.1 && std::isfinite(spans);
    if (!is_bay) throw InputError("phrase", fmt::format("{:g} arm spans", spans), "at least 0.1 arm spans");
  }
  double length = 0.0;
  for (double bay : layout.bays) length += bay;
  spacing.pattern = RepeatArmSpans{phrase};
  if (!near(lay_out_tapes(spacing, length).at, positions, kSamePlace)) {
    throw InputError("phrase", "a phrase that puts the tapes elsewhere", "the layout repeated from the near anchor",
                     "write the places of the tapes instead");
  }
}

/// @throws FileError unless the text reads as a rig taped so
void demand_taping(const RigText& rig, const std::string& file, const std::vector<double>& places, const Amount& amount,
                   const std::vector<double>& phrase) {
  demand_rig(rig.text(), file);
  const Spacing spacing = spacing_of(rig.document(), file);
  const auto* tapes = std::get_if<TapesAt>(&spacing.pattern);
  const auto* repeat = std::get_if<RepeatArmSpans>(&spacing.pattern);
  const bool placed = phrase.empty() ? tapes != nullptr && near(tapes->positions, places, kSamePlace)
                                     : repeat != nullptr && repeat->arm_spans == phrase;
  if (!placed) rig.refuse(rig.document().find("spacing")->place, "spacing", "the layout asked for");
  if (!near(amount_in(rig.document(), file, amount), amount.of_bay, amount.as.same)) {
    rig.refuse(rig.document().find("backup")->place, "backup", std::string("the ") + amount.as.key + " asked for");
  }
}

/// Writes one entry of [spacing] and one of [backup].
/// @param places  of the tapes [m], for which `spacing` stands
std::string with_written(RigText& rig, const std::string& file, const NewValue& spacing, const std::vector<double>& places,
                         const Amount& amount, const std::vector<double>& phrase) {
  const Value rest = rest_of(rig);
  rig.replace({"spacing"}, keys_like({"spacing"}, spacing.key), spacing);
  rig.replace({"backup"}, keys_like({"backup"}, amount.as.key), amount_of(amount));
  demand_taping(rig, file, places, amount, phrase);
  if (!reads_the_same(rest_of(rig), rest)) rig.refuse({}, "", "all else as it was");
  return rig.text();
}

}  // namespace

std::string with_layout_written(const std::string& text, const std::string& file_name, const Layout& layout,
                                const std::vector<double>& phrase) {
  const Amount slack{kSlack, layout.slack};
  const std::vector<double> places = places_asked(with_layout(rig_with_defaults(), layout), slack);
  demand_rig(text, file_name);
  RigText rig(text, file_name);
  if (!phrase.empty()) demand_phrase(spacing_of(rig.document(), file_name), phrase, layout, places);
  return with_written(rig, file_name, phrase.empty() ? tapes_of(places) : phrase_of(phrase), places, slack, phrase);
}

std::string with_taping_written(const std::string& text, const std::string& file_name, const Taping& taping) {
  const Amount length{kLoopLength, taping.loops};
  const std::vector<double> places = places_asked(rig_with(rig_with_defaults(), taping), length);
  demand_rig(text, file_name);
  RigText rig(text, file_name);
  return with_written(rig, file_name, tapes_of(places), places, length, {});
}

}  // namespace spanloom
