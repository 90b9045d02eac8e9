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
        savePicture(stateOf(drawn), folder + "/" + QString::fromStdString(undrawn.name) + ".png");
    }
}

}  // namespace
}  // namespace ohmwright::test
