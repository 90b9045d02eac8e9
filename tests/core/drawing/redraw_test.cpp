// Every demo's drawing is made again from an empty sheet by the edits that a hand makes: parts, wires, signs, stages.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drawing/outline.h"
#include "core/drawing/rejoin.h"
#include "core/drawing/zones.h"
#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

#include <map>
#include <set>

namespace ohmwright {
namespace {

/// Steps of a drawing, as long as all of them are taken.
class Redrawing {
public:
    void take(const EditResult& edit) {
        if (edit) {
            circuit = edit->circuit;
        } else {
            ADD_FAILURE() << edit.error().message;
        }
    }
    Circuit circuit;
};

Circuit redrawn(const Circuit& model) {
    Redrawing hand;
    for (const Part& part : model.parts) {
        if (!part.placement) {
            continue;
        }
        Part bare = part;
        bare.placement.reset();
        // An op-amp's supplies have no place: they keep their net by name.
        std::fill(bare.nets.begin(), bare.nets.begin() + drawnPinCount(part.kind), NetName());
        const Model* type = findModel(model, part.model);
        hand.take(placePart(hand.circuit, bare, *part.placement, type ? std::optional(*type) : std::nullopt));
    }
    for (const Wire& wire : model.drawing.wires) {
        hand.take(drawWire(hand.circuit, wire.corners));
    }
    for (const Flag& flag : model.drawing.flags) {
        Flag bare = flag;
        bare.net = flag.kind == FlagKind::supply ? flag.net : NetName();
        hand.take(placeFlag(hand.circuit, bare));
    }
    return hand.circuit;
}

/// Whether two circuits join the same pins, whatever the nets are called: each net of one is one net of the other.
void expectSameJoints(const Circuit& circuit, const Circuit& model) {
    std::map<NetName, NetName> names;
    std::set<NetName> used;
    for (const Part& part : model.parts) {
        const Part* other = findPart(circuit, part.id);
        if (!part.placement) {
            continue;
        }
        ASSERT_NE(other, nullptr) << part.id;
        for (std::size_t pin = 0; pin < part.nets.size(); ++pin) {
            const auto [known, isNew] = names.try_emplace(part.nets[pin], other->nets[pin]);
            EXPECT_EQ(known->second, other->nets[pin]) << part.reference << " pin " << pin + 1;
            if (isNew) {
                EXPECT_TRUE(used.insert(other->nets[pin]).second) << part.reference << " pin " << pin + 1;
            }
        }
    }
    EXPECT_EQ(names.at(NetName(groundNet)), groundNet);
}

class RedrawTest : public testing::TestWithParam<std::filesystem::path> {};

TEST_P(RedrawTest, TheHandsEditsGiveTheSameDrawing) {
    const Circuit model = test::jobIn(GetParam()).stock;
    const Circuit circuit = redrawn(model);
    ASSERT_EQ(circuit.drawing.wires.size(), model.drawing.wires.size());
    for (std::size_t i = 0; i < model.drawing.wires.size(); ++i) {
        // Without corners that are none: points where another wire joins.
        EXPECT_EQ(circuit.drawing.wires[i].corners, rightAngled(model.drawing.wires[i].corners))
            << model.drawing.wires[i].net;
    }
    ASSERT_EQ(circuit.drawing.flags.size(), model.drawing.flags.size());
    for (std::size_t i = 0; i < model.drawing.flags.size(); ++i) {
        EXPECT_EQ(circuit.drawing.flags[i].at, model.drawing.flags[i].at);
        EXPECT_EQ(circuit.drawing.flags[i].kind, model.drawing.flags[i].kind);
    }
    for (const Part& part : model.parts) {
        if (part.placement) {
            EXPECT_EQ(findPart(circuit, part.id)->placement, part.placement) << part.reference;
        }
    }
    expectSameJoints(circuit, model);
}

TEST_P(RedrawTest, StagesAreMarkedAtTheSameColumns) {
    const Circuit model = test::jobIn(GetParam()).stock;
    Redrawing hand;
    hand.circuit = redrawn(model);
    for (const Field& field : model.drawing.fields) {
        hand.take(frameField(hand.circuit, field));
    }
    for (const Stage& stage : model.stages) {
        hand.take(beginStage(hand.circuit, stage.firstColumn, stage.name));
    }
    ASSERT_EQ(hand.circuit.stages.size(), model.stages.size());
    for (std::size_t i = 0; i < model.stages.size(); ++i) {
        const Stage& stage = hand.circuit.stages[i];
        EXPECT_EQ(stage.firstColumn, model.stages[i].firstColumn);
        const std::set<PartId> mine(stage.parts.begin(), stage.parts.end());
        for (const PartId& id : model.stages[i].parts) {
            const Part* part = findPart(model, id);
            EXPECT_TRUE(!part->placement || mine.contains(id)) << stage.name << " " << id;
        }
    }
}

INSTANTIATE_TEST_SUITE_P(Demo, RedrawTest, testing::ValuesIn(test::demoJobPaths()), [](const auto& parameter) {
    std::string name = parameter.param.stem().string();
    std::replace(name.begin(), name.end(), '-', '_');
    return name;
});

}  // namespace
}  // namespace ohmwright
