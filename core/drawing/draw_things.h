/// What the hand can put down on a drawing: the palette, one key each.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"

#include <span>
#include <string_view>
#include <vector>

namespace ohmwright {

struct DrawThing {
    char key;          ///< Upper case; pressed without Shift.
    const char* name;  ///< "resistor"
    PartKind kind;     ///< Of a part.
    FlagKind flag = FlagKind::note;
    bool isFlag = false;
    const char* text;  ///< What it is called or worth until something is typed: "10k", "1N4148", "9 V".
    int turns = 0;     ///< How it comes to hand.

    /// The source that plays into the unit; a battery is the same kind of part.
    [[nodiscard]] constexpr bool isSignalSource() const { return key == 'S'; }
};

/// In the order of the palette.
std::span<const DrawThing> drawThings();
/// By its key, in either case of letters, or by its name; null when there is none.
const DrawThing* thingOfKey(char key);
const DrawThing* thingNamed(std::string_view name);

/// A thing with what was typed for it: a value in the trade's notation, a type's name, a sign's name.
struct MadeThing {
    Part part;   ///< Of a part.
    Flag flag;   ///< Of a sign.
    Model type;  ///< The type of a part with one.
};
/// Errors: invalidInput for a value that cannot be read and a type that none of the models is; of a name's beginning
/// that only one type has, that type is taken.
Result<MadeThing> makeThing(const DrawThing& thing, std::string_view typed, const std::vector<Model>& models);

/// The type of that kind whose name is, or alone begins with, what was typed.
/// Errors: invalidInput naming some that there are.
Result<Model> typeNamed(std::string_view typed, PartKind kind, const std::vector<Model>& models);

}  // namespace ohmwright
