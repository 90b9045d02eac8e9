/// The read-out at the cursor, beside the curves: where it stands, stock, now, change, ghosts.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/curves/cursor_readout.h"

#include "app/look/theme.h"

#include <QWidget>

namespace ohmwright {

/// Never folds; leaves its small print away where the height is short.
class CursorColumn : public QWidget {
    Q_OBJECT
public:
    explicit CursorColumn(QWidget* parent = nullptr);

    void setReadout(const CursorReadout& readout);
    [[nodiscard]] const CursorReadout& readout() const { return m_readout; }
    /// Old figures stand faint under the words "not current".
    void setCurrent(bool isCurrent);
    [[nodiscard]] QString spreadWords() const { return m_readout.spread; }

    [[nodiscard]] QSize sizeHint() const override;

private:
    void paintEvent(QPaintEvent* event) override;
    void followTheme();
    /// How large figures stand, how far from each other, whether the words of quantities may take a second line, and
    /// which share of the text size that was asked for is left.
    struct RowSize {
        TextRole role;
        double air;
        bool hasWholeHeadings;
        double share = 1.0;

        [[nodiscard]] QFont font(TextRole of, bool bold = false) const;
        [[nodiscard]] double rowHeight() const;
    };
    [[nodiscard]] RowSize sizeFor(double room) const;
    [[nodiscard]] double heightOfRows(const RowSize& size) const;
    [[nodiscard]] double headingHeight(const ReadingRow& row, const RowSize& size) const;
    [[nodiscard]] QString captionFor(double room, const QFontMetrics& metrics) const;
    [[nodiscard]] double paintHeading(QPainter& painter, const ReadingRow& row, double top, const RowSize& size) const;
    [[nodiscard]] double paintRows(QPainter& painter, double top) const;

    CursorReadout m_readout;
    bool m_isCurrent = true;
};

}  // namespace ohmwright
