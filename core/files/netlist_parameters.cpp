// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_parameters.h"

#include "core/base/said.h"
#include "core/expression/expression.h"

#include <algorithm>
#include <cctype>
#include <utility>

namespace ohmwright {

namespace {

bool beginsName(char letter) {
    return std::isalpha(static_cast<unsigned char>(letter)) != 0 || letter == '_';
}

bool continuesName(char letter) {
    return std::isalnum(static_cast<unsigned char>(letter)) != 0 || letter == '_';
}

bool continuesNumber(char letter) {
    return continuesName(letter) || letter == '.';
}

/// A plain number as such, so that 4k7 is told in its two readings; anything else as a formula.
Result<NetlistNumber> readValue(const std::string& formula, const std::map<std::string, double>& values) {
    const Result<NetlistNumber> number = readDoubtfulNumber(formula);
    return number ? number : evaluateDoubtfulConstant(formula, values);
}

}  // namespace

void noteDoubt(NetlistLog& log, int line, std::string_view who, const std::string& doubt) {
    if (!doubt.empty()) {
        log.note(line, std::string(who) + ": " + doubt);
    }
}

std::vector<std::string> namesIn(std::string_view formula) {
    std::vector<std::string> names;
    std::size_t at = 0;
    while (at < formula.size()) {
        const std::size_t begin = at;
        if (beginsName(formula[at])) {
            while (at < formula.size() && continuesName(formula[at])) {
                ++at;
            }
            const bool isFunction = at < formula.size() && formula[at] == '(';
            if (!isFunction) {
                names.push_back(inLowerCase(formula.substr(begin, at - begin)));
            }
        } else if (continuesNumber(formula[at])) {
            while (at < formula.size() && continuesNumber(formula[at])) {
                ++at;
            }
        } else {
            ++at;
        }
    }
    return names;
}

bool isParameterName(std::string_view name) {
    return !name.empty() && beginsName(name.front()) && std::all_of(name.begin(), name.end(), continuesName);
}

void ParameterScope::define(const ParameterText& parameter) {
    Entry& entry = m_entries[inLowerCase(parameter.name)];
    entry = {State::text, &parameter, 0.0};
    m_order.push_back(&entry);
}

void ParameterScope::define(std::string_view name, double value) {
    m_entries[inLowerCase(name)] = {State::known, nullptr, value};
}

bool ParameterScope::knows(std::string_view name) const {
    const std::string key = inLowerCase(name);
    for (const ParameterScope* scope = this; scope != nullptr; scope = scope->m_outer) {
        if (scope->m_entries.contains(key)) {
            return true;
        }
    }
    return false;
}

ParameterScope::Found ParameterScope::find(const std::string& name) {
    for (ParameterScope* scope = this; scope != nullptr; scope = scope->m_outer) {
        const auto found = scope->m_entries.find(name);
        if (found != scope->m_entries.end()) {
            return {scope, &found->second};
        }
    }
    return {};
}

/// Puts what the last open parameter needs on the waiting list. False when it needs one that waits for it.
bool ParameterScope::openEntry(const std::vector<Found>& open, std::vector<Found>& waiting, NetlistLog& log) {
    const Found current = open.back();
    for (const std::string& name : namesIn(current.entry->written->formula)) {
        const Found needed = current.scope->find(name);
        if (needed.entry == nullptr || needed.entry->state == State::known || needed.entry->state == State::failed) {
            continue;
        }
        if (needed.entry->state == State::text) {
            waiting.push_back(needed);
            continue;
        }
        std::vector<std::string> circle;
        auto first =
            std::find_if(open.begin(), open.end(), [&needed](const Found& one) { return one.entry == needed.entry; });
        for (; first != open.end(); ++first) {
            circle.push_back(first->entry->written->name);
        }
        const bool itself = circle.size() == 1;
        log.fault(current.entry->written->line,
                  itself ? said("The parameter %1 is computed from itself: give it a value.", listed(circle))
                         : said("The parameters %1 are computed from each other in a circle: give one of them a value.",
                                listed(circle)));
        return false;
    }
    return true;
}

void ParameterScope::closeEntry(Found found, NetlistLog& log) {
    const ParameterText& written = *found.entry->written;
    std::map<std::string, double> values;
    bool complete = true;
    for (const std::string& name : namesIn(written.formula)) {
        const Found needed = found.scope->find(name);
        complete = complete && (needed.entry == nullptr || needed.entry->state == State::known);
        if (needed.entry != nullptr) {
            values[name] = needed.entry->value;
        }
    }
    found.entry->state = State::failed;
    if (!complete) {
        return;  // Said at the line of the one that has no value.
    }
    const std::string who = said("Parameter %1", shortened(written.name));
    const Result<NetlistNumber> number = readValue(written.formula, values);
    if (!number) {
        log.fault(written.line, who + ": " + number.error().message);
        return;
    }
    noteDoubt(log, written.line, who, number->doubt);
    found.entry->state = State::known;
    found.entry->value = number->value;
}

/// Goes down to what a parameter needs and back, with lists instead of recursion: chains may be as long as the file.
void ParameterScope::settle(Found first, NetlistLog& log) {
    std::vector<Found> waiting{first};
    std::vector<Found> open;
    while (!waiting.empty()) {
        const Found current = waiting.back();
        if (current.entry->state == State::text) {
            current.entry->state = State::open;
            open.push_back(current);
            if (!openEntry(open, waiting, log)) {
                for (const Found& one : open) {
                    one.entry->state = State::failed;
                }
                return;
            }
            continue;
        }
        waiting.pop_back();
        if (current.entry->state == State::open) {
            closeEntry(current, log);
            open.pop_back();
        }
    }
}

std::optional<std::map<std::string, double>> ParameterScope::valuesFor(std::string_view formula, NetlistLog& log) {
    std::map<std::string, double> values;
    for (const std::string& name : namesIn(formula)) {
        const Found found = find(name);
        if (found.entry == nullptr) {
            continue;
        }
        if (found.entry->state == State::text) {
            settle(found, log);
        }
        if (found.entry->state != State::known) {
            return std::nullopt;
        }
        values[name] = found.entry->value;
    }
    return values;
}

std::optional<double> ParameterScope::evaluate(std::string_view formula, int line, std::string_view who,
                                               NetlistLog& log) {
    const auto values = valuesFor(formula, log);
    if (!values) {
        return std::nullopt;
    }
    const Result<NetlistNumber> number = evaluateDoubtfulConstant(formula, *values);
    if (!number) {
        log.fault(line, std::string(who) + ": " + number.error().message);
        return std::nullopt;
    }
    noteDoubt(log, line, who, number->doubt);
    return number->value;
}

void ParameterScope::evaluateAll(NetlistLog& log) {
    for (Entry* entry : m_order) {
        if (entry->state == State::text) {
            settle({this, entry}, log);
        }
    }
}

}  // namespace ohmwright
