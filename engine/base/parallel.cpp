#include "base/parallel.h"

#include <atomic>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>
#include <vector>

namespace spanloom {

bool in_parallel(std::size_t count, unsigned threads, const std::function<void(std::size_t)>& work,
                 const std::function<bool(std::size_t)>& keep_on) {
  std::atomic<std::size_t> next{0};
  std::atomic<bool> stop{false};
  std::mutex telling;
  std::size_t done = 0;
  std::exception_ptr failure;
  const auto worker = [&] {
    for (std::size_t i = next++; i < count && !stop; i = next++) {
      try {
        work(i);
        const std::lock_guard<std::mutex> lock(telling);
        if (keep_on && !keep_on(++done)) stop = true;
      } catch (...) {
        const std::lock_guard<std::mutex> lock(telling);
        if (!failure) failure = std::current_exception();
        stop = true;
      }
    }
  };
  std::vector<std::thread> others;
  try {
    for (unsigned t = 1; t < threads && t < count; ++t) others.emplace_back(worker);
  } catch (const std::system_error&) {
    // No more threads to be had: those there are do the work.
  }
  worker();
  for (std::thread& other : others) other.join();
  if (failure) std::rethrow_exception(failure);
  return !stop;
}

}  // namespace spanloom
