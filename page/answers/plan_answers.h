// Answers of the statics: the plan with its picture, a walker, edits of the file, the sheet. Each returns the value of an
// answer as JSON text, or throws: FileError, InputError, NoAnswer.
#pragma once

#include <stdexcept>
#include <string>

#include "answers/answer.h"
#include "files/json_values.h"
#include "statics/plan.h"

namespace spanloom {

/// There is no proven answer; what() says why, for people.
class NoAnswer : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// The plan of a rig. @throws InputError as make_plan(), NoAnswer where there is none
Plan planned(const Rig& rig, const PlanOptions& options);

std::string plan_answer(const Json& args);
std::string walker_answer(const Json& args);
std::string edit_answer(const Json& args, Kept& kept);
std::string sheet_answer(const Json& args);

}  // namespace spanloom
