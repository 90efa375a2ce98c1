// Long work on a terminal: how far it is, and ctrl-C that stops it cleanly.
#pragma once

#include <chrono>
#include <cstddef>
#include <string>

namespace spanloom {

/// One line on stderr that is rewritten, if stderr is a terminal; nothing otherwise.
class ProgressLine {
 public:
  explicit ProgressLine(std::string name);
  ~ProgressLine();
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;
  void show(std::size_t done, std::size_t all);
  /// @param done  share of the work [-]  @param words  what is going on and what was found so far
  void show(double done, const std::string& words);

 private:
  using Clock = std::chrono::steady_clock;
  bool is_time();
  void put(const std::string& words, const std::string& left) const;
  double elapsed() const;
  std::string name_;
  bool terminal_;
  Clock::time_point start_ = Clock::now(), shown_{};
};

/// "about 20 s left": what is left if the rest goes as fast as what was done. @param elapsed [s]
std::string time_left(std::size_t done, std::size_t all, double elapsed);

/// While it lives, ctrl-C is taken note of. A second one ends the program at once, as ever.
class StopOnInterrupt {
 public:
  StopOnInterrupt();
  ~StopOnInterrupt();
  StopOnInterrupt(const StopOnInterrupt&) = delete;
  StopOnInterrupt& operator=(const StopOnInterrupt&) = delete;
  bool asked() const;
};

}  // namespace spanloom
