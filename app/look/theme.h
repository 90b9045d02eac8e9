/// Colours, line kinds, type sizes and spaces: the one place that knows them.
///
/// Read from resources/look/tokens.json at start. No colour literal stands anywhere else in app/.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QColor>
#include <QFont>
#include <QObject>
#include <QPalette>
#include <QPen>

#include <array>

namespace ohmwright {

enum class ThemeKind { light, dark };

/// Graphite = as built, iris = planned, pine = measured; ochre = care, oxblood = stop (always with a shape and words).
struct ThemeColours {
    QColor app, panel, raised, canvas, grid, gridMajor, hair, edge;
    QColor ink, ink2, ink3, wire;
    QColor stock, stockOnSoft, now, nowSoft, ghost, measured, band;
    QColor warn, warnFill, warnSoft, stop, stopSoft, ok, okSoft, focus, onNow;
    QColor zoneTint, fretShade;
    std::array<QColor, 4> raise, lower;  ///< Influence plates, weakest first.
};

/// The colours of one theme, whichever is in force; `band` carries its alpha.
ThemeColours coloursOf(ThemeKind kind);

/// A colour of a drawn board, of the theme in force: "mask", "pad", "words" ... (look tokens `board`).
QColor boardColour(const QString& name);
/// Of a part's body, "film", or a colour of the code as a band: "orange". What things look like is the same in either
/// theme. Not valid for a name that there is not.
QColor bodyColour(const QString& name);
QColor bandColour(const QString& name);
/// Between the two ends of the probes' pulse [ms] (look tokens `motion`).
int probePulseMilliseconds();

enum class TextRole { caption, body, figure, panelTitle, lead, screenTitle, valueField };

/// The theme in force. One instance, made after QApplication; follow changed() and repaint.
class Theme : public QObject {
    Q_OBJECT
public:
    static Theme& current();

    [[nodiscard]] ThemeKind kind() const { return m_kind; }
    [[nodiscard]] const ThemeColours& colours() const { return m_colours; }
    void setKind(ThemeKind kind);

    /// 1.0, 1.15 or 1.3; sizes below follow it. Held to 1.0..1.3.
    void setTextScale(double scale);
    [[nodiscard]] double textScale() const { return m_textScale; }

    [[nodiscard]] QFont font(TextRole role, bool bold = false) const;
    [[nodiscard]] int pixels(TextRole role) const;

    /// Long dash graphite 1.8, solid iris 2.8, round dots 2.2 (styles of look tokens).
    [[nodiscard]] QPen stockPen() const;
    [[nodiscard]] QPen nowPen() const;
    [[nodiscard]] QPen ghostPen() const;
    /// Of a switch's other throws: thin iris, a dash pattern each; after the fourth they come again.
    [[nodiscard]] QPen throwPen(int index) const;

    /// Widget roles of the theme in force.
    [[nodiscard]] QPalette palette() const;

    /// Light or dark as the desktop's own palette was before install().
    static ThemeKind systemKind();

    /// Loads the bundled typeface, style, palette and style sheet. Call once.
    static void install();

signals:
    /// After palette, font and style sheet have followed a change of kind or text size.
    void changed();

private:
    Theme();
    void apply();

    ThemeKind m_kind = ThemeKind::light;
    ThemeColours m_colours;
    double m_textScale = 1.0;
};

/// Fixed sizes of the look (px at 96 dpi), as tokens.json `space`.
namespace space {
inline constexpr int header = 52;
inline constexpr int leftRail = 256;
inline constexpr int rightRail = 304;
inline constexpr int knobRow = 82;
inline constexpr int zoneStrip = 44;
inline constexpr int levelRail = 36;
inline constexpr int cursorColumn = 138;
inline constexpr int modRow = 52;
inline constexpr int row = 36;
inline constexpr int mapPitch = 20;
}  // namespace space

/// Line widths (px), as tokens.json `line`.
namespace line {
inline constexpr double hair = 1.0;
inline constexpr double wire = 1.5;
inline constexpr double body = 2.0;
inline constexpr double bodyChanged = 2.6;
inline constexpr double capPlate = 2.8;
inline constexpr double capPlateChanged = 3.4;
inline constexpr double selection = 2.5;
inline constexpr double focus = 2.0;
inline constexpr double tabMark = 3.0;
inline constexpr double zoneMark = 4.0;
inline constexpr double icon = 1.8;
}  // namespace line

/// Corner radii (px), as tokens.json `radius`: 4 on what is pressed, 0 on panels.
namespace radius {
inline constexpr double field = 4.0;
inline constexpr double button = 4.0;
inline constexpr double plate = 4.0;
inline constexpr double card = 6.0;
}  // namespace radius

}  // namespace ohmwright
