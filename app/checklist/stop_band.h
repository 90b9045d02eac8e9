/// "Do not power yet", with the sign of stop, at the foot of a cold step.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

namespace ohmwright {

class StopBand : public QWidget {
    Q_OBJECT
public:
    explicit StopBand(QWidget* parent = nullptr);

    /// @param opens  "opens after step 11"; empty hides the band.
    void say(const QString& opens);
    /// "Do not power yet: opens after step 11"; empty while hidden.
    [[nodiscard]] QString words() const;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QString m_opens;
};

}  // namespace ohmwright
