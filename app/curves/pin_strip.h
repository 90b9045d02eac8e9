/// The pinned states in a row below the tabs: each with its dashes, letter and name, and what can be done with it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/job.h"

#include <QString>
#include <QWidget>

#include <vector>

class QHBoxLayout;
class QToolButton;

namespace ohmwright {

/// Hidden while nothing is pinned. On a state's button: Enter or Space opens its menu, Del takes it away, F2 names it.
class PinStrip : public QWidget {
    Q_OBJECT
public:
    explicit PinStrip(QWidget* parent = nullptr);

    struct Entry {
        QString letter;
        QString name;
        int pattern = 0;
        QString fault;  ///< Why it has no curves; else empty.

        friend bool operator==(const Entry&, const Entry&) = default;
    };
    void setEntries(const std::vector<Entry>& entries);
    [[nodiscard]] const std::vector<Entry>& entries() const { return m_entries; }
    /// A line in the entry's place, with its name to be typed over.
    void beginNaming(const QString& letter);

signals:
    void promoteAsked(const QString& letter);
    void removeAsked(const QString& letter);
    void named(const QString& letter, const QString& name);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    void build();
    [[nodiscard]] QToolButton* buttonOf(const Entry& entry);
    void endNaming();

    QHBoxLayout* m_row;
    std::vector<Entry> m_entries;
    QString m_naming;  ///< The letter whose name is being typed; empty when none is.
};

}  // namespace ohmwright
