/// Blocks that flow over pages: counted before the first is drawn, so that every page can say "1 of 2".
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QRectF>
#include <QSizeF>
#include <QString>

#include <functional>
#include <vector>

class QPainter;

namespace ohmwright {

/// What stands on top and at the bottom of every page.
struct PageBanner {
    QString title;
    QString shop;
    QString unit;
    QString customer;
    QString planState;
    QString board;
    QString visit;
    QString unitsNote;
    QString stamp;  ///< Serial, visit and hash at the foot.
};

class PageFlow {
public:
    using Paint = std::function<void(QPainter&, const QRectF&)>;

    /// @param page size in px at 96 dpi.
    PageFlow(const QSizeF& page, PageBanner banner);

    [[nodiscard]] double contentWidth() const;

    /// Begins a section; its heading is repeated with "continued" on a page that begins inside it.
    void beginSection(const QString& title, const QString& note);
    /// @param keepWithNext is never the last on a page.
    void add(double height, Paint paint, bool keepWithNext = false);

    [[nodiscard]] QSizeF pageSize() const { return m_page; }
    [[nodiscard]] int pageCount() const;
    /// Draws one page, from 0, with its banner and foot; the painter's unit is a px at 96 dpi.
    /// REQUIRES: 0 <= page < pageCount().
    void paintPage(QPainter& painter, int page) const;

private:
    struct Block {
        double height = 0.0;
        Paint paint;
        bool keepWithNext = false;
        int section = -1;
        bool isHeading = false;
    };
    struct Section {
        QString title;
        QString note;
    };
    struct Placed {
        std::size_t block = 0;
        int page = 0;
        double top = 0.0;
        bool headingBefore = false;
    };

    [[nodiscard]] QRectF contentArea() const;
    [[nodiscard]] double heightKeptTogether(std::size_t first) const;
    [[nodiscard]] std::vector<Placed> place() const;
    void drawBanner(QPainter& painter, int page, int pages) const;
    void drawFoot(QPainter& painter) const;
    static void drawHeading(QPainter& painter, const QRectF& box, const QString& title, const QString& note);

    QSizeF m_page;
    PageBanner m_banner;
    std::vector<Section> m_sections;
    std::vector<Block> m_blocks;
};

}  // namespace ohmwright
