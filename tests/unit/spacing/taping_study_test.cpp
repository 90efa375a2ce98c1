// Many crews tape one layout: cut in parts, on any threads, and without errors.
#include "spacing/taping_study.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "base/input_error.h"
#include "support/planned.h"
#include "support/short_rig.h"

namespace spanloom {
namespace {

struct Studied {
  Planned line = planned(short_rig());
  MovedJudge moved{line.rig};
  Layout layout = layout_of(line.plan);

  TapingStudy study(const TapingStudyOptions& options) const {
    std::optional<TapingStudy> study = study_taping(line.rig, line.plan, moved, layout, options);
    EXPECT_TRUE(study);
    return study ? *study : TapingStudy{};
  }
};

TapingStudyOptions of_crews(std::size_t crews, Part part = {}, unsigned threads = 1) {
  TapingStudyOptions options;
  options.crews = crews;
  options.part = part;
  options.threads = threads;
  return options;
}

void expect_same(const CrewReturn& a, const CrewReturn& b) {
  EXPECT_EQ(a.crew, b.crew);
  EXPECT_EQ(a.small, b.small);
  EXPECT_EQ(a.glanced, b.glanced);
}

TEST(TapingStudy, CutInPartsAndJoinedIsTheWholeOnAnyThreads) {
  const Studied on;
  const TapingStudy whole = on.study(of_crews(5));
  TapingStudy joined;
  for (const std::size_t number : {3u, 1u, 2u}) {
    const TapingStudy part = on.study(of_crews(5, {number, 3}, 3));
    joined.crews.insert(joined.crews.end(), part.crews.begin(), part.crews.end());
  }
  std::sort(joined.crews.begin(), joined.crews.end(), [](const CrewReturn& a, const CrewReturn& b) { return a.crew < b.crew; });
  ASSERT_EQ(whole.crews.size(), 5u);
  ASSERT_EQ(joined.crews.size(), 5u);
  for (std::size_t i = 0; i < 5; ++i) expect_same(joined.crews[i], whole.crews[i]);
  EXPECT_EQ(joined.small().mean, whole.small().mean);
  EXPECT_EQ(joined.glanced().p95, whole.glanced().p95);
}

TEST(TapingStudy, DrawsACrewTheSameHoweverManyThereAre) {
  const Studied on;
  const TapingStudy few = on.study(of_crews(2)), more = on.study(of_crews(4));
  ASSERT_EQ(more.crews.size(), 4u);
  for (std::size_t i = 0; i < 2; ++i) expect_same(few.crews[i], more.crews[i]);
  EXPECT_NE(more.crews[2].small, more.crews[3].small);
}

TEST(TapingStudy, WithoutErrorsGivesThePlannedReturn) {
  const Studied on;
  TapingStudyOptions options = of_crews(2);
  options.errors = {0.0, 0.0};
  const TapingStudy study = on.study(options);
  const double small = LayoutJudge(on.line.rig, on.line.plan).judge(on.layout)->return_mean;
  const auto line = on.moved.line(on.layout);
  ASSERT_TRUE(line);
  const double glanced = on.moved.shake(*line, ShakeSet::fast).mean;
  for (const CrewReturn& crew : study.crews) {
    ASSERT_TRUE(crew.small && crew.glanced);
    EXPECT_NEAR(*crew.small, small, 1e-3);
    EXPECT_NEAR(*crew.glanced, glanced, 0.03);  // loops snap: a hair of length is another draw
  }
}

TEST(TapingStudy, StopsWhenAskedAndGivesTheCrewsThatAreDone) {
  const Studied on;
  TapingStudyOptions options = of_crews(4);
  options.progress = [](double done) { return done < 0.5; };
  const TapingStudy study = on.study(options);
  EXPECT_TRUE(study.stopped);
  ASSERT_EQ(study.crews.size(), 2u);
  for (const CrewReturn& crew : study.crews) EXPECT_TRUE(crew.small || !crew.glanced);
  EXPECT_TRUE(study.crews[0].small);
}

TEST(TapingStudy, HasNoAnswerForALayoutThatDoesNotStandAndRefusesPartsThatAreNone) {
  const Studied on;
  // Loops shorter than their bays by a tenth carry more than the main is pulled with.
  Layout taut = on.layout;
  for (double& slack : taut.slack) slack = -0.1;
  EXPECT_FALSE(study_taping(on.line.rig, on.line.plan, on.moved, taut, of_crews(2)));
  EXPECT_THROW((void)study_taping(on.line.rig, on.line.plan, on.moved, on.layout, of_crews(2, {3, 2})), InputError);
}

}  // namespace
}  // namespace spanloom
