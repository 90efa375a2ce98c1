#include "files/csv.h"

namespace spanloom {
namespace {

template <class Row>
CsvRows<Row> rows_as(CsvRows<std::vector<double>> table) {
  CsvRows<Row> out;
  out.places = std::move(table.places);
  out.rows.reserve(table.rows.size());
  for (const std::vector<double>& row : table.rows) out.rows.push_back({row[0], row[1]});
  return out;
}

}  // namespace

CsvRows<CurvePoint> read_curve_csv(std::string_view text, const std::string& file,
                                   const std::string& key, Findings& findings) {
  const std::vector<CsvColumn> wanted = {{"tension", Quantity::force}, {"stretch", Quantity::share}};
  return rows_as<CurvePoint>(read_csv_table(text, wanted, {}, file, key, findings));
}

CsvRows<GroundPoint> read_ground_csv(std::string_view text, const std::string& file,
                                     const std::string& key, Findings& findings) {
  const std::vector<CsvColumn> wanted = {{"distance", Quantity::length}, {"height", Quantity::length}};
  return rows_as<GroundPoint>(read_csv_table(text, wanted, {}, file, key, findings));
}

}  // namespace spanloom
