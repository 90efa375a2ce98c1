#include "sheet/sheet.h"

#include "sheet/catch_numbers.h"
#include "sheet/catch_pages.h"
#include "sheet/check_pages.h"
#include "sheet/front_page.h"
#include "sheet/shake_pages.h"
#include "sheet/tape_pages.h"
#include "sheet/work_pages.h"

namespace spanloom {

std::vector<std::string> draw_sheet(const Rig& rig, const Plan& plan, const std::vector<Check>& checks,
                                    const SheetInfo& info, const ShakeReport* shake, const CatchReport* falls) {
  const Falls told = falls == nullptr ? Falls::left_out : Falls::computed;
  PageStack pages(rig.title, info, cautions(told));
  add_front_page(pages, rig, plan, checks, falls == nullptr ? "" : falls_in_a_line(*falls, checks, info.units));
  add_tape_list(pages, rig, plan);
  add_lengths(pages, rig, plan);
  add_gear(pages, rig, plan);
  add_checks(pages, checks);
  if (shake != nullptr) add_shake(pages, *shake);
  if (falls != nullptr) add_catch(pages, rig, *falls, checks);
  add_cautions(pages, told);
  add_notes(pages, plan, checks);
  return pages.finish();
}

}  // namespace spanloom
