// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/substitutes.h"

#include "core/base/number_text.h"
#include "core/base/preferred_numbers.h"
#include "core/base/said.h"
#include "core/base/value_text.h"
#include "core/measure/chosen_figures.h"
#include "core/plan/apply.h"
#include "core/plan/device_pick.h"
#include "core/plan/pick_list.h"
#include "core/plan/side_readings.h"

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

constexpr double largestFactor = 2.0;
constexpr double sameShare = 1e-3;
constexpr double decibelStep = 0.1;
constexpr double ratioStep = 0.01;
/// DC that counts as one step. House figure: what a meter on the bench tells apart at a collector.
constexpr double voltStep = 0.05;
/// Changes under these are not worth a word.
constexpr double saidDecibels = 0.05;
constexpr double saidVolts = 0.02;
/// Ceramics from here on are class 2 as a rule. Common practice, no source.
constexpr double classTwoFarads = 2e-9;

Error wrong(const std::string& sentence, const PartId& part) {
    return {ErrorCode::invalidInput, sentence, part};
}

std::vector<FigureName> watchedOf(const SubstituteRequest& request) {
    if (!request.watched.empty()) {
        return request.watched;
    }
    std::vector<FigureName> names;
    for (const char* id : {"response_82", "response_330", "response_1k", "response_3k"}) {
        names.push_back(*findFigureName(id));
    }
    return names;
}

bool hasWord(const std::string& build, std::string_view word) {
    return build.find(word) != std::string::npos;
}

std::vector<std::string> warningsOf(const Part& part, const DrawerLot& lot) {
    std::vector<std::string> warnings;
    if (part.kind == PartKind::capacitor) {
        if (hasWord(lot.build, "ceramic") && !hasWord(part.build, "ceramic") && lot.value >= classTwoFarads) {
            warnings.push_back(said("class-2 ceramic: its value falls with DC and heat, and it is microphonic"));
        }
        if (isPolarised(lot.build) && !isPolarised(part.build)) {
            warnings.push_back(said("polarised: only where the DC across it never changes its sign"));
        }
        const auto rated = ratedVolts(part);
        if (rated && lot.ratedVolts > 0.0 && lot.ratedVolts < *rated) {
            warnings.push_back(said("rated %1, the old part %2", formatPartValue(volts(lot.ratedVolts)),
                                    formatPartValue(volts(*rated))));
        }
    } else if (part.kind == PartKind::bipolar || part.kind == PartKind::jfet || part.kind == PartKind::mosfet) {
        warnings.push_back(said("leg order differs by type and maker: measure before soldering"));
    } else if (part.kind == PartKind::triode || part.kind == PartKind::pentode) {
        warnings.push_back(said("heater and base must be the same"));
    }
    return warnings;
}

/// Puts one substitute after the other into the planned circuit and compares its figures and DC.
class Trial {
public:
    Trial(const Job& job, const SubstituteRequest& request, Circuit planned, const std::stop_token& stop)
        : m_job(job),
          m_planned(std::move(planned)),
          m_part(*findPart(m_planned, request.part)),
          m_meter(watchedOf(request)),
          m_stop(stop) {}

    Result<void> readPlan() {
        auto reading = read(m_planned);
        if (!reading) {
            return reading.error();
        }
        m_before = *std::move(reading);
        return {};
    }

    /// Absent when the circuit has no answer with it.
    Result<std::optional<Substitute>> with(const DrawerLot& lot, const Model* model) {
        const Change change =
            model == nullptr ? Change(SwapValue{m_part.id, valueOf(lot)}) : Change(SwapType{m_part.id, *model});
        auto fitted = applyMod(m_planned, Mod{"substitute", "", "", change, true});
        if (!fitted) {
            return std::optional<Substitute>();
        }
        auto reading = read(*fitted);
        if (!reading) {
            return reading.error().code == ErrorCode::cancelled ? Result<std::optional<Substitute>>(reading.error())
                                                                : std::optional<Substitute>();
        }
        Substitute substitute;
        substitute.lot = lot.id;
        substitute.value = model == nullptr ? valueOf(lot) : 0.0;
        substitute.type = model == nullptr ? "" : model->name;
        substitute.figures = *std::move(reading);
        for (std::size_t k = 0; k < substitute.figures.size(); ++k) {
            SubstituteFigure& figure = substitute.figures[k];
            figure.planned = m_before[k].withIt;
            const double step = stepsOf(figure);
            substitute.score += step * step;
        }
        substitute.score = std::sqrt(substitute.score);
        // What stands in the unit tells what the place is like; a part that is only planned has no body yet.
        const Part* old = findPart(m_job.stock, m_part.id);
        substitute.warnings = warningsOf(old != nullptr ? *old : m_part, lot);
        substitute.consequence = consequenceOf(substitute, *fitted);
        return std::optional(std::move(substitute));
    }

private:
    Result<std::vector<SubstituteFigure>> read(const Circuit& circuit) {
        const auto figures = m_meter.measure(circuit, m_job.setting, m_stop);
        if (!figures) {
            return figures.error();
        }
        const auto solved = solveCircuit(circuit, m_job.setting, m_stop);
        if (!solved) {
            return solved.error();
        }
        std::vector<SubstituteFigure> result;
        for (std::size_t k = 0; k < figures->size(); ++k) {
            result.push_back({m_meter.names()[k].id, m_meter.names()[k].unit, {}, (*figures)[k].value});
        }
        for (const NetName& net : m_part.nets) {
            result.push_back({"dc:" + net, "V", {}, solved->biasVolts(net)});
        }
        return result;
    }

    [[nodiscard]] double stepsOf(const SubstituteFigure& figure) const {
        if (!figure.planned || !figure.withIt) {
            return figure.planned.has_value() == figure.withIt.has_value() ? 0.0 : 1e3;  // one lost its figure
        }
        const double change = *figure.withIt - *figure.planned;
        if (figure.id.starts_with("dc:")) {
            return change / voltStep;
        }
        const auto name = std::find_if(m_meter.names().begin(), m_meter.names().end(),
                                       [&figure](const FigureName& one) { return one.id == figure.id; });
        if (name != m_meter.names().end() && name->comparedAsRatio) {
            return change / (ratioStep * std::max(std::abs(*figure.planned), 1e-12));
        }
        return change / decibelStep;
    }

    [[nodiscard]] std::string consequenceOf(const Substitute& substitute, const Circuit& fitted) const {
        const Unit unit = unitOf(m_part.kind);
        const std::string given = substitute.type.empty() ? formatPartValue({substitute.value, unit}) : substitute.type;
        const std::string planned = substitute.type.empty() ? formatPartValue({m_part.value, unit}) : m_part.model;
        std::string changes;
        const auto say = [&changes](const std::string& words) { changes += (changes.empty() ? "" : ", ") + words; };
        for (std::size_t pin = 0; pin < m_part.nets.size(); ++pin) {
            const SubstituteFigure& dc = substitute.figures[m_meter.names().size() + pin];
            const double change = *dc.withIt - *dc.planned;
            if (std::abs(change) >= saidVolts) {
                const std::string place =
                    substitute.type.empty() ? said("net %1", m_part.nets[pin]) : said(pinName(m_part.kind, int(pin)));
                say(place + " " + formatFixed(change, 2, Sign::always) + " V");
            }
        }
        const SubstituteFigure* largest = nullptr;
        for (std::size_t k = 0; k < m_meter.names().size(); ++k) {
            const SubstituteFigure& figure = substitute.figures[k];
            if (figure.planned && figure.withIt &&
                (largest == nullptr || std::abs(stepsOf(figure)) > std::abs(stepsOf(*largest)))) {
                largest = &figure;
            }
        }
        if (largest != nullptr && std::abs(*largest->withIt - *largest->planned) >= saidDecibels) {
            const auto& kinds = figureKinds();
            const auto kind = std::find_if(kinds.begin(), kinds.end(),
                                           [largest](const FigureKind& one) { return one.id == largest->id; });
            say((kind == kinds.end() ? largest->id : said(kind->name)) + " " +
                formatFixed(*largest->withIt - *largest->planned, 1, Sign::always) + " " + said(largest->unit));
        }
        const std::string refit = refitOf(fitted);
        const std::string change = changes.empty() ? said("nothing that is heard or measured") : changes;
        return refit.empty() ? said("%1 instead of %2: %3", given, planned, change)
                             : said("%1 instead of %2: %3; fit %4", given, planned, change, refit);
    }

    /// "R3 5k6 → 3k9": the load of E12 that brings the output's DC nearest to where the plan has it.
    [[nodiscard]] std::string refitOf(const Circuit& fitted) const {
        const PartId load = m_part.kind == PartKind::bipolar || m_part.kind == PartKind::jfet
                                ? loadResistorOf(fitted, m_part.id)
                                : PartId();
        if (load.empty()) {
            return {};
        }
        const double goal = *m_before[m_meter.names().size()].withIt;
        Circuit trial = fitted;
        Part& resistor = *findPart(trial, load);
        const double original = resistor.value;
        const auto missAt = [&](double value) {
            resistor.value = value;
            const auto solved = solveCircuit(trial, m_job.setting, m_stop);
            return solved ? std::abs(solved->biasVolts(m_part.nets.front()) - goal) : 1e9;
        };
        double best = original;
        double least = missAt(original);
        double value = nextPreferred(original / 4.0, Series::e12);
        while (value < original * 4.0) {
            const double miss = missAt(value);
            if (miss < least - saidVolts) {
                least = miss;
                best = value;
            }
            value = nextPreferred(value, Series::e12);
        }
        if (best == original) {
            return {};
        }
        return resistor.reference + " " + formatPartValue(ohms(original)) + " → " + formatPartValue(ohms(best));
    }

    const Job& m_job;
    Circuit m_planned;
    const Part& m_part;
    FigureMeter m_meter;
    std::stop_token m_stop;
    std::vector<SubstituteFigure> m_before;
};

}  // namespace

Result<std::vector<Substitute>> findSubstitutes(const Job& job, const SubstituteRequest& request,
                                                const std::stop_token& stop) {
    auto planned = nowCircuit(job);
    if (!planned) {
        return planned.error();
    }
    const Part* found = findPart(*planned, request.part);
    if (found == nullptr) {
        return wrong(said("There is no part \"%1\" in the circuit. Choose another part.", request.part), request.part);
    }
    const Part part = *found;
    const bool isValue = hasValue(part.kind);
    if (!isValue && part.model.empty()) {
        return wrong(said("%1 is nothing that comes out of a drawer.", displayName(part)), part.id);
    }
    Trial trial(job, request, *std::move(planned), stop);
    if (const Result<void> read = trial.readPlan(); !read) {
        return read.error();
    }
    std::vector<Substitute> substitutes;
    for (const DrawerLot* lot : lotsOfKind(request.drawer, part.kind, reservationName(job))) {
        const Model* model = nullptr;
        if (isValue) {
            const double factor = valueOf(*lot) / part.value;
            if (factor > largestFactor || factor < 1.0 / largestFactor || std::abs(factor - 1.0) < sameShare) {
                continue;
            }
        } else {
            model = findModel(request.knownTypes, lot->type);
            model = model == nullptr ? findModel(job.stock, lot->type) : model;
            if (model == nullptr || lot->type == part.model) {
                continue;
            }
        }
        auto substitute = trial.with(*lot, model);
        if (!substitute) {
            return substitute.error();
        }
        if (*substitute) {
            substitutes.push_back(**std::move(substitute));
        }
    }
    std::stable_sort(substitutes.begin(), substitutes.end(),
                     [](const Substitute& a, const Substitute& b) { return a.score < b.score; });
    substitutes.resize(std::min(substitutes.size(), request.most));
    return substitutes;
}

}  // namespace ohmwright
