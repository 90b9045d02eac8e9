/// The pannable face of the map: pointer, wheel and keys become questions about parts.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/circuit/circuit.h"

#include <QGraphicsView>

#include <optional>
#include <vector>

namespace ohmwright {

class MapScene;
struct MapLayout;

/// A part for those who hear the map.
struct SpokenPart {
    PartId id;
    QString name;  ///< "C4 Cg, capacitor, stock 56 nano, now 120 nano, mod A, measured"

    friend bool operator==(const SpokenPart&, const SpokenPart&) = default;
};

/// Left edge of each zone of a layout and the right edge of the last, in the view's own px.
std::vector<double> zoneEdgesIn(const QGraphicsView& view, const MapLayout& layout);

class MapView : public QGraphicsView {
    Q_OBJECT
public:
    explicit MapView(MapScene& scene, QWidget* parent = nullptr);

    /// Shows the whole sheet, enlarged to 1.25 at most.
    void fitSheet();
    /// Left edge of each zone and the right edge of the last, in the view's own px.
    [[nodiscard]] std::vector<double> zoneEdges() const;

    void setSelected(const PartId& part);
    /// Parts in the order of walking, each with the words it is spoken with.
    void setParts(std::vector<SpokenPart> parts);
    /// Parts in the order of their influence, for Ctrl+arrows, and what is said of all of them; none while nobody asks.
    void setOwners(std::vector<PartId> order, const QString& words);
    [[nodiscard]] const std::vector<SpokenPart>& parts() const { return m_parts; }
    [[nodiscard]] const PartId& selected() const { return m_selected; }
    /// A part's symbol on the screen; empty when it is not drawn.
    [[nodiscard]] QRect screenBox(const PartId& part) const;
    /// The part under a point of the view.
    [[nodiscard]] std::optional<PartId> partUnder(const QPoint& position) const;

signals:
    void partChosen(const ohmwright::PartId& part);
    void valueStepped(const ohmwright::PartId& part, int steps, Qt::KeyboardModifiers modifiers);
    void typedOnPart(const QString& text);
    void contextMenuAsked(const ohmwright::PartId& part, const QPoint& globalPosition);
    /// The zones have moved.
    void fitted();

protected:
    bool event(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;

private:
    [[nodiscard]] bool isDrawn(const PartId& part) const;
    void walk(int steps);
    bool walkByKey(int key);
    bool walkOwners(const QKeyEvent& event);

    MapScene& m_scene;
    PartId m_selected;
    std::vector<SpokenPart> m_parts;
    std::vector<PartId> m_owners;
    int m_wheelRest = 0;  ///< Part of a step from a finely divided wheel, eighths of a degree.
};

}  // namespace ohmwright
