/// A value under the hand: it follows while it is dragged, and snaps to a part that can be fitted when it is let go.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"
#include "core/plan/job.h"

#include <QObject>
#include <QString>

#include <memory>
#include <optional>

namespace ohmwright {

class JobDocument;
class ShopDocument;

/// From begin to drop or cancel all edits are one undo step; a drag that ends where it began leaves none.
class ValueDrag : public QObject {
    Q_OBJECT
public:
    /// Both must outlive it.
    ValueDrag(JobDocument& document, ShopDocument& shop, QObject* parent = nullptr);

    /// Does nothing for a part whose value is not a part's own: a source, a transistor.
    void begin(const PartId& part);
    /// So many decades from where it began, two at most either way; three digits.
    void to(double decades);
    /// Snaps to the nearest part that the drawer has for the job, else to the shop's series.
    /// @param isFree  leaves the value where it is.
    void drop(bool isFree);
    /// Everything is as it was.
    void cancel();
    [[nodiscard]] bool isActive() const { return m_drag.has_value(); }

signals:
    /// "2k73" while it moves.
    void moved(const QString& value);
    /// "R5 snapped 2k73 → 2k7, 14 in the drawer"; "R5 is back at 3k9".
    void ended(const QString& sentence);

private:
    void change(double value);

    struct Drag {
        Part part;
        double from = 0.0;
        double value = 0.0;
        std::shared_ptr<const Job> before;
        QString mergeKey;
    };
    JobDocument& m_document;
    ShopDocument& m_shop;
    std::optional<Drag> m_drag;
    int m_count = 0;
};

}  // namespace ohmwright
