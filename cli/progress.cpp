#include "progress.h"

#include <algorithm>
#include <csignal>
#include <cstdio>
#include <unistd.h>
#include <utility>

#include <fmt/format.h>

namespace spanloom {
namespace {

// A signal handler can reach nothing else.
volatile std::sig_atomic_t g_interrupted = 0;

extern "C" void note_interrupt(int) { g_interrupted = 1; }

constexpr const char* kClearLine = "\r\033[K";

}  // namespace

std::string time_left(std::size_t done, std::size_t all, double elapsed) {
  constexpr double kTooEarly = 1.0;  // [s]
  if (done == 0 || done >= all || elapsed < kTooEarly) return "";
  const double left = elapsed / static_cast<double>(done) * static_cast<double>(all - done);
  if (left < 90.0) return fmt::format("about {:.0f} s left", left < 1.0 ? 1.0 : left);
  return fmt::format("about {:.0f} min left", left / 60.0);
}

ProgressLine::ProgressLine(std::string name) : name_(std::move(name)), terminal_(isatty(STDERR_FILENO) == 1) {}

ProgressLine::~ProgressLine() {
  if (terminal_) std::fputs(kClearLine, stderr);
}

bool ProgressLine::is_time() {
  constexpr auto kEvery = std::chrono::milliseconds(150);
  const auto now = Clock::now();
  if (!terminal_ || now - shown_ < kEvery) return false;
  shown_ = now;
  return true;
}

double ProgressLine::elapsed() const { return std::chrono::duration<double>(Clock::now() - start_).count(); }

void ProgressLine::put(const std::string& words, const std::string& left) const {
  const std::string line = fmt::format("{}{} {}{}{}  (ctrl-C stops)", kClearLine, name_, words, left.empty() ? "" : ", ", left);
  std::fputs(line.c_str(), stderr);
  std::fflush(stderr);
}

void ProgressLine::show(std::size_t done, std::size_t all) {
  if (is_time()) put(fmt::format("{} of {}", done, all), time_left(done, all, elapsed()));
}

void ProgressLine::show(double done, const std::string& words) {
  constexpr std::size_t kParts = 1000;
  const auto parts = static_cast<std::size_t>(std::clamp(done, 0.0, 1.0) * double(kParts));
  if (is_time()) put(fmt::format("{:.0f} %, {}", 100.0 * done, words), time_left(parts, kParts, elapsed()));
}

StopOnInterrupt::StopOnInterrupt() {
  g_interrupted = 0;
  struct sigaction action {};
  action.sa_handler = note_interrupt;
  action.sa_flags = static_cast<int>(SA_RESETHAND | SA_RESTART);
  sigaction(SIGINT, &action, nullptr);
}

StopOnInterrupt::~StopOnInterrupt() { std::signal(SIGINT, SIG_DFL); }

bool StopOnInterrupt::asked() const { return g_interrupted != 0; }

}  // namespace spanloom
