/// A sheet under glass: shown whole or nearer, moved and zoomed by pointer, fingers and keys. The base of the map and
/// of the place where a unit is drawn.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QGraphicsView>
#include <QPoint>

#include <optional>
#include <utility>
#include <vector>

class QGestureEvent;

namespace ohmwright {

class MapScene;

/// Shows the whole until the hand zooms or moves; from then on scale and place stay, whatever changes on the sheet.
class SheetView : public QGraphicsView {
    Q_OBJECT
public:
    SheetView(MapScene& scene, QWidget* parent);

    /// All that is drawn, now and after each change.
    void showWhole();
    [[nodiscard]] bool showsWhole() const { return m_showsWhole; }
    /// After a change of the sheet: fits it again where the whole is shown.
    void follow();
    /// So many steps nearer (negative: farther), about the middle of what is seen.
    void zoom(int steps);
    /// Moves what is seen by so many px.
    void pan(const QPoint& by);
    /// Left edge of each zone and the right edge of the last, in the view's own px.
    [[nodiscard]] std::vector<double> zoneEdges() const;

signals:
    /// The zones have moved.
    void fitted();

protected:
    /// What has to be seen of the whole sheet, in scene px.
    [[nodiscard]] virtual QRectF whole() const = 0;
    /// The largest scale at which the whole is shown.
    [[nodiscard]] virtual double largestFit() const = 0;
    /// Smallest and largest scale of the hand.
    [[nodiscard]] virtual std::pair<double, double> zoomLimits() const = 0;
    /// Scale of the words at a scale of the sheet.
    [[nodiscard]] virtual double labelScaleAt(double scale) const = 0;
    /// The whole sheet was brought into view.
    virtual void wasFitted() {}

    /// The scale at which the whole is seen, whatever is shown now.
    [[nodiscard]] double fitScale() const;
    void scaleTo(double scale);
    /// What lies under the point stays there.
    void zoomAbout(const QPointF& position, double factor);
    /// Steps of an ordinary wheel, of a finely divided one parts of them.
    void zoomByWheel(const QWheelEvent& event);
    /// From here on the sheet stays where it is.
    void keepPlace() { m_showsWhole = false; }
    /// The next change brings the whole into view.
    void expectWhole() { m_showsWhole = true; }

    /// A drag of the sheet: begun by a press, led by moves.
    void grabSheet(const QPoint& position);
    bool dragSheet(const QPoint& position);
    bool releaseSheet();
    [[nodiscard]] bool isSheetGrabbed() const { return m_grabbedAt.has_value(); }

    bool viewportEvent(QEvent* event) override;
    void scrollContentsBy(int dx, int dy) override;

private:
    bool pinch(const QGestureEvent& event);

    MapScene& m_scene;
    bool m_showsWhole = true;
    std::optional<QPoint> m_grabbedAt;
};

}  // namespace ohmwright
