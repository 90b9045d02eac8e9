// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/curve_export.h"

#include "core/files/curve_csv.h"

#include <gtest/gtest.h>

#include <QClipboard>
#include <QFile>
#include <QGuiApplication>
#include <QImage>
#include <QMimeData>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QWidget>
#include <QXmlStreamReader>

namespace ohmwright {
namespace {

CurveTable response(double gain) {
    CurveTable table;
    table.kind = CurveKind::response;
    table.columns = {{"frequency_hz", "frequency", "Hz", {20.0, 200.0, 2000.0, 20000.0}},
                     {"gain_db", "gain", "dB", {gain - 12.0, gain, gain, gain - 20.0}}};
    return table;
}

class CurveExportTest : public testing::Test {
protected:
    CurveExportTest() {
        m_shown.unit = "Harbour Lamp";
        m_shown.curve = {response(-6.0), response(3.0)};
        m_shown.sheet.title = "Harbour Lamp, HL-0231: Response";
        m_shown.sheet.conditions = "dB, string to output, small signal, drive 5.0, level 5.0";
        m_shown.sheet.curve = m_shown.curve;
        m_shown.sheet.axes = responseAxes({-30.0, 12.0});
        m_shown.sheet.pins = {{"W", 0, response(0.0)}};
        m_shown.sheet.pinNames = {"mods A and C"};
    }
    QByteArray bytesOf(const QString& name) {
        QFile file(m_folder.filePath(name));
        return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
    }
    /// All that is written in the picture, joined.
    static QString wordsOf(const QByteArray& svg) {
        QXmlStreamReader reader(svg);
        QString words;
        while (!reader.atEnd()) {
            if (reader.readNext() == QXmlStreamReader::Characters) {
                words += reader.text().toString().simplified() + '|';
            }
        }
        EXPECT_FALSE(reader.hasError()) << reader.errorString().toStdString();
        return words;
    }

    QTemporaryDir m_folder;
    QWidget m_window;
    ShownCurve m_shown;
    CurveExport m_export{[this] { return m_shown; }, m_window};
};

TEST_F(CurveExportTest, ASvgNamesUnitConditionsAxesAndEveryLine) {
    ASSERT_TRUE(m_export.write(m_folder.filePath("lamp.svg")));
    const QString words = wordsOf(bytesOf("lamp.svg"));
    for (const char* word : {"Harbour Lamp, HL-0231: Response", "string to output, small signal, drive 5.0", "gain, dB",
                             "frequency, Hz", "stock", "now", "W mods A and C", "20k", "12"}) {
        EXPECT_TRUE(words.contains(word)) << word << " in " << words.toStdString();
    }
}

TEST_F(CurveExportTest, APictureIsInPrintInk) {
    ASSERT_TRUE(m_export.write(m_folder.filePath("lamp.png")));
    const QImage picture(m_folder.filePath("lamp.png"));
    ASSERT_EQ(picture.size(), QSize(2 * sheetWidth, 2 * sheetHeight));
    bool isGrey = true;
    int dark = 0;
    for (int y = 0; y < picture.height(); ++y) {
        for (int x = 0; x < picture.width(); ++x) {
            const QColor pixel = picture.pixelColor(x, y);
            isGrey = isGrey && std::abs(pixel.red() - pixel.blue()) <= 2;
            dark += pixel.lightness() < 60 ? 1 : 0;
        }
    }
    EXPECT_TRUE(isGrey) << "readable when it is printed without colour";
    EXPECT_GT(dark, 4000);
    EXPECT_EQ(picture.pixelColor(2, 2), QColor(Qt::white));
}

TEST_F(CurveExportTest, ValuesAreThoseOfTheCommandLine) {
    ASSERT_TRUE(m_export.write(m_folder.filePath("lamp.CSV")));
    EXPECT_EQ(bytesOf("lamp.CSV").toStdString(), writeCurveCsv(sideBySide(m_shown.curve)));
    EXPECT_TRUE(bytesOf("lamp.CSV").startsWith("frequency_hz,stock_gain_db,now_gain_db,change_gain_db\n20,-18,-9,9\n"));
}

TEST_F(CurveExportTest, TheClipboardHoldsBothKindsOfPicture) {
    ASSERT_TRUE(m_export.copyPicture());
    const QMimeData* data = QGuiApplication::clipboard()->mimeData();
    ASSERT_NE(data, nullptr);
    EXPECT_TRUE(data->hasImage());
    EXPECT_TRUE(wordsOf(data->data("image/svg+xml")).contains("Harbour Lamp"));
}

TEST_F(CurveExportTest, WhatIsNotCurrentDoesNotLeaveAndSaysWhy) {
    QSignalSpy refused(&m_export, &CurveExport::refused);
    m_shown.obstacle = "The curve is still being solved: it leaves when it is there.";
    EXPECT_FALSE(m_export.write(m_folder.filePath("lamp.svg")));
    EXPECT_FALSE(m_export.copyPicture());
    ASSERT_EQ(refused.count(), 2);
    EXPECT_EQ(refused[0][0].toString(), m_shown.obstacle);
    EXPECT_FALSE(QFile::exists(m_folder.filePath("lamp.svg")));
    m_shown.obstacle.clear();
    EXPECT_FALSE(m_export.write(m_folder.filePath("lamp.bmp")));
    EXPECT_TRUE(refused[2][0].toString().contains(".svg, .png or .csv"));
    EXPECT_FALSE(m_export.write(m_folder.filePath("no such folder/lamp.svg")));
    m_shown.kind = CurveKind::bias;
    EXPECT_FALSE(m_export.copyPicture());
    EXPECT_TRUE(refused.last()[0].toString().contains("export its values as CSV"));
}

}  // namespace
}  // namespace ohmwright
