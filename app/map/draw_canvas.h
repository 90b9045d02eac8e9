/// The drawing under the hand: the map's own picture of stock, with the cross, what is held, the wire, the box and the
/// faults over it. Pointer and keys go to the hand.
///
/// A drawing that is opened is shown whole. From the first edit on the view keeps its scale and its place, and moves
/// only when the cross leaves it; Home shows the whole drawing again.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/draw_faults.h"
#include "app/map/map_state.h"
#include "app/map/sheet_view.h"

#include <vector>

namespace ohmwright {

class DrawHand;
class MapScene;

class DrawCanvas : public SheetView {
    Q_OBJECT
public:
    /// The hand must outlive the canvas.
    explicit DrawCanvas(DrawHand& hand, QWidget* parent = nullptr);

    /// Draws the job's stock circuit.
    void setState(const MapState& state);
    void setFaults(std::vector<DrawFault> faults);
    /// A grid point in the view's own px.
    [[nodiscard]] QPoint viewPoint(GridPoint point) const;

protected:
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    [[nodiscard]] QRectF whole() const override;
    [[nodiscard]] double largestFit() const override;
    [[nodiscard]] std::pair<double, double> zoomLimits() const override;
    [[nodiscard]] double labelScaleAt(double scale) const override;
    void wasFitted() override;
    void resizeEvent(QResizeEvent* event) override;
    void drawForeground(QPainter* painter, const QRectF& rect) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    DrawCanvas(DrawHand& hand, MapScene* scene, QWidget* parent);
    void followHand();
    void keepCaretInView();
    void paintPicked(QPainter& painter) const;
    void paintPickedSign(QPainter& painter, const Flag& flag) const;
    void paintHeld(QPainter& painter) const;
    void paintPen(QPainter& painter) const;
    void paintPointer(QPainter& painter) const;
    void paintCaret(QPainter& painter) const;
    void paintFaults(QPainter& painter) const;
    void paintMark(QPainter& painter, const DrawFault& fault) const;
    [[nodiscard]] QRectF freeBox(const QSizeF& size, const QPointF& wanted) const;
    [[nodiscard]] QPointF inGrid(const QPoint& position) const;

    DrawHand& m_hand;
    MapScene* m_scene;
    std::vector<DrawFault> m_faults;
    GridPoint m_caret;  ///< That the view has followed.
    QPoint m_placeInWindow;
};

}  // namespace ohmwright
