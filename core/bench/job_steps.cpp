// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/job_steps.h"

#include "core/base/number_text.h"
#include "core/base/said.h"
#include "core/bench/high_voltage.h"
#include "core/bench/net_words.h"

namespace ohmwright {

namespace {

/// More probe places than this make no check quicker; the probe card has them all.
constexpr std::size_t mostProbes = 12;

}  // namespace

BenchStep photographStep() {
    BenchStep step;
    step.kind = StepKind::photograph;
    entitle(step, [] { return said("Photograph both sides of the board, before anything is moved"); });
    step.lines.push_back({said("Photograph"), said("both sides of the board, before anything is moved"), false, true});
    return step;
}

BenchStep dischargeStep(const Discharge& discharge) {
    BenchStep step;
    step.kind = StepKind::discharge;
    entitle(step, [] { return said("Power off and discharge, then measure"); });
    step.lines.push_back({said("Power"),
                          discharge.supplyVolts > highVolts ? said("plug out of the wall, leads out")
                                                            : said("leads, battery and supply out"),
                          false, true});
    step.lines.push_back({said("Discharge"),
                          said("supply line through %1 to ground, then measure: under %2 V, read",
                               toolWords(discharge.toolOhms, discharge.supplyVolts), formatFigure(discharge.toVolts)),
                          true, true});
    step.lines.push_back({said("Time"), discharge.sentence, false, false});
    if (discharge.isHighVoltage) {
        step.lines.push_back({said("One hand"), said("the other in the pocket; nobody works here alone"), false, true});
        step.lines.push_back(
            {said("Law"), said("local codes and licensed practice go before this sheet"), false, false});
        step.needsSecondPerson = true;
    }
    step.low = 0.0;
    step.nominal = 0.0;
    step.high = discharge.toVolts;
    step.unit = Unit::volt;
    step.waitSeconds = discharge.waitSeconds;
    step.blocks = true;
    step.ifItFails = said(
        "Do not touch: leave the tool on, wait again, measure again. If it does not fall, the tool or its "
        "clip is open.");
    return step;
}

BenchStep stopStep() {
    BenchStep step;
    step.kind = StepKind::stop;
    entitle(step, [] { return said("Stop. Do not power yet."); });
    step.blocks = true;
    return step;
}

BenchStep powerStep(const ProbeCard& card, double supplyVolts) {
    BenchStep step;
    step.kind = StepKind::powerUp;
    entitle(step, [&] {
        return supplyVolts > 0.0 ? said("Power on without signal, %1 V, current limited", formatFixed(supplyVolts, 2))
                                 : said("Power on without signal, current limited");
    });
    if (card.supply) {
        constexpr double milli = 1e3;
        step.low = card.supply->low;
        step.nominal = card.supply->nominal;
        step.high = card.supply->high;
        step.unit = Unit::ampere;
        step.lines.push_back({said("Current"),
                              said("%1 to %2 mA: read", formatFixed(milli * card.supply->low, 2),
                                   formatFixed(milli * card.supply->high, 2)),
                              true, true});
        step.ifItFails = said("Power off at once: a bridge, a part the wrong way round, or a chip turned.");
    }
    step.blocks = true;
    return step;
}

std::vector<BenchStep> probeSteps(const PoweredGroup& group, std::size_t sheet) {
    std::vector<BenchStep> steps;
    const Circuit& circuit = group.finished;
    for (std::size_t k = 0; k < group.card.lines.size(); ++k) {
        const ProbeLine& line = group.card.lines[k];
        const Part* part = findPart(circuit, line.part);
        if (steps.size() >= mostProbes || part == nullptr) {
            break;
        }
        BenchStep step;
        step.kind = StepKind::probe;
        entitle(step, [&] { return said("Volts at %1", deviceLegWords(*part, line.leg)); });
        Check check;
        check.kind = CheckKind::volts;
        check.red = {line.part, line.leg, {}, line.place, {}};
        check.black = {{}, 0, NetName(groundNet), said("jack sleeve (ground)"), {}};
        check.expected = {line.low, line.nominal, line.high};
        step.check = check;
        step.low = line.low;
        step.nominal = line.nominal;
        step.high = line.high;
        step.unit = Unit::volt;
        step.lines.push_back({said("Read"), said("%1: read", check.expected.words(check.kind)), true, true});
        step.ifItFails = said("Power off; the reading typed in names the parts to look at.");
        step.sheet = static_cast<int>(sheet);
        step.line = k;
        steps.push_back(std::move(step));
    }
    return steps;
}

}  // namespace ohmwright
