/// The base of all plots of curves: one frame with its cursor, the stamp over an old answer, keys, wheel and focus.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/curves/plot_frame.h"
#include "app/curves/plot_range.h"

#include <QStringList>
#include <QTimer>
#include <QWidget>

#include <optional>

class QContextMenuEvent;
class QMouseEvent;
class QWheelEvent;

namespace ohmwright {

/// One focus stop. Arrows step the cursor (with Shift finer), Home and End go to the ends of the axis, the wheel steps
/// as the arrows do; click and drag put the cursor under the pointer. What a step is, each plot says.
/// An axis of frequencies is zoomed by the wheel with Ctrl, two fingers, + and −; 0 or a double click shows all of it.
///
/// A plot of its own calls dressUp() at the end of its constructor, and draws with addDrawing of plot_frame.h.
class CurvePlot : public QWidget {
    Q_OBJECT
public:
    void setHoldsStock(bool holds);
    [[nodiscard]] bool holdsStock() const { return m_holdsStock; }
    void setState(const PlotState& state);
    [[nodiscard]] const PlotState& state() const { return m_state; }
    /// What the models leave out of what is drawn, a sentence where the plot has room; empty where nothing.
    void setNote(const QString& sentence);
    [[nodiscard]] const QString& note() const { return m_note; }
    /// Names of the curves drawn, back to front.
    [[nodiscard]] virtual QStringList curvesShown() const = 0;

    /// Where the cursor stands, on the first column of the kind's table.
    [[nodiscard]] double cursorAt() const { return m_cursorAt; }
    void setCursorAt(double at);
    /// "open A, 110 Hz: stock −8.27 dB, now −2.37 dB": what a screen reader says of the cursor.
    [[nodiscard]] virtual QString cursorSentence() const = 0;
    /// x of one of the cursor's places [px of this widget].
    [[nodiscard]] double xOf(double at) const;

    /// Which part of a frequency axis is shown; all of it unless it was zoomed.
    [[nodiscard]] const PlotRange& hzShown() const { return m_hzShown; }
    void showHz(const PlotRange& range);
    [[nodiscard]] bool isZoomed() const;

    /// Draws at once instead of with the next turn of the event loop.
    void replotNow();

signals:
    /// By the user's hand.
    void cursorMoved(double at);
    /// The button went down on the cursor, or up again.
    void cursorHeld(bool isHeld);
    /// What the cursor reads may have changed.
    void readingChanged();
    /// The keyboard came to this plot.
    void focused();
    /// Another part of the frequency axis is shown.
    void zoomed();
    /// The other button, or the menu key. @param at  on the screen.
    void menuAsked(const QPoint& at);

protected:
    /// @param name  for a screen reader.
    CurvePlot(const QString& name, QWidget* parent);

    /// Pens and visibility of the curves: state, stock held, theme or text size is another.
    virtual void applyPens() = 0;
    /// Margins, ranges and marks of the axes: size, theme or what is shown is another.
    virtual void layOut() = 0;
    /// Colours of the frames.
    virtual void dressFrames();
    /// Lets ranges go that have grown while a value turned. @return whether any did.
    virtual bool letRangesGo() { return false; }
    /// Ends of the cursor's way; absent where there is no cursor.
    [[nodiscard]] virtual std::optional<PlotRange> cursorWay() const = 0;
    /// From the cursor's places to those on the horizontal axis, and back; the same unless a level's unit lies between.
    [[nodiscard]] virtual double toAxis(double at) const { return at; }
    [[nodiscard]] virtual double fromAxis(double x) const { return x; }
    /// So many steps from where the cursor stands.
    [[nodiscard]] virtual double stepped(int steps, bool isFine) const = 0;
    /// Where the cursor goes for a pointer at `at`; `within` is as far as a pointer may miss.
    /// @param isFree  nothing snaps.
    [[nodiscard]] virtual double snapped(double at, double within, bool isFree) const;

    /// Where the note stands: at the right, on a line of this box.
    struct NotePlace {
        QRectF box;
        Qt::Alignment line = Qt::AlignBottom;
    };
    /// The foot of the frame, unless a plot has curves there.
    [[nodiscard]] virtual NotePlace notePlace() const { return {frameBox(), Qt::AlignBottom}; }
    /// Whether the horizontal axis is one of frequencies: only those are zoomed.
    [[nodiscard]] virtual bool isOverHz() const { return false; }
    /// "Hz", and where it is zoomed between which ends and how all of it comes back.
    [[nodiscard]] QString hzWords(const QString& words) const;

    /// Pointer and keys before they move the cursor; true when taken.
    virtual bool takesPress(const QMouseEvent& event);
    virtual bool takesMove(const QMouseEvent& event);
    virtual void takeRelease(const QMouseEvent& event);
    virtual bool takesKey(const QKeyEvent& event);

    void dressUp();
    void requestReplot();
    /// Draws the cursor's layer alone.
    void replotCursor();
    /// The ranges are let go once nothing was asked for a while.
    void restLater();
    /// Tells a screen reader what the cursor reads now.
    void announce();
    QCPGraph* addCurve();
    void moveCursor(double at);
    [[nodiscard]] QRectF frameBox() const;
    [[nodiscard]] QCustomPlot& plot() const { return *m_plot; }
    [[nodiscard]] QCPAxisRect& frame() const { return *m_frame; }
    [[nodiscard]] QPen heldStockPen() const;
    /// The line of the cursor from above the frame down to `bottom` [px].
    void paintCursorLine(QPainter& painter, double bottom) const;
    /// Stamp and focus, above everything; on the cursor's layer.
    void paintOver(QPainter& painter, bool hasAnswer) const;

    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    bool event(QEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void showEvent(QShowEvent* event) override;

private:
    friend class CurvePlotAccessible;

    void settle();
    void paintNote(QPainter& painter) const;
    void followPointer(const QMouseEvent& event);
    void followWheel(const QWheelEvent& event);
    void keepCursorInSight();
    /// By a factor about a place that stays where it is.
    void zoomAbout(double hz, double factor);
    [[nodiscard]] double hzUnder(double x) const;

    QCustomPlot* m_plot;
    QCPAxisRect* m_frame;
    PlotState m_state;
    QString m_note;
    QTimer m_rest;
    double m_cursorAt = 0.0;
    double m_wheelRest = 0.0;
    PlotRange m_hzShown = wholeHz;
    bool m_holdsStock = false;
};

}  // namespace ohmwright
