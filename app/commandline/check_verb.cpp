// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/verbs.h"
#include "core/base/colour_bands.h"
#include "core/base/value_text.h"
#include "core/circuit/check.h"
#include "core/measure/solved_circuit.h"
#include "core/plan/apply.h"
#include "core/plan/correct.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

namespace ohmwright {

namespace {

/// Collects findings; the same one is said once although several variants have it.
class Findings {
public:
    void add(Severity severity, const std::string& place, const std::string& message) {
        if (!m_seen.insert({place, message}).second) return;
        m_anythingWrong = m_anythingWrong || severity == Severity::wrong;
        m_table.rows.push_back({std::string(severity == Severity::wrong ? "wrong" : "doubtful"), place, message});
    }

    [[nodiscard]] CheckAnswer answer() && { return {Answer{{std::move(m_table)}, {}}, m_anythingWrong}; }

private:
    Table m_table{{"severity", "place", "message"}, {}};
    std::set<std::pair<std::string, std::string>> m_seen;
    bool m_anythingWrong = false;
};

std::string placeOf(const Circuit& circuit, const Fault& fault) {
    const Part* part = findPart(circuit, fault.part);
    if (part != nullptr) return displayName(*part);
    if (!fault.part.empty()) return fault.part;
    return fault.net.empty() ? "" : "net " + fault.net;
}

/// What a body's marking can mean: colour bands, or a value before a rating ("2µ2 50 V"); empty for a type number.
std::vector<double> readMarking(const Part& part) {
    if (part.kind == PartKind::resistor) {
        const Result<BandReading> bands = readColourBands(part.printed);
        if (bands) return {bands->ohms};
    }
    const Result<std::vector<ValueReading>> readings =
        readValue(part.printed.substr(0, part.printed.find(' ')), unitOf(part.kind));
    std::vector<double> values;
    if (readings)
        for (const ValueReading& reading : *readings) values.push_back(reading.value.si);
    return values;
}

/// The marking on the body against the value of the drawing: a wrong part, or a wrong drawing.
void checkMarkings(const Circuit& circuit, Findings& findings) {
    constexpr double sameValue = 1e-6;
    for (const Part& part : circuit.parts) {
        if (part.printed.empty() || !hasValue(part.kind)) continue;
        const std::vector<double> readings = readMarking(part);
        const bool agrees = std::any_of(readings.begin(), readings.end(), [&part](double si) {
            return std::abs(si - part.value) <= sameValue * part.value;
        });
        if (readings.empty() || agrees) continue;
        const Unit unit = unitOf(part.kind);
        findings.add(Severity::doubtful, displayName(part),
                     "The body says “" + part.printed + "”, which is " + formatQuantity({readings.front(), unit}) +
                         ", but the drawing has " + formatQuantity({part.value, unit}) +
                         ": measure the part and correct one of them.");
    }
}

/// The mod by itself, with only the mods before it that fit what it works on.
Result<Circuit> applyOnItsOwn(const Job& job, const Mod& mod) {
    Plan needed{mod};
    while (needed.size() <= job.plan.size()) {
        const auto host = std::find_if(job.plan.begin(), job.plan.end(), [&needed](const Mod& each) {
            return fitsPart(each, targetOf(needed.front().change));
        });
        if (host == job.plan.end()) break;
        needed.insert(needed.begin(), *host);
    }
    if (needed.size() == 1) return applyAlone(job.stock, mod, job.setting.throws);
    for (Mod& each : needed) each.on = true;
    return applyPlan(job.stock, needed, job.setting.throws);
}

void checkPlan(const Job& job, Findings& findings) {
    std::map<std::string, int> letters;
    for (const Mod& mod : job.plan) {
        if (++letters[mod.letter] == 2)
            findings.add(Severity::wrong, "mod " + mod.letter, "Two mods carry this letter: give one another.");
        const Result<Circuit> alone = applyOnItsOwn(job, mod);
        if (!alone) findings.add(Severity::wrong, "mod " + mod.letter, alone.error().message);
    }
    for (const Correction& correction : job.corrections)
        for (const ModAndCorrection& met : modsOnCorrected(job, correction))
            if (met.changesNothing)
                findings.add(Severity::doubtful, correctedName(job.stock, correction), met.sentence);
}

void checkState(const Circuit& circuit, const Setting& setting, const std::string& state, const std::stop_token& stop,
                Findings& findings) {
    bool isSound = true;
    for (const Fault& fault : checkCircuit(circuit)) {
        findings.add(fault.severity, placeOf(circuit, fault), fault.message);
        isSound = isSound && fault.severity != Severity::wrong;
    }
    if (!isSound) return;
    const Result<SolvedCircuit> solved = solveCircuit(circuit, setting, stop);
    if (!solved) findings.add(Severity::wrong, state, solved.error().message);
}

/// The ends that most verbs want: without them a netlist is no less a netlist, but half of the verbs have no answer.
void checkEnds(Netlist netlist, Findings& findings) {
    const Result<void> ports = choosePorts(netlist, "", "");
    if (!ports) findings.add(Severity::doubtful, "ends", ports.error().message);
}

bool checkFaults(const Circuit& circuit, Findings& findings) {
    bool isSound = true;
    for (const Fault& fault : checkCircuit(circuit, ValueRule::solver)) {
        findings.add(fault.severity, placeOf(circuit, fault), fault.message);
        isSound = isSound && fault.severity != Severity::wrong;
    }
    return isSound;
}

void addNotes(const std::vector<NetlistNote>& notes, Severity severity, Findings& findings) {
    for (const NetlistNote& note : notes)
        findings.add(severity, note.line > 0 ? "line " + std::to_string(note.line) : "", note.message);
}

Error stoppedCheck() {
    return {ErrorCode::cancelled, "The check was stopped before its end.", {}};
}

}  // namespace

Result<CheckAnswer> checkJob(const Job& job, const std::stop_token& stop) {
    Findings findings;
    for (const UnknownKey& key : job.unknown)
        findings.add(Severity::doubtful, key.path,
                     "This version does not know the key; it is kept and written back, and changes nothing here.");
    const Result<void> setting = checkSetting(job.stock, job.setting);
    if (!setting) findings.add(Severity::wrong, "setting", setting.error().message);
    checkMarkings(job.stock, findings);
    checkPlan(job, findings);
    if (!setting) return std::move(findings).answer();
    checkState(job.stock, job.setting, "stock", stop, findings);
    const Result<Circuit> now = nowCircuit(job);
    if (now)
        checkState(*now, job.setting, "now", stop, findings);
    else
        findings.add(Severity::wrong, "plan", now.error().message);
    if (stop.stop_requested()) return stoppedCheck();
    return std::move(findings).answer();
}

CheckAnswer checkAnswerOf(const NetlistFaults& found) {
    Findings findings;
    addNotes(found.faults, Severity::wrong, findings);
    addNotes(found.notes, Severity::doubtful, findings);
    return std::move(findings).answer();
}

Result<CheckAnswer> checkNetlist(const Netlist& netlist, const std::stop_token& stop) {
    Findings findings;
    addNotes(netlist.notes, Severity::doubtful, findings);
    checkEnds(netlist, findings);
    if (checkFaults(netlist.circuit, findings)) {
        PreparedCircuit prepared;
        prepared.circuit = netlist.circuit;
        const Result<SolvedCircuit> solved = solveAtRest(prepared, stop);
        if (!solved) findings.add(Severity::wrong, solved.error().where, solved.error().message);
    }
    if (stop.stop_requested()) return stoppedCheck();
    return std::move(findings).answer();
}

}  // namespace ohmwright
