/// The hand that draws: a caret on the grid, what it holds, the wire under its pen, what it has picked. Every edit is
/// core's (core/drawing) and goes through the document's undo.
///
/// Keys move the caret, and so does a click. A pointer that only passes over the sheet leads what is in the hand, else
/// it moves nothing: on its way to a field it must not change what the field is about.
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
enum class JobAspect;

class DrawHand : public QObject {
    Q_OBJECT
public:
    /// What is on the way between taking and putting down.
    struct Held {
        const DrawThing* thing = nullptr;
        QString typed;
        QString usual;  ///< What it is worth, of which type or called while nothing is typed.
        int turns = 0;
        bool mirrored = false;
        int span = 3;

        /// What it will be when it is put down; shown with it, so that nothing comes unseen.
        [[nodiscard]] QString valueToCome() const { return typed.isEmpty() ? usual : typed; }
    };

    /// The document must outlive the hand.
    explicit DrawHand(JobDocument& document, QObject* parent = nullptr);

    /// Types that parts can be of, in the order in which they are offered.
    void setModels(std::vector<Model> models);
    [[nodiscard]] const std::vector<Model>& models() const { return m_models; }

    [[nodiscard]] GridPoint caret() const { return m_caret; }
    /// Where the pointer passes over the sheet; absent when it is elsewhere.
    [[nodiscard]] const std::optional<GridPoint>& pointer() const { return m_pointer; }
    [[nodiscard]] const std::optional<Held>& held() const { return m_held; }
    /// Whether a wire was taken and has no first corner yet.
    [[nodiscard]] bool takesWire() const { return m_takesWire; }
    /// The corners of the wire so far; empty while the pen is up. The caret is its loose end.
    [[nodiscard]] const std::vector<GridPoint>& pen() const { return m_pen; }
    [[nodiscard]] const Picked& picked() const { return m_picked; }
    /// One corner of the box that is being opened; the caret is the other.
    [[nodiscard]] const std::optional<GridPoint>& box() const { return m_box; }
    /// Corners of the box by which was picked what is picked, for an area that is set apart with it.
    [[nodiscard]] const std::optional<std::pair<GridPoint, GridPoint>>& boxCorners() const { return m_lastBox; }
    /// How far what is picked is dragged.
    [[nodiscard]] GridPoint dragged() const;
    /// The held part as it would stand, for its picture; absent for a sign, and without one in hand.
    [[nodiscard]] std::optional<Part> heldPart() const;
    /// "resistor 10k": what is held and what it will be.
    [[nodiscard]] QString heldWords() const;
    /// "column 4, row 5: R3 pin 1, net in": what the caret is on.
    [[nodiscard]] QString placeWords() const;
    /// What the keys do now, for the line under the drawing.
    [[nodiscard]] QString keyWords() const;
    /// A thing's name in the person's language.
    [[nodiscard]] static QString nameOf(const DrawThing& thing);

    void setCaret(GridPoint point);
    void take(const DrawThing& thing);
    /// The first click or Enter sets the first corner.
    void takeWire();
    void penDown();
    void pick(const Picked& picked);
    /// Lets go of a wire's last corner, then of the whole of it; of what is held or opened; else of what is picked.
    /// False when there was nothing.
    bool letGo();

    /// True when the key was the hand's.
    bool key(const QKeyEvent& event);
    /// @param exact  in grid steps.
    void press(QPointF exact, Qt::KeyboardModifiers modifiers);
    /// The second of two quick presses: ends the wire.
    void pressTwice(QPointF exact, Qt::KeyboardModifiers modifiers);
    void moveTo(QPointF exact);
    void release();
    /// The pointer has left the sheet.
    void pointAway();

    /// The picked parts turned, mirrored, moved, taken off; copies.
    void turnPicked();
    void mirrorPicked();
    void movePicked(GridPoint by);
    void erasePicked();
    void copyPicked();
    void pasteCopy();
    /// One step of the document: refused edits are announced by it.
    bool edit(const EditResult& result, const QString& words);
    /// The same for what no voltage hangs on: nothing is solved anew.
    bool editWords(const EditResult& result, const QString& words);

signals:
    /// Caret, hand, pen, box or what is picked is another.
    void changed();
    /// The pointer is over another point, and nothing else is different.
    void pointed();
    /// What was done, for the line under the drawing.
    void said(const QString& sentence);
    /// What could not be done.
    void refused(const QString& sentence);
    /// Another document: whatever was begun belongs to none any more.
    void replaced();
    /// An edit was taken: what was refused before it is past.
    void accepted();
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
    void typeOnHeld(QChar typed);
    bool letter(const QKeyEvent& event);
    bool arrow(const QKeyEvent& event);
    void putDown();
    void penStep(bool ends);
    void finishWire();
    void pickAt(GridPoint point, bool adds);
    [[nodiscard]] Picked at(QPointF exact) const;
    [[nodiscard]] bool isLed() const;
    void pickByBox();
    void dropWork();
    bool takeEdit(const EditResult& result, const QString& words, JobAspect aspect, const QString& moveKey = {});
    void moveByKey(GridPoint by);
    void followDocument(JobAspect aspect);

    JobDocument& m_document;
    std::vector<Model> m_models;
    GridPoint m_caret{4, 4};
    std::optional<Held> m_held;
    std::vector<GridPoint> m_pen;
    Picked m_picked;
    std::optional<GridPoint> m_pointer;
    bool m_takesWire = false;
    bool m_hasDroppedCorner = false;  ///< By Esc, which drops the whole wire the next time.
    bool m_hasJustJoined = false;     ///< By a press: the second of two quick ones must not begin another wire.
    std::optional<GridPoint> m_box;
    bool m_isPointersBox = false;
    std::optional<std::pair<GridPoint, GridPoint>> m_lastBox;
    std::optional<GridPoint> m_dragFrom;
    Drawing m_drawing;  ///< That wires and signs are picked in, by their index.
    bool m_isOwnEdit = false;
    Picked m_moved;  ///< What the last key moved: moved on, it is one step of the document.
    int m_moveRun = 0;
    Circuit m_copy;
    std::map<char, QString> m_lastTyped;  ///< By the thing's key: a second resistor begins as the first.
};

}  // namespace ohmwright
