// Days of the calendar as people and files write them: YYYY-MM-DD (ISO 8601-1:2019, 5.2.2.1, extended format).
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace spanloom {

using Day = std::chrono::sys_days;

/// A day that exists, four digits of year, from year 1900 on; empty for anything else.
std::optional<Day> parse_day(std::string_view text);

std::string day_text(Day day);

/// Today where this machine is.
Day local_today();

/// Now in universal time: "2026-05-01T17:03:20Z".
std::string written_now();

/// The same day of the month so many months later; the last day of a shorter month.
Day months_after(Day day, int months);

/// Days between two days, both counted; 1 for the same day.
int days_from_to(Day from, Day to);

}  // namespace spanloom
