// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/edit_lines.h"

#include "core/base/said.h"
#include "core/drawing/draw_things.h"
#include "core/drawing/opamp_supply.h"
#include "core/drawing/rejoin.h"
#include "core/drawing/relocate.h"
#include "core/drawing/zones.h"

#include <algorithm>
#include <charconv>
#include <optional>
#include <string>
#include <utility>

namespace ohmwright {
namespace {

using Words = std::vector<std::string>;

Error unreadable(std::string_view expected) {
    return {ErrorCode::invalidInput, said("This line is not understood: write %1.", expected), {}};
}

/// Words parted by blanks; what stands in quotes is one. Absent where a quote is left open.
std::optional<Words> wordsOf(std::string_view line) {
    Words words;
    std::string word;
    bool isQuoted = false;
    bool isWord = false;
    for (const char letter : line) {
        if (letter == '#' && !isQuoted) {
            break;
        }
        if (letter == '"') {
            isQuoted = !isQuoted;
            isWord = true;
        } else if (!isQuoted && (letter == ' ' || letter == '\t' || letter == '\r')) {
            if (isWord) {
                words.push_back(std::exchange(word, {}));
            }
            isWord = false;
        } else {
            word += letter;
            isWord = true;
        }
    }
    if (isQuoted) {
        return std::nullopt;
    }
    if (isWord) {
        words.push_back(word);
    }
    return words;
}

std::optional<int> numberOf(std::string_view word) {
    int number = 0;
    const auto [end, problem] = std::from_chars(word.data(), word.data() + word.size(), number);
    const bool isWhole = problem == std::errc() && end == word.data() + word.size();
    // Sums of two places stay in range.
    return isWhole && std::abs(number) <= 2 * largestGrid ? std::optional(number) : std::nullopt;
}

std::optional<GridPoint> placeOf(std::string_view word) {
    const std::size_t comma = word.find(',');
    if (comma == std::string_view::npos) {
        return std::nullopt;
    }
    const std::optional<int> x = numberOf(word.substr(0, comma));
    const std::optional<int> y = numberOf(word.substr(comma + 1));
    return x && y ? std::optional(GridPoint{*x, *y}) : std::nullopt;
}

/// The word after a keyword; the keyword and it are taken out.
std::optional<std::string> taken(Words& words, std::string_view keyword) {
    const auto found = std::find(words.begin(), words.end(), keyword);
    if (found == words.end() || found + 1 == words.end()) {
        return std::nullopt;
    }
    std::string word = *(found + 1);
    words.erase(found, found + 2);
    return word;
}

/// Placement::span.
constexpr int shortestSpan = 2;

EditResult put(const Circuit& circuit, Words words, const std::vector<Model>& models) {
    constexpr std::string_view expected = "put R 33k at 13,3 turned 1";
    const std::optional<std::string> at = taken(words, "at");
    const std::optional<GridPoint> place = at ? placeOf(*at) : std::nullopt;
    const std::optional<int> turns = numberOf(taken(words, "turned").value_or("0"));
    const std::optional<std::string> longWord = taken(words, "long");
    const std::optional<int> span = longWord ? numberOf(*longWord) : std::optional(0);
    const auto mirrorWord = std::find(words.begin(), words.end(), "mirrored");
    const bool isMirrored = mirrorWord != words.end();
    if (isMirrored) {
        words.erase(mirrorWord);
    }
    const DrawThing* thing = words.size() > 1 ? thingNamed(words[1]) : nullptr;
    const bool isNameless = thing && thing->isFlag && thing->flag == FlagKind::ground;
    if (!place || !thing || words.size() > (isNameless ? 2U : 3U) || !turns || !span) {
        return unreadable(expected);
    }
    if (longWord && (*span < shortestSpan || *span > largestGrid)) {
        return Error{
            ErrorCode::invalidInput, said("A part is 2 to %1 steps long, not %2.", largestGrid, *longWord), {}};
    }
    const Result<MadeThing> made = makeThing(*thing, words.size() > 2 ? words[2] : std::string(), models);
    if (!made) {
        return made.error();
    }
    if (thing->isFlag) {
        Flag flag = made->flag;
        flag.at = *place;
        return placeFlag(circuit, flag);
    }
    const int usualSpan = thing->kind == PartKind::potentiometer ? 4 : 3;
    const Placement placement{*place, (thing->turns + *turns) & 3, isMirrored, longWord ? *span : usualSpan,
                              LabelSide::automatic};
    return placePart(circuit, made->part, placement,
                     made->part.model.empty() ? std::optional<Model>() : std::optional<Model>(made->type));
}

Result<Picked> partsNamed(const Circuit& circuit, const Words& words) {
    Picked picked;
    for (std::size_t i = 1; i < words.size(); ++i) {
        const Part* part = findPartByReference(circuit, words[i]);
        if (!part) {
            return Error{ErrorCode::invalidInput, said("There is no part %1 on the drawing.", words[i]), words[i]};
        }
        picked.parts.push_back(part->id);
    }
    if (picked.isEmpty()) {
        return unreadable(said("the references of parts"));
    }
    return picked;
}

EditResult moveParts(const Circuit& circuit, Words words) {
    const std::optional<std::string> by = taken(words, "by");
    const std::optional<GridPoint> steps = by ? placeOf(*by) : std::nullopt;
    if (!steps) {
        return unreadable("move R1 C2 by 2,0");
    }
    const Result<Picked> picked = partsNamed(circuit, words);
    return picked ? move(circuit, *picked, *steps) : EditResult(picked.error());
}

EditResult wireOf(const Circuit& circuit, const Words& words) {
    std::vector<GridPoint> points;
    for (std::size_t i = 1; i < words.size(); ++i) {
        const std::optional<GridPoint> point = placeOf(words[i]);
        if (!point) {
            return unreadable("wire 4,8 6,8");
        }
        points.push_back(*point);
    }
    return drawWire(circuit, points);
}

EditResult unwire(const Circuit& circuit, const Words& words) {
    const std::optional<GridPoint> point = words.size() == 2 ? placeOf(words[1]) : std::nullopt;
    if (!point) {
        return unreadable("unwire 5,8");
    }
    Picked picked;
    for (std::size_t i = 0; i < circuit.drawing.wires.size(); ++i) {
        if (isOnWire(*point, circuit.drawing.wires[i])) {
            picked.wires.push_back(i);
        }
    }
    for (std::size_t i = 0; i < circuit.drawing.flags.size(); ++i) {
        if (circuit.drawing.flags[i].at == *point) {
            picked.flags.push_back(i);
        }
    }
    if (picked.isEmpty()) {
        return Error{ErrorCode::invalidInput, said("No wire or sign stands at %1.", words[1]), {}};
    }
    return erase(circuit, picked);
}

EditResult name(const Circuit& circuit, const Words& words) {
    const std::optional<GridPoint> point = words.size() == 3 ? placeOf(words[1]) : std::nullopt;
    return point ? nameNet(circuit, netAt(circuit, *point), words[2]) : unreadable("name 21,4 out");
}

EditResult stage(const Circuit& circuit, const Words& words) {
    const std::optional<int> column = words.size() == 3 ? numberOf(words[1]) : std::nullopt;
    return column ? beginStage(circuit, *column, words[2]) : unreadable("stage 10 \"Input buffer\"");
}

EditResult frame(const Circuit& circuit, const Words& words) {
    const bool isWhole = words.size() == 4;
    const std::optional<GridPoint> first = isWhole ? placeOf(words[2]) : std::nullopt;
    const std::optional<GridPoint> second = isWhole ? placeOf(words[3]) : std::nullopt;
    return first && second ? frameField(circuit, {words[1], "", *first, *second})
                           : unreadable("frame Supply 0,9 10,16");
}

EditResult supply(const Circuit& circuit, const Words& words) {
    if (words.size() != 4) {
        return unreadable("supply U1A \"9 V\" ground");
    }
    const Part* part = findPartByReference(circuit, words[1]);
    if (!part) {
        return Error{ErrorCode::invalidInput, said("There is no part %1 on the drawing.", words[1]), words[1]};
    }
    return supplyOpamp(circuit, part->id, words[2], words[3]);
}

EditResult room(const Circuit& circuit, Words words) {
    const std::optional<std::string> by = taken(words, "by");
    const std::optional<GridPoint> steps = by ? placeOf(*by) : std::nullopt;
    const std::optional<GridPoint> at = words.size() == 2 ? placeOf(words[1]) : std::nullopt;
    return steps && at ? makeRoom(circuit, *at, *steps) : unreadable("room 12,0 by 4,0");
}

}  // namespace

std::string editLineGrammar() {
    std::string text =
        R"(An edit a line; # begins a remark, and what stands in quotes is one word. Places are COLUMN,ROW of the grid.

  put THING [VALUE] at 13,3 [turned 1] [long 4] [mirrored]
  put R 33k at 13,3 turned 1         put "supply sign" "9 V" at 13,3
  put pot 100k at 4,4 long 4         put E at 4,11
  wire 4,8 6,8 6,10                  unwire 5,8
  name 21,4 out                      supply U1A "9 V" ground
  move R1 C2 by 2,0                  turn R1            mirror R1
  erase R1 C2                        room 12,0 by 4,0
  stage 10 "Input buffer"            frame Supply 0,9 10,16

A THING is a key or its name:)";
    std::size_t inLine = 0;
    for (const DrawThing& thing : drawThings()) {
        text.append(inLine++ % 6 == 0 ? "\n  " : ", ").append(1, thing.key).append(" ").append(thing.name);
    }
    return text;
}

EditResult editByLine(const Circuit& circuit, std::string_view line, const std::vector<Model>& models) {
    const std::optional<Words> read = wordsOf(line);
    if (!read) {
        return Error{ErrorCode::invalidInput, said("A quote is left open: end it on the same line."), {}};
    }
    const Words& words = *read;
    if (words.empty()) {
        return Edited{circuit, {}, {}};
    }
    const std::string& verb = words.front();
    if (verb == "put") {
        return put(circuit, words, models);
    }
    if (verb == "wire") {
        return wireOf(circuit, words);
    }
    if (verb == "unwire") {
        return unwire(circuit, words);
    }
    if (verb == "name") {
        return name(circuit, words);
    }
    if (verb == "move") {
        return moveParts(circuit, words);
    }
    if (verb == "stage") {
        return stage(circuit, words);
    }
    if (verb == "frame") {
        return frame(circuit, words);
    }
    if (verb == "supply") {
        return supply(circuit, words);
    }
    if (verb == "room") {
        return room(circuit, words);
    }
    if (verb == "turn" || verb == "mirror" || verb == "erase") {
        const Result<Picked> picked = partsNamed(circuit, words);
        if (!picked) {
            return picked.error();
        }
        return verb == "turn"     ? turn(circuit, *picked)
               : verb == "mirror" ? mirror(circuit, *picked)
                                  : erase(circuit, *picked);
    }
    return unreadable(said("put, wire, unwire, name, supply, move, turn, mirror, erase, stage, frame or room"));
}

EditResult editByLines(const Circuit& circuit, std::string_view text, const std::vector<Model>& models) {
    Edited edited{circuit, {}, {}};
    int number = 0;
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find('\n', begin), text.size());
        ++number;
        EditResult step = editByLine(edited.circuit, text.substr(begin, end - begin), models);
        if (!step) {
            Error error = step.error();
            error.where = "line " + std::to_string(number);
            error.message = said("line %1: %2", number, error.message);
            return error;
        }
        for (auto& [net, into] : edited.goneInto) {
            const auto further = step->goneInto.find(into);
            into = further != step->goneInto.end() ? further->second : into;
        }
        edited.goneInto.insert(step->goneInto.begin(), step->goneInto.end());
        edited.circuit = std::move(step->circuit);
        edited.picked = std::move(step->picked);
        begin = end + 1;
    }
    return edited;
}

}  // namespace ohmwright
