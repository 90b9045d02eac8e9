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
            faults.covered.append(" ").append(part.id);
        }
        bool isNamed = part.innerText == part.view.reference;
        for (const LabelLine& line : label->label.block) {
            for (const LabelRun& run : line.runs) {
                isNamed = isNamed || run.text == part.view.reference;
            }
        }
        if (!isNamed) {
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

TEST(ArrangedMap, PicturesOfAllCircuits) {
    const QString folder = QString::fromLocal8Bit(OHMWRIGHT_PICTURES_DIR "/arranged");
    ASSERT_TRUE(QDir().mkpath(folder));
    for (const UndrawnCircuit& undrawn : undrawnCircuits()) {
        const Circuit drawn = arrange(undrawn.circuit);
        const Legibility read = legibilityOf(drawn);
        std::cout << undrawn.name << ": " << drawn.parts.size() << " parts, sheet " << drawn.drawing.size.x << " x "
                  << drawn.drawing.size.y << ", " << read.bends << " bends, " << read.crossings << " crossings, "
                  << read.jointsOfFour << " joints of four, wire " << read.wireLength << " " << read.worst << "\n";
        const WordFaults words = faultsOf(layoutMap(stateOf(drawn), 1.0));
        std::cout << "    covered:" << words.covered << "; unnamed:" << words.unnamed << "\n";
        savePicture(stateOf(drawn), folder + "/" + QString::fromStdString(undrawn.name) + ".png");
    }
}

}  // namespace
}  // namespace ohmwright::test
