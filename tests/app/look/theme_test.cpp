// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/theme.h"

#include "tests/app/look/picture.h"

#include <gtest/gtest.h>
#include <QApplication>
#include <QFile>
#include <QFontInfo>
#include <QFontMetricsF>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QRegularExpression>
#include <QSignalSpy>
#include <QVBoxLayout>

#include <array>
#include <cmath>

namespace ohmwright {
namespace {

QJsonObject tokenFile() {
    QFile file(OHMWRIGHT_SOURCE_DIR "/resources/look/tokens.json");
    EXPECT_TRUE(file.open(QIODevice::ReadOnly));
    return QJsonDocument::fromJson(file.readAll()).object();
}

/// Source: Web Content Accessibility Guidelines 2.1, "relative luminance" and "contrast ratio".
double luminance(const QColor& colour) {
    const auto linear = [](double channel) {
        return channel <= 0.03928 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(static_cast<double>(colour.redF())) + 0.7152 * linear(static_cast<double>(colour.greenF())) +
           0.0722 * linear(static_cast<double>(colour.blueF()));
}

double contrast(const QColor& a, const QColor& b) {
    const double first = luminance(a);
    const double second = luminance(b);
    return (std::max(first, second) + 0.05) / (std::min(first, second) + 0.05);
}

/// A colour as the pair list names it: "ink symbol", "raise2", "ok button".
QColor named(const ThemeColours& c, QString name) {
    name = name.section(' ', 0, 0);
    if (name.startsWith("raise") && name.back().isDigit()) {
        return c.raise.at(static_cast<std::size_t>(name.right(1).toInt()));
    }
    if (name.startsWith("lower") && name.back().isDigit()) {
        return c.lower.at(static_cast<std::size_t>(name.right(1).toInt()));
    }
    const std::map<QString, QColor> colours{{"app", c.app},
                                            {"panel", c.panel},
                                            {"raised", c.raised},
                                            {"canvas", c.canvas},
                                            {"ink", c.ink},
                                            {"ink2", c.ink2},
                                            {"ink3", c.ink3},
                                            {"wire", c.wire},
                                            {"edge", c.edge},
                                            {"stock", c.stock},
                                            {"stockOnSoft", c.stockOnSoft},
                                            {"now", c.now},
                                            {"nowSoft", c.nowSoft},
                                            {"ghost", c.ghost},
                                            {"measured", c.measured},
                                            {"warn", c.warn},
                                            {"warnSoft", c.warnSoft},
                                            {"stop", c.stop},
                                            {"stopSoft", c.stopSoft},
                                            {"ok", c.ok},
                                            {"okSoft", c.okSoft},
                                            {"onNow", c.onNow},
                                            {"white", c.onNow},
                                            {"zoneTint", c.zoneTint},
                                            {"fretShade", c.fretShade}};
    return colours.at(name);
}

TEST(Theme, EveryPairOfTheListHasItsContrastInBothThemes) {
    for (const ThemeKind kind : bothThemes) {
        const ThemeColours colours = coloursOf(kind);
        const QJsonArray pairs = tokenFile()["contrast"].toObject()[themeName(kind)].toArray();
        ASSERT_GE(pairs.size(), 40);
        for (const auto& value : pairs) {
            const QJsonObject pair = value.toObject();
            const double ratio = contrast(named(colours, pair["fg"].toString()), named(colours, pair["bg"].toString()));
            const std::string words = QString("%1: %2 on %3")
                                          .arg(themeName(kind), pair["fg"].toString(), pair["bg"].toString())
                                          .toStdString();
            EXPECT_GE(ratio, pair["min"].toDouble()) << words;
            // The list's own figures were worked out apart from this program.
            EXPECT_NEAR(ratio, pair["ratio"].toDouble(), 0.02) << words;
        }
    }
}

/// Pairs that the program paints and the list does not have. Least ratios: Web Content Accessibility
/// Guidelines 2.1, 4.5 for text (1.4.3) and 3 for lines and signs (1.4.11).
struct PaintedPair {
    const char* ink;
    const char* ground;
    double least;
};
constexpr std::array paintedPairs{PaintedPair{"ink", "canvas", 4.5},        PaintedPair{"ink", "raised", 4.5},
                                  PaintedPair{"ink", "zoneTint", 4.5},      PaintedPair{"ink", "nowSoft", 4.5},
                                  PaintedPair{"ink", "warnSoft", 4.5},      PaintedPair{"ink", "stopSoft", 4.5},
                                  PaintedPair{"ink", "okSoft", 4.5},        PaintedPair{"ink2", "canvas", 4.5},
                                  PaintedPair{"ink2", "raised", 4.5},       PaintedPair{"ink2", "zoneTint", 4.5},
                                  PaintedPair{"ink3", "raised", 4.5},       PaintedPair{"stock", "raised", 4.5},
                                  PaintedPair{"stock", "app", 3.0},         PaintedPair{"now", "raised", 4.5},
                                  PaintedPair{"now", "zoneTint", 4.5},      PaintedPair{"now", "app", 4.5},
                                  PaintedPair{"measured", "raised", 4.5},   PaintedPair{"measured", "nowSoft", 4.5},
                                  PaintedPair{"warn", "panel", 4.5},        PaintedPair{"warn", "canvas", 4.5},
                                  PaintedPair{"warn", "raised", 4.5},       PaintedPair{"stop", "panel", 4.5},
                                  PaintedPair{"stop", "canvas", 4.5},       PaintedPair{"ok", "panel", 4.5},
                                  PaintedPair{"ok", "canvas", 4.5},         PaintedPair{"ok", "raised", 4.5},
                                  PaintedPair{"ghost", "panel", 3.0},       PaintedPair{"wire", "panel", 3.0},
                                  PaintedPair{"edge", "raised", 3.0},       PaintedPair{"ghost", "fretShade", 3.0},
                                  PaintedPair{"stock", "fretShade", 3.0},   PaintedPair{"now", "fretShade", 3.0},
                                  PaintedPair{"measured", "fretShade", 3.0}};

TEST(Theme, PairsBeyondTheListHaveTheirContrastToo) {
    for (const ThemeKind kind : bothThemes) {
        const ThemeColours colours = coloursOf(kind);
        for (const PaintedPair& pair : paintedPairs) {
            EXPECT_GE(contrast(named(colours, pair.ink), named(colours, pair.ground)), pair.least)
                << themeName(kind) << ": " << pair.ink << " on " << pair.ground;
        }
    }
}

TEST(Theme, BundledTypefaceIsTheOneInUse) {
    // Where the system has B612 too, its monospaced face must not stand in for the regular one.
    for (const bool bold : {false, true}) {
        const QFontInfo info(Theme::current().font(TextRole::body, bold));
        EXPECT_EQ(info.family().toStdString(), "B612 Ohmwright");
        EXPECT_EQ(info.styleName().toStdString(), bold ? "Bold" : "Regular");
        const QFontMetricsF metrics(Theme::current().font(TextRole::valueField, bold));
        EXPECT_LT(metrics.horizontalAdvance("iiii"), 0.7 * metrics.horizontalAdvance("mmmm")) << "not monospaced";
    }
}

TEST(Theme, DigitsHaveEqualWidthInEveryRole) {
    for (const TextRole role : {TextRole::caption, TextRole::body, TextRole::figure, TextRole::lead,
                                TextRole::screenTitle, TextRole::valueField}) {
        for (const bool bold : {false, true}) {
            const QFontMetricsF metrics(Theme::current().font(role, bold));
            const double zero = metrics.horizontalAdvance("0000");
            for (char digit = '1'; digit <= '9'; ++digit) {
                EXPECT_DOUBLE_EQ(metrics.horizontalAdvance(QString(4, digit)), zero) << digit;
            }
        }
    }
}

TEST(Theme, TextSizesFollowTheTextScaleAndStayReadable) {
    const ThemeGuard guard;
    EXPECT_EQ(Theme::current().pixels(TextRole::caption), 12);
    EXPECT_EQ(Theme::current().pixels(TextRole::valueField), 30);
    Theme::current().setTextScale(1.3);
    EXPECT_EQ(Theme::current().pixels(TextRole::valueField), 39);
    EXPECT_EQ(Theme::current().font(TextRole::body).pixelSize(), 17);  // 13 px x 1.3 = 16.9
    Theme::current().setTextScale(9.0);
    EXPECT_DOUBLE_EQ(Theme::current().textScale(), 1.3);
}

TEST(Theme, ChangingTheKindRepaintsWhatIsOpen) {
    const ThemeGuard guard;
    QWidget window;
    auto* layout = new QVBoxLayout(&window);
    layout->addWidget(new QLabel("words"));
    layout->addWidget(new QPushButton("press"));
    layout->addWidget(new QLineEdit("4k7"));
    window.resize(240, 140);
    QSignalSpy changes(&Theme::current(), &Theme::changed);
    for (const ThemeKind kind : {ThemeKind::dark, ThemeKind::light}) {
        Theme::current().setKind(kind);
        const QImage image = grabbedPicture("theme-controls", window);
        EXPECT_GT(pixelsOf(image, coloursOf(kind).panel), 5000) << themeName(kind);
        EXPECT_GT(pixelsOf(image, coloursOf(kind).raised), 1000) << themeName(kind);
        EXPECT_EQ(QApplication::palette().color(QPalette::Window), coloursOf(kind).panel);
    }
    EXPECT_EQ(changes.count(), 2);
    Theme::current().setKind(ThemeKind::light);
    EXPECT_EQ(changes.count(), 2) << "setting the kind in force is no change";
}

TEST(Theme, CurvePensAreTheLineKindsOfTheLook) {
    // Source: LOOK section 4, "stock long dash 1.8 graphite; now solid 2.8 iris; ghost round dots 2.2".
    const QPen stock = Theme::current().stockPen();
    EXPECT_DOUBLE_EQ(stock.widthF(), 1.8);
    EXPECT_NEAR(stock.dashPattern().first() * 1.8, 9.0, 1e-9) << "dashes are px in the look, pen widths in Qt";
    EXPECT_EQ(Theme::current().nowPen().style(), Qt::SolidLine);
    EXPECT_DOUBLE_EQ(Theme::current().nowPen().widthF(), 2.8);
    EXPECT_EQ(Theme::current().ghostPen().capStyle(), Qt::RoundCap);
    EXPECT_EQ(Theme::current().nowPen().color(), Theme::current().colours().now);
}

TEST(Theme, StyleSheetIsShortAndHasNoColourOfItsOwn) {
    QFile file(OHMWRIGHT_SOURCE_DIR "/resources/look/look.qss");
    ASSERT_TRUE(file.open(QIODevice::ReadOnly));
    const QString sheet = file.readAll();
    EXPECT_LE(sheet.count('\n'), 60);
    EXPECT_FALSE(sheet.contains(QRegularExpression("#[0-9A-Fa-f]{6}|rgb")));
    EXPECT_FALSE(qApp->styleSheet().contains('@')) << "a colour name that Theme does not know";
    EXPECT_TRUE(qApp->styleSheet().contains(Theme::current().colours().hair.name()));
}

}  // namespace
}  // namespace ohmwright
