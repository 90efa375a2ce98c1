#include "gauge/tension_search.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

namespace spanloom {
namespace {

constexpr double kLeast = 0.33, kMost = 2.2;      // of the planned tension
constexpr std::size_t kCoarse = 19, kFine = 8;   // tensions of a table

std::string force(double newton, UnitSystem units) { return quantity_text(newton, Measure::force, units); }

// For a first look, without what is unsure of the line: as if everything foretold were good to three in a hundred, pulses,
// which are guessed by a bare string, to eight.
std::vector<TensionRow> loosened(std::vector<TensionRow> rows) {
  for (TensionRow& row : rows) row.sd = std::hypot(row.sd, (row.method == GaugeMethod::pulse ? 0.08 : 0.03) * row.read);
  return rows;
}

class Search {
 public:
  Search(const LineHanger& hanger, const std::vector<TensionRow>& rows, const GaugePrior& prior, double planned, UnitSystem units)
      : hanger_(hanger), rows_(rows), loose_(loosened(rows)), sds_(prior_sds(prior)), planned_(planned), units_(units) {}

  TensionSearchOutcome run() {
    coarse_ = foretell(hanger_, hanger_.rig(), rows_, sds_, kLeast * planned_, kMost * planned_, kCoarse, Slopes::left_out);
    FoundTension found;
    found.used.assign(rows_.size(), 1);
    found.unsteady.assign(rows_.size(), 0);
    std::optional<TensionFit> fit = locate(found);
    const std::vector<char> all = found.used;
    while (fit && leave_one_out(*fit, found)) fit = locate(found);
    if (found.torn && found.used != all) {
      found.used = all;
      fit = locate(found);
    }
    if (!fit) return {std::nullopt, why_none()};
    if (fit->at_the_edge) return {std::nullopt, why_edge(*fit)};
    const double low = fit->tension * std::exp(-2.0 * fit->log_sd), high = fit->tension * std::exp(2.0 * fit->log_sd);
    if (std::string why = why_not_this_line(*fit, found.used); !why.empty()) return {std::nullopt, std::move(why)};
    if (low < kLeast * planned_ || high > kMost * planned_) return {std::nullopt, why_open(low, high)};
    if (fit->other) {
      found.notes.push_back(fmt::format("{} would fit the readings nearly as well: read something else besides to tell the two "
                                        "apart.", force(*fit->other, units_)));
    }
    found.fit = std::move(*fit);
    by_method(found);
    return {std::move(found), {}};
  }

 private:
  // The fit of the rows that are used; those that turn out unsteady are used no more.
  std::optional<TensionFit> locate(FoundTension& found) const {
    const std::optional<TensionFit> first = fit_tension(coarse_, loose_, found.used);
    if (!first) return std::nullopt;
    double middle = first->tension, half = std::clamp(3.0 * first->log_sd, 0.08, 0.4);
    constexpr int kMostMoves = 5;
    std::optional<TensionFit> fit;
    for (int moves = 0; moves < kMostMoves; ++moves) {
      const double from = std::max(middle * std::exp(-half), 0.8 * kLeast * planned_);
      const double to = std::min(middle * std::exp(half), 1.1 * kMost * planned_);
      const ForetoldTable table = foretell(hanger_, hanger_.rig(), rows_, sds_, from, to, kFine, Slopes::wanted, found.used);
      std::vector<char> steady = found.used;
      for (std::size_t i = 0; i < rows_.size(); ++i) steady[i] = char(steady[i] && is_steady(table, i));
      fit = fit_tension(table, rows_, steady);
      const bool narrow = fit && half <= std::max(0.08, 4.0 * fit->log_sd);
      const bool last = moves + 1 == kMostMoves;
      if (fit && (last || (narrow && !fit->at_the_edge))) {
        for (std::size_t i = 0; i < rows_.size(); ++i) found.unsteady[i] = char(found.unsteady[i] || (found.used[i] && !steady[i]));
        found.used = steady;
        break;
      }
      // Over a wide stretch of tensions a reading may be lost that is steady close by.
      if (fit) middle = std::clamp(fit->tension, kLeast * planned_, kMost * planned_);
      if (!fit || !fit->at_the_edge) half = std::max(0.08, 0.5 * half);
    }
    if (!fit) return std::nullopt;
    if (!fit->other) fit->other = first->other;
    if (fit->other && std::abs(std::log(*fit->other / fit->tension)) < 3.0 * fit->log_sd) fit->other.reset();
    tell_the_unused(*fit, found.used);
    return fit;
  }

  bool is_steady(const ForetoldTable& table, std::size_t row) const {
    const auto& value = table.value[row];
    const bool by_root = rows_[row].method == GaugeMethod::pulse || rows_[row].method == GaugeMethod::frequency;
    const double step = table.log_tension[1] - table.log_tension[0];
    for (std::size_t k = 0; k < value.size(); ++k) {
      if (!value[k]) return false;
      if (k == 0 || !by_root) continue;
      if (std::abs(std::log(*value[k] / *value[k - 1]) + 0.5 * step) > kSteady) return false;
    }
    return true;
  }

  // What the line found foretells for rows that were not used, and how far they are off.
  void tell_the_unused(TensionFit& fit, const std::vector<char>& used) const {
    const std::optional<HungLine> hung = hanger_.hang(state_at(hanger_.rig(), fit.tension, sds_, fit.off));
    for (std::size_t i = 0; hung && i < rows_.size(); ++i) {
      if (used[i]) continue;
      fit.fitted[i] = foretold(*hung, rows_[i]);
      if (fit.fitted[i]) fit.off_others[i] = (rows_[i].read - *fit.fitted[i]) / std::hypot(rows_[i].sd, fit.log_sd * *fit.fitted[i] * 0.5);
    }
  }

  // Takes out the reading furthest off, if it is an outlier and most are left without it.
  bool leave_one_out(const TensionFit& fit, FoundTension& found) {
    const auto used = std::count(found.used.begin(), found.used.end(), char(1));
    const auto steady = std::count(found.unsteady.begin(), found.unsteady.end(), char(0));
    if (used < 2) return false;
    std::size_t worst = rows_.size();
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      if (!found.used[i]) continue;
      if (worst == rows_.size() || std::abs(fit.off_others[i]) > std::abs(fit.off_others[worst])) worst = i;
    }
    if (worst == rows_.size() || std::abs(fit.off_others[worst]) <= kOutlier) return false;
    found.torn = 2 * (used - 1) <= steady;
    if (found.torn) return false;
    found.used[worst] = 0;
    return true;
  }

  void by_method(FoundTension& found) const {
    for (const GaugeMethod method : {GaugeMethod::pulse, GaugeMethod::sag, GaugeMethod::frequency, GaugeMethod::marks,
                                     GaugeMethod::spectrum}) {
      std::vector<char> its = found.used;
      for (std::size_t i = 0; i < rows_.size(); ++i) its[i] = char(its[i] && rows_[i].method == method);
      const auto count = std::count(its.begin(), its.end(), char(1));
      if (count == 0) continue;
      if (count == std::count(found.used.begin(), found.used.end(), char(1))) {
        found.by.push_back({method, found.fit.tension, found.fit.sd});
        continue;
      }
      FoundTension only;
      only.used = its;
      only.unsteady.assign(rows_.size(), 0);
      const std::optional<TensionFit> alone = locate(only);
      if (alone && !alone->at_the_edge) {
        found.by.push_back({method, alone->tension, alone->sd});
      } else {
        found.notes.push_back(fmt::format("By {} alone no tension was found; it counts with the others.", name_of(method)));
      }
    }
  }

  std::string why_none() const {
    return "nothing that was read can be foretold for this line: a blow whose return is lost among the loops, or swings that no "
           "natural mode carries. Read something else, or strike elsewhere.";
  }
  std::string why_edge(const TensionFit& fit) const {
    return fmt::format("no tension between {} and {} explains the readings; they pull towards {}. Check the readings and what the "
                       "file says of gap, mass and stretch.", force(kLeast * planned_, units_), force(kMost * planned_, units_),
                       force(fit.tension, units_));
  }

  // A best line that misses its one reading, or that is no more the line of the file, is none.
  std::string why_not_this_line(const TensionFit& fit, const std::vector<char>& used) const {
    constexpr double kMissed = 3.0, kStrange = 4.0;  // standard deviations. Our choice
    const bool alone = std::count(used.begin(), used.end(), char(1)) == 1;
    for (std::size_t i = 0; alone && i < rows_.size(); ++i) {
      if (!used[i] || !fit.fitted[i] || std::abs(rows_[i].read - *fit.fitted[i]) <= kMissed * rows_[i].sd) continue;
      return fmt::format("{}: {:.3g} {} was read, and the nearest that this line can give is {:.3g} {}: a miscount, a wrong watch, or "
                         "another line than the file's.", rows_[i].words, rows_[i].read, rows_[i].unit, *fit.fitted[i], rows_[i].unit);
    }
    const char* what[] = {"the webbing's mass", "the webbing's stretch", "the gap"};
    for (std::size_t u = 0; u < 3; ++u) {
      if (std::abs(fit.off[u]) <= kStrange) continue;
      return fmt::format("the readings fit no line like the file's: {} would have to be {:.0f} times as far from it as it is uncertain. "
                         "Check the readings, and what the file says.", what[u], std::abs(fit.off[u]));
    }
    return "";
  }
  std::string why_open(double low, double high) const {
    return fmt::format("the readings leave the tension open from {} to {}: that is to know nothing. Read again more exactly, or "
                       "something else besides.", force(std::max(low, 0.0), units_),
                       high < 10.0 * planned_ ? force(high, units_) : "any tension there is");
  }

  const LineHanger& hanger_;
  const std::vector<TensionRow>& rows_;
  std::vector<TensionRow> loose_;
  Unsure sds_;
  double planned_;
  UnitSystem units_;
  ForetoldTable coarse_;
};

}  // namespace

const char* name_of(GaugeMethod method) {
  switch (method) {
    case GaugeMethod::pulse: return "pulse";
    case GaugeMethod::sag: return "sag";
    case GaugeMethod::frequency: return "frequency";
    case GaugeMethod::marks: return "marks";
    case GaugeMethod::spectrum: return "spectrum";
  }
  return "";
}

TensionSearchOutcome find_tension(const LineHanger& hanger, const std::vector<TensionRow>& rows, const GaugePrior& prior,
                                  double planned, UnitSystem units) {
  return Search(hanger, rows, prior, planned, units).run();
}

}  // namespace spanloom
