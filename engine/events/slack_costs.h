// What more or less backup slack would change: the table of costs.
#pragma once

#include <functional>
#include <vector>

#include "events/catch_report.h"
#include "events/fall_search.h"

namespace spanloom {

/// The same line with the slack of every loop times a factor: as planned, but for the backup.
Rig with_slack(const Rig& rig, const Plan& plan, double factor);

/// The work of the table, cut into pieces that may be done in any order, on any threads.
class SlackCosts {
 public:
  /// @param falls  the rig's own worst main failures: computed again with every slack
  SlackCosts(const Rig& rig, const Plan& plan, std::vector<AskedFall> falls);

  SlackCosts(const SlackCosts&) = delete;   // the work points into this
  SlackCosts& operator=(const SlackCosts&) = delete;

  std::size_t pieces() const { return work_.size(); }
  void do_piece(std::size_t piece) { work_[piece](); }
  /// After all pieces: rising slack.
  std::vector<SlackCost> table() const;
  static std::size_t shakes();            ///< that each return is the mean of

 private:
  struct Row {
    Row(double times, std::size_t shakes) : factor(times), returned(shakes, -1.0) {}
    double factor;
    SlackCost cost;
    std::vector<double> returned;         // of each shake; below 0: not computed
  };
  void plan_row(Row& row);
  void fall_in_row(Row& row);
  void shake_in_row(Row& row, std::size_t shake);

  const Rig& rig_;
  const Plan& plan_;
  std::vector<AskedFall> falls_;
  std::vector<Row> rows_;
  std::vector<std::function<void()>> work_;
};

}  // namespace spanloom
