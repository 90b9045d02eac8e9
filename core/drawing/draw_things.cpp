// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/draw_things.h"

#include "core/base/said.h"
#include "core/base/text.h"
#include "core/base/value_text.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <string>

namespace ohmwright {
namespace {

constexpr DrawThing part(char key, const char* name, PartKind kind, const char* text, int turns = 0) {
    return {key, name, kind, FlagKind::note, false, text, turns};
}

constexpr DrawThing sign(char key, const char* name, FlagKind flag, const char* text) {
    return {key, name, PartKind::link, flag, true, text, 0};
}

constexpr std::array things{
    part('R', toSay("resistor"), PartKind::resistor, "10k"),
    part('C', toSay("capacitor"), PartKind::capacitor, "100n"),
    part('P', toSay("pot"), PartKind::potentiometer, "100k", 1),
    part('D', toSay("diode"), PartKind::diode, "1N4148"),
    part('Q', toSay("transistor"), PartKind::bipolar, "2N3904"),
    part('J', toSay("JFET"), PartKind::jfet, ""),
    part('M', toSay("MOSFET"), PartKind::mosfet, ""),
    part('U', toSay("op-amp"), PartKind::opamp, "TL072"),
    part('T', toSay("triode"), PartKind::triode, ""),
    part('L', toSay("coil"), PartKind::inductor, "2.8H"),
    part('K', toSay("switch"), PartKind::switchContact, ""),
    part('H', toSay("link"), PartKind::link, ""),
    part('S', toSay("signal source"), PartKind::voltageSource, "", 1),
    part('B', toSay("battery"), PartKind::voltageSource, "9V", 1),
    sign('E', toSay("ground"), FlagKind::ground, ""),
    sign('V', toSay("supply sign"), FlagKind::supply, "9 V"),
    sign('I', toSay("input jack"), FlagKind::terminal, "in"),
    sign('O', toSay("output jack"), FlagKind::terminal, "out"),
};

Result<MadeThing> makeValued(MadeThing made, std::string_view text) {
    const Result<Quantity> value = parsePartValue(text, unitOf(made.part.kind));
    if (!value) {
        return value.error();
    }
    made.part.value = value->si;
    return made;
}

}  // namespace

std::span<const DrawThing> drawThings() {
    return things;
}

const DrawThing* thingOfKey(char key) {
    const char upper = static_cast<char>(std::toupper(static_cast<unsigned char>(key)));
    const auto found =
        std::find_if(things.begin(), things.end(), [upper](const DrawThing& thing) { return thing.key == upper; });
    return found == things.end() ? nullptr : &*found;
}

const DrawThing* thingNamed(std::string_view name) {
    if (name.size() == 1) {
        return thingOfKey(name.front());
    }
    const auto found =
        std::find_if(things.begin(), things.end(), [name](const DrawThing& thing) { return name == thing.name; });
    return found == things.end() ? nullptr : &*found;
}

Result<Model> typeNamed(std::string_view typed, PartKind kind, const std::vector<Model>& models) {
    const std::string wanted = inLowerCase(typed);
    std::vector<const Model*> beginning;
    std::string some;
    int count = 0;
    for (const Model& model : models) {
        if (model.kind != kind) {
            continue;
        }
        const std::string name = inLowerCase(model.name);
        if (name == wanted) {
            return model;
        }
        if (name.starts_with(wanted)) {
            beginning.push_back(&model);
        }
        if (++count <= 4) {
            some.append(some.empty() ? "" : ", ").append(model.name);
        }
    }
    // Nothing typed: the house's first of the kind.
    if (beginning.size() == 1 || (wanted.empty() && !beginning.empty())) {
        return *beginning.front();
    }
    const std::string kindWord = said(kindName(kind));
    return Error{ErrorCode::invalidInput,
                 some.empty() ? said("No %1 type is known here: give part data that has one.", kindWord)
                              : said("No %1 is called \"%2\": type a name such as %3.", kindWord, typed, some),
                 std::string(typed)};
}

Result<MadeThing> makeThing(const DrawThing& thing, std::string_view typed, const std::vector<Model>& models) {
    constexpr std::string_view blanks = " \t";
    const std::size_t first = typed.find_first_not_of(blanks);
    const std::string_view text = first == std::string_view::npos
                                      ? std::string_view(thing.text)
                                      : typed.substr(first, typed.find_last_not_of(blanks) - first + 1);
    MadeThing made;
    if (thing.isFlag) {
        made.flag.kind = thing.flag;
        made.flag.text = thing.flag == FlagKind::ground ? std::string() : std::string(text);
        return made;
    }
    Part& part = made.part;
    part.kind = thing.kind;
    // Common practice, no source: what a bench has when nothing else is said.
    part.tolerance = thing.kind == PartKind::resistor ? 0.05 : thing.kind == PartKind::capacitor ? 0.1 : 0.0;
    if (hasModel(part.kind)) {
        const Result<Model> type = typeNamed(text, part.kind, models);
        if (!type) {
            return type.error();
        }
        made.type = *type;
        part.model = type->name;
        return made;
    }
    if (thing.isSignalSource()) {
        part.acAmplitude = 1.0;
        return made;
    }
    if (text.empty()) {
        return made;
    }
    return makeValued(std::move(made), text);
}

}  // namespace ohmwright
