/// What the plates mean and who comes first: lies over the map, in its lower right where there is room.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/background/owner_service.h"

#include <QStringList>
#include <QWidget>

#include <memory>

namespace ohmwright {

class OwnerLegend : public QWidget {
    Q_OBJECT
public:
    explicit OwnerLegend(QWidget* parent = nullptr);

    /// @param owners    null hides it.
    /// @param selected  is named with its rank.
    void setOwners(std::shared_ptr<const OwnersAnswer> owners, const PartId& selected);
    /// "1 C4 Cg +0.76": the strongest, and the selected part when it is further down.
    [[nodiscard]] QStringList ranks() const;
    /// All that it says, for those who hear it.
    [[nodiscard]] QString words() const;

    [[nodiscard]] QSize sizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] QString title() const;
    void paintScale(QPainter& painter, const QRectF& bar) const;

    std::shared_ptr<const OwnersAnswer> m_owners;
    PartId m_selected;
};

}  // namespace ohmwright
