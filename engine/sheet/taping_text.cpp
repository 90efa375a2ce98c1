#include "sheet/taping_text.h"

#include <fmt/format.h>

#include "checks/verdicts.h"
#include "sheet/text_table.h"
#include "spacing/space_words.h"

namespace spanloom {
namespace {

constexpr std::size_t kFewCrews = 3;

std::string of_crews(const ReturnAsTaped& taped) {
  if (taped.samples == 0) return "no line of any crew gave a number.";
  std::string words;
  if (taped.taut > 0) {
    words = fmt::format("{} of {} lines gave no number: a loop was pulled taut, or no rest was found. ", taped.taut, taped.taut + taped.samples);
  }
  if (taped.samples < kFewCrews) return words + "Too few lines are left for a mean.";
  return words + fmt::format("{} in the mean, +-{} from crew to crew, {}.", percent(taped.mean), percent(taped.spread), worst_crew(taped));
}

}  // namespace

std::string taping_text(const Rig& rig, const Plan& plan, const TapingErrors& errors, const TapingStudy& study,
                        const std::vector<BayTouch>& touch, const SheetInfo& info) {
  PlainText text;
  text.add_words(rig.title);
  text.add_line(std::string(kTextColumns, '='));
  text.add_words(fmt::format("Taping: {}, {}, spanloom {}", info.file_name, info.date, info.version));
  text.add_words(cautions().front());
  if (study.stopped) {
    text.add_line("");
    text.add_words("STOPPED BEFORE THE END: of fewer crews than asked.");
  }
  text.add_heading(fmt::format("What comes back, as {} crews tape it", study.crews.size()));
  text.add_labelled("full-size shakes", of_crews(study.glanced()), 18);
  text.add_labelled("tiny swings", of_crews(study.small()), 18);
  text.add_words(fmt::format("Each crew: {}, drawn evenly, the arm span the same all along. Full-size: first swing of {}, 1.25 to 4 Hz, "
                             "sideways.", in_words(errors), quantity_text(rig.shake.swing.value, Measure::small_length, info.units)));
  text.add_heading("What 10 mm of backup more do in each bay");
  if (touch.empty()) {
    text.add_words("Not known: 10 mm less pull a loop taut, or the line finds no rest.");
  } else {
    const std::string small = unit_text(Measure::small_length, info.units);
    TextTable table({"bay", "drop " + small, "now " + small, "ankle margin " + small, "now " + small, "tiny swings, points"});
    for (std::size_t k = 0; k < touch.size() && k < plan.bays.size(); ++k) {
      table.add({fmt::format("{}", k + 1), signed_text(touch[k].drop, Measure::small_length, info.units),
                 number_text(plan.bays[k].drop, Measure::small_length, info.units),
                 signed_text(touch[k].ankle_margin, Measure::small_length, info.units),
                 number_text(plan.bays[k].ankle_margin, Measure::small_length, info.units), fmt::format("{:+.1f}", 100.0 * touch[k].returned)});
    }
    text.add_table(table);
    text.add_words("10 mm less do the opposite. Points: percent of the swing that come back more.");
  }
  text.add_list("Cautions", cautions());
  return text.text();
}

}  // namespace spanloom
