/// The meter's range switch as a picture: where it must stand for the step.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

namespace ohmwright {

class MeterDial : public QWidget {
    Q_OBJECT
public:
    enum class Range { none, volts, milliamperes, ohms, diode, beep };

    explicit MeterDial(QWidget* parent = nullptr);

    /// None hides it.
    void turnTo(Range range);
    [[nodiscard]] Range range() const { return m_range; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    Range m_range = Range::none;
};

}  // namespace ohmwright
