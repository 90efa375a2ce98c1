// Contenders timed in turns on one core, so that a machine that drifts drifts for all; by the clock, and by the
// processor time they were given, which a busy machine disturbs less.
#pragma once

#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <vector>

namespace spanloom::bench {

struct Taken { std::vector<double> clock, processor; };  // [s], one a round

inline double processor_time(int who) {
  rusage used{};
  getrusage(who, &used);
  const auto seconds = [](const timeval& t) { return double(t.tv_sec) + 1e-6 * double(t.tv_usec); };
  return seconds(used.ru_utime) + seconds(used.ru_stime);
}

/// Times `repeats` runs of a job and notes the mean of them. @param who  RUSAGE_SELF or RUSAGE_CHILDREN
template <class Job>
void note(Taken& taken, int who, int repeats, Job job) {
  const auto begin = std::chrono::steady_clock::now();
  const double used = processor_time(who);
  for (int i = 0; i < repeats; ++i) job();
  taken.processor.push_back((processor_time(who) - used) / repeats);
  taken.clock.push_back(std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count() / repeats);
}

inline double median(std::vector<double> all) {
  std::nth_element(all.begin(), all.begin() + std::ptrdiff_t(all.size() / 2), all.end());
  return all[all.size() / 2];
}

}  // namespace spanloom::bench
