/// A sheet under glass: shown whole or nearer, moved and zoomed by pointer, fingers and keys. The base of the map, of
/// the place where a unit is drawn, and of the board.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QGraphicsView>
#include <QPoint>

#include <optional>
#include <utility>

class QGestureEvent;

namespace ohmwright {

/// Shows the whole until the hand zooms or moves; from then on scale and place stay, whatever changes on the sheet.
class PanView : public QGraphicsView {
    Q_OBJECT
public:
    PanView(QGraphicsScene& scene, QWidget* parent);

    /// All that is drawn, now and after each change.
    void showWhole();
    [[nodiscard]] bool showsWhole() const { return m_showsWhole; }
    /// After a change of the sheet: fits it again where the whole is shown.
    void follow();
    /// So many steps nearer (negative: farther), about the middle of what is seen.
    void zoom(int steps);
    /// Moves what is seen by so many px.
    void pan(const QPoint& by);

signals:
    /// What is seen lies elsewhere in the view.
    void fitted();

protected:
    /// What has to be seen of the whole sheet, in scene px.
    [[nodiscard]] virtual QRectF whole() const = 0;
    /// The largest scale at which the whole is shown.
    [[nodiscard]] virtual double largestFit() const = 0;
    /// Smallest and largest scale of the hand.
    [[nodiscard]] virtual std::pair<double, double> zoomLimits() const = 0;
    /// The sheet is shown at another scale.
    virtual void wasScaled(double scale) { Q_UNUSED(scale); }
    /// The whole sheet was brought into view.
    virtual void wasFitted() {}

    /// The scale at which the whole is seen, whatever is shown now.
    [[nodiscard]] double fitScale() const;
    void scaleTo(double scale);
    /// What lies under the point stays there.
    void zoomAbout(const QPointF& position, double factor);
    /// Steps of an ordinary wheel, of a finely divided one parts of them.
    void zoomByWheel(const QWheelEvent& event);
    /// Plus and minus, Home, Shift with arrows: whether the key was the sheet's.
    bool moveSheetByKey(const QKeyEvent& event);
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

    bool m_showsWhole = true;
    std::optional<QPoint> m_grabbedAt;
};

}  // namespace ohmwright
