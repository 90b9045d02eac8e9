/// The face of the board: photo or drawn board, the legs on it, the net that is lit, where the probes go.
///
/// It shows and asks; marks are made by who owns the job. Every mouse way has a key: arrows walk the legs, Enter marks,
/// Ctrl with arrows moves a mark, Delete takes it away, Esc leaves a drag and then the chosen leg.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/photo_service.h"
#include "app/board/body_painter.h"
#include "app/look/pan_view.h"
#include "core/board/board_sheet.h"

#include <QGraphicsScene>
#include <QTimer>

#include <map>
#include <memory>
#include <optional>

namespace ohmwright {

/// A probe of the check list: a ring at its leg and a flag with its words.
struct ShownProbe {
    std::optional<Leg> leg;
    QString words;  ///< "red: C4 Cg leg 1"
};

class BoardView : public PanView {
    Q_OBJECT
public:
    explicit BoardView(QWidget* parent = nullptr);

    void showSheet(BoardSheet sheet, std::shared_ptr<const Circuit> circuit, const BodyLooks& looks);
    /// Null while it is read.
    void showPicture(std::shared_ptr<const PhotoPicture> picture);
    void showHeat(std::map<Leg, int> times);
    void setSelected(const PartId& part, const std::optional<Leg>& leg);
    void showProbes(const ShownProbe& red, const ShownProbe& black);
    /// Looked at only: no mark is made or moved, no key taken.
    void setBench(bool isBench);

    /// The probes' rings do not pulse.
    void setKeepsStill(bool still);

    [[nodiscard]] const BoardSheet& sheet() const { return m_sheet; }
    /// Where a leg is in the viewport; nothing where it has no place.
    [[nodiscard]] std::optional<QPoint> placeOf(const Leg& leg) const;
    /// Where it is said in the viewport how often a leg was heated; nothing where it was not, or has no place.
    [[nodiscard]] std::optional<QRectF> heatBadgeOf(const Leg& leg) const;
    [[nodiscard]] bool isPulsing() const { return m_pulse.isActive(); }

signals:
    void legChosen(const ohmwright::Leg& leg);
    void partStepped(int steps);
    void legStepped(int steps);
    /// The next leg without a place is there. @param at  on the sheet.
    void markAsked(const ohmwright::BoardPoint& at);
    /// A mark stands elsewhere. @param isDone  false while the hand still drags.
    void markMoved(const ohmwright::Leg& leg, const ohmwright::BoardPoint& at, bool byKey);
    void unmarkAsked(const ohmwright::Leg& leg);
    /// A letter or digit: part and leg are named.
    void nameTyped(const QString& text);
    void flipAsked();
    /// No leg is chosen any more.
    void legGivenUp();

protected:
    [[nodiscard]] QRectF whole() const override;
    [[nodiscard]] double largestFit() const override;
    [[nodiscard]] std::pair<double, double> zoomLimits() const override;
    void drawBackground(QPainter* painter, const QRectF& rect) override;
    void drawForeground(QPainter* painter, const QRectF& rect) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;

private:
    [[nodiscard]] std::optional<Leg> legUnder(const QPoint& position) const;
    [[nodiscard]] BoardPoint sheetPoint(const QPoint& position) const;
    [[nodiscard]] QPointF onView(const BoardPoint& at) const;
    [[nodiscard]] std::vector<QPointF> litPlaces() const;
    [[nodiscard]] double reach() const;
    void paintPhoto(QPainter& painter);
    void paintMarks(QPainter& painter) const;
    void paintNet(QPainter& painter) const;
    void paintSelected(QPainter& painter) const;
    void paintHeat(QPainter& painter) const;
    void paintProbe(QPainter& painter, const ShownProbe& probe, bool isRed, QRectF& taken) const;
    void followPulse();
    bool walkByKey(const QKeyEvent& event);
    bool markByKey(const QKeyEvent& event);
    bool stepOutByKey(const QKeyEvent& event);
    void nudge(const QPoint& by);

    BoardSheet m_sheet;
    std::shared_ptr<const Circuit> m_circuit;
    std::shared_ptr<const PhotoPicture> m_picture;
    BodyLooks m_looks;
    std::map<Leg, int> m_heat;
    PartId m_part;
    std::optional<Leg> m_leg;
    ShownProbe m_red, m_black;
    QTimer m_pulse;
    static constexpr int pulseSteps = 18;
    int m_pulseStep = 0;
    bool m_isBench = false;
    bool m_keepsStill = false;

    /// A press on a leg that may become a drag.
    struct Press {
        Leg leg;
        QPoint at;
        bool isDrag = false;
        BoardPoint to;
    };
    std::optional<Press> m_press;
    std::optional<QPoint> m_groundPress;  ///< On nothing: a click marks, a drag moves the sheet.
};

}  // namespace ohmwright
