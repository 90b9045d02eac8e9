// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/work_steps.h"

#include "app/papers/part_words.h"
#include "app/papers/sheet_text.h"
#include "core/base/number_text.h"
#include "core/base/value_text.h"
#include "core/circuit/supply_volts.h"
#include "core/plan/apply.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace ohmwright {

namespace {

/// Under this a polarised part sees no voltage that would hurt it. Common practice, no source.
constexpr double polarityFromVolts = 0.1;
/// More probe places than this do not fit a bench sheet; the probe card has them all.
constexpr std::size_t mostProbes = 8;

using BiasVolts = std::vector<std::pair<NetName, double>>;

std::optional<double> voltsAt(const BiasVolts& bias, const NetName& net) {
    if (net == groundNet) {
        return 0.0;
    }
    const auto found = std::find_if(bias.begin(), bias.end(), [&](const auto& entry) { return entry.first == net; });
    return found == bias.end() ? std::nullopt : std::optional(found->second);
}

QString nameOf(const Part& part) {
    return paperText(displayName(part));
}

QString quantityWords(const Part& part, double value) {
    return QString::fromStdString(formatQuantity({value, unitOf(part.kind)}));
}

/// One mod with the circuit before and after it: mods before it are already fitted.
struct Fitting {
    const Mod& mod;
    const Circuit& before;
    const Circuit& after;
    const BiasVolts& bias;

    [[nodiscard]] QString letter() const { return paperText(mod.letter); }
    [[nodiscard]] const Part& oldPart(const PartId& id) const { return *findPart(before, id); }
    [[nodiscard]] const Part& newPart(const PartId& id) const { return *findPart(after, id); }
};

StepLine lookAtPads() {
    return {"Look", "both pads whole, no ring lifted", false};
}

StepLine measureOld(const Part& part) {
    const QString name = paperText(part.reference);
    if (part.tolerance <= 0.0) {
        return {"Measure", QString("old %1, drawn as %2: read").arg(name, valueWords(part)), true};
    }
    return {"Measure",
            QString("old %1: %2 to %3, read")
                .arg(name, quantityWords(part, part.value * (1.0 - part.tolerance)),
                     quantityWords(part, part.value * (1.0 + part.tolerance))),
            true};
}

WorkStep takeOut(const Fitting& fitting, const Part& part) {
    WorkStep step;
    step.title = QString("Take %1 out, %2").arg(nameOf(part), valueWords(part));
    if (const QString marking = printedMarking(part); !marking.isEmpty() && marking != valueWords(part)) {
        step.title += ", printed " + marking;
    }
    step.letter = fitting.letter();
    step.lines.push_back(lookAtPads());
    if (hasValue(part.kind)) {
        step.lines.push_back(measureOld(part));
    }
    step.lines.push_back({"Keep", "old part into the customer's bag", false});
    return step;
}

/// As its build says it; a part of unknown build may have a plus.
bool isNonPolar(const Part& part) {
    const QString build = QString::fromStdString(part.build).toLower();
    return build.startsWith("film") || build.startsWith("ceramic") || build.startsWith("mica");
}

/// Which way round, from the voltages that were solved for the finished unit.
std::optional<StepLine> polarityLine(const Fitting& fitting, const Part& part) {
    if (part.kind != PartKind::capacitor) {
        return std::nullopt;
    }
    const std::optional<double> first = voltsAt(fitting.bias, part.nets[0]);
    const std::optional<double> second = voltsAt(fitting.bias, part.nets[1]);
    if (!first || !second) {
        return std::nullopt;
    }
    const double across = *first - *second;
    if (isNonPolar(part)) {
        return StepLine{
            "Polarity",
            QString("none; %1 V stand across it").arg(QString::fromStdString(formatFixed(std::abs(across), 2))), false,
            false};
    }
    if (std::abs(across) < polarityFromVolts) {
        return StepLine{"Polarity", "no steady voltage across it: a part without plus, or non-polar", false};
    }
    const NetName& plus = across > 0.0 ? part.nets[0] : part.nets[1];
    return StepLine{
        "Polarity",
        QString("if it has a plus: plus to %1 (%2 V more there)")
            .arg(joinsWords(fitting.after, plus, part.id), QString::fromStdString(formatFixed(std::abs(across), 2))),
        false};
}

BodyPicture pictureOf(const Circuit& circuit, const Part& part) {
    BodyPicture picture;
    if (part.kind == PartKind::capacitor) {
        picture.marking = printedMarking(part);
        picture.kind = picture.marking.isEmpty() ? BodyPicture::Kind::none : BodyPicture::Kind::code;
    } else if (part.kind == PartKind::diode) {
        picture.kind = BodyPicture::Kind::diode;
        picture.marking = paperText(part.reference);
        picture.plainEnd = landmarks(circuit, part.nets[0], part.id, 1).value(0);
        picture.bandEnd = landmarks(circuit, part.nets[1], part.id, 1).value(0);
    }
    return picture;
}

StepLine twoLegsBeep(const Circuit& circuit, const Part& part) {
    if (part.kind == PartKind::diode) {
        return {"Must beep",
                QString("band leg (cathode) to %1; plain leg (anode) to %2")
                    .arg(joinsWords(circuit, part.nets[1], part.id), joinsWords(circuit, part.nets[0], part.id)),
                false};
    }
    return {"Must beep",
            QString("one leg to %1; other leg to %2")
                .arg(joinsWords(circuit, part.nets[0], part.id), joinsWords(circuit, part.nets[1], part.id)),
            false};
}

void addLegChecks(WorkStep& step, const Fitting& fitting, const Part& part) {
    if (part.nets.size() == 2) {
        step.lines.push_back(twoLegsBeep(fitting.after, part));
        if (staysSilent(fitting.after, part.nets[0], part.nets[1])) {
            step.lines.push_back({"Silent", "leg to leg", false});
        }
    } else {
        for (std::size_t pin = 0; pin < part.nets.size(); ++pin) {
            step.lines.push_back(
                {pin == 0 ? "Must beep" : "",
                 QString("%1 to %2")
                     .arg(pinWords(part, static_cast<int>(pin)), joinsWords(fitting.after, part.nets[pin], part.id)),
                 false});
        }
    }
    if (const auto polarity = polarityLine(fitting, part)) {
        step.lines.push_back(*polarity);
    }
    if (part.kind == PartKind::bipolar) {
        step.lines.push_back({"Legs", "their order differs from type to type: read the part's own data sheet", false});
    }
    if (part.kind == PartKind::diode) {
        step.lines.push_back({"Second", "another person checks the band before power", false});
    }
}

QString markingWords(const Part& part) {
    const QString marking = printedMarking(part);
    return marking.isEmpty() || marking == valueWords(part) ? QString() : ", printed " + marking;
}

WorkStep fitInPlace(const Fitting& fitting, const Part& part) {
    WorkStep step;
    step.title = QString("Fit %1 %2%3%4")
                     .arg(nameOf(part), valueWords(part), markingWords(part), isNonPolar(part) ? ", no polarity" : "");
    step.letter = fitting.letter();
    step.picture = pictureOf(fitting.after, part);
    addLegChecks(step, fitting, part);
    step.lines.push_back({"Look", "joints wetted all round, no bridge to the next pad", false});
    return step;
}

std::vector<WorkStep> swapSteps(const Fitting& fitting, const PartId& id) {
    return {takeOut(fitting, fitting.oldPart(id)), fitInPlace(fitting, fitting.newPart(id))};
}

std::vector<WorkStep> stepsOf(const Fitting& fitting, const SwapValue& change) {
    return swapSteps(fitting, change.part);
}

std::vector<WorkStep> stepsOf(const Fitting& fitting, const SwapType& change) {
    return swapSteps(fitting, change.part);
}

std::vector<WorkStep> stepsOf(const Fitting& fitting, const AddInSeries& change) {
    const Part& stays = fitting.newPart(change.part);
    const Part& fitted = fitting.newPart(idOf(fitting.mod, change.fitted));
    WorkStep step;
    step.title = QString("Lift the %1, set %2 %3 in line")
                     .arg(pinWords(fitting.oldPart(change.part), change.pin), nameOf(fitted), valueWords(fitted));
    step.letter = fitting.letter();
    step.picture = pictureOf(fitting.after, fitted);
    step.lines.push_back(lookAtPads());
    addLegChecks(step, fitting, fitted);
    const NetName& joint = stays.nets[static_cast<std::size_t>(change.pin)];
    const NetName& pad = fitting.oldPart(change.part).nets[static_cast<std::size_t>(change.pin)];
    if (staysSilent(fitting.after, joint, pad)) {
        step.lines.push_back({"Silent",
                              QString("new joint to %1 (the old pad)")
                                  .arg(landmarks(fitting.after, pad, change.part, 1).value(0, "the old pad")),
                              false});
    }
    if (stays.kind == PartKind::diode && fitted.kind == PartKind::diode) {
        step.lines.push_back(
            {"Bands", change.reversed ? "the two bands point opposite ways" : "both bands point the same way", false});
    }
    return {step};
}

std::vector<WorkStep> stepsOf(const Fitting& fitting, const AddAcross& change) {
    const Part& fitted = fitting.newPart(idOf(fitting.mod, change.fitted));
    WorkStep step;
    step.title =
        QString("Fit %1 %2 across %3%4")
            .arg(nameOf(fitted), valueWords(fitted), nameOf(fitting.oldPart(change.part)), markingWords(fitted));
    step.letter = fitting.letter();
    step.picture = pictureOf(fitting.after, fitted);
    addLegChecks(step, fitting, fitted);
    step.lines.push_back({"Look", "joints wetted all round, no bridge to the next pad", false});
    return {step};
}

std::vector<WorkStep> stepsOf(const Fitting& fitting, const Lift& change) {
    const Part& part = fitting.oldPart(change.part);
    const NetName& pad = part.nets[static_cast<std::size_t>(change.pin)];
    WorkStep step;
    step.title = "Lift the " + pinWords(part, change.pin);
    step.letter = fitting.letter();
    step.lines.push_back({"Which leg", "the one at " + joinsWords(fitting.before, pad, part.id), false});
    step.lines.push_back({"Silent", "lifted leg to its old pad; sleeve the leg", false});
    return {step};
}

std::vector<WorkStep> stepsOf(const Fitting& fitting, const Bridge& change) {
    const Part& part = fitting.oldPart(change.part);
    WorkStep step;
    step.title = QString("Join two legs of %1 with solder or wire").arg(nameOf(part));
    step.letter = fitting.letter();
    step.lines.push_back({"Must beep", "leg to leg, and each leg to its own pad", false});
    step.lines.push_back(
        {"Places",
         QString("%1; %2").arg(joinsWords(fitting.before, part.nets[static_cast<std::size_t>(change.pinA)], part.id),
                               joinsWords(fitting.before, part.nets[static_cast<std::size_t>(change.pinB)], part.id)),
         false});
    return {step};
}

std::vector<WorkStep> stepsOf(const Fitting& fitting, const RemovePart& change) {
    return {takeOut(fitting, fitting.oldPart(change.part))};
}

std::vector<WorkStep> stepsOf(const Fitting& fitting, const ChangePot& change) {
    return swapSteps(fitting, change.part);
}

std::vector<WorkStep> stepsOf(const Fitting& fitting, const MoveLeg& change) {
    const Part& part = fitting.oldPart(change.part);
    const NetName& pad = part.nets[static_cast<std::size_t>(change.pin)];
    WorkStep step;
    step.title = QString("Move the %1 of %2").arg(pinWords(part, change.pin), nameOf(part));
    step.letter = fitting.letter();
    step.lines.push_back({"From", joinsWords(fitting.before, pad, part.id), false});
    step.lines.push_back({"Must beep", "leg to " + joinsWords(fitting.after, change.net, part.id), false});
    if (staysSilent(fitting.after, change.net, pad)) {
        step.lines.push_back({"Silent", "leg to its old pad", false});
    }
    return {step};
}

std::vector<WorkStep> stepsOf(const Fitting& fitting, const AddPart& change) {
    const Part& fitted = fitting.newPart(idOf(fitting.mod, change.fitted));
    WorkStep step;
    step.title = QString("Fit %1 %2%3").arg(nameOf(fitted), valueWords(fitted), markingWords(fitted));
    step.letter = fitting.letter();
    step.picture = pictureOf(fitting.after, fitted);
    addLegChecks(step, fitting, fitted);
    step.lines.push_back({"Look", "joints wetted all round, no bridge to the next pad", false});
    return {step};
}

WorkStep firstStep() {
    return {"Photograph, then power off and discharge",
            {},
            {{"Photograph", "both sides of the board, before anything is moved", false},
             {"Power", "leads, battery and supply out", false},
             {"Discharge", "supply line through 1 k\u2126 to ground, then measure: under 0.1 V, read", true}},
            {},
            false};
}

/// Whether its volts tell that it works.
bool hasWorkingPoint(PartKind kind) {
    return kind == PartKind::opamp || kind == PartKind::bipolar || kind == PartKind::jfet || kind == PartKind::mosfet ||
           kind == PartKind::triode || kind == PartKind::pentode;
}

WorkStep powerStep(const Job& job, const Circuit& now, const BiasVolts& bias) {
    WorkStep step;
    const double supply = highestSupplyVolts(now, job.setting);
    step.title = supply > 0.0 ? QString("Power on without signal, %1 V, current limited")
                                    .arg(QString::fromStdString(formatFixed(supply, 2)))
                              : QString("Power on without signal, current limited");
    for (const Part& part : now.parts) {
        if (!hasWorkingPoint(part.kind)) {
            continue;
        }
        QStringList readings;
        for (std::size_t pin = 0; pin < part.nets.size() && pin < 3; ++pin) {
            if (const auto volts = voltsAt(bias, part.nets[pin])) {
                readings.append(QString("%1 %2 V").arg(pinWords(part, static_cast<int>(pin)),
                                                       QString::fromStdString(formatFixed(*volts, 2))));
            }
        }
        if (!readings.isEmpty() && step.lines.size() < mostProbes) {
            step.lines.push_back({step.lines.empty() ? "Volts" : "", readings.join(", ") + ": read", true});
        }
    }
    step.lines.push_back(
        {"Note", "solved with every part at its value; parts inside their tolerance move these", false, false});
    return step;
}

QString wayBackOf(const Circuit& stock, const SingleChange& single) {
    const Part* part = findPart(stock, targetOf(single));
    // A mod may sit on a part that another mod brought in.
    const QString target = part ? nameOf(*part) : paperText(targetOf(single));
    return std::visit(
        [&](const auto& change) -> QString {
            using Kind = std::decay_t<decltype(change)>;
            if constexpr (std::is_same_v<Kind, SwapValue> || std::is_same_v<Kind, SwapType> ||
                          std::is_same_v<Kind, ChangePot>) {
                return part ? QString("%1 back to %2%3").arg(target, valueWords(*part), markingWords(*part))
                            : target + " back to the old part";
            } else if constexpr (std::is_same_v<Kind, AddInSeries>) {
                return QString("%1 out, lifted leg of %2 down again").arg(paperText(change.fitted.reference), target);
            } else if constexpr (std::is_same_v<Kind, AddAcross> || std::is_same_v<Kind, AddPart>) {
                return paperText(change.fitted.reference) + " out";
            } else if constexpr (std::is_same_v<Kind, Lift> || std::is_same_v<Kind, MoveLeg>) {
                return "leg of " + target + " back to its pad";
            } else if constexpr (std::is_same_v<Kind, RemovePart>) {
                return part ? QString("%1 in again, %2%3").arg(target, valueWords(*part), markingWords(*part))
                            : target + " in again";
            } else {
                return "join over " + target + " away";
            }
        },
        single);
}

}  // namespace

Result<std::vector<WorkStep>> workSteps(const Job& job, const BiasVolts& biasVolts) {
    std::vector<WorkStep> steps;
    Circuit before = job.stock;
    for (const Mod& mod : job.plan) {
        if (!mod.on) {
            continue;
        }
        for (const Mod& single : asSingleMods(mod, throwOf(job.setting.throws, mod.id))) {
            Result<Circuit> after = applyMod(before, single);
            if (!after) {
                return after.error();
            }
            const Fitting fitting{single, before, *after, biasVolts};
            const std::vector<WorkStep> own = std::visit([&](const auto& change) { return stepsOf(fitting, change); },
                                                         singleChanges(single.change).front());
            steps.insert(steps.end(), own.begin(), own.end());
            before = std::move(*after);
        }
    }
    if (steps.empty()) {
        return steps;
    }
    steps.insert(steps.begin(), firstStep());
    WorkStep stop;
    stop.title = "Stop. Do not power yet.";
    stop.isStop = true;
    steps.push_back(stop);
    steps.push_back(powerStep(job, before, biasVolts));
    return steps;
}

QString wayBackWords(const Job& job) {
    QStringList words;
    for (auto mod = job.plan.rbegin(); mod != job.plan.rend(); ++mod) {
        const std::vector<SingleChange> changes = singleChanges(mod->change, throwOf(job.setting.throws, mod->id));
        for (auto change = changes.rbegin(); mod->on && change != changes.rend(); ++change) {
            words.append(wayBackOf(job.stock, *change));
        }
    }
    return words.join("; ");
}

}  // namespace ohmwright
