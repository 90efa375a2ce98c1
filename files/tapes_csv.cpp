#include "files/tapes_csv.h"

#include <fmt/format.h>

#include "sheet/work_list.h"

namespace spanloom {

std::string tapes_csv(const Rig& rig, const Plan& plan) {
  constexpr double kMillimetres = 1e3;
  std::string out =
      "tape,running length [m],running length [arm spans],main piece [m],backup piece [m],"
      "extra backup [mm],drop standing [mm],left over,close\n";
  for (const TapeRow& row : tape_rows(rig, plan)) {
    out += fmt::format("{},{:.3f},{:.3f},{:.3f},{:.3f},{:.1f},{:.1f},{},{}\n",
                       row.far_end ? "far" : std::to_string(row.bay), row.running, row.running_arm_spans,
                       row.main_piece, row.backup_piece, kMillimetres * row.extra_backup,
                       kMillimetres * row.drop, row.leftover ? "yes" : "no", row.close ? "yes" : "no");
  }
  return out;
}

}  // namespace spanloom
