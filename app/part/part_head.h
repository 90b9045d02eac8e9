/// Head of the part panel: reference, role, place in words, and the letter of the mod on the part.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/job.h"

#include <QWidget>

class QLabel;

namespace ohmwright {

class PartHead : public QWidget {
    Q_OBJECT
public:
    explicit PartHead(QWidget* parent = nullptr);

    /// @param mod  on the part, or null.
    void show(const Part& part, const Mod* mod);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QLabel* m_name;
    QLabel* m_role;
    QLabel* m_place;
    QString m_letter;
    bool m_isOn = false;
};

}  // namespace ohmwright
