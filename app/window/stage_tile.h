/// A stage on the start page: its drawing and its name; pressed, a new unit begins with it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/stage_shelf.h"

#include <QAbstractButton>

namespace ohmwright {

class StageTile : public QAbstractButton {
    Q_OBJECT
public:
    /// REQUIRES: the stage has its piece.
    explicit StageTile(const ShelfStage& stage, QWidget* parent = nullptr);

    [[nodiscard]] QString id() const { return QString::fromStdString(m_stage.id); }
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    ShelfStage m_stage;
};

}  // namespace ohmwright
