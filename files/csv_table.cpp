#include "files/csv_table.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "base/utf8.h"
#include "files/suggest.h"
#include "files/units.h"

namespace spanloom {
namespace {

struct Cell {
  std::string_view text;  // trimmed
  Place place;            // of its first character
};

std::vector<Cell> cells_of(std::string_view line, int number) {
  std::vector<Cell> cells;
  int column = 1;
  for (std::size_t start = 0; start <= line.size();) {
    const std::size_t end = std::min(line.find(',', start), line.size());
    const std::string_view whole = line.substr(start, end - start);
    const std::size_t blank = std::min(whole.find_first_not_of(" \t"), whole.size());
    std::string_view text = whole.substr(blank);
    text = text.substr(0, text.find_last_not_of(" \t") + 1);  // npos + 1 is 0: nothing is left
    cells.push_back({text, {number, column + static_cast<int>(blank)}});
    column += static_cast<int>(utf8_length(whole)) + 1;
    start = end + 1;
  }
  return cells;
}

/// One pass over a CSV file.
class Reader {
 public:
  Reader(const std::vector<CsvColumn>& wanted, const CsvLimits& limits, const std::string& file, const std::string& key,
         Findings& findings)
      : wanted_(wanted), limits_(limits), file_(file), key_(key), findings_(findings), index_(wanted.size()),
        factor_(wanted.size(), 1.0) {}

  CsvRows<std::vector<double>> read(std::string_view text) {
    text = without_byte_order_mark(text);
    if (text.size() > limits_.bytes) {
      complain({}, std::to_string(text.size()) + " bytes",
               "a CSV file of at most " + std::to_string(limits_.bytes / 1'000'000) + " MB", "");
      return {};
    }
    int number = 0;
    for (std::size_t start = 0; start < text.size() && !given_up_;) {
      const std::size_t end = std::min(text.find('\n', start), text.size());
      std::string_view line = text.substr(start, end - start);
      if (line.ends_with('\r')) line.remove_suffix(1);
      start = end + 1;
      take_line(line, ++number);
    }
    if (!header_seen_) complain({}, "no header", header_example(), "name the columns in the first line");
    return std::move(table_);
  }

 private:
  void complain(Place place, std::string read, std::string expected, std::string cure) {
    findings_.add(file_, place, {key_, std::move(read), std::move(expected), std::move(cure)});
  }

  std::string header_example() const {
    std::string names;
    for (const CsvColumn& c : wanted_) {
      const std::string units = units_of(c.quantity);
      if (!names.empty()) names += ',';
      names += c.name + " [" + units.substr(0, units.find_first_of(", ")) + ']';
    }
    return "the header \"" + names + '"';
  }

  void take_line(std::string_view line, int number) {
    const std::size_t first = line.find_first_not_of(" \t");
    if (first == line.npos || line[first] == '#') return;
    const std::vector<Cell> cells = cells_of(line, number);
    if (header_seen_) return take_row(cells);
    header_seen_ = true;
    given_up_ = !take_header(cells);
  }

  /// @return false if the rows cannot be read by this header
  bool take_header(const std::vector<Cell>& cells) {
    if (cells.size() == 1 && cells[0].text.find_first_of(";\t") != std::string_view::npos) {
      complain(cells[0].place, in_quotes(cells[0].text), header_example(),
               "separate the columns with commas and write decimals with a point");
      return false;
    }
    bool good = true;
    for (std::size_t i = 0; i < cells.size(); ++i) good &= take_column(cells[i], i);
    for (std::size_t k = 0; k < wanted_.size() && good; ++k) {
      if (index_[k] || wanted_[k].may_be_absent) continue;
      complain(cells[0].place, "no column \"" + wanted_[k].name + '"', header_example(), "");
      good = false;
    }
    columns_ = cells.size();
    return good;
  }

  bool take_column(const Cell& cell, std::size_t index) {
    const std::size_t open = std::min(cell.text.find('['), cell.text.size());
    std::string_view name = cell.text.substr(0, open);
    name = name.substr(0, name.find_last_not_of(" \t") + 1);
    for (std::size_t k = 0; k < wanted_.size(); ++k) {
      if (name != wanted_[k].name) continue;
      if (index_[k]) {
        complain(cell.place, in_quotes(cell.text), "each column once", "take one of the two out");
        return false;
      }
      index_[k] = index;
      return take_unit(cell, open, k);
    }
    std::vector<std::string> names;
    for (const CsvColumn& c : wanted_) names.push_back(c.name);
    const std::string nearest = nearest_word(name, names);
    complain(cell.place, in_quotes(cell.text), header_example(),
             nearest.empty() ? "" : "did you mean \"" + nearest + "\"?");
    return false;
  }

  bool take_unit(const Cell& cell, std::size_t open, std::size_t k) {
    const bool bracketed = open < cell.text.size() && cell.text.ends_with(']');
    const std::string_view unit =
        bracketed ? cell.text.substr(open + 1, cell.text.size() - open - 2) : std::string_view{};
    const std::optional<double> factor = unit_factor(unit, wanted_[k].quantity);
    if (factor) factor_[k] = *factor;
    if (!factor) {
      complain(cell.place, in_quotes(cell.text),
               '"' + wanted_[k].name + "\" with its unit in brackets: " + units_of(wanted_[k].quantity),
               "for example " + header_example());
    }
    return factor.has_value();
  }

  void take_row(const std::vector<Cell>& cells) {
    if (table_.rows.size() == limits_.rows) {
      complain(cells[0].place, "one row more", "at most " + std::to_string(limits_.rows) + " rows",
               "thin the table out");
      given_up_ = true;
      return;
    }
    if (cells.size() != columns_) {
      complain(cells[0].place, std::to_string(cells.size()) + " cells",
               std::to_string(columns_) + " cells, as in the header",
               cells.size() > columns_ ? "write decimals with a point" : "");
      return;
    }
    std::vector<double> row(wanted_.size(), 0.0);
    for (std::size_t k = 0; k < row.size(); ++k) {
      if (index_[k]) row[k] = number_in(cells[*index_[k]], k);
    }
    table_.rows.push_back(std::move(row));
    table_.places.push_back(cells[0].place);
  }

  double number_in(const Cell& cell, std::size_t k) {
    const std::optional<double> number = parse_number(cell.text);
    const double value = number.value_or(0.0) * factor_[k];
    if (number && std::isfinite(value)) return value;
    complain(cell.place, in_quotes(cell.text), "a plain number for \"" + wanted_[k].name + '"',
             "the unit stands in the header only");
    return 0.0;
  }

  const std::vector<CsvColumn>& wanted_;
  const CsvLimits& limits_;
  const std::string& file_;
  const std::string& key_;
  Findings& findings_;
  CsvRows<std::vector<double>> table_;
  std::vector<std::optional<std::size_t>> index_;  // of each wanted column in the file
  std::vector<double> factor_;                     // to SI
  std::size_t columns_ = 0;                        // in the header
  bool header_seen_ = false;
  bool given_up_ = false;
};

}  // namespace

CsvRows<std::vector<double>> read_csv_table(std::string_view text, const std::vector<CsvColumn>& wanted,
                                            const CsvLimits& limits, const std::string& file, const std::string& key,
                                            Findings& findings) {
  return Reader(wanted, limits, file, key, findings).read(text);
}

}  // namespace spanloom
