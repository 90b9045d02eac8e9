/// Netlists written in a test: read, or their fault.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/netlist.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <string>
#include <string_view>

namespace ohmwright {

/// The cards under a title line, so that the first of them stands in line 2.
inline Result<Netlist> readCards(const std::string& cards) {
    return readNetlist("title\n" + cards);
}

/// The netlist, or an empty one and a failed test.
inline Netlist sound(const std::string& cards) {
    Result<Netlist> netlist = readCards(cards);
    EXPECT_TRUE(netlist.hasValue()) << (netlist ? "" : netlist.error().message) << "\n" << cards;
    return netlist ? *netlist : Netlist{};
}

/// A part of the netlist; a failed test and a part without anything when it is not there.
inline Part partOf(const Netlist& netlist, std::string_view id) {
    const Part* part = findPart(netlist.circuit, id);
    EXPECT_NE(part, nullptr) << id;
    return part != nullptr ? *part : Part{};
}

inline Model modelOf(const Netlist& netlist, std::string_view name) {
    const Model* model = findModel(netlist.circuit, name);
    EXPECT_NE(model, nullptr) << name;
    return model != nullptr ? *model : Model{};
}

/// The message, or "read" when the netlist was taken.
inline std::string faultOf(const std::string& cards) {
    const Result<Netlist> netlist = readCards(cards);
    return netlist ? "read" : netlist.error().message;
}

inline bool hasNote(const Netlist& netlist, int line, std::string_view words) {
    return std::any_of(netlist.notes.begin(), netlist.notes.end(), [&](const NetlistNote& note) {
        return note.line == line && note.message.find(words) != std::string::npos;
    });
}

/// All the notes, for a failed test to show.
inline std::string notesOf(const Netlist& netlist) {
    std::string text;
    for (const NetlistNote& note : netlist.notes) {
        text += std::to_string(note.line) + ": " + note.message + "\n";
    }
    return text;
}

}  // namespace ohmwright
