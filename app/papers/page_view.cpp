// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/page_view.h"

#include "app/look/theme.h"
#include "app/papers/page_text.h"

#include <QKeyEvent>
#include <QPainter>
#include <QScrollBar>
#include <QWheelEvent>

#include <algorithm>
#include <array>
#include <cmath>

namespace ohmwright {

namespace {

constexpr double gap = 18.0;  ///< Round the pages and between them [px].
/// Fitting the width ends here: lines of text that are longer than a hand is wide are hard to follow.
constexpr double largestFit = 2.0;
constexpr std::array zoomSteps{0.35, 0.5, 0.67, 0.8, 1.0, 1.25, 1.5, 2.0, 3.0};
constexpr double staleOpacity = 0.35;

}  // namespace

PageView::PageView(QWidget* parent) : QAbstractScrollArea(parent) {
    setFrameShape(QFrame::NoFrame);
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("Pages"));
    setHorizontalScrollBarPolicy(Qt::ScrollBarAsNeeded);
    connect(&Theme::current(), &Theme::changed, viewport(), qOverload<>(&QWidget::update));
}

void PageView::setPaper(std::optional<Paper> paper) {
    const int page = this->page();
    m_paper = std::move(paper);
    m_pages = m_paper ? m_paper->flow.pageCount() : 0;
    setAccessibleDescription(words());
    arrange();
    if (page != this->page()) {
        goToPage(page);
    }
    viewport()->update();
    emit viewChanged();
}

void PageView::setStale(bool isStale) {
    if (m_isStale != isStale) {
        m_isStale = isStale;
        viewport()->update();
    }
}

int PageView::pages() const {
    return m_pages;
}

int PageView::page() const {
    if (m_pages == 0) {
        return 0;
    }
    const double step = pageBox(1).top() - pageBox(0).top();
    const double middle = viewport()->height() / 2.0 - pageBox(0).top();
    return std::clamp(static_cast<int>(std::floor(middle / step)), 0, m_pages - 1);
}

void PageView::goToPage(int page) {
    const int wanted = std::clamp(page, 0, std::max(m_pages - 1, 0));
    const double top = pageBox(wanted).top() + verticalScrollBar()->value() - gap;
    verticalScrollBar()->setValue(static_cast<int>(std::lround(top)));
    emit viewChanged();
}

void PageView::setFit(Fit fit) {
    const int page = this->page();
    m_fit = fit;
    arrange();
    goToPage(page);
}

void PageView::stepZoom(int steps) {
    const auto larger = std::upper_bound(zoomSteps.begin(), zoomSteps.end(), m_zoom * 1.001);
    const auto atOrLarger = std::lower_bound(zoomSteps.begin(), zoomSteps.end(), m_zoom * 0.999);
    const auto wanted = steps > 0 ? larger - zoomSteps.begin() : atOrLarger - zoomSteps.begin() - 1;
    const auto last = static_cast<std::ptrdiff_t>(zoomSteps.size()) - 1;
    m_fit = Fit::none;
    setZoom(zoomSteps[static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(wanted, 0, last))]);
}

QString PageView::words() const {
    return m_paper ? textOf(m_paper->flow) : QString();
}

double PageView::fittingZoom() const {
    if (!m_paper) {
        return m_zoom;
    }
    const QSizeF page = m_paper->flow.pageSize();
    const double byWidth = (viewport()->width() - 2.0 * gap) / page.width();
    const double byHeight = (viewport()->height() - 2.0 * gap) / page.height();
    const double fitting = m_fit == Fit::page ? std::min(byWidth, byHeight) : std::min(byWidth, largestFit);
    return std::clamp(fitting, zoomSteps.front() / 2.0, zoomSteps.back());
}

/// The place in the middle of the view stays there.
void PageView::setZoom(double zoom) {
    const double middle = (verticalScrollBar()->value() + viewport()->height() / 2.0) / m_zoom;
    m_zoom = zoom;
    arrange();
    verticalScrollBar()->setValue(static_cast<int>(std::lround(middle * zoom - viewport()->height() / 2.0)));
    viewport()->update();
    emit viewChanged();
}

void PageView::arrange() {
    if (m_fit != Fit::none) {
        m_zoom = fittingZoom();
    }
    const QSizeF page = m_paper ? m_paper->flow.pageSize() * m_zoom : QSizeF();
    const auto all = static_cast<int>(std::ceil(m_pages * (page.height() + gap) + gap));
    const auto wide = static_cast<int>(std::ceil(page.width() + 2.0 * gap));
    verticalScrollBar()->setPageStep(viewport()->height());
    verticalScrollBar()->setSingleStep(40);
    verticalScrollBar()->setRange(0, std::max(0, all - viewport()->height()));
    horizontalScrollBar()->setPageStep(viewport()->width());
    horizontalScrollBar()->setRange(0, std::max(0, wide - viewport()->width() - 1));
    viewport()->update();
}

QRectF PageView::pageBox(int page) const {
    const QSizeF size = m_paper ? m_paper->flow.pageSize() * m_zoom : QSizeF(1.0, 1.0);
    const double room = viewport()->width() - size.width();
    const double left = room > 2.0 * gap ? room / 2.0 : gap - horizontalScrollBar()->value();
    return {QPointF(std::floor(left), gap + page * (size.height() + gap) - verticalScrollBar()->value()), size};
}

void PageView::paintEvent(QPaintEvent* event) {
    QPainter painter(viewport());
    const ThemeColours& colours = Theme::current().colours();
    painter.fillRect(viewport()->rect(), colours.app);
    for (int page = 0; page < m_pages; ++page) {
        const QRectF box = pageBox(page);
        if (!box.intersects(event->rect())) {
            continue;
        }
        // Paper is white in every light.
        painter.fillRect(box, Qt::white);
        painter.save();
        painter.setClipRect(box);
        painter.translate(box.topLeft());
        painter.scale(m_zoom, m_zoom);
        painter.setOpacity(m_isStale ? staleOpacity : 1.0);
        painter.setRenderHint(QPainter::Antialiasing);
        m_paper->flow.paintPage(painter, page);
        painter.restore();
        painter.setPen(QPen(colours.hair, 1.0));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(box.adjusted(-0.5, -0.5, 0.5, 0.5));
        if (m_isStale) {
            paintStamp(painter, box);
        }
    }
}

void PageView::paintStamp(QPainter& painter, const QRectF& box) const {
    const QString words = tr("not current");
    QFont font = Theme::current().font(TextRole::screenTitle, true);
    const QRectF text = QFontMetricsF(font).boundingRect(words);
    const double middle = std::clamp(viewport()->height() / 2.0, box.top() + 40.0, box.bottom() - 40.0);
    const QRectF stamp(box.center().x() - text.width() / 2.0 - 18.0, middle - 24.0, text.width() + 36.0, 48.0);
    // Inks of the paper: it is white whatever the theme.
    painter.fillRect(stamp, Qt::white);
    painter.setPen(QPen(Qt::black, 2.0));
    painter.drawRect(stamp);
    painter.setFont(font);
    painter.drawText(stamp, Qt::AlignCenter, words);
}

void PageView::resizeEvent(QResizeEvent*) {
    const int page = this->page();
    arrange();
    if (m_fit == Fit::page) {
        goToPage(page);
    }
    emit viewChanged();
}

void PageView::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
        case Qt::Key_PageDown:
            return goToPage(page() + 1);
        case Qt::Key_PageUp:
            return goToPage(page() - 1);
        case Qt::Key_Home:
            return goToPage(0);
        case Qt::Key_End:
            return goToPage(m_pages - 1);
        case Qt::Key_Plus:
        case Qt::Key_Equal:
            return stepZoom(1);
        case Qt::Key_Minus:
            return stepZoom(-1);
        case Qt::Key_W:
            return setFit(Fit::width);
        case Qt::Key_A:
            return setFit(Fit::page);
        default:
            QAbstractScrollArea::keyPressEvent(event);
    }
}

void PageView::wheelEvent(QWheelEvent* event) {
    if (event->modifiers().testFlag(Qt::ControlModifier)) {
        stepZoom(event->angleDelta().y() > 0 ? 1 : -1);
        event->accept();
        return;
    }
    QAbstractScrollArea::wheelEvent(event);
}

void PageView::scrollContentsBy(int, int) {
    viewport()->update();
    emit viewChanged();
}

}  // namespace ohmwright
