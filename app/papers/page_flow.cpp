// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/page_flow.h"

#include "app/papers/mark.h"
#include "app/papers/sheet_text.h"

#include <QObject>
#include <QPainter>

#include <utility>

namespace ohmwright {

namespace {

constexpr double margin = 42.0;
constexpr double bannerHeight = 58.0;
constexpr double footHeight = 26.0;
constexpr double headingHeight = 32.0;

}  // namespace

PageFlow::PageFlow(const QSizeF& page, PageBanner banner) : m_page(page), m_banner(std::move(banner)) {}

double PageFlow::contentWidth() const {
    return contentArea().width();
}

void PageFlow::beginSection(const QString& title, const QString& note) {
    m_sections.push_back({title, note});
    Block heading;
    heading.height = headingHeight;
    heading.keepWithNext = true;
    heading.section = static_cast<int>(m_sections.size()) - 1;
    heading.isHeading = true;
    heading.paint = [title, note](QPainter& painter, const QRectF& box) { drawHeading(painter, box, title, note); };
    m_blocks.push_back(std::move(heading));
}

void PageFlow::add(double height, Paint paint, bool keepWithNext) {
    m_blocks.push_back({height, std::move(paint), keepWithNext, static_cast<int>(m_sections.size()) - 1, false});
}

int PageFlow::pageCount() const {
    const std::vector<Placed> placed = place();
    return placed.empty() ? 1 : placed.back().page + 1;
}

QRectF PageFlow::contentArea() const {
    return {margin, margin + bannerHeight + 8.0, m_page.width() - 2.0 * margin,
            m_page.height() - 2.0 * margin - bannerHeight - footHeight - 8.0};
}

double PageFlow::heightKeptTogether(std::size_t first) const {
    double height = 0.0;
    for (std::size_t i = first; i < m_blocks.size(); ++i) {
        height += m_blocks[i].height;
        if (!m_blocks[i].keepWithNext) {
            break;
        }
    }
    return height;
}

std::vector<PageFlow::Placed> PageFlow::place() const {
    const QRectF area = contentArea();
    std::vector<Placed> placed;
    int page = 0;
    double top = area.top();
    bool keptByLast = false;
    for (std::size_t i = 0; i < m_blocks.size(); ++i) {
        const Block& block = m_blocks[i];
        bool headingBefore = false;
        const bool isAtTop = top <= area.top();
        if (!keptByLast && !isAtTop && top + heightKeptTogether(i) > area.bottom()) {
            ++page;
            top = area.top();
            headingBefore = block.section >= 0 && !block.isHeading;
            top += headingBefore ? headingHeight : 0.0;
        }
        placed.push_back({i, page, top, headingBefore});
        top += block.height;
        keptByLast = block.keepWithNext;
    }
    return placed;
}

void PageFlow::paintPage(QPainter& painter, int page) const {
    const std::vector<Placed> placed = place();
    const QRectF area = contentArea();
    drawBanner(painter, page + 1, placed.empty() ? 1 : placed.back().page + 1);
    drawFoot(painter);
    for (const Placed& item : placed) {
        if (item.page != page) {
            continue;
        }
        const Block& block = m_blocks[item.block];
        if (item.headingBefore) {
            drawHeading(painter, {area.left(), item.top - headingHeight, area.width(), headingHeight},
                        m_sections[static_cast<std::size_t>(block.section)].title, QObject::tr("continued"));
        }
        painter.setPen(QPen(print::ink(), 1.0));
        painter.setBrush(Qt::NoBrush);
        block.paint(painter, {area.left(), item.top, area.width(), block.height});
    }
}

void PageFlow::drawBanner(QPainter& painter, int page, int pages) const {
    const double width = m_page.width() - 2.0 * margin;
    const QRectF box(margin, margin, width, bannerHeight);
    painter.setPen(QPen(print::ink(), 1.0));
    paintPrintMark(painter, {box.left(), box.top() + 4.0, 32.0, 32.0});
    const double titleRight = box.left() + 0.45 * width;
    painter.setPen(QPen(print::ink(), 1.0));
    drawText(painter, {box.left() + 42.0, box.top(), titleRight - box.left() - 42.0, 26.0}, m_banner.title,
             Qt::AlignLeft, true, print::titlePixels);
    drawText(painter, {box.left() + 42.0, box.top() + 24.0, titleRight - box.left() - 42.0, 18.0}, m_banner.shop,
             Qt::AlignLeft, false, print::smallPixels);

    const QString pageText = QObject::tr("%1 of %2").arg(page).arg(pages);
    const std::pair<QString, QString> left[] = {{QObject::tr("unit"), m_banner.unit},
                                                {QObject::tr("customer"), m_banner.customer},
                                                {QObject::tr("plan state"), m_banner.planState}};
    const std::pair<QString, QString> right[] = {{QObject::tr("board"), m_banner.board},
                                                 {QObject::tr("visit"), m_banner.visit},
                                                 {QObject::tr("page"), pageText}};
    // Words are of any length where another language is spoken; what they name has the rest.
    const auto widest = [](const auto& rows) {
        double most = 0.0;
        for (const auto& [word, named] : rows) {
            most = std::max(most, widthOf({{word, false, print::smallPixels, false}}));
        }
        return most + 8.0;
    };
    const double leftWords = widest(left);
    const double rightWords = widest(right);
    const double rightColumn = box.right() - rightWords - 116.0;
    for (int row = 0; row < 3; ++row) {
        const double y = box.top() + row * 16.0;
        const auto& [leftWord, leftText] = left[row];
        const auto& [rightWord, rightText] = right[row];
        const QRectF leftBox(titleRight + 10.0, y, rightColumn - titleRight - 20.0, 16.0);
        const QRectF rightBox(rightColumn, y, box.right() - rightColumn, 16.0);
        drawText(painter, leftBox, leftWord, Qt::AlignLeft, false, print::smallPixels);
        drawText(painter, leftBox.adjusted(leftWords, 0.0, 0.0, 0.0), leftText, Qt::AlignLeft, true,
                 print::smallPixels);
        drawText(painter, rightBox, rightWord, Qt::AlignLeft, false, print::smallPixels);
        drawText(painter, rightBox.adjusted(rightWords, 0.0, 0.0, 0.0), rightText, Qt::AlignLeft, true,
                 print::smallPixels);
    }
    painter.setPen(QPen(print::ink(), 2.4));
    painter.drawLine(box.bottomLeft(), box.bottomRight());
}

void PageFlow::drawFoot(QPainter& painter) const {
    const QRectF box(margin, m_page.height() - margin - 20.0, m_page.width() - 2.0 * margin, 20.0);
    painter.setPen(QPen(print::ink(), 1.0));
    painter.drawLine(box.topLeft(), box.topRight());
    const double stampWidth =
        std::min(widthOf({{m_banner.stamp, false, print::smallPixels, false}}), 0.45 * box.width());
    drawText(painter, box.adjusted(0.0, 4.0, -stampWidth - 12.0, 0.0), m_banner.unitsNote, Qt::AlignLeft, false,
             print::smallPixels);
    drawText(painter, {box.right() - stampWidth, box.top() + 4.0, stampWidth, box.height() - 4.0}, m_banner.stamp,
             Qt::AlignRight, false, print::smallPixels);
}

void PageFlow::drawHeading(QPainter& painter, const QRectF& box, const QString& title, const QString& note) {
    const QRectF line = box.adjusted(0.0, 8.0, 0.0, -4.0);
    painter.setPen(QPen(print::ink(), 1.0));
    drawText(painter, line, title, Qt::AlignLeft, true, print::headingPixels);
    drawText(painter, line.adjusted(0.35 * line.width(), 0.0, 0.0, 0.0), note, Qt::AlignRight, false,
             print::smallPixels);
    painter.drawLine(line.bottomLeft(), line.bottomRight());
}

}  // namespace ohmwright
