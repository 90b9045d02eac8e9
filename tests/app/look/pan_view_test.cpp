// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/pan_view.h"

#include <gtest/gtest.h>
#include <QGraphicsScene>

namespace ohmwright {
namespace {

/// A sheet of 1000 by 500 under the glass.
class SheetUnderGlass : public PanView {
public:
    using PanView::PanView;
    double scale = 0.0;

protected:
    [[nodiscard]] QRectF whole() const override { return {0.0, 0.0, 1000.0, 500.0}; }
    [[nodiscard]] double largestFit() const override { return 2.0; }
    [[nodiscard]] std::pair<double, double> zoomLimits() const override { return {fitScale(), 4.0}; }
    void wasScaled(double now) override { scale = now; }
};

class PanViewTest : public testing::Test {
protected:
    PanViewTest() {
        scene.setSceneRect(-1000.0, -1000.0, 3000.0, 2500.0);
        view.resize(500, 400);
        view.show();
        view.showWhole();
    }
    QGraphicsScene scene;
    SheetUnderGlass view{scene, nullptr};
};

TEST_F(PanViewTest, ShowsTheWholeUntilTheHandZooms) {
    EXPECT_TRUE(view.showsWhole());
    EXPECT_NEAR(view.scale, view.viewport()->width() / 1000.0, 1e-9);
    const QPointF middle = view.mapToScene(view.viewport()->rect().center());
    view.zoom(2);
    EXPECT_FALSE(view.showsWhole());
    EXPECT_NEAR(view.scale, view.viewport()->width() / 1000.0 * 1.15 * 1.15, 1e-9);
    const QPointF after = view.mapToScene(view.viewport()->rect().center());
    EXPECT_NEAR(after.x(), middle.x(), 4.0);
    EXPECT_NEAR(after.y(), middle.y(), 4.0);
    view.zoom(-3);
    EXPECT_TRUE(view.showsWhole());
}

TEST_F(PanViewTest, MovesBySoManyPixelsAndNoNearerThanItsLimit) {
    view.zoom(60);
    EXPECT_NEAR(view.scale, 4.0, 1e-9);
    const QPoint before = view.mapFromScene(QPointF(500.0, 250.0));
    view.pan({30, -20});
    EXPECT_EQ(view.mapFromScene(QPointF(500.0, 250.0)) - before, QPoint(30, -20));
}

}  // namespace
}  // namespace ohmwright
