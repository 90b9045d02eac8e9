// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/sound_figures.h"

#include "core/base/decibels.h"
#include "core/base/said.h"
#include "core/measure/figures.h"
#include "core/measure/settled_wave.h"
#include "core/measure/two_tone.h"
#include "core/measure/wave.h"
#include "core/solve/noise.h"
#include "core/solve/response.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

namespace ohmwright {

namespace {

constexpr std::size_t firstSteps = 257;
constexpr std::size_t firstFizzSteps = 513;
constexpr double harmonicShare = 1e-5;
constexpr std::size_t thdHarmonics = 10;
constexpr std::size_t fizzFrom = 8;
constexpr std::size_t fizzTo = 30;
/// Harmonics under this are the solver's own rounding.
constexpr double faintestDbc = -90.0;
constexpr int differenceOrder = 2;
constexpr double referenceHz = 1000.0;
constexpr int noisePerDecade = 100;

Error silent() {
    return {ErrorCode::unsolvable,
            said("No signal reaches the output, so there is nothing to hold the words against: look for an open or "
                 "shorted path."),
            ""};
}

/// Harmonics at the output; entry n of the n-th.
Result<std::vector<std::complex<double>>> outputHarmonics(const SolvedCircuit& solved, int output, double toneHz,
                                                          double voltsPeak, std::size_t steps, std::size_t count,
                                                          double& alternatingVolts, const std::stop_token& stop) {
    const auto settled = settleWithin(solved, {toneHz, voltsPeak, {}}, output, steps, int(count), stop, harmonicShare);
    if (!settled) {
        return settled.error();
    }
    const std::vector<double> wave = settled->wave(output);
    alternatingVolts = alternatingRms(wave);
    if (alternatingVolts < silentVoltsRms) {
        return silent();
    }
    return harmonicsOf(wave, int(count), 1.0 / double(wave.size()));
}

Result<std::vector<std::complex<double>>> playerHarmonics(const SolvedCircuit& solved, int output,
                                                          const Setting& setting, const std::stop_token& stop) {
    double volts = 0.0;
    return outputHarmonics(solved, output, setting.toneHz, setting.pickVoltsPeak, firstSteps, thdHarmonics, volts,
                           stop);
}

int outputOf(const SolvedCircuit& solved, const Circuit& circuit) {
    return solved.equations->indexOfNet(circuit.ports.output);
}

/// Up to this a resistor from a supply is the battery's inner one or a rail's decoupling, and both its ends are the
/// supply [ohm]. Common practice, no source.
constexpr double railOhms = 100.0;

/// Nets of the supplies themselves and of the rails behind their small resistors.
std::set<NetName> supplyNets(const Circuit& circuit) {
    std::set<NetName> supplies{NetName(groundNet)};
    for (const Part& part : circuit.parts) {
        if (part.kind == PartKind::voltageSource && part.id != circuit.ports.source) {
            supplies.insert(part.nets.begin(), part.nets.end());
        }
    }
    for (const Part& part : circuit.parts) {
        if (part.kind != PartKind::resistor || part.value > railOhms) {
            continue;
        }
        for (const std::size_t pin : {0U, 1U}) {
            if (part.nets[pin] != groundNet && supplies.count(part.nets[pin]) > 0) {
                supplies.insert(part.nets[1 - pin]);
            }
        }
    }
    return supplies;
}

/// Order of the stages; a part of none comes first.
int stageNumber(const Circuit& circuit, const PartId& part) {
    const Stage* stage = stageOfPart(circuit, part);
    return stage == nullptr ? -1 : int(stage - circuit.stages.data());
}

const Part* outputTransistor(const Circuit& circuit, const std::set<NetName>& supplies) {
    const Part* last = nullptr;
    for (const Part& part : circuit.parts) {
        if (part.kind != PartKind::bipolar || supplies.count(part.nets[0]) > 0) {
            continue;
        }
        if (last == nullptr || stageNumber(circuit, part.id) >= stageNumber(circuit, last->id)) {
            last = &part;
        }
    }
    return last;
}

bool passesDc(const Part& part) {
    return part.kind == PartKind::resistor || part.kind == PartKind::potentiometer || part.kind == PartKind::inductor ||
           part.kind == PartKind::link;
}

/// Where a direct current goes to from a net through one part.
std::vector<NetName> netsNextTo(const Circuit& circuit, const NetName& net) {
    std::vector<NetName> nets;
    for (const Part& part : circuit.parts) {
        if (passesDc(part) && std::find(part.nets.begin(), part.nets.end(), net) != part.nets.end()) {
            nets.insert(nets.end(), part.nets.begin(), part.nets.end());
        }
    }
    return nets;
}

/// The rail at the far end of what the collector's current comes through: the supply net among those that resistances
/// lead to from it.
NetName railOf(const Circuit& circuit, const NetName& collector, const std::set<NetName>& supplies,
               const SolvedCircuit& solved) {
    std::vector<NetName> found{collector};
    NetName rail;
    for (std::size_t k = 0; k < found.size(); ++k) {
        for (const NetName& net : netsNextTo(circuit, found[k])) {
            if (std::find(found.begin(), found.end(), net) != found.end() || net == groundNet) {
                continue;
            }
            if (supplies.count(net) > 0) {
                const bool isFirst = rail.empty();
                rail = isFirst || std::abs(solved.biasVolts(net)) > std::abs(solved.biasVolts(rail)) ? net : rail;
            } else {
                found.push_back(net);
            }
        }
    }
    return rail;
}

/// Every bipolar transistor of the circuit at a current gain; a type with that corner takes its own.
Circuit withBetas(const Circuit& circuit, const std::string& corner, double beta) {
    Circuit changed = atCorner(circuit, corner).circuit;
    for (Model& model : changed.models) {
        const Model& before = *findModel(circuit, model.name);
        if (model.kind == PartKind::bipolar && model.parameters == before.parameters) {
            model.parameters["BF"] = beta;
        }
    }
    return changed;
}

}  // namespace

Result<double> measureDifferenceProduct(const SolvedCircuit& solved, int output, const TwoStrings& strings,
                                        const std::stop_token& stop) {
    const auto spectrum =
        measureTwoTone(solved, output, strings.firstHz, strings.secondHz, strings.voltsPeak, differenceOrder, stop);
    if (!spectrum) {
        return spectrum.error();
    }
    const double tones = std::hypot(spectrum->firstToneVoltsPeak, spectrum->secondToneVoltsPeak);
    if (tones < silentVoltsRms) {
        return silent();
    }
    const double differenceHz = std::abs(strings.secondHz - strings.firstHz);
    const auto nearest = std::min_element(
        spectrum->products.begin(), spectrum->products.end(), [&](const TwoToneProduct& a, const TwoToneProduct& b) {
            return std::abs(a.hertz - differenceHz) < std::abs(b.hertz - differenceHz);
        });
    return amplitudeDb(nearest->voltsPeak / tones);
}

Result<double> measureFizz(const SolvedCircuit& solved, int output, double toneHz, double voltsPeak,
                           const std::stop_token& stop) {
    double volts = 0.0;
    const auto harmonics = outputHarmonics(solved, output, toneHz, voltsPeak, firstFizzSteps, fizzTo, volts, stop);
    if (!harmonics) {
        return harmonics.error();
    }
    double power = 0.0;
    for (std::size_t n = fizzFrom; n <= fizzTo; ++n) {
        power += std::norm((*harmonics)[n]) / 2.0;
    }
    return 10.0 * std::log10(power) - dbv(volts);
}

Result<Warmth> measureWarmth(const SolvedCircuit& solved, int output, const Setting& setting,
                             const std::stop_token& stop) {
    const auto harmonics = playerHarmonics(solved, output, setting, stop);
    if (!harmonics) {
        return harmonics.error();
    }
    const auto dbc = [&](double amplitude) {
        return std::max(amplitudeDb(amplitude / std::abs((*harmonics)[1])), faintestDbc);
    };
    return Warmth{dbc(std::abs((*harmonics)[2])),
                  dbc(std::hypot(std::abs((*harmonics)[3]), std::abs((*harmonics)[5])))};
}

Result<double> measureThd(const SolvedCircuit& solved, int output, const Setting& setting,
                          const std::stop_token& stop) {
    const auto harmonics = playerHarmonics(solved, output, setting, stop);
    return harmonics ? Result<double>(totalHarmonicDistortion(*harmonics)) : harmonics.error();
}

Result<OutputNoise> measureOutputNoise(const SolvedCircuit& solved, int output, const std::stop_token& stop) {
    const std::vector<double> grid = logarithmicGrid(20.0, 20000.0, noisePerDecade);
    const auto curve = solveNoise(*solved.equations, *solved.bias, output, grid, stop);
    if (!curve) {
        return curve.error();
    }
    SmallSignal signal(*solved.equations, *solved.bias);
    const auto solution = signal.at(referenceHz);
    if (!solution) {
        return solution.error();
    }
    const double gain = std::abs((*solution)[std::size_t(output)]);
    if (!(gain > 0.0)) {
        return silent();
    }
    OutputNoise noise{noiseVoltsRms(*curve, 20.0, 20000.0), amplitudeDb(gain), 0.0};
    noise.atEqualGainDb = dbv(noise.voltsRms) - noise.gainDb;
    return noise;
}

const Knob* guitarVolumeKnob(const Circuit& circuit) {
    const NetName& jack = circuit.ports.jack;
    for (const Knob& knob : circuit.knobs) {
        const Part* pot = findPart(circuit, knob.part);
        if (pot == nullptr || pot->kind != PartKind::potentiometer || jack.empty()) {
            continue;
        }
        const bool wiperAtJack = pot->nets[1] == jack && pot->nets[0] != jack;
        const Stage* stage = stageOfPart(circuit, pot->id);
        if (wiperAtJack && stage != nullptr && stage->output == jack) {
            return &knob;
        }
    }
    return nullptr;
}

Result<CleanUp> measureCleanUp(const Circuit& circuit, const Setting& setting, const std::stop_token& stop) {
    const Knob* volume = guitarVolumeKnob(circuit);
    if (volume == nullptr) {
        return Error{ErrorCode::invalidInput,
                     said("The circuit has no guitar volume between pickup and jack, so it cannot be turned down."),
                     ""};
    }
    const auto thdAt = [&](double position) -> Result<double> {
        Setting turned = setting;
        turned.knobs[volume->id] = position;
        const auto solved = solveCircuit(circuit, turned, stop);
        return solved ? measureThd(*solved, outputOf(*solved, circuit), turned, stop) : solved.error();
    };
    const auto full = thdAt(10.0);
    if (!full) {
        return full.error();
    }
    const auto half = thdAt(5.0);
    if (!half) {
        return half.error();
    }
    return CleanUp{*full, *half};
}

CornerCircuit atCorner(const Circuit& circuit, const std::string& corner) {
    CornerCircuit result{circuit, 0};
    for (Model& model : result.circuit.models) {
        for (const ModelCorner& one : model.corners) {
            if (one.name == corner) {
                for (const auto& [name, value] : one.parameters) {
                    model.parameters[name] = value;
                }
                ++result.changed;
            }
        }
    }
    return result;
}

double CopiesSpread::spreadDb() const {
    return std::max({lowDb, typicalDb, highDb}) - std::min({lowDb, typicalDb, highDb});
}

Result<CopiesSpread> measureCopiesSpread(const Circuit& circuit, const Setting& setting, const std::stop_token& stop) {
    const CornerCircuit low = atCorner(circuit, "low");
    const CornerCircuit high = atCorner(circuit, "high");
    if (low.changed == 0 && high.changed == 0) {
        return Error{
            ErrorCode::invalidInput,
            said("No type of this circuit says how far its copies differ: give the transistor's type a low and "
                 "a high corner."),
            ""};
    }
    std::array<double, 3> gains{};
    const std::array<const Circuit*, 3> copies{&low.circuit, &circuit, &high.circuit};
    for (std::size_t k = 0; k < copies.size(); ++k) {
        const auto gain = measureGainDb(*copies[k], setting, referenceHz, stop);
        if (!gain) {
            return gain.error();
        }
        gains[k] = *gain;
    }
    return CopiesSpread{gains[0], gains[1], gains[2]};
}

Result<CollectorPlace> measureCollectorPlace(const Circuit& circuit, const Setting& setting, const BetaCorners& betas,
                                             const std::stop_token& stop) {
    const auto nominal = solveCircuit(circuit, setting, stop);
    if (!nominal) {
        return nominal.error();
    }
    const std::set<NetName> supplies = supplyNets(circuit);
    const Part* transistor = outputTransistor(circuit, supplies);
    if (transistor == nullptr) {
        return Error{ErrorCode::invalidInput, said("The circuit has no transistor with a load at its collector."), ""};
    }
    const NetName& collector = transistor->nets[0];
    const NetName rail = railOf(circuit, collector, supplies, *nominal);
    if (rail.empty()) {
        return Error{ErrorCode::invalidInput,
                     said("The collector of %1 has no resistance to a supply.", displayName(*transistor)),
                     transistor->reference};
    }
    CollectorPlace place{transistor->id, collector, 0.0, 0.0, 0.0};
    const auto percentIn = [&](const SolvedCircuit& solved) {
        return 100.0 * solved.biasVolts(collector) / solved.biasVolts(rail);
    };
    place.nominalPercent = percentIn(*nominal);
    for (const bool isLow : {true, false}) {
        const auto solved =
            solveCircuit(withBetas(circuit, isLow ? "low" : "high", isLow ? betas.low : betas.high), setting, stop);
        if (!solved) {
            return solved.error();
        }
        (isLow ? place.lowPercent : place.highPercent) = percentIn(*solved);
    }
    return place;
}

}  // namespace ohmwright
