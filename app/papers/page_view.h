/// The pages of a paper under each other, drawn by the very calls that make the PDF.
///
/// Page Up and Page Down walk the pages, Home and End go to the first and the last, + and - change the size, W fits the
/// width and A shows all of a page; arrows scroll.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/papers/paper_frame.h"

#include <QAbstractScrollArea>

#include <optional>

namespace ohmwright {

class PageView : public QAbstractScrollArea {
    Q_OBJECT
public:
    enum class Fit { width, page, none };

    explicit PageView(QWidget* parent = nullptr);

    /// The page that is looked at stays, where there is one of its number. Nothing empties the view.
    void setPaper(std::optional<Paper> paper);
    [[nodiscard]] const std::optional<Paper>& paper() const { return m_paper; }
    /// What stands is of an earlier state: pale, with a stamp across it.
    void setStale(bool isStale);
    [[nodiscard]] bool isStale() const { return m_isStale; }

    /// From 0: the one across the middle of the view.
    [[nodiscard]] int page() const;
    [[nodiscard]] int pages() const;
    void goToPage(int page);
    void setFit(Fit fit);
    [[nodiscard]] Fit fit() const { return m_fit; }
    /// By a step larger (1) or smaller (-1).
    void stepZoom(int steps);
    /// Screen px to a px of the paper: 1 is the paper's own size at 96 dpi.
    [[nodiscard]] double zoom() const { return m_zoom; }

    /// What stands on all pages, in the order of reading.
    [[nodiscard]] QString words() const;

signals:
    /// Page, number of pages, zoom or fit.
    void viewChanged();

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void scrollContentsBy(int dx, int dy) override;

private:
    [[nodiscard]] double fittingZoom() const;
    void setZoom(double zoom);
    void arrange();
    [[nodiscard]] QRectF pageBox(int page) const;
    void paintStamp(QPainter& painter, const QRectF& box) const;

    std::optional<Paper> m_paper;
    int m_pages = 0;
    bool m_isStale = false;
    Fit m_fit = Fit::width;
    double m_zoom = 1.0;
};

}  // namespace ohmwright
