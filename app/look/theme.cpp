// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/theme.h"

#include "app/look/focus_outline.h"
#include "app/look/look_style.h"

#include <QApplication>
#include <QFile>
#include <QFontDatabase>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QStyleFactory>
#include <QWidget>
#include <QtMath>

#include <algorithm>
#include <utility>

// Static libraries drop resources nobody asks for; the macro has to stand outside any namespace.
static void initialiseLookResources() {
    Q_INIT_RESOURCE(look);
}

namespace ohmwright {
namespace {

QByteArray readResource(const QString& path) {
    initialiseLookResources();
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly)) {
        qFatal("The program was built without %s.", qPrintable(path));
    }
    return file.readAll();
}

const QJsonObject& tokens() {
    static const QJsonObject object = [] {
        QJsonParseError error;
        const QJsonDocument document = QJsonDocument::fromJson(readResource(":/look/tokens.json"), &error);
        if (!document.isObject()) {
            qFatal("tokens.json cannot be read: %s.", qPrintable(error.errorString()));
        }
        return document.object();
    }();
    return object;
}

QJsonObject colourTokens(ThemeKind kind) {
    return tokens()["color"].toObject()[kind == ThemeKind::light ? "light" : "dark"].toObject();
}

using NamedColour = std::pair<const char*, QColor ThemeColours::*>;

constexpr std::array<NamedColour, 30> namedColours{{
    {"app", &ThemeColours::app},
    {"panel", &ThemeColours::panel},
    {"raised", &ThemeColours::raised},
    {"canvas", &ThemeColours::canvas},
    {"grid", &ThemeColours::grid},
    {"gridMajor", &ThemeColours::gridMajor},
    {"hair", &ThemeColours::hair},
    {"edge", &ThemeColours::edge},
    {"ink", &ThemeColours::ink},
    {"ink2", &ThemeColours::ink2},
    {"ink3", &ThemeColours::ink3},
    {"wire", &ThemeColours::wire},
    {"stock", &ThemeColours::stock},
    {"stockOnSoft", &ThemeColours::stockOnSoft},
    {"now", &ThemeColours::now},
    {"nowSoft", &ThemeColours::nowSoft},
    {"ghost", &ThemeColours::ghost},
    {"measured", &ThemeColours::measured},
    {"band", &ThemeColours::band},
    {"warn", &ThemeColours::warn},
    {"warnFill", &ThemeColours::warnFill},
    {"warnSoft", &ThemeColours::warnSoft},
    {"stop", &ThemeColours::stop},
    {"stopSoft", &ThemeColours::stopSoft},
    {"ok", &ThemeColours::ok},
    {"okSoft", &ThemeColours::okSoft},
    {"focus", &ThemeColours::focus},
    {"onNow", &ThemeColours::onNow},
    {"zoneTint", &ThemeColours::zoneTint},
    {"fretShade", &ThemeColours::fretShade},
}};

QString roleName(TextRole role) {
    switch (role) {
        case TextRole::caption:
            return "caption";
        case TextRole::body:
            return "body";
        case TextRole::figure:
            return "figure";
        case TextRole::panelTitle:
            return "panelTitle";
        case TextRole::lead:
            return "lead";
        case TextRole::screenTitle:
            return "screenTitle";
        case TextRole::valueField:
            return "valueField";
    }
    return "body";
}

/// Dash patterns are px in the tokens and pen widths in Qt.
QPen curvePen(const QString& name, const QColor& colour) {
    const QJsonObject kind = tokens()["plot"].toObject()["lines"].toObject()[name].toObject();
    const double width = kind["width"].toDouble();
    QPen pen(colour, width);
    pen.setCapStyle(kind["cap"].toString() == "round" ? Qt::RoundCap : Qt::FlatCap);
    pen.setJoinStyle(Qt::RoundJoin);
    QList<qreal> dashes;
    for (const QJsonValue dash : kind["dash"].toArray()) {
        dashes.append(dash.toDouble() / width);
    }
    if (!dashes.isEmpty()) {
        pen.setDashPattern(dashes);
    }
    return pen;
}

ThemeKind desktopKind = ThemeKind::light;

/// Longest names first, so that @ink never eats the start of @ink3.
QString filledStyleSheet(const ThemeColours& colours) {
    QString sheet = QString::fromUtf8(readResource(":/look/look.qss"));
    auto names = namedColours;
    std::sort(names.begin(), names.end(),
              [](const NamedColour& a, const NamedColour& b) { return qstrlen(a.first) > qstrlen(b.first); });
    for (const auto& [name, member] : names) {
        sheet.replace("@" + QString(name), (colours.*member).name());
    }
    return sheet;
}

}  // namespace

ThemeColours coloursOf(ThemeKind kind) {
    const QJsonObject object = colourTokens(kind);
    ThemeColours colours;
    for (const auto& [name, member] : namedColours) {
        colours.*member = QColor(object[QString(name)].toString());
    }
    colours.band.setAlphaF(static_cast<float>(object["bandAlpha"].toDouble()));
    for (int step = 0; step < 4; ++step) {
        const auto index = static_cast<std::size_t>(step);
        colours.raise[index] = QColor(object["raise"].toArray()[step].toString());
        colours.lower[index] = QColor(object["lower"].toArray()[step].toString());
    }
    return colours;
}

QColor boardColour(const QString& name) {
    const QString theme = Theme::current().kind() == ThemeKind::light ? "light" : "dark";
    return QColor(tokens()["board"].toObject()[theme].toObject()[name].toString());
}

QColor bodyColour(const QString& name) {
    return QColor(tokens()["board"].toObject()["body"].toObject()[name].toString());
}

QColor bandColour(const QString& name) {
    return QColor(tokens()["board"].toObject()["band"].toObject()[name].toString());
}

int probePulseMilliseconds() {
    return tokens()["motion"].toObject()["ms"].toObject()["probePulse"].toInt();
}

Theme::Theme() : m_colours(coloursOf(ThemeKind::light)) {}

Theme& Theme::current() {
    static Theme theme;
    return theme;
}

void Theme::setKind(ThemeKind kind) {
    if (kind == m_kind) {
        return;
    }
    m_kind = kind;
    m_colours = coloursOf(kind);
    apply();
}

void Theme::setTextScale(double scale) {
    const double held = std::clamp(scale, 1.0, 1.3);
    if (qFuzzyCompare(held, m_textScale)) {
        return;
    }
    m_textScale = held;
    apply();
}

QFont Theme::font(TextRole role, bool bold) const {
    // Read once: a map asks for thousands of fonts at every edit.
    static const QStringList families = [] {
        const QJsonObject type = tokens()["type"].toObject();
        return QStringList{type["family"].toString(), type["fallback"].toArray().first().toString()};
    }();
    QFont font;
    font.setFamilies(families);
    font.setPixelSize(pixels(role));
    font.setBold(bold);
    return font;
}

int Theme::pixels(TextRole role) const {
    static const QJsonObject px = tokens()["type"].toObject()["px"].toObject();
    return qRound(px[roleName(role)].toDouble() * m_textScale);
}

QPen Theme::stockPen() const {
    return curvePen("stock", m_colours.stock);
}

QPen Theme::nowPen() const {
    return curvePen("now", m_colours.now);
}

QPen Theme::ghostPen() const {
    return curvePen("ghost", m_colours.ghost);
}

QPen Theme::throwPen(int index) const {
    constexpr double width = 1.6;
    const QJsonArray patterns = tokens()["plot"].toObject()["lines"].toObject()["pinnedGhosts"].toArray();
    QPen pen(m_colours.now, width);
    pen.setCapStyle(Qt::FlatCap);
    QList<qreal> dashes;
    for (const QJsonValue dash : patterns[index % std::max<qsizetype>(1, patterns.size())].toArray()) {
        dashes.append(dash.toDouble() / width);
    }
    pen.setDashPattern(dashes);
    return pen;
}

QPalette Theme::palette() const {
    const ThemeColours& c = m_colours;
    QPalette palette;
    palette.setColor(QPalette::Window, c.panel);
    palette.setColor(QPalette::WindowText, c.ink);
    palette.setColor(QPalette::Base, c.raised);
    palette.setColor(QPalette::AlternateBase, c.panel);
    palette.setColor(QPalette::Text, c.ink);
    palette.setColor(QPalette::PlaceholderText, c.ink3);
    palette.setColor(QPalette::Button, c.raised);
    palette.setColor(QPalette::ButtonText, c.ink);
    palette.setColor(QPalette::BrightText, c.panel);
    // Selection is black on grey: violet belongs to the mod alone.
    palette.setColor(QPalette::Highlight, c.gridMajor);
    palette.setColor(QPalette::HighlightedText, c.ink);
    palette.setColor(QPalette::Link, c.ink);
    palette.setColor(QPalette::LinkVisited, c.ink2);
    palette.setColor(QPalette::ToolTipBase, c.raised);
    palette.setColor(QPalette::ToolTipText, c.ink);
    palette.setColor(QPalette::Light, c.raised);
    palette.setColor(QPalette::Midlight, c.hair);
    palette.setColor(QPalette::Mid, c.edge);
    palette.setColor(QPalette::Dark, c.edge);
    palette.setColor(QPalette::Shadow, c.hair);
    for (const QPalette::ColorRole role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) {
        palette.setColor(QPalette::Disabled, role, c.ink3);
    }
    return palette;
}

ThemeKind Theme::systemKind() {
    return desktopKind;
}

void Theme::install() {
    const QPalette desktop = QApplication::palette();
    const bool lightText =
        desktop.color(QPalette::WindowText).lightness() > desktop.color(QPalette::Window).lightness();
    desktopKind = lightText ? ThemeKind::dark : ThemeKind::light;
    for (const char* file : {":/look/fonts/B612Ohmwright-Regular.otf", ":/look/fonts/B612Ohmwright-Bold.otf"}) {
        if (QFontDatabase::addApplicationFont(file) < 0) {
            qWarning("The bundled typeface %s cannot be read; another one stands in.", file);
        }
    }
    QApplication::setStyle(new LookStyle);
    FocusOutline::install();
    current().apply();
}

void Theme::apply() {
    QApplication::setPalette(palette());
    QApplication::setFont(font(TextRole::body));
    qApp->setStyleSheet(filledStyleSheet(m_colours));
    emit changed();
    for (QWidget* widget : QApplication::allWidgets()) {
        widget->update();
    }
}

}  // namespace ohmwright
