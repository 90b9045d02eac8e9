// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/map_export.h"

#include "tests/support/open_job.h"

#include <QDir>
#include <QFile>
#include <QImage>
#include <QMimeData>
#include <QPageSize>
#include <QPdfWriter>
#include <QRegularExpression>
#include <QSvgRenderer>
#include <QTemporaryDir>

#include <memory>

namespace ohmwright::test {
namespace {

MapState demo() {
    MapState state;
    state.job = std::make_shared<const Job>(harbourLamp());
    state.selected = "c4";
    return state;
}

QStringList coloursIn(const QByteArray& svg) {
    QStringList colours;
    static const QRegularExpression colour("#[0-9a-fA-F]{6}");
    for (auto match = colour.globalMatch(QString::fromUtf8(svg)); match.hasNext();) {
        colours << match.next().captured();
    }
    colours.removeDuplicates();
    return colours;
}

TEST(MapExport, IsGreyInBothThemesAndTheSame) {
    const QByteArray light = drawingAsSvg(demo());
    Theme::current().setKind(ThemeKind::dark);
    const QByteArray dark = drawingAsSvg(demo());
    Theme::current().setKind(ThemeKind::light);
    for (const QByteArray& svg : {light, dark}) {
        for (const QString& name : coloursIn(svg)) {
            const QColor colour(name);
            EXPECT_TRUE(colour.red() == colour.green() && colour.green() == colour.blue()) << name.toStdString();
        }
    }
    EXPECT_EQ(light, dark);
}

TEST(MapExport, SaysAllThatTheMapSays) {
    const QString svg = QString::fromUtf8(drawingAsSvg(demo()));
    for (const char* words : {"56n", "120n", "Cg", "Clip stage", "Harbour Lamp", "U1A"}) {
        EXPECT_TRUE(svg.contains(words)) << words;
    }
}

TEST(MapExport, TheSelectionIsNoPartOfTheDrawing) {
    MapState unselected = demo();
    unselected.selected.clear();
    EXPECT_EQ(drawingAsSvg(demo()), drawingAsSvg(unselected));
}

TEST(MapExport, TheSuffixIsTheKind) {
    QTemporaryDir folder;
    for (const auto& [name, begins] : {std::pair{"lamp.svg", "<?xml"}, {"lamp.pdf", "%PDF"}, {"lamp.PNG", "\x89PNG"}}) {
        const QString path = folder.filePath(name);
        EXPECT_EQ(saveDrawing(demo(), path), "");
        QFile file(path);
        ASSERT_TRUE(file.open(QIODevice::ReadOnly)) << name;
        EXPECT_TRUE(file.readAll().startsWith(begins)) << name;
    }
    const QImage picture(folder.filePath("lamp.PNG"));
    EXPECT_GT(picture.width(), 1500);
    QDir().mkpath(OHMWRIGHT_PICTURES_DIR);
    picture.save(OHMWRIGHT_PICTURES_DIR "/map-export.png");
    EXPECT_TRUE(saveDrawing(demo(), folder.filePath("lamp.doc")).contains(".svg"));
    EXPECT_TRUE(saveDrawing(demo(), folder.filePath("nowhere/lamp.svg")).contains("another folder"));
}

TEST(MapExport, TheClipboardGetsVectorAndPicture) {
    const std::unique_ptr<QMimeData> copy(drawingToCopy(demo()));
    QSvgRenderer drawing(copy->data("image/svg+xml"));
    EXPECT_TRUE(drawing.isValid());
    EXPECT_TRUE(copy->hasImage());
    EXPECT_GT(pixelsOf(qvariant_cast<QImage>(copy->imageData()), QColor(0, 0, 0)), 2000);
}

// A4 lying, 297 x 210 mm (ISO 216): the demo's drawing is wider than high.
TEST(MapExport, IsPrintedOnOnePageThatLiesAsItDoes) {
    const QTemporaryDir folder;
    const QString path = folder.filePath("drawing.pdf");
    EXPECT_EQ(orientationFor(demo()), QPageLayout::Landscape);
    {
        QPdfWriter page(path);
        page.setPageSize(QPageSize(QPageSize::A4));
        page.setPageOrientation(orientationFor(demo()));
        EXPECT_TRUE(printDrawing(demo(), page));
    }
    QFile file(path);
    ASSERT_TRUE(file.open(QIODevice::ReadOnly));
    const QByteArray pdf = file.readAll();
    EXPECT_TRUE(pdf.startsWith("%PDF-"));
    EXPECT_EQ(pdf.count("/Type /Page\n"), 1);
    const auto box = QRegularExpression("/MediaBox \\[0 0 ([0-9.]+) ([0-9.]+)\\]").match(QString::fromLatin1(pdf));
    ASSERT_TRUE(box.hasMatch());
    constexpr double pointsPerMillimetre = 72.0 / 25.4;
    EXPECT_NEAR(box.captured(1).toDouble(), 297.0 * pointsPerMillimetre, 1.0);
    EXPECT_NEAR(box.captured(2).toDouble(), 210.0 * pointsPerMillimetre, 1.0);
}

}  // namespace
}  // namespace ohmwright::test
