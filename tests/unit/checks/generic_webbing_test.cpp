#include "checks/generic_webbing.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "checks/check_catch.h"
#include "support/catch_sample.h"
#include "support/judged.h"
#include "support/plain_rig.h"

namespace spanloom {
namespace {

bool names(const Check& check, const std::string& webbing) {
  return std::count(check.assumed.begin(), check.assumed.end(), "webbing " + webbing + " is generic handbook data") == 1;
}

TEST(GenericWebbing, HoldsBackEveryCheckThatRestsOnIt) {
  Rig rig = plain_rig();
  Webbing& webbing = rig.webbings[rig.main.run.segments[0].webbing];
  const Plan plan = plan_of(rig);
  for (const Check& check : judge(rig, plan)) EXPECT_FALSE(names(check, webbing.name)) << check.name;
  webbing.generic = true;
  for (const Check& check : judge(rig, plan)) {
    if (check.name == "spacing") {
      EXPECT_TRUE(check.assumed.empty());
      continue;
    }
    EXPECT_TRUE(names(check, webbing.name)) << check.name;
    EXPECT_NE(check.verdict, Verdict::ok) << check.name;
  }
}

TEST(GenericWebbing, CountsOnlyWhereItIsRigged) {
  Rig rig = plain_rig();
  Webbing spare = rig.webbings[0];
  spare.name = "spare";
  spare.generic = true;
  rig.webbings.push_back(spare);
  for (const Check& check : judge(rig, plan_of(rig))) EXPECT_TRUE(check.assumed.empty()) << check.name;
  // As a leash it pulls in a fall alone.
  Rig caught = fixture::catch_rig();
  caught.webbings.push_back(spare);
  caught.walker.leash_webbing = caught.webbings.size() - 1;
  for (const Check& check : judge_catch(caught, fixture::catch_sample())) {
    EXPECT_EQ(names(check, "spare"), check.name != "catch_search") << check.name;
  }
}

}  // namespace
}  // namespace spanloom
