// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/bench/edit_steps.h"

#include "core/base/colour_bands.h"
#include "core/base/said.h"
#include "core/base/said_meaning.h"
#include "core/base/value_text.h"
#include "core/bench/meter.h"
#include "core/bench/net_words.h"

#include <algorithm>

namespace ohmwright {

namespace {

using Index = std::size_t;

/// What is printed on the body, where that is not the value itself.
std::string otherMarking(const Part& part) {
    const std::string marking = printedMarking(part);
    return marking == valueWords(part) ? std::string() : marking;
}

/// "120n, printed 124"
std::string markedValue(const Part& part) {
    const std::string marking = otherMarking(part);
    return marking.empty() ? valueWords(part) : said("%1, printed %2", valueWords(part), marking);
}

BodyPicture pictureOf(const Circuit& circuit, const Part& part) {
    BodyPicture picture;
    const auto firstLandmark = [&](const NetName& net) {
        const std::vector<std::string> words = landmarks(circuit, net, part.id, 1);
        return words.empty() ? std::string() : words.front();
    };
    if (part.kind == PartKind::capacitor) {
        picture.marking = printedMarking(part);
        picture.kind = picture.marking.empty() ? BodyPicture::Kind::none : BodyPicture::Kind::code;
    } else if (part.kind == PartKind::resistor) {
        if (auto bands = colourBandsOf(part.value, shareOfTolerance(part))) {
            picture.kind = BodyPicture::Kind::bands;
            picture.bands = *std::move(bands);
            picture.marking = printedMarking(part);
        }
    } else if (part.kind == PartKind::diode) {
        picture.kind = BodyPicture::Kind::diode;
        picture.marking = part.reference;
        picture.plainEnd = firstLandmark(part.nets[0]);
        picture.bandEnd = firstLandmark(part.nets[1]);
    }
    return picture;
}

StepLine lookAtPads() {
    return {said("Look"), said("both pads whole, no ring lifted"), false, true};
}

StepLine lookAtJoints() {
    return {said("Look"), said("joints wetted all round, no bridge to the next pad"), false, true};
}

class EditSteps {
public:
    EditSteps(const EditWork& work, const std::vector<BoardEdit>& edits) : m_work(work), m_edits(edits) {}

    std::vector<BenchStep> make() {
        for (const BoardEdit& edit : m_edits) {
            switch (edit.kind) {
                case EditKind::partOut:
                    m_steps.push_back(takeOut(edit.before));
                    break;
                case EditKind::legMoved:
                    if (!isHostOfNew(edit)) {
                        moveLegs(edit);
                    }
                    break;
                case EditKind::partSwapped:
                    m_steps.push_back(takeOut(edit.before));
                    m_steps.push_back(fit(edit.after));
                    break;
                case EditKind::partIn:
                    bringIn(edit.after);
                    break;
            }
        }
        return std::move(m_steps);
    }

private:
    template <class Words>
    [[nodiscard]] BenchStep step(StepKind kind, const Words& title) const {
        BenchStep made;
        made.kind = kind;
        made.letter = m_work.letter;
        entitle(made, title);
        return made;
    }

    // ---- Out ------------------------------------------------------------------------------------------------------

    [[nodiscard]] BenchStep takeOut(const Part& part) const {
        if (part.kind == PartKind::link) {
            BenchStep away =
                step(StepKind::takeOut, [&] { return said("Take the wire or solder %1 away", part.reference); });
            away.lines.push_back(lookAtPads());
            return away;
        }
        BenchStep out =
            step(StepKind::takeOut, [&] { return said("Take %1 out, %2", displayName(part), markedValue(part)); });
        out.legs = allLegs(part);
        out.picture = pictureOf(m_work.before, part);
        out.lines.push_back(lookAtPads());
        if (hasValue(part.kind)) {
            out.lines.push_back(measureOld(part));
            allow(out, part);
        }
        // On the way back it is the shop's part, or the customer's that was paid for.
        out.lines.push_back({said("Keep"),
                             m_work.isUndone
                                 ? said("the part that was fitted: to the shop or to the customer, as agreed")
                                 : said("old part into the customer's bag"),
                             false, true});
        return out;
    }

    [[nodiscard]] static std::vector<Leg> allLegs(const Part& part) {
        std::vector<Leg> legs;
        legs.reserve(part.nets.size());
        for (int pin = 0; pin < static_cast<int>(part.nets.size()); ++pin) {
            legs.push_back({part.id, pin});
        }
        return legs;
    }

    /// What the meter may say of the part by itself.
    static void allow(BenchStep& step, const Part& part) {
        step.unit = unitOf(part.kind);
        step.nominal = part.value;
        if (part.tolerance > 0.0) {
            step.low = part.value * (1.0 - part.tolerance);
            step.high = part.value * (1.0 + part.tolerance);
        }
    }

    [[nodiscard]] StepLine measureOld(const Part& part) const {
        if (part.tolerance <= 0.0) {
            return {said("Measure"),
                    m_work.isUndone ? said("fitted %1, drawn as %2: read", part.reference, valueWords(part))
                                    : said("old %1, drawn as %2: read", part.reference, valueWords(part)),
                    true, true};
        }
        return measured(m_work.isUndone ? toSay("fitted %1: %2 to %3, read") : oldMeasured, part);
    }

    /// By itself, in the hand. REQUIRES: a tolerance.
    [[nodiscard]] static StepLine measured(const char* english, const Part& part) {
        const auto words = [&](double value) { return formatQuantity({value, unitOf(part.kind)}); };
        return {said("Measure"),
                said(english, part.reference, words(part.value * (1.0 - part.tolerance)),
                     words(part.value * (1.0 + part.tolerance))),
                true, true};
    }

    // ---- Legs -----------------------------------------------------------------------------------------------------

    /// The leg that a part in line takes the pad of is lifted in that part's own step.
    [[nodiscard]] bool isHostOfNew(const BoardEdit& edit) const {
        return std::any_of(m_edits.begin(), m_edits.end(), [&](const BoardEdit& other) {
            return other.kind == EditKind::partIn && inLineWith(m_work.after, m_edits, other.after.id) == edit.after.id;
        });
    }

    void moveLegs(const BoardEdit& edit) {
        const auto isOpen = [](const Circuit& circuit, const NetName& net) {
            return std::find(circuit.openNets.begin(), circuit.openNets.end(), net) != circuit.openNets.end();
        };
        for (const int leg : edit.legs) {
            const NetName& from = edit.before.nets[static_cast<Index>(leg)];
            const NetName& to = edit.after.nets[static_cast<Index>(leg)];
            const bool wasFree = isOpen(m_work.before, from) || landmarks(m_work.after, from, edit.after.id, 1).empty();
            if (isOpen(m_work.after, to)) {
                BenchStep lift =
                    step(StepKind::moveLeg, [&] { return said("Lift the %1", pinWords(edit.after, leg)); });
                lift.legs = {{edit.after.id, leg}};
                lift.lines.push_back({said("Which leg"),
                                      said("the one at %1", joinsWords(m_work.before, from, edit.after.id)), false,
                                      true});
                lift.lines.push_back({said("Silent"), said("lifted leg to its old pad; sleeve the leg"), false, true});
                m_steps.push_back(std::move(lift));
                continue;
            }
            BenchStep move = step(StepKind::moveLeg, [&] {
                const std::string pin = pinWords(edit.after, leg);
                return wasFree ? said("Solder the %1 to its pad", pin) : said("Move the %1", pin);
            });
            move.legs = {{edit.after.id, leg}};
            if (!wasFree) {
                move.lines.push_back({said("From"), joinsWords(m_work.before, from, edit.after.id), false, true});
            }
            move.lines.push_back(
                {said("Must beep"), said("leg to %1", joinsWords(m_work.after, to, edit.after.id)), false, true});
            if (!wasFree && staysSilent(m_work.after, from, to)) {
                move.lines.push_back({said("Silent"), said("leg to its old pad"), false, true});
            }
            move.lines.push_back(lookAtJoints());
            m_steps.push_back(std::move(move));
        }
    }

    // ---- In -------------------------------------------------------------------------------------------------------

    void bringIn(const Part& part) {
        if (part.kind == PartKind::link) {
            join(part);
            return;
        }
        if (part.kind == PartKind::switchContact) {
            return;  // A contact of the switch that its mod fits: its wires are the legs of the others.
        }
        if (const Part* host = findPart(m_work.after, inLineWith(m_work.after, m_edits, part.id))) {
            inLine(part, *host);
            return;
        }
        BenchStep fitted = fit(part);
        const std::vector<PartId> across = partsAcross(m_work.after, part.id);
        const auto stands = std::find_if(across.begin(), across.end(),
                                         [&](const PartId& id) { return findPart(m_work.before, id) != nullptr; });
        if (stands != across.end()) {
            const std::string other = displayName(*findPart(m_work.before, *stands));
            entitle(fitted, [&] {
                const std::string marking = otherMarking(part);
                return marking.empty() ? said("Fit %1 %2 across %3", displayName(part), valueWords(part), other)
                                       : said("Fit %1 %2 across %3, printed %4", displayName(part), valueWords(part),
                                              other, marking);
            });
        }
        m_steps.push_back(std::move(fitted));
    }

    void join(const Part& wire) {
        // The part over which the wire lies, where there is one.
        const std::vector<PartId> over = partsAcross(m_work.after, wire.id);
        BenchStep made = step(StepKind::fit, [&] {
            return over.empty() ? said("Join two places with solder or wire")
                                : said("Join two legs of %1 with solder or wire",
                                       displayName(*findPart(m_work.after, over.front())));
        });
        const PartId apart = over.empty() ? wire.id : over.front();
        if (const Part* under = over.empty() ? nullptr : findPart(m_work.after, over.front())) {
            made.legs = allLegs(*under);
        }
        made.lines.push_back({said("Must beep"), said("leg to leg, and each leg to its own pad"), false, true});
        made.lines.push_back(
            {said("Places"),
             joinsWords(m_work.before, wire.nets[0], apart) + "; " + joinsWords(m_work.before, wire.nets[1], apart),
             false, true});
        m_steps.push_back(std::move(made));
    }

    void inLine(const Part& part, const Part& host) {
        const Part& before = *findPart(m_work.before, host.id);
        Index leg = 0;
        while (leg + 1 < host.nets.size() && before.nets[leg] == host.nets[leg]) {
            ++leg;
        }
        BenchStep made = fit(part);
        entitle(made, [&] {
            return said("Lift the %1, set %2 %3 in line", pinWords(before, static_cast<int>(leg)), displayName(part),
                        valueWords(part));
        });
        made.legs.insert(made.legs.begin(), {host.id, static_cast<int>(leg)});
        made.lines.insert(made.lines.begin(), lookAtPads());
        if (staysSilent(m_work.after, host.nets[leg], before.nets[leg])) {
            const std::vector<std::string> pad = landmarks(m_work.after, before.nets[leg], host.id, 1);
            made.lines.push_back({said("Silent"),
                                  pad.empty() ? said("new joint to the old pad (the old pad)")
                                              : said("new joint to %1 (the old pad)", pad.front()),
                                  false, true});
        }
        if (host.kind == PartKind::diode && part.kind == PartKind::diode) {
            const bool pointsAlike = part.nets[0] == host.nets[1] || part.nets[1] == host.nets[0];
            made.lines.push_back(
                {said("Bands"),
                 pointsAlike ? said("both bands point the same way") : said("the two bands point opposite ways"), false,
                 true});
        }
        m_steps.push_back(std::move(made));
    }

    [[nodiscard]] BenchStep fit(const Part& part) const {
        BenchStep made = step(StepKind::fit, [&] {
            return isNonPolar(part) ? said("Fit %1 %2, no polarity", displayName(part), markedValue(part))
                                    : said("Fit %1 %2", displayName(part), markedValue(part));
        });
        made.picture = pictureOf(m_work.after, part);
        made.legs = allLegs(part);
        if (m_work.isUndone) {
            made.lines.push_back({said("From"),
                                  said("the customer's bag; a new one of the same value and type where it is missing"),
                                  false, true});
        }
        if (hasValue(part.kind)) {
            allow(made, part);
            if (part.tolerance > 0.0) {
                made.lines.push_back(measured(m_work.isUndone ? oldMeasured : toSay("new %1: %2 to %3, read"), part));
            }
        }
        addLegs(made, part);
        made.lines.push_back(lookAtJoints());
        return made;
    }

    void addLegs(BenchStep& made, const Part& part) const {
        const Circuit& circuit = m_work.after;
        const auto place = [&](Index pin) { return joinsWords(circuit, part.nets[pin], part.id); };
        if (part.nets.size() == 2) {
            made.lines.push_back({said("Must beep"),
                                  part.kind == PartKind::diode
                                      ? said("band leg (cathode) to %1; plain leg (anode) to %2", place(1), place(0))
                                      : said("one leg to %1; other leg to %2", place(0), place(1)),
                                  false, true});
            if (staysSilent(circuit, part.nets[0], part.nets[1])) {
                made.lines.push_back({said("Silent"), said("leg to leg"), false, true});
            }
        } else {
            for (Index pin = 0; pin < part.nets.size(); ++pin) {
                made.lines.push_back(
                    {pin == 0 ? said("Must beep") : std::string(),
                     saidMeaning("two places", "%1 to %2", {pinWords(part, static_cast<int>(pin)), place(pin)}), false,
                     true});
            }
        }
        addPolarity(made, part);
        if (isAmplifying(part.kind)) {
            made.lines.push_back({said("Legs"),
                                  said("their order differs from type to type: read the part's own data sheet"), false,
                                  true});
            made.needsSecondPerson = true;
        }
        if (part.kind == PartKind::diode) {
            made.lines.push_back({said("Second"), said("another person checks the band before power"), false, true});
            made.needsSecondPerson = true;
        }
    }

    static bool isOneWay(Polarity polarity) {
        return polarity == Polarity::plusAtFirst || polarity == Polarity::plusAtSecond;
    }

    /// Which way round it goes, in case the body has a plus.
    void drawPolar(BodyPicture& picture, const Part& part, Polarity polarity) const {
        const auto place = [&](Index pin) {
            const std::vector<std::string> words = landmarks(m_work.after, part.nets[pin], part.id, 1);
            return words.empty() ? std::string() : words.front();
        };
        const Index plus = polarity == Polarity::plusAtFirst ? 0 : 1;
        picture.kind = BodyPicture::Kind::polar;
        picture.marking = printedMarking(part).empty() ? valueWords(part) : printedMarking(part);
        picture.plainEnd = place(1 - plus);
        picture.bandEnd = place(plus);
    }

    void addPolarity(BenchStep& made, const Part& part) const {
        const CapacitorDuty* duty = findDuty(m_work.duties, part.id);
        if (part.kind != PartKind::capacitor || duty == nullptr) {
            return;
        }
        if (isNonPolar(part)) {
            made.lines.push_back({said("Rating"),
                                  said("no polarity; %1 at most across it, a part of %2 or more",
                                       formatQuantity({duty->largestVolts, Unit::volt}),
                                       formatQuantity({duty->neededRating, Unit::volt})),
                                  false, false});
            return;
        }
        made.lines.push_back({said("Polarity"), said("if it has a plus: %1", duty->sentence), false, true});
        if (isOneWay(duty->polarity)) {
            drawPolar(made.picture, part, duty->polarity);
        }
        if (duty->polarity != Polarity::noVolts) {
            made.lines.push_back(
                {said("Second"), said("another person checks the polarity before power"), false, true});
            made.needsSecondPerson = true;
        }
    }

    static constexpr const char* oldMeasured = toSay("old %1: %2 to %3, read");

    const EditWork& m_work;
    const std::vector<BoardEdit>& m_edits;
    std::vector<BenchStep> m_steps;
};

}  // namespace

std::vector<BenchStep> stepsOfEdits(const EditWork& work, const std::vector<BoardEdit>& edits) {
    return EditSteps(work, edits).make();
}

}  // namespace ohmwright
