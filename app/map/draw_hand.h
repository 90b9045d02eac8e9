/// The hand that draws: a caret on the grid, what it holds, the wire under its pen, what it has picked. Pointer and
/// keys are the same to it. Every edit is core's (core/drawing) and goes through the document's undo.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/drawing/draw_things.h"
#include "core/drawing/edit.h"

#include <QObject>
#include <QPointF>
#include <QString>

#include <map>
#include <optional>
#include <utility>
#include <vector>

class QKeyEvent;

namespace ohmwright {

class JobDocument;

class DrawHand : public QObject {
    Q_OBJECT
public:
    /// What is on the way between taking and putting down.
    struct Held {
        const DrawThing* thing = nullptr;
        QString typed;
        int turns = 0;
        bool mirrored = false;
        int span = 3;
    };

    /// The document must outlive the hand.
    explicit DrawHand(JobDocument& document, QObject* parent = nullptr);

    /// Types that parts can be of, in the order in which they are offered.
    void setModels(std::vector<Model> models);
    [[nodiscard]] const std::vector<Model>& models() const { return m_models; }

    [[nodiscard]] GridPoint caret() const { return m_caret; }
    [[nodiscard]] const std::optional<Held>& held() const { return m_held; }
    /// The corners of the wire so far; empty while the pen is up. The caret is its loose end.
    [[nodiscard]] const std::vector<GridPoint>& pen() const { return m_pen; }
    [[nodiscard]] const Picked& picked() const { return m_picked; }
    /// One corner of the box that is being opened; the caret is the other.
    [[nodiscard]] const std::optional<GridPoint>& box() const { return m_box; }
    /// Corners of the box that was opened last, for a field that is framed with it.
    [[nodiscard]] std::pair<GridPoint, GridPoint> boxCorners() const { return m_lastBox; }
    /// How far what is picked is dragged.
    [[nodiscard]] GridPoint dragged() const;
    /// The held part as it would stand, for its picture; absent for a sign, and without one in hand.
    [[nodiscard]] std::optional<Part> heldPart() const;
    /// "4, 5 · R3 pin 1, net in": what the caret is on.
    [[nodiscard]] QString placeWords() const;
    /// What the keys do now, for the line under the drawing.
    [[nodiscard]] QString keyWords() const;

    void setCaret(GridPoint point);
    void take(const DrawThing& thing);
    void penDown();
    void pick(const Picked& picked);
    /// Lets go of what is held, drawn or opened, else of what is picked; false when there was nothing.
    bool letGo();

    /// True when the key was the hand's.
    bool key(const QKeyEvent& event);
    /// @param exact  in grid steps.
    void press(QPointF exact, Qt::KeyboardModifiers modifiers);
    void moveTo(QPointF exact);
    void release();

    /// The picked parts turned, mirrored, moved, taken off; copies.
    void turnPicked();
    void mirrorPicked();
    void movePicked(GridPoint by);
    void erasePicked();
    void copyPicked();
    void pasteCopy();
    /// One step of the document: refused edits are announced by it.
    bool edit(const EditResult& result, const QString& words);

signals:
    /// Caret, hand, pen, box or what is picked is another.
    void changed();
    /// What could not be done, or was done beside what was asked.
    void said(const QString& sentence);
    /// A value is typed for the one picked part.
    void valueTyped(const QString& text);
    void nameAsked();
    void stageAsked();
    void frameAsked();

private:
    [[nodiscard]] const Circuit& circuit() const;
    bool keyWhileHolding(const QKeyEvent& event);
    bool keyWhileDrawing(const QKeyEvent& event);
    bool keyWhileLooking(const QKeyEvent& event);
    bool letter(const QKeyEvent& event);
    bool arrow(const QKeyEvent& event);
    void putDown();
    void penStep(bool ends);
    void finishWire();
    void pickAt(GridPoint point, bool adds);
    [[nodiscard]] Picked at(QPointF exact) const;
    void followDocument();

    JobDocument& m_document;
    std::vector<Model> m_models;
    GridPoint m_caret{4, 4};
    std::optional<Held> m_held;
    std::vector<GridPoint> m_pen;
    Picked m_picked;
    std::optional<GridPoint> m_box;
    std::pair<GridPoint, GridPoint> m_lastBox;
    std::optional<GridPoint> m_dragFrom;
    Circuit m_copy;
    std::map<char, QString> m_lastTyped;  ///< By the thing's key: a second resistor begins as the first.
};

}  // namespace ohmwright
