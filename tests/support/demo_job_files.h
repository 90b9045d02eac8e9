/// A demo's job file and stage template: sound, of one make, and the demo's netlist part for part; needs
/// ohmwright_core_files.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/check.h"
#include "core/files/atomic_file.h"
#include "core/files/job_file.h"
#include "tests/support/demo_netlists.h"

#include <gtest/gtest.h>

#include <map>
#include <optional>
#include <set>
#include <stdexcept>
#include <string>
#include <vector>

namespace ohmwright::test {

template <class T>
T valueOrThrow(Result<T> result) {
    if (!result) {
        throw std::runtime_error(result.error().message);
    }
    return *std::move(result);
}

inline std::string textOfFile(const std::string& path) {
    return valueOrThrow(readWholeFile(std::string(OHMWRIGHT_SOURCE_DIR) + "/" + path));
}

inline std::string demoJobText(const std::string& demo) {
    return textOfFile("demo-projects/" + demo + "/" + demo + ".ohmjob");
}

inline Job demoJob(const std::string& demo) {
    return valueOrThrow(readJob(demoJobText(demo)));
}

/// The job and the stage template that was made from it: canonical texts of one sound circuit. The template has no
/// word of the one unit: no markings, places on the board, or what was seen and measured.
inline void expectSoundFiles(const std::string& demo, const std::string& kind) {
    const std::string jobText = demoJobText(demo);
    const std::string stageText = textOfFile("resources/stages/" + kind + ".json");
    const Job job = valueOrThrow(readJob(jobText));
    EXPECT_EQ(writeJob(job), jobText);
    const Circuit stage = valueOrThrow(readCircuit(stageText));
    EXPECT_EQ(writeCircuit(stage), stageText);
    for (const Fault& fault : checkCircuit(job.stock)) {
        ADD_FAILURE() << fault.message;
    }
    Circuit bare = job.stock;
    for (Part& part : bare.parts) {
        part.printed.clear();
        part.boardNote.clear();
        part.knowledge = Knowledge::drawn;
        part.measured.reset();
    }
    EXPECT_EQ(stage, bare);
}

/// Part for part the demo's netlist, its pots in two resistors at the job's setting.
inline void expectNetlistOf(const std::string& demo) {
    const Job job = demoJob(demo);
    const Circuit ours = withEnds(job.stock, job.setting);
    const Netlist netlist = valueOrThrow(readNetlist(DemoNetlist::stock(demo).text()));
    std::set<PartId> met;
    const auto expectSame = [&](const std::string& name, const std::string& reference, const std::vector<NetName>& nets,
                                std::optional<double> value) {
        const Part* part = findPartByReference(ours, reference);
        ASSERT_NE(part, nullptr) << name;
        met.insert(part->id);
        if (part->kind != PartKind::potentiometer) {
            // A polarised capacitor has its plus first, whichever way the netlist names its nets.
            std::vector<NetName> turned(nets.rbegin(), nets.rend());
            EXPECT_TRUE(part->nets == nets || (part->kind == PartKind::capacitor && part->nets == turned)) << name;
            EXPECT_TRUE(!value || part->value == *value) << name << ": ours " << part->value;
            return;
        }
        // RVR1A from top to wiper, RVR1B from there to the bottom; a rheostat's one resistor on the side it has in use.
        const PotHalves halves = potHalves(*part, knobPosition(job.setting, knobOf(ours, part->id)->id));
        const bool isUpper = name.back() == 'A' || (name.back() != 'B' && part->nets[1] == part->nets[2]);
        EXPECT_EQ(nets, (std::vector<NetName>{part->nets[isUpper ? 0 : 1], part->nets[isUpper ? 1 : 2]})) << name;
        EXPECT_NEAR(isUpper ? halves.topToWiper : halves.wiperToBottom, value.value(), 1e-9 * part->value) << name;
    };
    for (const Part& theirs : netlist.circuit.parts) {
        const std::string& name = theirs.id;
        const bool isPot = name.rfind("RV", 0) == 0;
        const bool isCall = theirs.kind == PartKind::triode;
        if (!theirs.call.empty() && !isCall) {
            continue;  // inside of the op-amp: a law of the program there
        }
        const std::string track =
            name.back() == 'A' || name.back() == 'B' ? name.substr(1, name.size() - 2) : name.substr(1);
        expectSame(name,
                   isPot    ? track
                   : isCall ? name.substr(1)
                            : name,
                   theirs.nets, theirs.model.empty() ? std::optional(theirs.value) : std::nullopt);
        if (!theirs.model.empty()) {
            const Part* part = findPartByReference(ours, isCall ? name.substr(1) : name);
            ASSERT_NE(part, nullptr) << name;
            std::map<std::string, double> card = findModel(netlist.circuit, theirs.model)->parameters;
            card.erase("POLARITY");  // the reader names what the laws take for granted
            EXPECT_EQ(findModel(ours, part->model)->parameters, card) << name;
        }
    }
    for (const SubcircuitCall& call : netlist.calls) {
        expectSame(call.name, call.name.substr(1), call.nets, {});
    }
    for (const Part& part : ours.parts) {
        EXPECT_TRUE(met.count(part.id) > 0) << part.reference << " is not in the netlist";
    }
}

}  // namespace ohmwright::test
