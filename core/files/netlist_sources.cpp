/// V and I cards: DC, AC, sine and pulse in any order.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/said.h"
#include "core/circuit/source_wave.h"
#include "core/files/netlist_cards.h"
#include "core/files/netlist_numbers.h"

#include <algorithm>
#include <array>

namespace ohmwright {

namespace {

constexpr std::size_t shapeNumbersMost = 7;
constexpr double neverSeconds = 1e30;  // A pulse without a width stays: longer than any answer.
constexpr std::array<std::string_view, 4> otherShapes{"exp", "pwl", "sffm", "am"};

class SourceReader {
public:
    SourceReader(const ElementCard& card, PartKind kind) : m_card(card) { m_part.kind = kind; }

    /// Nothing after a fault.
    std::optional<Part> read(std::size_t firstWord) {
        m_at = firstWord;
        while (m_at < m_card.words.size()) {
            if (!readItem()) {
                return std::nullopt;
            }
        }
        if (m_dc) {
            m_part.value = *m_dc;
        } else if (m_part.wave) {
            m_part.value = valueAt(*m_part.wave, 0.0);
        } else if (!m_hasAc) {
            m_card.note(m_card.name().line, said("without a value it is taken as 0."));
        }
        return std::move(m_part);
    }

private:
    const ElementCard& m_card;
    Part m_part;
    std::size_t m_at = 0;
    std::optional<double> m_dc;
    bool m_hasAc = false;

    [[nodiscard]] bool more() const { return m_at < m_card.words.size(); }
    [[nodiscard]] const Word& word() const { return m_card.words[m_at]; }

    bool readItem() {
        const Word& item = word();
        const std::string key = inLowerCase(item.text);
        if (item.assigns) {
            return readAssigned(item, key);
        }
        if (looksLikeValue(item.text)) {
            ++m_at;
            return takeDc(item.text, item.line);
        }
        ++m_at;
        if (key == "dc") {
            return readDc(item);
        }
        if (key == "ac") {
            return readAc(item);
        }
        if (key == "sin" || key == "sine") {
            return readSine(item);
        }
        if (key == "pulse") {
            return readPulse(item);
        }
        return refuse(item, key);
    }

    bool refuse(const Word& item, const std::string& key) {
        if (std::find(otherShapes.begin(), otherShapes.end(), key) != otherShapes.end()) {
            m_card.fault(item.line,
                         toSay("%1 moves as %2, which this program does not read: use DC, AC, SIN(...) or PULSE(...)."),
                         inUpperCase(key));
        } else if (m_card.instance.parameters.knows(item.text)) {
            m_card.fault(item.line, toSay("%1 has the parameter %2 without braces: write {%3}."), inQuotes(item.text),
                         shortened(item.text));
        } else {
            m_card.fault(item.line,
                         toSay("%1 has %2, which is no value: write a number, DC, AC, SIN(...) or PULSE(...)."),
                         inQuotes(item.text));
        }
        return false;
    }

    bool readAssigned(const Word& item, const std::string& key) {
        ++m_at;
        if (key == "dc") {
            return takeDc(item.value, item.line);
        }
        if (key == "ac") {
            return takeAc(item, item.value, {});
        }
        m_card.fault(item.line,
                     toSay("%1 has %2, which a source does not take: write a number, DC, AC, SIN(...) or PULSE(...)."),
                     inQuotes(item.text + "=" + item.value));
        return false;
    }

    bool takeDc(std::string_view text, int line) {
        if (m_dc) {
            m_card.fault(line, toSay("%1 has two DC values, the second %2: delete one of them."), inQuotes(text));
            return false;
        }
        m_dc = m_card.value(text, line);
        return m_dc.has_value();
    }

    bool readDc(const Word& item) {
        if (!more() || word().assigns || !isNumberHere()) {
            if (more() && !word().assigns && !isKeyword(word())) {
                return refuse(word(), inLowerCase(word().text));
            }
            m_card.fault(item.line, toSay("%1 has no value after DC: write DC VALUE."));
            return false;
        }
        const Word& number = word();
        ++m_at;
        return takeDc(number.text, number.line);
    }

    [[nodiscard]] bool isNumberHere() const { return more() && !word().assigns && looksLikeValue(word().text); }

    static bool isKeyword(const Word& item) {
        constexpr std::array<std::string_view, 5> keys{"dc", "ac", "sin", "sine", "pulse"};
        return std::find(keys.begin(), keys.end(), inLowerCase(item.text)) != keys.end();
    }

    /// The numbers that follow a keyword, to the bracket that closes them.
    std::vector<const Word*> numbersAfter(const Word& keyword, std::size_t most) {
        std::vector<const Word*> numbers;
        bool closed = keyword.endsGroup;
        while (!closed && numbers.size() < most && isNumberHere()) {
            numbers.push_back(&word());
            closed = word().endsGroup;
            ++m_at;
        }
        return numbers;
    }

    bool readAc(const Word& item) {
        const std::vector<const Word*> numbers = numbersAfter(item, 2);
        const std::string_view magnitude = numbers.empty() ? std::string_view("1") : numbers[0]->text;
        return takeAc(item, magnitude, numbers.size() > 1 ? std::string_view(numbers[1]->text) : std::string_view());
    }

    bool takeAc(const Word& item, std::string_view magnitude, std::string_view degrees) {
        if (m_hasAc) {
            m_card.fault(item.line, toSay("%1 has two AC values: delete one of them."));
            return false;
        }
        m_hasAc = true;
        const std::optional<double> amplitude = m_card.value(magnitude, item.line);
        const std::optional<double> phase = degrees.empty() ? std::optional(0.0) : m_card.value(degrees, item.line);
        if (!amplitude || !phase) {
            return false;
        }
        m_part.acAmplitude = *amplitude;
        m_part.acDegrees = *phase;
        return true;
    }

    /// @param cut  a word that is no number ends them.
    void faultOfNumbers(const Word& item, bool tooMany, bool cut, std::string_view form) {
        const std::string shape = inUpperCase(item.text);
        if (cut) {
            m_card.fault(word().line,
                         tooMany ? toSay("%1 has numbers too many, %2, in its %3: write %4.")
                                 : toSay("%1 has a word that is no number, %2, in its %3: write %4."),
                         inQuotes(word().text), shape, form);
            return;
        }
        m_card.fault(item.line,
                     tooMany ? toSay("%1 has numbers too many in its %2: write %3.")
                             : toSay("%1 has too few numbers in its %2: write %3."),
                     shape, form);
    }

    /// The numbers of a shape; false after a fault.
    bool readNumbers(const Word& item, std::size_t least, std::size_t most, std::string_view form,
                     std::vector<double>& values) {
        if (m_part.wave) {
            m_card.fault(item.line, toSay("%1 moves in two ways: delete one of them."));
            return false;
        }
        const std::vector<const Word*> words = numbersAfter(item, shapeNumbersMost + 1);
        const bool cut = more() && !words.empty() && !words.back()->endsGroup && !isKeyword(word()) && !word().assigns;
        if (words.size() < least || words.size() > most || cut) {
            faultOfNumbers(item, words.size() > most, cut, form);
            return false;
        }
        for (const Word* number : words) {
            const std::optional<double> value = m_card.value(number->text, number->line);
            if (!value) {
                return false;
            }
            values.push_back(*value);
        }
        values.resize(most, 0.0);
        return true;
    }

    bool requireNotNegative(const Word& item, double value, std::string_view what) {
        if (value < 0.0) {
            m_card.fault(item.line, toSay("%1 has a negative %2 in its %3: write 0 or more."), said(what),
                         inUpperCase(item.text));
        }
        return value >= 0.0;
    }

    bool readSine(const Word& item) {
        std::vector<double> numbers;
        if (!readNumbers(item, 3, 6, "SIN(OFFSET AMPLITUDE HERTZ DELAY DAMPING DEGREES)", numbers)) {
            return false;
        }
        SourceWave wave;
        wave.shape = SourceWave::Shape::sine;
        wave.low = numbers[0];
        wave.high = numbers[1];
        wave.hertz = numbers[2];
        wave.delay = numbers[3];
        wave.damping = numbers[4];
        wave.degrees = numbers[5];
        m_part.wave = wave;
        return requireNotNegative(item, wave.hertz, toSay("frequency")) &&
               requireNotNegative(item, wave.delay, toSay("delay"));
    }

    bool readPulse(const Word& item) {
        std::vector<double> numbers;
        if (!readNumbers(item, 2, 7, "PULSE(FIRST SECOND DELAY RISE FALL WIDTH PERIOD)", numbers)) {
            return false;
        }
        SourceWave wave;
        wave.shape = SourceWave::Shape::pulse;
        wave.low = numbers[0];
        wave.high = numbers[1];
        wave.delay = numbers[2];
        wave.rise = numbers[3];
        wave.fall = numbers[4];
        wave.width = numbers[5] == 0.0 ? neverSeconds : numbers[5];
        wave.period = numbers[6];
        m_part.wave = wave;
        if (numbers[5] > 0.0 && wave.period > 0.0 && wave.rise + wave.width + wave.fall > wave.period) {
            m_card.note(item.line, said("its PULSE repeats before it has come down: the rest of it is cut off."));
        }
        constexpr std::array<std::string_view, 5> names{toSay("delay"), toSay("rise"), toSay("fall"), toSay("width"),
                                                        toSay("period")};
        for (std::size_t index = 0; index < names.size(); ++index) {
            if (!requireNotNegative(item, numbers[index + 2], names[index])) {
                return false;
            }
        }
        return true;
    }
};

}  // namespace

void readSource(const ElementCard& card, PartKind kind) {
    const bool netsAreThere = card.words.size() >= 3 && !card.words[1].assigns && !card.words[2].assigns;
    if (!netsAreThere) {
        card.fault(card.words.back().line, toSay("%1 has too few words: write %2 %3."), shortened(card.name().text),
                   card.form);
        return;
    }
    std::vector<NetName> nets{card.builder.netOf(card.instance, card.words[1]),
                              card.builder.netOf(card.instance, card.words[2])};
    std::optional<Part> part = SourceReader(card, kind).read(3);
    if (part) {
        part->nets = std::move(nets);
        card.builder.addPart(card.instance, card.name(), std::move(*part));
    }
}

}  // namespace ohmwright
