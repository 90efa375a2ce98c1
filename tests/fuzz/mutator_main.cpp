// Drives a fuzz target with mutations of files: the same seed gives the same inputs.
//
//   fuzz_rig --seconds 20 --seed 1 [--keep FILE] CORPUS...
//
// With --keep every input is saved before it is tried, so that FILE holds the one that broke it.
#include <algorithm>
#include <array>
#include <chrono>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

constexpr double kSlowestInput = 10.0;  // a reader that takes longer hangs [s]

/// Words that readers are likely to trip over.
constexpr auto kNasty = std::to_array<std::string_view>(
    {"nan", "inf", "-inf", "1e999", "-1e999", "1e-999", "1e308 km", "-0", "0x1p3", "99999999999999999999",
     "\"0 m\"", "\"-1 m\"", "\"1e300 kN\"", "\"1e-300 %\"", "\"4.5\"", "4.5", "[]", "[[]]", "{}", "[[", "]]",
     "{a={a={a={}}}}", "a.b.c.d", "\"\"\"", "'''", "'", "\"", "\\", "\\u0000", "\\UFFFFFFFF", "#", ",", "=", "\n",
     "\r\n", "\t", "\xEF\xBB\xBF", "\xFF\xFE", "\xC3", "\xE2\x88\x92", "true", "1979-05-27T07:32:00Z", "_", ".",
     "[site]", "[webbing.x]", "[main]", "stretch", "stretch_csv", "ground.csv", "brook.csv", "segments", "ring",
     "points", "leash_webbing", "\"90 deg\"", "\"1e300 deg\""});

class Mutator {
 public:
  Mutator(std::vector<std::string> corpus, std::uint64_t seed) : corpus_(std::move(corpus)), random_(seed) {}

  /// Half of the inputs keep their syntax, so that what they mean is tried and not only how they look.
  std::string next() {
    std::string text = corpus_[below(corpus_.size())];
    const bool gentle = below(2) == 0;
    for (std::size_t i = 1 + below(6); i > 0; --i) {
      if (gentle) {
        mutate_value(text);
      } else {
        mutate(text);
      }
    }
    return text;
  }

 private:
  // std::uniform_int_distribution differs between libraries; this does not.
  std::size_t below(std::size_t n) { return n == 0 ? 0 : static_cast<std::size_t>(random_() % n); }

  void mutate(std::string& text) {
    const std::size_t at = below(text.size() + 1);
    switch (below(10)) {
      case 0: if (at < text.size()) text[at] = static_cast<char>(below(256)); break;
      case 1: text.insert(at, 1, static_cast<char>(below(256))); break;
      case 2: text.erase(at, 1 + below(12)); break;
      case 3: text.insert(at, kNasty[below(kNasty.size())]); break;
      case 4: replace_number(text, at); break;
      case 5: move_line(text); break;
      case 6: text.insert(at, text.substr(below(text.size() + 1), below(200))); break;
      case 7: splice(text, at); break;
      case 8: if (below(4) == 0) text.resize(at); break;
      default: repeat(text, at); break;
    }
  }

  void mutate_value(std::string& text) {
    const std::size_t at = below(text.size() + 1);
    switch (below(4)) {
      case 0: move_line(text); break;
      case 1: move_value(text, at); break;
      default: replace_digits(text, at); break;
    }
  }

  /// Writes another number in place of the next one.
  void replace_digits(std::string& text, std::size_t at) {
    constexpr auto kNumbers = std::to_array<std::string_view>(
        {"0", "-1", "1", "2", "17", "0.001", "1e-9", "1e9", "1e-300", "1e300", "99999", "0.5"});
    const std::size_t from = text.find_first_of("0123456789", at);
    if (from == text.npos) return;
    const std::size_t to = std::min(text.find_first_not_of("0123456789.", from), text.size());
    text.replace(from, to - from, kNumbers[below(kNumbers.size())]);
  }

  /// Writes the value of one key under another.
  void move_value(std::string& text, std::size_t at) {
    const auto value_after = [&text](std::size_t from) {
      const std::size_t start = std::min(text.find(" = ", from), text.size());
      return std::pair(start, std::min(text.find('\n', start), text.size()) - start);
    };
    const auto [from, size] = value_after(below(text.size() + 1));
    const std::string value = text.substr(from, size);
    const auto [to, old_size] = value_after(at);
    text.replace(to, old_size, value);
  }

  void replace_number(std::string& text, std::size_t at) {
    const std::size_t from = text.find_first_of("0123456789", at);
    if (from == text.npos) return;
    const std::size_t to = std::min(text.find_first_not_of("0123456789.", from), text.size());
    text.replace(from, to - from, kNasty[below(kNasty.size())]);
  }

  std::string take_line(std::string& text) {
    const std::size_t from = text.rfind('\n', below(text.size() + 1)) + 1;  // npos + 1: the first line
    const std::size_t to = std::min(text.find('\n', from), text.size());
    const std::string line = text.substr(from, to - from) + '\n';
    if (below(2) == 0) text.erase(from, to - from);
    return line;
  }

  void move_line(std::string& text) {
    const std::string line = take_line(text);
    const std::size_t end = text.find('\n', below(text.size() + 1));
    text.insert(end == text.npos ? text.size() : end + 1, line);
  }

  void splice(std::string& text, std::size_t at) {
    const std::string& other = corpus_[below(corpus_.size())];
    text = text.substr(0, at) + other.substr(std::min(other.size(), below(other.size() + 1)));
  }

  void repeat(std::string& text, std::size_t at) {
    const std::string part = text.substr(at, 1 + below(30));
    std::string many;
    for (std::size_t i = below(below(8) == 0 ? 3000 : 20); i > 0; --i) many += part;
    text.insert(at, many);
  }

  std::vector<std::string> corpus_;
  std::mt19937_64 random_;
};

struct Arguments {
  double seconds = 10.0;
  std::uint64_t seed = 1;
  std::string keep;
  std::vector<std::string> corpus;
};

std::string read(const char* path) {
  std::ifstream stream(path, std::ios::binary);
  if (!stream) {
    std::fprintf(stderr, "fuzz: cannot open %s\n", path);
    std::exit(2);
  }
  return {std::istreambuf_iterator<char>(stream), {}};
}

Arguments parse(int argc, char** argv) {
  Arguments out;
  for (int i = 1; i < argc; ++i) {
    const std::string_view word = argv[i];
    const bool option = word == "--seconds" || word == "--seed" || word == "--keep";
    if (!option) {
      out.corpus.push_back(read(argv[i]));
      continue;
    }
    if (++i == argc) break;
    if (word == "--seconds") out.seconds = std::strtod(argv[i], nullptr);
    if (word == "--seed") out.seed = std::strtoull(argv[i], nullptr, 10);
    if (word == "--keep") out.keep = argv[i];
  }
  if (out.corpus.empty()) {
    std::fprintf(stderr, "fuzz: name at least one file to start from\n");
    std::exit(2);
  }
  return out;
}

void run(const std::string& text) {
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(text.data()), text.size());
}

}  // namespace

int main(int argc, char** argv) {
  using Clock = std::chrono::steady_clock;
  const auto since = [](Clock::time_point start) {
    return std::chrono::duration<double>(Clock::now() - start).count();
  };
  const Arguments arguments = parse(argc, argv);
  for (const std::string& text : arguments.corpus) run(text);

  Mutator mutator(arguments.corpus, arguments.seed);
  const Clock::time_point start = Clock::now();
  unsigned long long inputs = 0;
  double slowest = 0.0;
  for (; since(start) < arguments.seconds; ++inputs) {
    const std::string text = mutator.next();
    if (!arguments.keep.empty()) std::ofstream(arguments.keep, std::ios::binary) << text;
    const Clock::time_point begin = Clock::now();
    run(text);
    slowest = std::max(slowest, since(begin));
    if (slowest > kSlowestInput) {
      std::fprintf(stderr, "fuzz: input %llu took %.1f s\n", inputs, slowest);
      return 1;
    }
  }
  std::printf("%llu inputs, seed %llu, slowest %.3f s\n", inputs,
              static_cast<unsigned long long>(arguments.seed), slowest);
  return 0;
}
