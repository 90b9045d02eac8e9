/// D, Q, J and M cards: devices with a model.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/said.h"
#include "core/circuit/model_limits.h"
#include "core/files/netlist_cards.h"
#include "core/files/netlist_numbers.h"

#include <algorithm>
#include <array>

namespace ohmwright {

namespace {

/// What the kind's law reads of a single device.
std::vector<std::string> deviceNames(PartKind kind) {
    constexpr std::array<std::string_view, 10> all{"AREA", "M", "W", "L", "AD", "AS", "PD", "PS", "NRD", "NRS"};
    std::vector<std::string> names;
    for (const std::string_view name : all) {
        if (isDeviceParameter(kind, name)) {
            names.emplace_back(name);
        }
    }
    return names;
}

constexpr std::array<std::string_view, 8> unfollowedNames{"TEMP",  "DTEMP", "IC",    "ICVBE",
                                                          "ICVCE", "PJ",    "AREAB", "AREAC"};

/// The word of a transistor that names its model: after three nets, or after four when the fourth is a substrate.
std::size_t modelWord(const ElementCard& card, PartKind kind, const std::vector<const Word*>& plain) {
    const auto usual = static_cast<std::size_t>(pinCount(kind)) + 1;
    if (kind != PartKind::bipolar || plain.size() <= usual + 1) {
        return usual;
    }
    const bool first = card.builder.findModel(card.instance, plain[usual]->text).text != nullptr;
    const bool second = card.builder.findModel(card.instance, plain[usual + 1]->text).text != nullptr;
    const bool couldBeArea = looksLikeValue(plain[usual + 1]->text) || inLowerCase(plain[usual + 1]->text) == "off";
    return second || (!first && !couldBeArea) ? usual + 1 : usual;
}

class DeviceReader {
public:
    DeviceReader(const ElementCard& card, PartKind kind) : m_card(card) { m_part.kind = kind; }

    void read() {
        const std::vector<const Word*> plain = m_card.plainWords();
        const auto pins = static_cast<std::size_t>(pinCount(m_part.kind));
        if (!m_card.hasWords(plain, pins + 2, pins + 9)) {
            return;
        }
        const std::size_t modelAt = modelWord(m_card, m_part.kind, plain);
        m_part.nets = m_card.nets(plain, 1, pins);
        if (modelAt > pins + 1) {
            noteSubstrate(*plain[pins + 1]);
        }
        readExtras(plain, modelAt + 1);
        if (takeModel(*plain[modelAt]) && m_sound) {
            m_card.builder.addPart(m_card.instance, m_card.name(), std::move(m_part));
        }
    }

private:
    const ElementCard& m_card;
    Part m_part;
    bool m_sound = true;

    bool takeModel(const Word& word) {
        const ModelPlace place = m_card.builder.findModel(m_card.instance, word.text);
        const std::string kind = said(kindAsOne(m_part.kind));
        if (place.text == nullptr) {
            if (NetlistBuilder::lostModel(m_card.instance, word.text) || !m_card.builder.log().wantsFault(word.line)) {
                return false;
            }
            m_card.fault(
                word.line,
                toSay(
                    "%1 names the model %2, which is not in the file: put a .model %3 card in; models of %4 here: %5."),
                inQuotes(word.text), shortened(word.text), kind,
                listed(m_card.builder.modelNames(m_card.instance, m_part.kind)));
            return false;
        }
        if (place.text->kind != m_part.kind) {
            m_card.fault(
                word.line,
                toSay("%1 is %2, but its model %3 of line %4 is of the type %5: name a model of the right type."), kind,
                inQuotes(word.text), place.text->line, place.text->type);
            return false;
        }
        m_part.model = m_card.builder.enterModel(place);
        return true;
    }

    void noteSubstrate(const Word& word) {
        const NetName net = m_card.builder.netOf(m_card.instance, word);
        if (net != groundNet) {
            m_card.note(word.line, said("its substrate %1 is taken as ground: the law's substrate capacitance lies "
                                        "between the collector and ground.",
                                        inQuotes(word.text)));
        }
    }

    void readExtras(const std::vector<const Word*>& plain, std::size_t first) {
        for (std::size_t index = first; index < plain.size(); ++index) {
            const Word& word = *plain[index];
            if (inLowerCase(word.text) == "off") {
                continue;  // A hint for the search of the bias, which needs none.
            }
            const bool area = index == first && m_part.kind != PartKind::mosfet && looksLikeValue(word.text);
            if (!area) {
                m_card.fault(word.line, toSay("%1 has too many words, from %2 on: write %3 %4."), inQuotes(word.text),
                             shortened(m_card.name().text), m_card.form);
                m_sound = false;
                return;
            }
            takeParameter("AREA", word.text, word.line);
        }
        for (const Word& word : m_card.words) {
            if (word.assigns) {
                readAssigned(word);
            }
        }
    }

    void readAssigned(const Word& word) {
        const std::string name = inUpperCase(word.text);
        if (isDeviceParameter(m_part.kind, name)) {
            takeParameter(name, word.value, word.line);
        } else if (std::find(unfollowedNames.begin(), unfollowedNames.end(), name) != unfollowedNames.end()) {
            const bool temperature = name.find("TEMP") != std::string::npos;
            m_card.note(word.line, temperature ? said("%1 is ignored: every part has the temperature of the run.", name)
                                               : said("%1 is ignored.", name));
        } else {
            m_card.fault(word.line, toSay("%1 has %2, which %3 does not take: it takes %4."),
                         inQuotes(word.text + "=" + word.value), said(kindAsOne(m_part.kind)),
                         listed(deviceNames(m_part.kind)));
            m_sound = false;
        }
    }

    void takeParameter(const std::string& name, std::string_view text, int line) {
        const std::optional<double> value = m_card.value(text, line);
        const std::string_view wrong = value ? faultOfDeviceParameter(m_part.kind, name, *value) : std::string_view();
        if (!wrong.empty()) {
            m_card.fault(line, toSay("%1 has %2=%3: it %4."), name, shortened(text), said(wrong));
        } else if (value && !m_part.parameters.emplace(name, *value).second) {
            m_card.fault(line, toSay("%1 has %2 twice: delete one of them."), name);
        } else if (value) {
            return;
        }
        m_sound = false;
    }
};

}  // namespace

void readDevice(const ElementCard& card, PartKind kind) {
    DeviceReader(card, kind).read();
}

}  // namespace ohmwright
