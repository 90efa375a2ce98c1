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

// For a first look, without what is unsure of the line: as if everything foretold were good to three in a hundred.
std::vector<TensionRow> loosened(std::vector<TensionRow> rows) {
  for (TensionRow& row : rows) row.sd = std::hypot(row.sd, 0.03 * row.read);
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
    std::optional<TensionFit> fit = locate(found.used);
    while (fit && leave_one_out(*fit, found)) fit = locate(found.used);
    if (!fit) return {std::nullopt, why_none()};
    if (fit->at_the_edge) return {std::nullopt, why_edge(*fit)};
    if (fit->other) {
      found.notes.push_back(fmt::format("{} would fit the readings nearly as well: read something else besides to tell the two "
                                        "apart.", force(*fit->other, units_)));
    }
    found.fit = std::move(*fit);
    by_method(found);
    return {std::move(found), {}};
  }

 private:
  std::optional<TensionFit> locate(const std::vector<char>& used) const {
    const std::optional<TensionFit> first = fit_tension(coarse_, loose_, used);
    if (!first) return std::nullopt;
    double middle = first->tension, half = std::clamp(3.0 * first->log_sd, 0.08, 0.4);
    std::vector<TensionRow> wanted;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      if (used[i]) wanted.push_back(rows_[i]);
    }
    constexpr int kMostMoves = 4;
    std::optional<TensionFit> fit;
    for (int moves = 0; moves < kMostMoves; ++moves) {
      const double from = std::max(middle * std::exp(-half), 0.8 * kLeast * planned_);
      const double to = std::min(middle * std::exp(half), 1.1 * kMost * planned_);
      const ForetoldTable table = foretell(hanger_, hanger_.rig(), wanted, sds_, from, to, kFine, Slopes::wanted);
      fit = fit_tension(table, wanted, std::vector<char>(wanted.size(), 1));
      if (!fit || !fit->at_the_edge) break;
      middle = std::clamp(fit->tension, kLeast * planned_, kMost * planned_);
    }
    if (!fit) return std::nullopt;
    if (!fit->other) fit->other = first->other;
    if (fit->other && std::abs(std::log(*fit->other / fit->tension)) < 3.0 * fit->log_sd) fit->other.reset();
    spread(*fit, used);
    return fit;
  }

  // From the rows that were used to all.
  void spread(TensionFit& fit, const std::vector<char>& used) const {
    std::vector<double> fitted(rows_.size(), 0.0), off(rows_.size(), 0.0);
    std::size_t k = 0;
    const std::optional<HungLine> hung = hanger_.hang(state_at(hanger_.rig(), fit.tension, sds_, fit.off));
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      if (used[i]) {
        fitted[i] = fit.fitted[k];
        off[i] = fit.off_others[k++];
      } else if (hung) {
        fitted[i] = foretold(*hung, rows_[i]).value_or(0.0);
        off[i] = (rows_[i].read - fitted[i]) / std::hypot(rows_[i].sd, fit.log_sd * fitted[i] * 0.5);
      }
    }
    fit.fitted = std::move(fitted);
    fit.off_others = std::move(off);
  }

  // Takes out the reading furthest off, if it is an outlier.
  bool leave_one_out(const TensionFit& fit, FoundTension& found) {
    const auto used = std::count(found.used.begin(), found.used.end(), char(1));
    std::size_t worst = rows_.size();
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      if (!found.used[i]) continue;
      if (worst == rows_.size() || std::abs(fit.off_others[i]) > std::abs(fit.off_others[worst])) worst = i;
    }
    if (worst == rows_.size() || std::abs(fit.off_others[worst]) <= kOutlier) return false;
    if (used < 3) return false;  // of two that contradict each other nobody can tell which is wrong
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
      const std::optional<TensionFit> alone = locate(its);
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
