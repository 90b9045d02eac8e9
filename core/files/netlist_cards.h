/// One card of a netlist into the part that it is, by its first letter.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/said.h"
#include "core/files/netlist_builder.h"

#include <initializer_list>
#include <string>
#include <vector>

namespace ohmwright {

/// A card in its place.
struct ElementCard {
    NetlistBuilder& builder;
    Instance& instance;
    const std::vector<Word>& words;
    std::string_view form;  ///< "NET NET VALUE": what stands after the name.

    [[nodiscard]] const Word& name() const { return words.front(); }
    [[nodiscard]] std::string who() const;
    /// @param english  with the name of the card's part as its first place.
    template <class... Fillings>
    void fault(int line, const char* english, const Fillings&... fillings) const {
        builder.log().fault(line, said(english, who(), fillings...));
    }
    void note(int line, const std::string& sentence) const;

    /// Words without `=`, the name first.
    [[nodiscard]] std::vector<const Word*> plainWords() const;
    /// False, with a fault that shows the form, when there are fewer or more plain words than that.
    bool hasWords(const std::vector<const Word*>& plain, std::size_t least, std::size_t most) const;
    [[nodiscard]] std::vector<NetName> nets(const std::vector<const Word*>& plain, std::size_t first,
                                            std::size_t count) const;
    [[nodiscard]] std::optional<double> value(std::string_view text, int line) const;
};

/// False when the card was not taken. Faults: a letter that is no element, and whatever is wrong with the card.
bool readElement(NetlistBuilder& builder, Instance& instance, const CardText& text);

// One a kind of element; D, Q, J and M in netlist_devices.cpp, V and I in netlist_sources.cpp.
void readPassive(const ElementCard& card, PartKind kind);
void readCoupling(const ElementCard& card);
void readVoltageControlled(const ElementCard& card, PartKind kind);
void readCurrentControlled(const ElementCard& card, PartKind kind);
void readBehavioural(const ElementCard& card);
void readSource(const ElementCard& card, PartKind kind);
void readDevice(const ElementCard& card, PartKind kind);

}  // namespace ohmwright
