// What the fuzz targets demand of every outcome.
#pragma once

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string_view>
#include <vector>

#include "files/file_error.h"

namespace spanloom::fuzz {

inline void demand(bool holds, const char* what) {
  if (holds) return;
  std::fprintf(stderr, "fuzz: broken promise: %s\n", what);
  std::abort();
}

inline void demand_finite(double value, const char* what) { demand(std::isfinite(value), what); }

/// Every problem says what was expected, at a place that exists.
inline void demand_located(const std::vector<FileProblem>& problems) {
  demand(!problems.empty(), "an error names at least one problem");
  for (const FileProblem& p : problems) {
    demand(p.place.line >= 1 && p.place.column >= 1, "a problem has a line and a column");
    demand(!p.file.empty() && !p.problem.read.empty() && !p.problem.expected.empty(),
           "a problem names its file, what was read and what was expected");
    const std::string text = to_text(p);
    for (const char c : text) demand(static_cast<unsigned char>(c) >= 0x20, "a problem is one printable line");
  }
}

}  // namespace spanloom::fuzz
