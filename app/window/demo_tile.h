/// A demo job on the start page: its unit, the curve of its first mod, the change in a line, the customer's sentence.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/window/demo_jobs.h"
#include "app/window/demo_lessons.h"

#include <QAbstractButton>

#include <optional>

namespace ohmwright {

class DemoTile : public QAbstractButton {
    Q_OBJECT
public:
    explicit DemoTile(const DemoJob& job, QWidget* parent = nullptr);

    [[nodiscard]] const QString& id() const { return m_job.id; }
    void setLesson(const DemoLesson& lesson);
    [[nodiscard]] const std::optional<DemoLesson>& lesson() const { return m_lesson; }

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void describe();

    DemoJob m_job;
    std::optional<DemoLesson> m_lesson;
};

}  // namespace ohmwright
