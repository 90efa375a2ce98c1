// The text of a rig file with one value changed, all else as its writer left it.
#pragma once

#include <string>

namespace spanloom {

/// Writes one value under a key. One that the file has is written over, comments beside it kept; one that it has not gets a
/// line at the end of its table, and a table that it has not the end of the file. Of keys that exclude each other (`tension`
/// and `natural_length` of [main]; `slack`, `drop` and `length` of [backup]; `repeat`, `at` and `even` of [spacing]; `stretch` and `stretch_csv` of a webbing) the new
/// one takes the line of the old. All else stays byte for byte; comments inside a list that goes move to lines of their own.
/// The text as it was need not read as a rig, if it is TOML: a wrong value can be put right. What comes back does, with the
/// value asked for and every other key as it was. Files that the rig names are not opened here and not judged.
/// @param text       the source of a rig file
/// @param file_name  its name, for errors
/// @param key        dotted, as in TOML: "main.tension", "anchor.near.edge", "webbing.\"my reed\".mass", "title"
/// @param value      TOML source of the value, on one line: "\"4.5 kN\"", "3", "[1, 2]"
/// @throws FileError where the text is no TOML or cannot be edited so, where key or value are none, and where what would come
/// of it is no rig: with every problem of that text, its place there, and a cure
std::string with_value_written(const std::string& text, const std::string& file_name, const std::string& key,
                               const std::string& value);

}  // namespace spanloom
