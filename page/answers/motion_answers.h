// Answers of the motion: shakes, falls, their films. As plan_answers.h.
#pragma once

#include <string>

#include "answers/answer.h"
#include "files/json_values.h"

namespace spanloom {

std::string shake_answer(const Json& args);
std::string shake_film_answer(const Json& args, const Tell& tell, Films& films);
std::string fall_film_answer(const Json& args, Films& films);
std::string falls_answer(const Json& args, const Tell& tell);

}  // namespace spanloom
