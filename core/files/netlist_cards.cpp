// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_cards.h"

#include "core/base/said.h"
#include "core/circuit/check.h"
#include "core/files/netlist_numbers.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace ohmwright {

namespace {

struct ElementRow {
    char letter;
    std::string_view form;
    PartKind kind;
    void (*read)(const ElementCard& card, PartKind kind);
};

void readCouplingRow(const ElementCard& card, PartKind) {
    readCoupling(card);
}

void readBehaviouralRow(const ElementCard& card, PartKind) {
    readBehavioural(card);
}

void readCallRow(const ElementCard& card, PartKind) {
    card.builder.dissolve(card.instance, card.words);
}

constexpr std::array<ElementRow, 16> elementRows{{
    {'r', "NET NET VALUE", PartKind::resistor, readPassive},
    {'c', "NET NET VALUE", PartKind::capacitor, readPassive},
    {'l', "NET NET VALUE", PartKind::inductor, readPassive},
    {'k', "INDUCTOR INDUCTOR VALUE", PartKind::coupling, readCouplingRow},
    {'v', "NET NET VALUE", PartKind::voltageSource, readSource},
    {'i', "NET NET VALUE", PartKind::currentSource, readSource},
    {'e', "NET NET CONTROLNET CONTROLNET GAIN", PartKind::voltageControlledVoltage, readVoltageControlled},
    {'g', "NET NET CONTROLNET CONTROLNET GAIN", PartKind::voltageControlledCurrent, readVoltageControlled},
    {'f', "NET NET VOLTAGESOURCE GAIN", PartKind::currentControlledCurrent, readCurrentControlled},
    {'h', "NET NET VOLTAGESOURCE GAIN", PartKind::currentControlledVoltage, readCurrentControlled},
    {'b', "NET NET V=FORMULA or I=FORMULA", PartKind::behaviouralVoltage, readBehaviouralRow},
    {'d', "ANODE CATHODE MODEL", PartKind::diode, readDevice},
    {'q', "COLLECTOR BASE EMITTER MODEL", PartKind::bipolar, readDevice},
    {'j', "DRAIN GATE SOURCE MODEL", PartKind::jfet, readDevice},
    {'m', "DRAIN GATE SOURCE BULK MODEL", PartKind::mosfet, readDevice},
    {'x', "NET NET ... SUBCIRCUIT", PartKind::resistor, readCallRow},
}};

const ElementRow* rowOf(char letter) {
    const auto found = std::find_if(elementRows.begin(), elementRows.end(),
                                    [letter](const ElementRow& row) { return row.letter == letter; });
    return found == elementRows.end() ? nullptr : &*found;
}

/// What else may stand on an R, C or L card.
enum class PassiveExtra { count, temperature, start, ignored };
struct PassiveName {
    std::string_view name;
    PassiveExtra extra;
};
constexpr std::array<PassiveName, 9> passiveNames{{{"m", PassiveExtra::count},
                                                   {"tc1", PassiveExtra::temperature},
                                                   {"tc2", PassiveExtra::temperature},
                                                   {"tc", PassiveExtra::temperature},
                                                   {"temp", PassiveExtra::temperature},
                                                   {"dtemp", PassiveExtra::temperature},
                                                   {"ic", PassiveExtra::start},
                                                   {"ac", PassiveExtra::ignored},
                                                   {"tol", PassiveExtra::ignored}}};

/// What the extra words of an R, C or L card say.
class PassiveReader {
public:
    PassiveReader(const ElementCard& card, PartKind kind)
        : m_card(card), m_kind(kind), m_letter(inLowerCase(card.name().text).substr(0, 1)) {}

    /// The value with its count put in; nothing after a fault.
    std::optional<double> read(const std::vector<const Word*>& plain) {
        const Word* written = plain.size() > 3 ? plain[3] : nullptr;
        std::string text = written != nullptr ? written->text : "";
        int line = written != nullptr ? written->line : m_card.name().line;
        for (const Word& word : m_card.words) {
            if (!word.assigns) {
                continue;
            }
            if (inLowerCase(word.text) != m_letter) {
                readExtra(word);
            } else if (text.empty()) {
                text = word.value;
                line = word.line;
            } else {
                m_card.fault(word.line, toSay("%1 has two values, %2 and %3: delete one of them."), inQuotes(text),
                             inQuotes(word.value));
                return std::nullopt;
            }
        }
        if (text.empty()) {
            m_card.fault(line, toSay("%1 has no value: write %2 %3."), m_card.name().text.substr(0, 48), m_card.form);
            return std::nullopt;
        }
        const std::optional<double> value = m_card.value(text, line);
        if (!value || !m_sound) {
            return std::nullopt;
        }
        return m_kind == PartKind::capacitor ? *value * m_count : *value / m_count;
    }

private:
    const ElementCard& m_card;
    PartKind m_kind;
    std::string m_letter;
    double m_count = 1.0;
    bool m_sound = true;

    void readExtra(const Word& word) {
        const std::string name = inLowerCase(word.text);
        const auto found = std::find_if(passiveNames.begin(), passiveNames.end(),
                                        [&name](const PassiveName& one) { return one.name == name; });
        if (found == passiveNames.end()) {
            m_card.fault(word.line, toSay("%1 has %2, which %3 does not take: delete it."),
                         inQuotes(word.text + "=" + word.value), said(kindAsOne(m_kind)));
            m_sound = false;
            return;
        }
        switch (found->extra) {
            case PassiveExtra::count:
                readCount(word);
                break;
            case PassiveExtra::temperature:
                m_card.note(word.line,
                            said("%1 is ignored: the value holds at every temperature.", shortened(word.text)));
                break;
            case PassiveExtra::start:
                m_card.note(word.line, said("IC is ignored: the bias is found without it."));
                break;
            case PassiveExtra::ignored:
                m_card.note(word.line, said("%1 is ignored.", shortened(word.text)));
                break;
        }
    }

    void readCount(const Word& word) {
        const std::optional<double> count = m_card.value(word.value, word.line);
        if (count && !(*count > 0.0)) {
            m_card.fault(word.line, toSay("%1 has M=%2: a number of parts in parallel is above 0."),
                         shortened(word.value));
        }
        m_sound = m_sound && count && *count > 0.0;
        m_count = m_sound ? *count : 1.0;
    }
};

/// A resistor or inductor of 0 is a wire, a capacitor of 0 is not there.
void addZeroPart(const ElementCard& card, Part part) {
    if (part.kind == PartKind::capacitor) {
        card.note(card.name().line, said("0 F are no capacitor: it is left out, which is an open circuit."));
        return;
    }
    card.note(card.name().line, part.kind == PartKind::resistor ? said("0 ohm are taken as a wire of 1 milliohm.")
                                                                : said("0 H are taken as a wire of 1 milliohm."));
    part.kind = PartKind::link;
    card.builder.addPart(card.instance, card.name(), std::move(part));
}

/// E, G, F, H with anything but a plain gain. A net may have one of the names when the count of words is right.
bool isNonlinearForm(const ElementCard& card, std::size_t plainCount) {
    constexpr std::array<std::string_view, 8> names{"value", "vol", "cur", "poly", "table", "laplace", "v", "i"};
    const bool countFits = card.plainWords().size() == plainCount;
    return std::any_of(card.words.begin() + 1, card.words.end(), [&](const Word& word) {
        const bool named = std::find(names.begin(), names.end(), inLowerCase(word.text)) != names.end();
        return (named && (word.assigns || !countFits)) || (word.assigns && word.text.front() == '{');
    });
}

bool refusesNonlinearForm(const ElementCard& card, std::size_t plainCount, std::string_view bForm) {
    if (!isNonlinearForm(card, plainCount)) {
        return false;
    }
    card.fault(card.name().line,
               toSay("%1 has a formula, polynomial or table, which only B sources may have: write B%2 NET NET %3."),
               shortened(card.name().text), bForm);
    return true;
}

bool onlyPlainWords(const ElementCard& card) {
    for (const Word& word : card.words) {
        if (word.assigns) {
            const std::string key = inLowerCase(word.text);
            if (key == "ic" || key == "tc1" || key == "tc2" || key == "temp") {
                card.note(word.line, said("%1 is ignored.", shortened(word.text)));
                continue;
            }
            card.fault(word.line, toSay("%1 has %2, which it does not take: write %3 %4."),
                       inQuotes(word.text + "=" + word.value), shortened(card.name().text), card.form);
            return false;
        }
    }
    return true;
}

}  // namespace

std::string ElementCard::who() const {
    return nameWithCall(name().text, instance.call);
}

void ElementCard::note(int line, const std::string& sentence) const {
    builder.log().note(line, shortened(name().text) + ": " + sentence);
}

std::vector<const Word*> ElementCard::plainWords() const {
    std::vector<const Word*> plain;
    for (const Word& word : words) {
        if (!word.assigns) {
            plain.push_back(&word);
        }
    }
    return plain;
}

bool ElementCard::hasWords(const std::vector<const Word*>& plain, std::size_t least, std::size_t most) const {
    if (plain.size() < least) {
        fault(plain.back()->line, toSay("%1 has too few words: write %2 %3."), shortened(name().text), form);
        return false;
    }
    if (plain.size() > most) {
        fault(plain[most]->line, toSay("%1 has too many words, from %2 on: write %3 %4."), inQuotes(plain[most]->text),
              shortened(name().text), form);
        return false;
    }
    return true;
}

std::vector<NetName> ElementCard::nets(const std::vector<const Word*>& plain, std::size_t first,
                                       std::size_t count) const {
    std::vector<NetName> names;
    for (std::size_t index = first; index < first + count; ++index) {
        names.push_back(builder.netOf(instance, *plain[index]));
    }
    return names;
}

std::optional<double> ElementCard::value(std::string_view text, int line) const {
    return builder.valueOf(instance, text, line, who());
}

bool readElement(NetlistBuilder& builder, Instance& instance, const CardText& text) {
    const std::string first = firstWord(text.text);
    const ElementRow* row = first.empty() ? nullptr : rowOf(first.front());
    if (row == nullptr) {
        const std::string word = text.text.substr(0, std::min<std::size_t>(text.text.find(' '), 64));
        builder.log().fault(text.lineAt(0),
                            said("%1 begins with %2, which is no element: the program reads R C L K V I E F G H B D Q "
                                 "J M X; correct the name, or put a * before the line to make it a comment.",
                                 inQuotes(word), inQuotes(text.text.substr(0, 1))));
        return false;
    }
    const auto words = row->letter == 'b' ? splitLawCard(text, builder.log()) : splitWords(text, builder.log());
    if (!words) {
        return false;
    }
    if (words->empty() || words->front().assigns) {
        builder.log().fault(text.lineAt(0), said("%1 is no card: write NAME %2.", inQuotes(text.text), row->form));
        return false;
    }
    const std::size_t faults = builder.log().told();
    row->read({builder, instance, *words, row->form}, row->kind);
    return builder.log().told() == faults;
}

void readPassive(const ElementCard& card, PartKind kind) {
    const std::vector<const Word*> plain = card.plainWords();
    if (!card.hasWords(plain, 3, 4)) {
        return;
    }
    Part part;
    part.kind = kind;
    part.nets = card.nets(plain, 1, 2);
    const std::optional<double> value = PassiveReader(card, kind).read(plain);
    if (!value) {
        return;
    }
    if (*value < 0.0) {
        card.fault(card.name().line, toSay("%1 has a negative value: no %2 has one; write it without the minus sign."),
                   said(kindName(kind)));
        return;
    }
    if (*value == 0.0) {
        addZeroPart(card, std::move(part));
        return;
    }
    const auto limits = valueLimits(kind, ValueRule::solver);
    if (limits && !limits->hold(*value)) {
        card.fault(card.name().line, toSay("%1 has a value that cannot be solved: choose one from %2."),
                   said(limits->words));
        return;
    }
    part.value = *value;
    card.builder.addPart(card.instance, card.name(), std::move(part));
}

void readCoupling(const ElementCard& card) {
    const std::vector<const Word*> plain = card.plainWords();
    constexpr std::size_t mostWords = 22;  // Twenty windings on a core.
    if (!card.hasWords(plain, 4, mostWords) || !onlyPlainWords(card)) {
        return;
    }
    const std::optional<double> k = card.value(plain.back()->text, plain.back()->line);
    if (!k) {
        return;
    }
    if (!(std::abs(*k) <= 1.0) || *k == 0.0) {
        card.fault(plain.back()->line, toSay("%1 has the coupling %2: it must lie between -1 and 1 and not be 0."),
                   inQuotes(plain.back()->text));
        return;
    }
    int count = 0;
    for (std::size_t one = 1; one + 2 < plain.size(); ++one) {
        for (std::size_t other = one + 1; other + 1 < plain.size(); ++other) {
            Part part;
            part.kind = PartKind::coupling;
            part.value = *k;
            Word name = card.name();
            name.text += ++count > 1 ? "." + std::to_string(count) : "";
            const auto index = card.builder.addPart(card.instance, name, std::move(part));
            if (index) {
                card.builder.referToInductors(*index, card.instance, *plain[one], *plain[other]);
            }
        }
    }
}

void readVoltageControlled(const ElementCard& card, PartKind kind) {
    const bool voltage = kind == PartKind::voltageControlledVoltage;
    const std::vector<const Word*> plain = card.plainWords();
    if (refusesNonlinearForm(card, 6, voltage ? "V=FORMULA" : "I=FORMULA") || !card.hasWords(plain, 6, 6) ||
        !onlyPlainWords(card)) {
        return;
    }
    Part part;
    part.kind = kind;
    part.nets = card.nets(plain, 1, 4);
    const std::optional<double> gain = card.value(plain[5]->text, plain[5]->line);
    if (gain) {
        part.value = *gain;
        card.builder.addPart(card.instance, card.name(), std::move(part));
    }
}

void readCurrentControlled(const ElementCard& card, PartKind kind) {
    const bool voltage = kind == PartKind::currentControlledVoltage;
    const std::vector<const Word*> plain = card.plainWords();
    if (refusesNonlinearForm(card, 5, voltage ? "V=FORMULA" : "I=FORMULA") || !card.hasWords(plain, 5, 5) ||
        !onlyPlainWords(card)) {
        return;
    }
    Part part;
    part.kind = kind;
    part.nets = card.nets(plain, 1, 2);
    const std::optional<double> gain = card.value(plain[4]->text, plain[4]->line);
    if (!gain) {
        return;
    }
    part.value = *gain;
    const auto index = card.builder.addPart(card.instance, card.name(), std::move(part));
    if (index) {
        card.builder.referToSource(*index, card.instance, *plain[3]);
    }
}

void readBehavioural(const ElementCard& card) {
    const std::vector<const Word*> plain = card.plainWords();
    const Word& law = card.words.back();
    const std::string key = law.assigns ? inLowerCase(law.text) : "";
    if (!card.hasWords(plain, 3, 3)) {
        return;
    }
    if (key != "v" && key != "i") {
        card.fault(law.line, toSay("%1 has no V=FORMULA or I=FORMULA: write %2 NET NET V=FORMULA."),
                   shortened(card.name().text));
        return;
    }
    if (law.value.empty() || law.value == "{}") {
        card.fault(law.line, toSay("%1 has no formula after %2=: write one, such as v(in)*2."), inUpperCase(key));
        return;
    }
    if (law.value.find('=') != std::string::npos) {
        card.fault(law.line,
                   toSay("%1 has a second \"=\" after its formula: a B source has one V= or I= and nothing more."));
        return;
    }
    const std::string_view formula = withoutBraces(law.value);
    const auto values = card.instance.parameters.valuesFor(formula, card.builder.log());
    if (!values) {
        return;
    }
    Result<Expression> parsed = Expression::parse(formula, *values);
    if (!parsed) {
        card.fault(law.line, toSay("%1 has a formula that cannot be read: %2"), parsed.error().message);
        return;
    }
    for (const std::string& doubt : parsed->doubts()) {
        card.note(law.line, doubt);
    }
    Part part;
    part.kind = key == "v" ? PartKind::behaviouralVoltage : PartKind::behaviouralCurrent;
    part.nets = card.nets(plain, 1, 2);
    const auto index = card.builder.addPart(card.instance, card.name(), std::move(part));
    if (index) {
        card.builder.referFromLaw(*index, card.instance, std::move(*parsed), law.line);
    }
}

}  // namespace ohmwright
