#include "answers/answer.h"

#include "answers/asked_rig.h"
#include "answers/motion_answers.h"
#include "answers/plan_answers.h"
#include "files/file_error.h"

namespace spanloom {
namespace {

std::string value_of(const std::string& method, const Json& args, const Tell& tell, Kept& kept) {
  if (method == "plan") return plan_answer(args);
  if (method == "walker") return walker_answer(args);
  if (method == "edit") return edit_answer(args, kept);
  if (method == "sheet") return sheet_answer(args);
  if (method == "shake") return shake_answer(args);
  if (method == "shake_film") return shake_film_answer(args, tell, kept.films);
  if (method == "fall_film") return fall_film_answer(args, kept.films);
  if (method == "falls") return falls_answer(args, tell);
  throw std::invalid_argument("no method " + method);
}

Json fault_of(const FileProblem& problem) {
  return {{"file", problem.file},
          {"line", problem.place.line},
          {"column", problem.place.column},
          {"key", problem.problem.key},
          {"read", problem.problem.read},
          {"expected", problem.problem.expected},
          {"cure", problem.problem.cure},
          {"words", to_text(problem)}};
}

std::string refusal(const FileError& error) {
  Json faults = Json::array();
  for (const FileProblem& problem : error.problems()) faults.push_back(fault_of(problem));
  return Json{{"ok", false}, {"why", "file"}, {"faults", std::move(faults)}, {"words", error.what()}}.dump();
}

std::string refusal(const NoAnswer& error) {
  return Json{{"ok", false}, {"why", "no answer"}, {"faults", Json::array()}, {"words", error.what()}}.dump();
}

}  // namespace

std::string answer_to(const std::string& method, const std::string& args, const Tell& tell, Kept& kept) {
  kept.films.clear();
  const Json asked = Json::parse(args);
  try {
    return R"({"ok":true,"value":)" + value_of(method, asked, tell, kept) + '}';
  } catch (const FileError& error) {
    return refusal(error);
  } catch (const InputError& error) {
    // Found by the engine in a file that reads well: the file knows the place of the key.
    return refusal(asked_rig(asked.at("files")).locate(error));
  } catch (const NoAnswer& error) {
    return refusal(error);
  }
}

}  // namespace spanloom
