/// One dial of the knob row: arc, name, value, hint; turned by drag, wheel and keys, or typed over in place.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/knobs/control.h"

#include <QWidget>

class QLineEdit;

namespace ohmwright {

/// Knows no job: says what was asked and shows the face it is given.
///
/// Drag up or down turns; wheel one step, with Ctrl a fine one; Up/Right and Down/Left fine, Page Up/Down coarse,
/// Home and End the ends; Delete or a double click the rest value; digits, Enter or F2 open the field in place; "=" or
/// a press on the second line asks for its sum.
class KnobDial : public QWidget {
    Q_OBJECT
public:
    explicit KnobDial(QWidget* parent = nullptr);

    [[nodiscard]] const DialFace& face() const { return m_face; }
    void setFace(const DialFace& face);
    /// Without its second line, for small windows.
    void setFolded(bool folded);
    /// Name in bold: its part is the selected one.
    void setMarked(bool marked);
    /// Opens the field over the value with `text` in it.
    void beginTyping(const QString& text);
    [[nodiscard]] bool isTyping() const;

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

signals:
    void stepped(int steps, ohmwright::DialStep step);
    /// 0..1 along the arc.
    void sentTo(double travel);
    void restAsked();
    void typingBegun();
    /// At every key in the field.
    void typedSoFar(const QString& text);
    void typed(const QString& text);
    void typingDropped();
    /// The sum behind its second line is wanted: that line was pressed, or the key "=".
    void sumAsked();

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void paintArc(QPainter& painter, const QPointF& centre) const;
    void paintWords(QPainter& painter) const;
    [[nodiscard]] QRect textBox() const;
    [[nodiscard]] QRect valueBox() const;
    [[nodiscard]] QRect hintBox() const;
    void endTyping(bool take);

    DialFace m_face;
    bool m_isFolded = false;
    bool m_isMarked = false;
    QLineEdit* m_field;
    QPointF m_pressedAt;
    double m_travelAtPress = 0.0;
    int m_wheelRest = 0;  ///< Eighths of a degree not yet made a step.
};

}  // namespace ohmwright
