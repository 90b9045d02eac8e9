// Thousands of random edits: every one leaves a drawing whose nets are what it shows, or a reason and nothing changed.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"
#include "core/drawing/relocate.h"
#include "core/drawing/zones.h"
#include "core/files/job_file.h"
#include "tests/support/demo_job.h"
#include "tests/support/random_networks.h"

#include <gtest/gtest.h>

#include <cstdlib>

namespace ohmwright {
namespace {

constexpr std::array kinds{PartKind::resistor,      PartKind::capacitor,    PartKind::potentiometer, PartKind::diode,
                           PartKind::bipolar,       PartKind::opamp,        PartKind::jfet,          PartKind::mosfet,
                           PartKind::triode,        PartKind::pentode,      PartKind::inductor,      PartKind::link,
                           PartKind::voltageSource, PartKind::switchContact};

/// Edits asked by chance, as a hand and a keyboard would.
class RandomHand {
public:
    explicit RandomHand(unsigned seed) : m_chance(seed) {}

    EditResult edit(const Circuit& circuit) {
        switch (m_chance.below(14)) {
            case 0:
            case 1:
                return place(circuit);
            case 2:
            case 3:
            case 4:
                return drawWire(circuit, {point(circuit), point(circuit), point(circuit)});
            case 5:
            case 6:
                return move(circuit, picked(circuit), {m_chance.below(9) - 4, m_chance.below(9) - 4});
            case 7:
                return turn(circuit, picked(circuit));
            case 8:
                return mirror(circuit, picked(circuit));
            case 9:
                return erase(circuit, picked(circuit));
            case 10:
                return placeFlag(circuit, {m_chance.coin() ? FlagKind::ground : FlagKind::supply,
                                           {},
                                           point(circuit),
                                           m_chance.coin() ? "9 V" : "Vb"});
            case 11:
                return nameNet(circuit, netAt(circuit, point(circuit)), "net" + std::to_string(m_chance.below(20)));
            case 12:
                return paste(circuit, copyOf(circuit, withInnerWires(circuit, picked(circuit))),
                             {m_chance.below(30), m_chance.below(20)});
            default:
                return zone(circuit);
        }
    }

private:
    EditResult place(const Circuit& circuit) {
        Part part;
        part.kind = kinds[static_cast<std::size_t>(m_chance.below(static_cast<int>(kinds.size())))];
        part.value = 1000.0;
        return placePart(circuit, part,
                         {free(), m_chance.below(4), m_chance.coin(), 2 + m_chance.below(3), LabelSide::automatic});
    }
    EditResult zone(const Circuit& circuit) {
        switch (m_chance.below(4)) {
            case 0:
                return beginStage(circuit, m_chance.below(60), "Stage");
            case 1:
                return endStage(circuit, static_cast<std::size_t>(m_chance.below(4)));
            case 2:
                return makeRoom(circuit, free(), {m_chance.below(3), m_chance.below(3)});
            default:
                return frameField(circuit, {"Supply", "", free(), free()});
        }
    }
    GridPoint free() { return {m_chance.below(60), m_chance.below(30)}; }
    /// Half of the time a pin: wires are drawn to pins.
    GridPoint point(const Circuit& circuit) {
        if (!circuit.parts.empty() && m_chance.coin()) {
            const Part& part =
                circuit.parts[static_cast<std::size_t>(m_chance.below(static_cast<int>(circuit.parts.size())))];
            return part.placement ? pinPoint(part, m_chance.below(3)) : free();
        }
        return free();
    }
    Picked picked(const Circuit& circuit) {
        if (m_chance.coin()) {
            const GridPoint corner = free();
            return pickedIn(circuit, corner, {corner.x + 12, corner.y + 8});
        }
        Picked one;
        if (!circuit.parts.empty()) {
            one.parts.push_back(
                circuit.parts[static_cast<std::size_t>(m_chance.below(static_cast<int>(circuit.parts.size())))].id);
        }
        return one;
    }

    test::Chance m_chance;
};

/// OHMWRIGHT_RANDOM_EDITS asks for more by hand.
int editCount() {
    const char* asked = std::getenv("OHMWRIGHT_RANDOM_EDITS");
    return asked ? std::atoi(asked) : 1500;
}

void expectSound(const Circuit& circuit, int step) {
    ASSERT_EQ(rejoin(circuit).circuit, circuit) << "step " << step;
    for (const Wire& wire : circuit.drawing.wires) {
        ASSERT_GE(wire.corners.size(), 2U);
        for (std::size_t i = 1; i < wire.corners.size(); ++i) {
            const bool level = wire.corners[i].y == wire.corners[i - 1].y;
            ASSERT_NE(level, wire.corners[i].x == wire.corners[i - 1].x) << "step " << step;
        }
    }
    for (const Part& part : circuit.parts) {
        ASSERT_EQ(part.nets.size(), static_cast<std::size_t>(pinCount(part.kind)));
        ASSERT_TRUE(std::none_of(part.nets.begin(), part.nets.end(), [](const NetName& net) { return net.empty(); }))
            << "step " << step << " " << part.id;
    }
}

TEST(RandomEdits, EveryEditLeavesASoundDrawingOrTheOldOne) {
    int taken = 0;
    for (unsigned seed = 1; seed <= 6; ++seed) {
        RandomHand hand(seed);
        Circuit circuit = seed % 2 == 0 ? test::jobIn(test::harbourLampPath()).stock : Circuit();
        for (int step = 0; step < editCount() / 6; ++step) {
            const EditResult edit = hand.edit(circuit);
            if (!edit) {
                EXPECT_FALSE(edit.error().message.empty());
                continue;
            }
            ++taken;
            circuit = edit->circuit;
            // Op-amps keep their supplies by name: this hand does not wire them.
            for (Part& part : circuit.parts) {
                for (NetName& net : part.nets) {
                    net = net.empty() ? NetName(groundNet) : net;
                }
            }
            ASSERT_NO_FATAL_FAILURE(expectSound(circuit, step));
        }
        Job job;
        job.stock = circuit;
        const Result<Job> again = readJob(writeJob(job));
        ASSERT_TRUE(again) << again.error().message;
        EXPECT_EQ(again->stock, circuit) << "a drawn circuit is kept whole by its file";
    }
    EXPECT_GT(taken, editCount() / 6);
}

}  // namespace
}  // namespace ohmwright
