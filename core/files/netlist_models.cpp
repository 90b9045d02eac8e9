// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/netlist_models.h"

#include "core/base/said.h"
#include "core/circuit/model_limits.h"
#include "core/expression/expression.h"
#include "core/files/netlist_parameters.h"

#include <algorithm>
#include <array>

namespace ohmwright {

namespace {

constexpr auto triodeNames =
    std::to_array<std::string_view>({"MU", "EX", "KG1", "KP", "KVB", "RGI", "CCG", "CGP", "CCP", "IS", "N", "RNEQ"});
constexpr auto pentodeNames = std::to_array<std::string_view>(
    {"MU", "EX", "KG1", "KG2", "KP", "KVB", "RGI", "CCG", "CPG1", "CCP", "IS", "N", "RNEQ"});

struct ModelType {
    std::string_view name;
    PartKind kind;
    double polarity;
};
constexpr std::array<ModelType, 7> modelTypes{{{"D", PartKind::diode, 0.0},
                                               {"NPN", PartKind::bipolar, 1.0},
                                               {"PNP", PartKind::bipolar, -1.0},
                                               {"NJF", PartKind::jfet, 1.0},
                                               {"PJF", PartKind::jfet, -1.0},
                                               {"NMOS", PartKind::mosfet, 1.0},
                                               {"PMOS", PartKind::mosfet, -1.0}}};

/// A model of one figure: what the laws say of the name alone.
Model modelOf(PartKind kind, const std::string& name, double value) {
    Model model;
    model.kind = kind;
    model.parameters[name] = value;
    return model;
}

/// One figure of a card after another into a model.
class FigureReader {
public:
    FigureReader(const ModelText& text, ParameterScope& scope, NetlistLog& log, bool& constant)
        : m_text(text), m_scope(scope), m_log(log), m_constant(constant) {
        m_model.name = text.name;
        m_model.kind = text.kind;
        m_model.source = "netlist, line " + std::to_string(text.line);
        if (text.polarity != 0.0) {
            m_model.parameters["POLARITY"] = text.polarity;
        }
    }

    void read(const Word& word) {
        if (!word.assigns) {
            fault(word, said("%1 has no value: write NAME=VALUE for each figure.", inQuotes(word.text)));
            return;
        }
        const std::string name(lawName(m_text.kind, inUpperCase(word.text)));
        if (name == "LEVEL") {
            readLevel(word);
        } else if (name == "POLARITY" || !unknownParameters(modelOf(m_text.kind, name, 1.0)).empty()) {
            m_log.note(word.line, said("%1 of the model %2 is ignored: it is no figure of %3.", inQuotes(word.text),
                                       m_text.name, said(kindAsOne(m_text.kind))));
        } else {
            readFigure(word, name);
        }
    }

    [[nodiscard]] const Model& model() const { return m_model; }

private:
    const ModelText& m_text;
    ParameterScope& m_scope;
    NetlistLog& m_log;
    bool& m_constant;
    Model m_model;

    void fault(const Word& word, const std::string& sentence) {
        m_log.fault(word.line, said("Model %1: %2", m_text.name, sentence));
    }

    std::optional<double> figure(const Word& word) {
        const std::string who = said("Model %1: %2", m_text.name, word.text);
        const Result<NetlistNumber> number = readDoubtfulNumber(word.value);
        if (number) {
            noteDoubt(m_log, word.line, who, number->doubt);
            return number->value;
        }
        m_constant = false;
        const bool formula = word.value.find_first_of("{(*/") != std::string::npos || m_scope.knows(word.value);
        if (!formula) {
            m_log.fault(word.line, who + ": " + number.error().message);
            return std::nullopt;
        }
        return m_scope.evaluate(withoutBraces(word.value), word.line, who, m_log);
    }

    void readLevel(const Word& word) {
        const std::optional<double> level = figure(word);
        if (level && *level != 1.0) {
            fault(word, said("LEVEL=%1 is another law than this program has: use the figures of LEVEL=1.",
                             word.value.substr(0, 24)));
        }
    }

    void readFigure(const Word& word, const std::string& name) {
        const std::optional<double> value = figure(word);
        if (!value) {
            return;
        }
        if (!ignoredParameters(modelOf(m_text.kind, name, *value)).empty()) {
            m_log.note(word.line, said("%1 of the model %2 is not followed: the program's law of %3 does without it.",
                                       inQuotes(word.text), m_text.name, said(kindAsOne(m_text.kind))));
        }
        const std::string_view wrong = faultOfParameter(m_text.kind, name, *value);
        if (!wrong.empty()) {
            fault(word, said("%1=%2: %3 %4.", word.text, word.value.substr(0, 48), name, said(wrong)));
        } else if (!m_model.parameters.emplace(name, *value).second) {
            fault(word, said("%1 stands twice: delete one of them.", name));
        }
    }
};

/// Where the figures begin: after `.model NAME TYPE`.
constexpr std::size_t headWords = 3;

}  // namespace

std::optional<ModelText> readModelHead(const Card& card, NetlistLog& log) {
    const std::optional<CardText> text = joinCard(card, log);
    const auto words = text ? splitWords(*text, log) : std::nullopt;
    if (!words) {
        return std::nullopt;
    }
    const bool complete = words->size() >= headWords && !(*words)[1].assigns && !(*words)[2].assigns;
    if (!complete) {
        log.fault(card.line, said(".model needs a name and a type: write .model NAME D(IS=... N=...)."));
        return std::nullopt;
    }
    const std::string type = inUpperCase((*words)[2].text);
    const auto found =
        std::find_if(modelTypes.begin(), modelTypes.end(), [&type](const ModelType& one) { return one.name == type; });
    if (found == modelTypes.end()) {
        log.fault((*words)[2].line, said("Model %1 has the type %2, which this program has no law for: it knows D, "
                                         "NPN, PNP, NJF, PJF, NMOS, PMOS.",
                                         inQuotes((*words)[1].text), inQuotes((*words)[2].text)));
        return std::nullopt;
    }
    return ModelText{(*words)[1].text, card.line, found->kind, type, found->polarity, card};
}

std::optional<Model> readModel(const ModelText& text, ParameterScope& scope, NetlistLog& log, bool& constant) {
    constant = true;
    const std::optional<CardText> joined = joinCard(text.card, log);
    const auto words = joined ? splitWords(*joined, log) : std::nullopt;
    if (!words) {
        return std::nullopt;
    }
    FigureReader reader(text, scope, log, constant);
    for (std::size_t index = headWords; index < words->size(); ++index) {
        reader.read((*words)[index]);
    }
    return reader.model();
}

std::optional<PartKind> valveKind(std::string_view lowerName) {
    if (lowerName == "koren_triode") {
        return PartKind::triode;
    }
    return lowerName == "koren_pentode" ? std::optional(PartKind::pentode) : std::nullopt;
}

std::span<const std::string_view> valveParameters(PartKind kind) {
    return kind == PartKind::triode ? std::span<const std::string_view>(triodeNames)
                                    : std::span<const std::string_view>(pentodeNames);
}

std::string valveParameterName(PartKind kind, std::string_view written) {
    const std::string name = inUpperCase(written);
    return kind == PartKind::pentode && name == "CGP" ? "CPG1" : name;
}

}  // namespace ohmwright
