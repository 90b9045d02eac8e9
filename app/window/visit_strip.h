/// The states of a visit in a row, the current one marked: draft, quoted, on bench, proven, gone.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/job.h"

#include <QString>
#include <QWidget>

namespace ohmwright {

QString visitStateWords(VisitState state);

class VisitStrip : public QWidget {
    Q_OBJECT
public:
    explicit VisitStrip(QWidget* parent = nullptr);

    void setVisit(const Visit& visit);
    /// Only "visit 2 draft", for a small window.
    void setFolded(bool folded);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

signals:
    /// A state was pressed; folded, the present one.
    void stateAsked(ohmwright::VisitState state);

protected:
    /// Arrows point at a state, Enter and Space ask for it.
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    void pointAt(std::size_t state);
    void outline(QPainter& painter, const QRect& box) const;

    Visit m_visit;
    bool m_isFolded = false;
    std::size_t m_pointed = 0;  ///< State that Enter asks for while the strip has the keyboard.
};

}  // namespace ohmwright
