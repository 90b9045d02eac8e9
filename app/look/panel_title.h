/// Heading of a panel section: a bold name at the left, column headings right-aligned over their figures.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <QWidget>

#include <vector>

namespace ohmwright {

class PanelTitle : public QWidget {
    Q_OBJECT
public:
    /// One column heading; `right` is the distance [px] of its right edge from the widget's right edge.
    struct Column {
        QString text;
        int right = 0;
    };

    explicit PanelTitle(const QString& title, QWidget* parent = nullptr);

    void setTitle(const QString& title);
    [[nodiscard]] const QString& title() const { return m_title; }
    void setColumns(std::vector<Column> columns);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QString m_title;
    std::vector<Column> m_columns;
};

}  // namespace ohmwright
