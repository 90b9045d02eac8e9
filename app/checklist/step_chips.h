/// The steps as a row of numbered chips: signed ones with a tick, skipped and failed ones red, the present one filled.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/bench/work_log.h"

#include <QWidget>

#include <vector>

class QPainter;

namespace ohmwright {

/// Shows; nothing in it can be pressed. Of many steps those around the present one.
class StepChips : public QWidget {
    Q_OBJECT
public:
    explicit StepChips(QWidget* parent = nullptr);

    void showSteps(const WorkLog& log, std::size_t here);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    enum class Chip { open, passed, wrong };

    void paintChip(QPainter& painter, const QRectF& box, std::size_t step) const;

    std::vector<Chip> m_chips;
    std::size_t m_here = 0;
};

}  // namespace ohmwright
