#include "progress.h"

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

void ProgressLine::show(std::size_t done, std::size_t all) {
  constexpr auto kEvery = std::chrono::milliseconds(150);
  const auto now = Clock::now();
  if (!terminal_ || now - shown_ < kEvery) return;
  shown_ = now;
  const std::string left = time_left(done, all, std::chrono::duration<double>(now - start_).count());
  const std::string line = fmt::format("{}{} {} of {}{}{}  (ctrl-C stops)", kClearLine, name_, done, all,
                                       left.empty() ? "" : ", ", left);
  std::fputs(line.c_str(), stderr);
  std::fflush(stderr);
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
