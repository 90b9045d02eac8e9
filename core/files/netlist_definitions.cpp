// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_definitions.h"

#include "core/base/said.h"
#include "core/expression/expression.h"
#include "core/files/netlist_models.h"
#include "core/files/netlist_numbers.h"

#include <algorithm>
#include <array>
#include <utility>

namespace ohmwright {

namespace {

constexpr int mostNested = 50;  // Definitions in definitions.
constexpr std::size_t mostParameters = 100'000;
constexpr std::size_t mostPins = 200'000;
constexpr std::size_t mostGlobals = 10'000;

enum class DotCard { subcircuit, ends, model, parameters, global, title, ignored, noted, temperature, options };

struct DotName {
    std::string_view name;
    DotCard card;
};

constexpr std::array<DotName, 31> dotNames{{
    {".subckt", DotCard::subcircuit}, {".ends", DotCard::ends},         {".model", DotCard::model},
    {".param", DotCard::parameters},  {".params", DotCard::parameters}, {".global", DotCard::global},
    {".title", DotCard::title},       {".ac", DotCard::ignored},        {".tran", DotCard::ignored},
    {".op", DotCard::ignored},        {".dc", DotCard::ignored},        {".noise", DotCard::ignored},
    {".options", DotCard::options},   {".option", DotCard::options},    {".opt", DotCard::options},
    {".temp", DotCard::temperature},  {".ic", DotCard::noted},          {".nodeset", DotCard::noted},
    {".print", DotCard::noted},       {".plot", DotCard::noted},        {".save", DotCard::noted},
    {".probe", DotCard::noted},       {".meas", DotCard::noted},        {".measure", DotCard::noted},
    {".four", DotCard::noted},        {".width", DotCard::noted},       {".tf", DotCard::noted},
    {".sens", DotCard::noted},        {".pz", DotCard::noted},          {".disto", DotCard::noted},
    {".tnom", DotCard::temperature},
}};

struct Refusal {
    std::string_view name;
    const char* sentence;  ///< With the card's word as its place.
};
constexpr std::array<Refusal, 11> refusals{{
    {".include",
     toSay("%1 reads another file, which this program does not: write the subcircuit or model into this file.")},
    {".incl",
     toSay("%1 reads another file, which this program does not: write the subcircuit or model into this file.")},
    {".inc",
     toSay("%1 reads another file, which this program does not: write the subcircuit or model into this file.")},
    {".lib",
     toSay("%1 reads another file, which this program does not: write the subcircuit or model into this file.")},
    {".endl",
     toSay("%1 ends a part of a library, which this program does not read: write the subcircuit into this file.")},
    {".func", toSay("%1 is not read: write the formula out where it is used, or as a .param.")},
    {".step", toSay("%1 is not read: give the parameter one value, and ask for each value with a file of its own.")},
    {".if", toSay("%1 is not read: leave only the cards that apply in the file.")},
    {".elseif", toSay("%1 is not read: leave only the cards that apply in the file.")},
    {".else", toSay("%1 is not read: leave only the cards that apply in the file.")},
    {".endif", toSay("%1 is not read: leave only the cards that apply in the file.")},
}};

class DefinitionReader {
public:
    DefinitionReader(NetlistFile& file, NetlistLog& log) : m_file(file), m_log(log), m_open{&file.top} {}

    /// False when the file's subcircuits cannot be told apart.
    bool read(const std::vector<Card>& cards) {
        for (const Card& card : cards) {
            m_file.lastLine = card.line;
            if (!readCard(card) || m_tooMuch) {
                return false;
            }
        }
        if (m_controlLine > 0) {
            m_log.fault(m_controlLine,
                        said("The .control that begins here has no .endc: put .endc after its last line."));
            return false;
        }
        if (m_open.size() > 1) {
            m_log.fault(m_open.back()->line, said("The subcircuit %1 has no .ends: put .ends after its last part.",
                                                  inQuotes(m_open.back()->name)));
            return false;
        }
        return true;
    }

private:
    NetlistFile& m_file;
    NetlistLog& m_log;
    std::vector<Definition*> m_open;
    int m_controlLine = 0;
    bool m_tooMuch = false;
    std::size_t m_pins = 0;
    std::size_t m_parameters = 0;
    std::unordered_map<const Definition*, std::unordered_map<std::string, int>> m_parameterLines;

    /// @param english  with the most as its place.
    void requireAtMost(std::size_t count, std::size_t most, const char* english, int line) {
        if (count > most) {
            m_log.fault(line, said(english, most));
            m_tooMuch = true;
        }
    }

    Definition& current() { return *m_open.back(); }

    bool readCard(const Card& card) {
        const std::string word = firstWord(card.raw);
        if (m_controlLine > 0) {
            m_controlLine = word == ".endc" ? 0 : m_controlLine;
            return true;
        }
        current().characters += card.raw.size();
        if (!word.starts_with('.')) {
            current().cards.push_back(card);
            return true;
        }
        if (word == ".control") {
            m_controlLine = card.line;
            m_log.note(card.line,
                       said("The commands from .control to .endc are skipped: this program never runs any."));
            return true;
        }
        return readDotCard(card, word);
    }

    bool readDotCard(const Card& card, const std::string& word) {
        const auto found =
            std::find_if(dotNames.begin(), dotNames.end(), [&word](const DotName& one) { return one.name == word; });
        if (found == dotNames.end()) {
            refuse(card, word);
            return true;
        }
        switch (found->card) {
            case DotCard::subcircuit:
                return openSubcircuit(card);
            case DotCard::ends:
                return closeSubcircuit(card);
            case DotCard::model:
                addModel(card);
                break;
            case DotCard::parameters:
                addParameters(card);
                break;
            case DotCard::global:
                addGlobals(card);
                break;
            case DotCard::title:
            case DotCard::ignored:
                break;
            case DotCard::noted:
                m_log.note(card.line, said("The card %1 is ignored.", word));
                break;
            case DotCard::temperature:
                m_log.note(card.line, said("The card %1 is ignored: give the temperature with --temperature.", word));
                break;
            case DotCard::options:
                noteOptions(card);
                break;
        }
        return true;
    }

    void noteOptions(const Card& card) {
        const std::string text = inLowerCase(card.raw);
        if (text.find("temp") != std::string::npos || text.find("tnom") != std::string::npos) {
            m_log.note(card.line, said("The temperature of .options is ignored: give it with --temperature."));
        }
    }

    void refuse(const Card& card, const std::string& word) {
        const auto found =
            std::find_if(refusals.begin(), refusals.end(), [&word](const Refusal& one) { return one.name == word; });
        if (found != refusals.end()) {
            m_log.fault(card.line, said(found->sentence, word));
        } else if (word == ".endc") {
            m_log.fault(card.line, said(".endc stands here without a .control before it: delete it."));
        } else {
            m_log.fault(card.line,
                        said("The card %1 is not known: delete it, or put a * before it to make it a comment.",
                             inQuotes(word)));
        }
    }

    std::optional<std::vector<Word>> wordsOf(const Card& card) {
        const std::optional<CardText> text = joinCard(card, m_log);
        return text ? splitWords(*text, m_log) : std::nullopt;
    }

    bool openSubcircuit(const Card& card) {
        auto definition = std::make_unique<Definition>();
        definition->line = card.line;
        definition->outer = &current();
        definition->depth = current().depth + 1;
        definition->characters = card.raw.size();
        if (definition->depth > mostNested) {
            m_log.fault(card.line,
                        said("Subcircuits are defined in each other more than 50 deep: write them beside each other."));
            return false;
        }
        if (const auto words = wordsOf(card)) {
            readHead(*definition, *words);
        }
        Definition* opened = definition.get();
        const std::string key = inLowerCase(definition->name);
        current().innerOrder.push_back(opened);
        const auto [place, isNew] = current().inner.try_emplace(key, std::move(definition));
        if (!isNew) {
            m_log.fault(card.line,
                        said("The subcircuit %1 is defined twice, in line %2 and here: delete one or rename it.",
                             inQuotes(opened->name), place->second->line));
            return false;
        }
        m_open.push_back(opened);
        return true;
    }

    void readHead(Definition& definition, const std::vector<Word>& words) {
        std::size_t at = 1;
        if (words.size() < 2 || words[1].assigns) {
            m_log.fault(definition.line, said(".subckt has no name: write .subckt NAME PIN PIN ..."));
            return;
        }
        definition.name = words[at++].text;
        requireName(words[1], NameOf::subcircuit, m_log);
        std::unordered_set<std::string> seen;
        for (; at < words.size() && !words[at].assigns; ++at) {
            const std::string pin = inLowerCase(words[at].text);
            if (pin == "params:" || pin == "param:") {
                ++at;
                break;
            }
            requireName(words[at], NameOf::pin, m_log);
            if (pin == "0" || pin == "gnd") {
                m_log.fault(words[at].line, said("Ground cannot be a pin of the subcircuit %1: it is everywhere the "
                                                 "same; leave it out of the pins.",
                                                 inQuotes(definition.name)));
            }
            if (!seen.insert(pin).second) {
                m_log.fault(words[at].line, said("The subcircuit %1 has the pin %2 twice: give each pin its own name.",
                                                 inQuotes(definition.name), inQuotes(words[at].text)));
            }
            definition.pins.push_back(words[at].text);
        }
        m_pins += definition.pins.size();
        requireAtMost(m_pins, mostPins,
                      toSay("The file has more than %1 pins of subcircuits: leave out what is not asked for."),
                      definition.line);
        if (definition.pins.empty()) {
            m_log.fault(definition.line, said("The subcircuit %1 has no pins: write .subckt NAME PIN PIN ...",
                                              inQuotes(definition.name)));
        }
        readDefaults(definition, words, at);
    }

    void readDefaults(Definition& definition, const std::vector<Word>& words, std::size_t at) {
        for (; at < words.size(); ++at) {
            const Word& word = words[at];
            const std::string key = inLowerCase(word.text);
            if (key == "params:" || key == "param:") {
                continue;
            }
            if (!word.assigns) {
                m_log.fault(word.line, said("The word %1 of the subcircuit %2 stands among its parameters without a "
                                            "value: write NAME=DEFAULT.",
                                            inQuotes(word.text), inQuotes(definition.name)));
                continue;
            }
            addParameter(definition.callParameters, definition, word);
        }
    }

    void addParameter(std::vector<ParameterText>& list, const Definition& owner, const Word& word) {
        if (!isParameterName(word.text)) {
            m_log.fault(word.line,
                        said("The parameter %1 has a name that is none: letters, digits and _ only, a letter first.",
                             inQuotes(word.text)));
            return;
        }
        const int earlier = lineOfParameter(owner, word.text);
        if (earlier > 0) {
            m_log.fault(word.line, said("The parameter %1 is given twice, in line %2 and here: delete one of them.",
                                        inQuotes(word.text), earlier));
            return;
        }
        m_parameterLines[&owner].emplace(inLowerCase(word.text), word.line);
        list.push_back({word.text, std::string(withoutBraces(word.value)), word.line});
        requireAtMost(++m_parameters, mostParameters,
                      toSay("The file has more than %1 parameters: leave out what is not asked for."), word.line);
    }

    int lineOfParameter(const Definition& owner, const std::string& name) {
        const auto& lines = m_parameterLines[&owner];
        const auto found = lines.find(inLowerCase(name));
        return found == lines.end() ? 0 : found->second;
    }

    bool closeSubcircuit(const Card& card) {
        if (m_open.size() == 1) {
            m_log.fault(card.line, said(".ends stands here without a .subckt before it: delete it or put .subckt NAME "
                                        "PINS before the parts."));
            return false;
        }
        const auto words = wordsOf(card);
        const Definition& open = current();
        if (words && words->size() > 1 && inLowerCase((*words)[1].text) != inLowerCase(open.name)) {
            m_log.fault(card.line, said(".ends names %1, but the open subcircuit is %2 of line %3: write .ends %4.",
                                        inQuotes((*words)[1].text), inQuotes(open.name), open.line, open.name));
            return false;
        }
        m_open.pop_back();
        return true;
    }

    /// A part that names a model which could not be read is not wrong itself.
    void loseModel(const Card& card) {
        NetlistLog silent;
        const std::optional<CardText> text = joinCard(card, silent);
        const auto words = text ? splitWords(*text, silent) : std::nullopt;
        if (words && words->size() > 1) {
            current().lostModels.insert(inLowerCase((*words)[1].text));
        }
    }

    void addModel(const Card& card) {
        const std::optional<ModelText> model = readModelHead(card, m_log);
        if (!model) {
            loseModel(card);
            return;
        }
        const std::string key = inLowerCase(model->name);
        const auto [place, isNew] = current().models.try_emplace(key, *model);
        if (!isNew) {
            m_log.fault(card.line, said("The model %1 is given twice, in line %2 and here: delete one or rename it.",
                                        inQuotes(model->name), place->second.line));
            return;
        }
        current().modelOrder.push_back(key);
    }

    void addParameters(const Card& card) {
        const std::optional<CardText> text = joinCard(card, m_log);
        const auto words = text ? splitAssignments(*text, m_log) : std::nullopt;
        if (words) {
            for (const Word& word : *words) {
                addParameter(current().parameters, current(), word);
            }
        }
    }

    void addGlobals(const Card& card) {
        const auto words = wordsOf(card);
        if (words) {
            if (words->size() < 2) {
                m_log.fault(card.line, said(".global names no net: write .global NET, or delete it."));
            }
            for (std::size_t index = 1; index < words->size(); ++index) {
                m_file.globals.insert(inLowerCase((*words)[index].text));
            }
            requireAtMost(m_file.globals.size(), mostGlobals,
                          toSay("The file has more than %1 global nets: leave out what is not asked for."), card.line);
        }
    }
};

}  // namespace

std::unique_ptr<NetlistFile> readDefinitions(std::string_view text, NetlistLog& log) {
    NetlistLines lines = splitLines(text, log);
    if (log.hasFault()) {
        return nullptr;
    }
    auto file = std::make_unique<NetlistFile>();
    file->title = std::move(lines.title);
    const bool sound = DefinitionReader(*file, log).read(lines.cards);
    return sound ? std::move(file) : nullptr;
}

const Definition* findDefinition(const Definition& scope, const std::string& lowerName) {
    for (const Definition* place = &scope; place != nullptr; place = place->outer) {
        const auto found = place->inner.find(lowerName);
        if (found != place->inner.end()) {
            return found->second.get();
        }
    }
    return nullptr;
}

}  // namespace ohmwright
