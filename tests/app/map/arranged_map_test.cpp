// Netlists drawn as maps: their pictures, and their words as the map places them.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/map_scene.h"
#include "core/drawing/arrange.h"
#include "core/drawing/legibility.h"
#include "tests/support/undrawn_circuits.h"

#include <gtest/gtest.h>
#include <QDir>
#include <QImage>
#include <QPainter>

#include <cstdlib>
#include <iostream>

namespace ohmwright::test {
namespace {

MapState stateOf(const Circuit& circuit) {
    Job job;
    job.stock = circuit;
    MapState state;
    state.job = std::make_shared<const Job>(std::move(job));
    return state;
}

/// Words that lie on something, and words without the part's reference.
struct WordFaults {
    int coveredCount = 0;
    int unnamedCount = 0;
    std::string covered;
    std::string unnamed;
};

WordFaults faultsOf(const MapLayout& layout) {
    WordFaults faults;
    for (const DrawnPart& part : layout.parts) {
        const MapLabel* label = layout.labelOf(part.id);
        if (label == nullptr) {
            continue;
        }
        if (label->label.covered > 0.0) {
            faults.coveredCount += 1;
            faults.covered.append(" ").append(part.id);
        }
        bool isNamed = part.innerText == part.view.reference;
        for (const LabelLine& line : label->label.block) {
            for (const LabelRun& run : line.runs) {
                isNamed = isNamed || run.text == part.view.reference;
            }
        }
        if (!isNamed) {
            faults.unnamedCount += 1;
            faults.unnamed.append(" ").append(part.id);
        }
    }
    return faults;
}

void savePicture(const MapState& state, const QString& path) {
    MapScene scene;
    scene.setState(state);
    const QRectF sheet = scene.layout().sheet;
    QImage image((sheet.size() * 1.5).toSize(), QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    scene.render(&painter, QRectF(image.rect()), sheet);
    painter.end();
    EXPECT_TRUE(image.save(path)) << path.toStdString();
}

/// Each circuit drawn, with its picture for the eye, and the figures of all of them.
TEST(ArrangedMap, SixtyCircuitsReadAndHaveTheirPictures) {
    const QString folder = QString::fromLocal8Bit(OHMWRIGHT_PICTURES_DIR "/arranged");
    ASSERT_TRUE(QDir().mkpath(folder));
    int covered = 0;
    int unnamed = 0;
    const std::vector<UndrawnCircuit> circuits = undrawnCircuits();
    ASSERT_EQ(circuits.size(), 60U);
    for (const UndrawnCircuit& undrawn : circuits) {
        const Circuit drawn = arrange(undrawn.circuit);
        const Legibility read = legibilityOf(drawn);
        const WordFaults words = faultsOf(layoutMap(stateOf(drawn), 1.0));
        std::cout << undrawn.name << ": " << drawn.parts.size() << " parts, sheet " << drawn.drawing.size.x << " x "
                  << drawn.drawing.size.y << ", " << read.bends << " bends, " << read.crossings << " crossings, "
                  << read.jointsOfFour << " joints of four, wire " << read.wireLength
                  << "; words covered:" << words.covered << "; without a reference:" << words.unnamed << "\n";
        covered += words.coveredCount;
        unnamed += words.unnamedCount;
        savePicture(stateOf(drawn), folder + "/" + QString::fromStdString(undrawn.name) + ".png");
    }
    // Of some 1,500 parts.
    EXPECT_EQ(covered, 0);
    EXPECT_EQ(unnamed, 0);
}

// A coupling drawn on the map has no pins: the brackets about the chosen one took the first of them.
TEST(ArrangedMap, EveryKindOfPartCanBeChosen) {
    MapScene scene;
    for (const UndrawnCircuit& undrawn : randomWithoutDrawing(26)) {
        MapState state = stateOf(arrange(undrawn.circuit));
        for (const Part& part : undrawn.circuit.parts) {
            state.selected = part.id;
            scene.setState(state);
            ASSERT_NE(scene.layout().part(part.id), nullptr) << undrawn.name << ": " << part.id;
        }
    }
}

/// A demo's own hand-made drawing is what a draughtsman does with the same netlist.
TEST(ArrangedMap, ADemoDrawnByItselfHasNoMoreCrossingsThanByHand) {
    for (const std::filesystem::path& path : demoJobPaths()) {
        const Circuit byHand = jobIn(path).stock;
        const Legibility own = legibilityOf(arrange(stripped(byHand)));
        const Legibility hand = legibilityOf(byHand);
        EXPECT_LE(own.crossings, hand.crossings + 1) << path;
        EXPECT_LE(own.bends, hand.bends + 8) << path;
        std::cout << path.stem() << ": by hand " << hand.bends << " bends, " << hand.crossings << " crossings, wire "
                  << hand.wireLength << "; arranged " << own.bends << ", " << own.crossings << ", " << own.wireLength
                  << "\n";
    }
}

}  // namespace
}  // namespace ohmwright::test
