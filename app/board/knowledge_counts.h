/// "9 drawn, 17 seen, 4 measured", each with its sign.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/board_walk.h"

#include <QWidget>

namespace ohmwright {

class KnowledgeCounts : public QWidget {
    Q_OBJECT
public:
    explicit KnowledgeCounts(QWidget* parent = nullptr);

    void show(const WalkProgress& progress);
    [[nodiscard]] QString words() const;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] QStringList parts() const;

    WalkProgress m_progress;
};

}  // namespace ohmwright
