#include "record/record_json.h"

#include "files/json_values.h"
#include "record/check_entry.h"

namespace spanloom {
namespace {

enum class Files { left_out, whole };

/// The members that each kind of entry adds.
class DetailJson {
 public:
  DetailJson(Json& out, Files files) : out_(out), files_(files) {}

  void operator()(const LoggedWebbing& w) const {
    out_["name"] = w.name;
    out_["webbing_kind"] = w.kind;
    out_["length_m"] = optional(w.length);
    out_["strength_N"] = optional(w.strength);
    out_["new_on"] = w.new_on ? Json(day_text(*w.new_on)) : Json(nullptr);
  }
  void operator()(const LoggedRig& r) const {
    out_["title"] = r.title;
    out_["place"] = r.place;
    out_["gap_m"] = finite(r.gap);
    out_["tension_near_N"] = finite(r.tension_near);
    out_["tension_far_N"] = finite(r.tension_far);
    out_["walker_tension_max_N"] = finite(r.walker_tension_max);
    if (files_ == Files::left_out) return;
    out_["file_text"] = r.text;
    out_["side_files"] = Json::array();
    for (const LoggedFile& side : r.side_files)
      out_["side_files"].push_back({{"name", side.name}, {"file_text", side.text}});
  }
  void operator()(const TimeHung& h) const {
    out_["from"] = h.range ? Json(day_text(h.range->from)) : Json(nullptr);
    out_["to"] = h.range ? Json(day_text(h.range->to)) : Json(nullptr);
    out_["days"] = h.days;
    out_["sun_s"] = finite(h.sun);
    out_["wet_days"] = h.wet_days;
    out_["tension_N"] = optional(h.tension);
  }
  void operator()(const LoggedEvent& e) const {
    out_["what"] = name_of(e.what);
    out_["force_N"] = optional(e.force);
  }
  void operator()(const Measured& m) const {
    out_["tension_N"] = finite(m.tension);
    out_["tension_sd_N"] = finite(m.tension_sd);
    out_["by"] = Json::array();
    for (const GaugedBy& by : m.by)
      out_["by"].push_back({{"method", by.method}, {"tension_N", finite(by.tension)}, {"sd_N", finite(by.sd)}});
    if (files_ == Files::whole) out_["result_json"] = m.json;
  }
  void operator()(const Rule& r) const {
    out_["measure"] = name_of(r.measure);
    out_["limit"] = finite(r.limit);
    out_["webbing_kind"] = r.kind ? Json(*r.kind) : Json(nullptr);
  }
  void operator()(const Retired&) const {}
  void operator()(const Note&) const {}

 private:
  Json& out_;
  Files files_;
};

Json entry_json(const Entry& entry, const Record& record, Files files) {
  Json out = {{"entry", entry.number},
              {"kind", name_of_kind(entry.detail)},
              {"date", day_text(entry.day)},
              {"written_at", entry.written_at},
              {"words", entry.words}};
  out["webbings"] = Json::array();
  for (const EntryWebbing& link : entry.webbings) {
    out["webbings"].push_back({{"entry", link.webbing},
                               {"name", name_of_webbing(link.webbing, record)},
                               {"role", link.role ? Json(name_of(*link.role)) : Json(nullptr)}});
  }
  out["rig"] = entry.rig ? Json(*entry.rig) : Json(nullptr);
  std::visit(DetailJson(out, files), entry.detail);
  out["struck_out"] = nullptr;
  if (entry.strike) out["struck_out"] = {{"date", day_text(entry.strike->day)}, {"reason", entry.strike->reason}};
  return out;
}

Json rules_json(const WebbingReport& report) {
  std::vector<Check> checks;
  for (const RuleUse& rule : report.rules) checks.push_back(rule.check);
  Json out = checks_json(checks);
  for (std::size_t i = 0; i < out.size(); ++i) {
    out[i]["rule"] = report.rules[i].rule;
    out[i]["used_up"] = report.rules[i].check.computed ? Json(finite(report.rules[i].share)) : Json(nullptr);
  }
  return out;
}

Json report_json(const WebbingReport& report, const Record& record) {
  constexpr const char* kVerdicts[] = {"ok", "caution", "stop"};
  const WebbingUse& use = report.use;
  Json out;
  out["name"] = std::get<LoggedWebbing>(report.webbing->detail).name;
  out["verdict"] = kVerdicts[static_cast<int>(report.verdict)];
  out["words"] = report.words;
  out["retired_on"] = report.retired != nullptr ? Json(day_text(report.retired->day)) : Json(nullptr);
  out["use"] = {
      {"days_hung", use.days}, {"sun_s", finite(use.sun)},           {"wet_days", use.wet_days},
      {"falls", use.falls},    {"force_max_N", optional(use.force)}, {"entries_without_force", use.without_force}};
  out["rules"] = rules_json(report);
  out["remarks"] = report.remarks;
  out["history"] = Json::array();
  for (const Entry* entry : report.history) out["history"].push_back(entry_json(*entry, record, Files::left_out));
  return out;
}

Json head(const char* format) {
  Json document = document_head(format, 1, "Record of webbing");
  document["cautions"] = record_cautions();
  return document;
}

Json reports_document(const std::vector<WebbingReport>& reports, const Record& record, const std::string& file) {
  Json document = head("spanloom-log");
  document["file"] = file;
  document["webbings"] = Json::array();
  for (const WebbingReport& report : reports) document["webbings"].push_back(report_json(report, record));
  return document;
}

}  // namespace

std::string reports_json(const std::vector<WebbingReport>& reports, const Record& record, const std::string& file) {
  return text_of(reports_document(reports, record, file));
}

std::string list_json(const std::vector<WebbingReport>& reports, const Record& record, const std::string& file) {
  Json document = reports_document(reports, record, file);
  document["rigs"] = Json::array();
  document["rules"] = Json::array();
  for (const Entry& entry : record.entries) {
    if (entry.strike) continue;
    if (std::holds_alternative<LoggedRig>(entry.detail))
      document["rigs"].push_back(entry_json(entry, record, Files::left_out));
    if (std::holds_alternative<Rule>(entry.detail))
      document["rules"].push_back(entry_json(entry, record, Files::left_out));
  }
  return text_of(document);
}

std::string export_json(const Record& record) {
  Json document = head("spanloom-log-export");
  document["entries"] = Json::array();
  for (const Entry& entry : record.entries) document["entries"].push_back(entry_json(entry, record, Files::whole));
  return text_of(document);
}

}  // namespace spanloom
