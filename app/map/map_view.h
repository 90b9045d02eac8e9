/// The face of the map: pointer, wheel and keys become questions about parts, or move the sheet.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/map/sheet_view.h"
#include "core/circuit/circuit.h"

#include <optional>
#include <vector>

namespace ohmwright {

class DragNote;
class MapScene;

/// A part for those who hear the map.
struct SpokenPart {
    PartId id;
    QString name;       ///< "C4 Cg, capacitor, stock 56 nano, now 120 nano, mod A, measured"
    QString value;      ///< "now 120 nano, stock 56 nano"; "56 nano" of a part as it was built
    double now = 0.0;   ///< SI; 0 of a part without a value
    bool steps = true;  ///< Whether the drawer may hold a next value or type for it.
    QString legs;       ///< "leg 1 at n4: 4.51 V, leg 2 at ground"

    friend bool operator==(const SpokenPart&, const SpokenPart&) = default;
};

/// Drags: on a part up and down for its value, on empty ground, with the middle button or with Space for the sheet.
class MapView : public SheetView {
    Q_OBJECT
public:
    explicit MapView(MapScene& scene, QWidget* parent = nullptr);

    void setSelected(const PartId& part);
    /// Parts in the order of walking, each with the words it is spoken with.
    void setParts(std::vector<SpokenPart> parts);
    /// Parts in the order of their influence, for Ctrl+arrows, and what is said of all of them; none while nobody asks.
    void setOwners(std::vector<PartId> order, const QString& words);
    [[nodiscard]] const std::vector<SpokenPart>& parts() const { return m_parts; }
    [[nodiscard]] const PartId& selected() const { return m_selected; }
    /// Words beside the pointer: the value while it is dragged, and for a moment what became of it.
    void showDragWords(const QString& words, bool forAMoment);
    /// Says it to those who hear the map, as its description.
    void describe(const QString& words);
    /// What pointer and keys do to a part, for those who use neither.
    void choosePart(const PartId& part);
    void stepPart(const PartId& part, int steps);
    void openMenuOf(const PartId& part);
    /// A part's symbol on the screen; empty when it is not drawn.
    [[nodiscard]] QRect screenBox(const PartId& part) const;
    /// The part under a point of the view.
    [[nodiscard]] std::optional<PartId> partUnder(const QPoint& position) const;

signals:
    void partChosen(const ohmwright::PartId& part);
    void valueStepped(const ohmwright::PartId& part, int steps, Qt::KeyboardModifiers modifiers);
    void typedOnPart(const QString& text);
    void contextMenuAsked(const ohmwright::PartId& part, const QPoint& globalPosition);
    /// The button was pressed on a part and is moved: the value is to follow, by so many decades from where it began.
    void valueDragBegan(const ohmwright::PartId& part);
    void valueDragged(double decades);
    void valueDropped(Qt::KeyboardModifiers modifiers);

protected:
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void keyReleaseEvent(QKeyEvent* event) override;
    [[nodiscard]] QRectF whole() const override;
    [[nodiscard]] double largestFit() const override;
    [[nodiscard]] std::pair<double, double> zoomLimits() const override;
    [[nodiscard]] double labelScaleAt(double scale) const override;
    void leaveEvent(QEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;

private:
    [[nodiscard]] bool isDrawn(const PartId& part) const;
    void walk(int steps);
    bool walkByKey(int key);
    bool moveByKey(const QKeyEvent& event);
    bool dragValue(const QMouseEvent& event);
    bool walkOwners(const QKeyEvent& event);

    MapScene& m_scene;
    PartId m_selected;
    std::vector<SpokenPart> m_parts;
    std::vector<PartId> m_owners;
    QString m_words;  ///< Last said of owners and volts.
    /// A part under the button that is down, and where it went down.
    struct Press {
        PartId part;
        QPoint at;
        bool isDrag = false;
    };
    std::optional<Press> m_press;
    bool m_isSpaceDown = false;
    DragNote* m_note;
    int m_wheelRest = 0;  ///< Part of a step from a finely divided wheel, eighths of a degree.
};

}  // namespace ohmwright
