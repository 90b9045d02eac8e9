/// A table from outside, shown before it is taken: what would come in, what was left out and why.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/drawer_csv.h"

#include <QWidget>

class QLabel;
class QListWidget;
class QPushButton;

namespace ohmwright {

class ImportView : public QWidget {
    Q_OBJECT
public:
    explicit ImportView(QWidget* parent = nullptr);

    /// @param present  the drawer as it is: lots of the same id are said to be replaced.
    void show(const QString& fileName, const DrawerTable& table, const Drawer& present);

signals:
    void taken();
    void left();

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QLabel* m_head;
    QListWidget* m_lines;
    QPushButton* m_take;
};

}  // namespace ohmwright
