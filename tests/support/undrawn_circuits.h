/// Sixty circuits without a drawing: the demos, netlists of the reference suite, and random ones of 10 to 60 parts.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/netlist.h"
#include "tests/support/demo_job.h"
#include "tests/support/random_networks.h"

#include <string>
#include <vector>

namespace ohmwright::test {

struct UndrawnCircuit {
    std::string name;  ///< As a test and a file may be called.
    Circuit circuit;
};

inline Circuit stripped(Circuit circuit) {
    circuit.drawing = {};
    circuit.stages.clear();
    for (Part& part : circuit.parts) {
        part.placement.reset();
    }
    return circuit;
}

inline std::vector<UndrawnCircuit> demosWithoutDrawing() {
    std::vector<UndrawnCircuit> circuits;
    for (const std::filesystem::path& path : demoJobPaths()) {
        circuits.push_back({path.stem().string(), stripped(jobIn(path).stock)});
    }
    return circuits;
}

/// Paths below tests/reference/suite, of all kinds of parts.
inline std::vector<UndrawnCircuit> suiteWithoutDrawing() {
    static const std::vector<const char*> paths{"active/sallen_key_lowpass_2k",
                                                "active/baxandall_active_treble_up",
                                                "active/phaser_four_stages",
                                                "active/multiple_feedback_lowpass",
                                                "active/non_inverting_gain_leg",
                                                "active/sallen_key_transistors",
                                                "bias/op_amp_offset_discrete",
                                                "harmonics/two_stage_distortion",
                                                "noise/discrete_amplifier",
                                                "poles/soft_clip_stage_poles",
                                                "poles/rc_line_of_ten",
                                                "poles/lc_line_of_twelve",
                                                "waveform/soft_clip_feedback_diodes",
                                                "waveform/soft_clip_three_diodes",
                                                "subcircuits/op_amp_three_kinds"};
    std::vector<UndrawnCircuit> circuits;
    for (const char* path : paths) {
        Result<Netlist> netlist =
            loadNetlist(std::string(OHMWRIGHT_SOURCE_DIR "/tests/reference/suite/") + path + ".cir");
        if (!netlist) {
            ADD_FAILURE() << netlist.error().message;
            continue;
        }
        static_cast<void>(choosePorts(*netlist, {}, {}));  // some have no net "out"
        circuits.push_back({std::filesystem::path(path).filename().string(), std::move(netlist->circuit)});
    }
    return circuits;
}

inline std::vector<UndrawnCircuit> randomWithoutDrawing(int count) {
    std::vector<UndrawnCircuit> circuits;
    for (int i = 0; i < count; ++i) {
        Chance chance(1000U + unsigned(i));
        RandomStages stages(chance);
        circuits.push_back(
            {"random-" + std::to_string(i + 1), stages.chain(i % RandomStages::kinds, 1 + i % 5).circuit()});
    }
    return circuits;
}

inline std::vector<UndrawnCircuit> undrawnCircuits() {
    constexpr std::size_t wanted = 60;
    std::vector<UndrawnCircuit> circuits = demosWithoutDrawing();
    std::vector<UndrawnCircuit> suite = suiteWithoutDrawing();
    circuits.insert(circuits.end(), suite.begin(), suite.end());
    std::vector<UndrawnCircuit> random = randomWithoutDrawing(int(wanted - circuits.size()));
    circuits.insert(circuits.end(), random.begin(), random.end());
    return circuits;
}

}  // namespace ohmwright::test
