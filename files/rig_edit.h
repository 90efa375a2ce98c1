// The text of a rig file with its tapes and its backup laid out anew, all else as its writer left it.
#pragma once

#include <string>
#include <vector>

#include "spacing/layout.h"
#include "spacing/retape.h"

namespace spanloom {

/// The text of a rig file with its tapes and its backup laid out anew. In [spacing] `repeat`, `at` or `even` gives way to
/// `at`, with a phrase to `repeat`; `close` stays: beside `at` it says where tricks are done. In [backup] `slack`, `drop` or
/// `length` gives way to `slack`: one value where all bays have the same. All else stays byte for byte, whether the tables
/// stand under heads, on one line or as dotted keys; comments inside a list that goes move to lines of their own.
/// Places have up to 6 decimals of a metre, slacks up to 7 of a percent, trailing noughts left out: reading the text back
/// gives every place within 1e-6 m and every slack within 1e-9. The text is read back, and what does not read as a rig
/// with this layout and all else unchanged is never returned.
/// Files that the rig names (ground, curves) are not opened here and not judged, nor is whether the main is long enough.
/// @param text       the source of a rig file
/// @param file_name  its name, for errors
/// @param layout     natural length of main [m] and slack [-] of each bay
/// @param phrase     bays to write as `repeat` [arm spans], each at least 0.1; empty: write `at`
/// @throws FileError where the text is no rig file, or cannot be edited so: with place and cure
/// @throws InputError where the layout is no layout of two bays or more, or is not the phrase repeated from the near
/// anchor (close bays of the file kept, the last bay taking the rest)
std::string with_layout_written(const std::string& text, const std::string& file_name, const Layout& layout,
                                const std::vector<double>& phrase = {});

/// The same with a taping: `at` in [spacing], and in [backup] `length`, hardware included, one value where all loops have the
/// same. Lengths as places: up to 6 decimals of a metre. With rings it is from these lengths that the backup starts to run.
/// @param taping  of which `bays` and `loops` are written, two bays or more
/// @throws FileError, InputError as above
std::string with_taping_written(const std::string& text, const std::string& file_name, const Taping& taping);

}  // namespace spanloom
