#include "record/day.h"

#include <fmt/format.h>

#include <ctime>

namespace spanloom {
namespace {

using namespace std::chrono;

constexpr int kFirstYear = 1900;

std::optional<int> digits(std::string_view text) {
  int number = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    number = 10 * number + (c - '0');
  }
  return number;
}

}  // namespace

std::optional<Day> parse_day(std::string_view text) {
  constexpr std::size_t kLength = std::string_view("YYYY-MM-DD").size();
  if (text.size() != kLength || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto y = digits(text.substr(0, 4)), m = digits(text.substr(5, 2)), d = digits(text.substr(8, 2));
  if (!y || !m || !d || *y < kFirstYear) return std::nullopt;
  const year_month_day date{year(*y), month(static_cast<unsigned>(*m)), day(static_cast<unsigned>(*d))};
  if (!date.ok()) return std::nullopt;
  return sys_days(date);
}

std::string day_text(Day at) {
  const year_month_day date(at);
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

Day local_today() {
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  localtime_r(&now, &local);
  return sys_days(year(local.tm_year + 1900) / (local.tm_mon + 1) / local.tm_mday);
}

std::string written_now() {
  const std::time_t now = std::time(nullptr);
  std::tm utc{};
  gmtime_r(&now, &utc);
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", utc.tm_year + 1900, utc.tm_mon + 1, utc.tm_mday,
                     utc.tm_hour, utc.tm_min, utc.tm_sec);
}

Day months_after(Day at, int months) {
  const year_month_day date(at);
  const year_month_day later = date + std::chrono::months(months);
  return later.ok() ? sys_days(later) : sys_days(later.year() / later.month() / last);
}

int days_from_to(Day from, Day to) { return static_cast<int>((to - from).count()) + 1; }

}  // namespace spanloom
