/// Where one of the two probes goes: a ring for red, a ring with a dot for black, and the place in words.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

namespace ohmwright {

class BenchLabel;

class ProbeRow : public QWidget {
    Q_OBJECT
public:
    enum class Colour { red, black };

    ProbeRow(Colour colour, QWidget* parent = nullptr);

    /// "U1 pin 2 (inverting input)"; empty hides the row.
    void pointAt(const QString& place);
    void setPixels(int pixels);
    /// "red on U1 pin 2 (inverting input)"
    [[nodiscard]] QString words() const;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    Colour m_colour;
    BenchLabel* m_label;
};

}  // namespace ohmwright
