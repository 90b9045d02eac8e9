// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/job_differences.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/base/value_text.h"

#include <algorithm>
#include <utility>

namespace ohmwright {

namespace {

using Words = std::vector<std::string>;

constexpr std::string_view arrow = " → ";

std::string joined(std::string first, std::string_view second, std::string_view third = {}) {
    return first.append(second).append(third);
}

void add(Words& words, std::string name, const std::string& what) {
    words.push_back(joined(std::move(name), ": ", what));
}

/// "Drive: 5 → 3".
void addStep(Words& words, std::string name, const std::string& before, const std::string& after) {
    if (before != after) {
        add(words, std::move(name),
            joined(before.empty() ? said("nothing") : before, arrow, after.empty() ? said("nothing") : after));
    }
}

/// Calls `both` for what is in either list under one id; null where it is in the other alone.
template <class Thing, class Both>
void pairUp(const std::vector<Thing>& before, const std::vector<Thing>& after, const Both& both) {
    const auto find = [](const std::vector<Thing>& in, const std::string& id) {
        const auto at = std::find_if(in.begin(), in.end(), [&id](const Thing& each) { return each.id == id; });
        return at == in.end() ? nullptr : &*at;
    };
    for (const Thing& each : before) {
        both(&each, find(after, each.id));
    }
    for (const Thing& each : after) {
        if (!find(before, each.id)) {
            both(nullptr, &each);
        }
    }
}

std::string valueOf(const Part& part) {
    return part.model.empty() ? formatPartValue({part.value, unitOf(part.kind)}) : part.model;
}

void addPart(Words& words, const Part* before, const Part* after) {
    if (!before || !after) {
        add(words, displayName(before ? *before : *after), before ? said("taken out") : said("added"));
        return;
    }
    if (*before == *after) {
        return;
    }
    const std::size_t count = words.size();
    addStep(words, displayName(*after), valueOf(*before), valueOf(*after));
    if (before->reference != after->reference) {
        addStep(words, displayName(*after), before->reference, after->reference);
    }
    if (before->nets != after->nets) {
        add(words, displayName(*after), said("joined otherwise"));
    }
    if (before->measured != after->measured || before->knowledge != after->knowledge) {
        add(words, displayName(*after), said("what is known of it on the board"));
    }
    Part moved = *before;
    moved.placement = after->placement;
    if (words.size() == count && moved != *after) {
        add(words, displayName(*after), said("changed"));
    }
}

void addCircuit(Words& words, const Circuit& before, const Circuit& after) {
    const std::size_t count = words.size();
    pairUp(before.parts, after.parts, [&words](const Part* was, const Part* is) { addPart(words, was, is); });
    if (before.stages != after.stages) {
        words.push_back(said("the stages"));
    }
    if (before.knobs != after.knobs) {
        words.push_back(said("the row of knobs"));
    }
    if (before != after && (words.size() == count || before.drawing != after.drawing)) {
        words.push_back(said("the drawing"));
    }
}

void addMod(Words& words, const Circuit& stock, const Mod* before, const Mod* after) {
    if (!before || !after) {
        add(words, nameOfMod(before ? *before : *after), before ? said("taken out") : said("added"));
        return;
    }
    if (before->change != after->change) {
        addStep(words, nameOfMod(*after), describeChange(stock, before->change), describeChange(stock, after->change));
    }
    if (before->on != after->on) {
        add(words, nameOfMod(*after), after->on ? said("switched on") : said("switched off"));
    }
    if (before->name != after->name || before->letter != after->letter) {
        addStep(words, said("a mod's name"), nameOfMod(*before), nameOfMod(*after));
    }
}

std::string positionText(const Setting& setting, const std::string& knob) {
    const auto found = setting.knobs.find(knob);
    return found == setting.knobs.end() ? std::string() : formatFigure(found->second);
}

void addSetting(Words& words, const Job& before, const Job& after) {
    const std::size_t count = words.size();
    for (const Knob& knob : after.stock.knobs) {
        addStep(words, knob.name, positionText(before.setting, knob.id), positionText(after.setting, knob.id));
    }
    Setting turned = before.setting;
    turned.knobs = after.setting.knobs;
    if (turned != after.setting || (words.size() == count && before.setting != after.setting)) {
        words.push_back(said("the setting"));
    }
}

void addVisit(Words& words, const Visit& before, const Visit& after) {
    addStep(words, said("visit"), std::to_string(before.number), std::to_string(after.number));
    addStep(words, said("visit"), said(visitStateWord(before.state)), said(visitStateWord(after.state)));
    Visit rest = before;
    rest.number = after.number;
    rest.state = after.state;
    if (rest.readings != after.readings || rest.marks != after.marks) {
        words.push_back(said("readings and steps at the bench"));
        rest.readings = after.readings;
        rest.marks = after.marks;
    }
    if (rest.papers != after.papers) {
        words.push_back(said("papers that were printed"));
        rest.papers = after.papers;
    }
    if (rest != after) {
        words.push_back(said("the visit's words"));
    }
}

}  // namespace

std::vector<std::string> jobDifferences(const Job& before, const Job& after) {
    Words words;
    addStep(words, said("unit"), before.unit.name, after.unit.name);
    UnitCard renamed = before.unit;
    renamed.name = after.unit.name;
    if (renamed != after.unit) {
        words.push_back(said("the unit's card"));
    }
    if (before.customer != after.customer || before.shop != after.shop) {
        words.push_back(said("the customer's card"));
    }
    addCircuit(words, before.stock, after.stock);
    if (before.corrections != after.corrections) {
        words.push_back(said("corrections of the drawing"));
    }
    const Circuit& stock = after.stock;
    pairUp(before.plan, after.plan, [&words, &stock](const Mod* was, const Mod* is) { addMod(words, stock, was, is); });
    addSetting(words, before, after);
    addVisit(words, before.visit, after.visit);
    if (before.departures != after.departures) {
        words.push_back(said("the record of visits that ended"));
    }
    if (words.empty() && before != after) {
        words.push_back(said("the order of the plan, or what this version does not know"));
    }
    return words;
}

std::string differencesLine(const std::vector<std::string>& differences, std::size_t most) {
    std::string line;
    for (std::size_t i = 0; i < std::min(most, differences.size()); ++i) {
        line.append(i == 0 ? "" : "; ").append(differences[i]);
    }
    if (differences.size() > most) {
        return said("%1; and %2 more", line, differences.size() - most);
    }
    return line;
}

}  // namespace ohmwright
