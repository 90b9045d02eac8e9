// A two-transistor circuit of nine parts is drawn from nothing, with the pointer and again with keys alone, and has the
// bias and the response of its netlist.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_board.h"
#include "app/map/draw_canvas.h"
#include "app/map/draw_hand.h"
#include "app/stages/stage_keeper.h"
#include "core/circuit/check.h"
#include "core/drawing/outline.h"
#include "core/files/netlist.h"
#include "core/measure/figures.h"
#include "tests/app/window/open_window.h"

#include <QLineEdit>
#include <QPushButton>
#include <QTest>

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <sstream>
#include <string>

namespace ohmwright {
namespace {

/// Two transistors in a pair, invented: the second one's emitter biases the first one's base.
/// @param type  "NPN (BF=416.4 ...)": the house's figures of the transistor that is drawn.
Circuit pairOfNetlist(const std::string& type) {
    const std::string text = R"(Two transistors in a pair
V1 in 0 DC 0 AC 1
V2 vcc 0 9
C1 in b 2.2u
R1 vcc c1 33k
Q1 c1 b 0 PAIR
R2 vcc out 8.2k
Q2 out c1 e PAIR
R3 e 0 1k
R4 e b 100k
.model PAIR )" + type + "\n.end\n";
    Result<Netlist> netlist = readNetlist(text);
    if (!netlist) {
        ADD_FAILURE() << netlist.error().message;
        return {};
    }
    EXPECT_TRUE(choosePorts(*netlist, {}, {}));
    return netlist->circuit;
}

std::string cardOf(const Model& model) {
    std::ostringstream card;
    card.precision(17);
    card << "NPN (";
    for (const auto& [name, value] : model.parameters) {
        card << name << "=" << value << " ";
    }
    card << ")";
    return card.str();
}

LinearState answerOf(const Circuit& circuit) {
    const Result<LinearState> answer = measureLinear(circuit, {}, {});
    if (!answer) {
        ADD_FAILURE() << answer.error().message;
        return {};
    }
    return *answer;
}

/// Volts at the transistors' legs, whatever the nets are called: "Q2 emitter".
std::map<std::string, double> biasOf(const Circuit& circuit, const LinearState& answer) {
    const std::map<NetName, double> byNet(answer.biasVolts.begin(), answer.biasVolts.end());
    std::map<std::string, double> volts;
    for (const char* reference : {"Q1", "Q2"}) {
        const Part& part = *findPartByReference(circuit, reference);
        for (std::size_t pin = 0; pin < part.nets.size(); ++pin) {
            std::string place(reference);
            place.append(" ").append(pinName(part.kind, static_cast<int>(pin)));
            volts[place] = part.nets[pin] == groundNet ? 0.0 : byNet.at(part.nets[pin]);
        }
    }
    return volts;
}

/// A thing with what is typed for it, where it comes and how it is turned.
struct Put {
    char key;
    const char* typed;
    GridPoint at;
    int turns = 0;  ///< Quarter turns more than it has in hand.
};

const std::vector<Put>& things() {
    static const std::vector<Put> all{{'S', "", {4, 8}},        {'B', "9V", {4, 14}},     {'C', "2u2", {6, 8}},
                                      {'R', "33k", {13, 3}, 1}, {'Q', "2N3904", {11, 8}}, {'R', "8k2", {18, 1}, 1},
                                      {'Q', "", {16, 6}},       {'R', "1k", {18, 9}, 1},  {'R', "100k", {13, 13}},
                                      {'E', "", {4, 11}},       {'E', "", {4, 17}},       {'E', "", {13, 10}},
                                      {'E', "", {18, 12}},      {'V', "9 V", {4, 14}},    {'V', "", {13, 3}},
                                      {'V', "", {18, 1}},       {'O', "", {21, 4}}};
    return all;
}

/// Wires by their points: joined to pins at both ends.
const std::vector<std::vector<GridPoint>>& wires() {
    static const std::vector<std::vector<GridPoint>> all{{{4, 8}, {6, 8}},    // signal to C1
                                                         {{9, 8}, {11, 8}},   // C1 to the base
                                                         {{13, 6}, {16, 6}},  // first collector to second base
                                                         {{18, 4}, {21, 4}},  // second collector to the output
                                                         {{18, 8}, {18, 9}},  // emitter to R3
                                                         {{16, 13}, {20, 13}, {20, 8}, {18, 8}},  // R4 to the emitter
                                                         {{13, 13}, {10, 13}, {10, 8}}};          // R4 to the base
    return all;
}

class DrawUnitTest : public test::OpenWindow {
protected:
    DrawHand& hand() { return window->drawBoard().hand(); }
    DrawCanvas& canvas() { return window->drawBoard().canvas(); }
    const Circuit& drawn() { return job().stock; }

    void expectPair() {
        ASSERT_EQ(drawn().parts.size(), 9U) << window->refusal().toStdString();
        for (const Fault& fault : checkCircuit(drawn())) {
            ADD_FAILURE() << fault.message;
        }
        EXPECT_EQ(drawn().ports.output, "out");
        const Model* type = findModel(drawn(), "2N3904");
        ASSERT_NE(type, nullptr);
        const Circuit expected = pairOfNetlist(cardOf(*type));
        const LinearState mine = answerOf(drawn());
        const LinearState theirs = answerOf(expected);
        const std::map<std::string, double> volts = biasOf(expected, theirs);
        EXPECT_GT(volts.at("Q2 emitter"), 0.1);
        for (const auto& [place, measured] : biasOf(drawn(), mine)) {
            EXPECT_NEAR(measured, volts.at(place), 1e-9) << place;
        }
        ASSERT_EQ(mine.response.hz, theirs.response.hz);
        EXPECT_GT(theirs.response.gainDb[theirs.response.gainDb.size() / 2], 6.0) << "it amplifies";
        for (std::size_t i = 0; i < mine.response.hz.size(); ++i) {
            EXPECT_NEAR(mine.response.gainDb[i], theirs.response.gainDb[i], 1e-7) << mine.response.hz[i];
        }
    }
};

TEST_F(DrawUnitTest, ByPointer) {
    const auto view = [this] { return canvas().viewport(); };
    const auto click = [&](GridPoint point) {
        QTest::mouseMove(view(), canvas().viewPoint(point));
        QTest::mouseClick(view(), Qt::LeftButton, {}, canvas().viewPoint(point));
    };
    window->drawNewUnit();
    for (const Put& put : things()) {
        // The palette's row, then the value, then the place.
        const QString name = QString::fromUtf8(thingOfKey(put.key)->name);
        auto* row = find<QAbstractButton>(QString("%1, key %2").arg(name, QString(QLatin1Char(put.key))));
        ASSERT_NE(row, nullptr) << name.toStdString();
        QTest::mouseClick(row, Qt::LeftButton);
        for (int turn = 0; turn < put.turns; ++turn) {
            QTest::keyClick(&canvas(), Qt::Key_Period);
        }
        QTest::keyClicks(&canvas(), put.typed);
        click(put.at);
        ASSERT_FALSE(hand().held()) << put.key << ": " << window->refusal().toStdString();
    }
    for (const std::vector<GridPoint>& points : wires()) {
        for (const GridPoint point : points) {
            click(point);
        }
        ASSERT_TRUE(hand().pen().empty()) << window->refusal().toStdString();
    }
    click({19, 4});
    ASSERT_TRUE(hand().pen().empty());
    // The way of the pointer to the field leads over the sheet: the entry is about the net that was clicked.
    auto* net = find<QLineEdit>("Net");
    const QPoint from = view()->mapTo(&*window, canvas().viewPoint({19, 4}));
    const QPoint to = net->mapTo(&*window, net->rect().center());
    constexpr int steps = 40;
    for (int i = 1; i <= steps; ++i) {
        const QPoint on = view()->mapFrom(&*window, from + (to - from) * i / steps);
        if (view()->rect().contains(on)) {
            QTest::mouseMove(view(), on);
        }
    }
    EXPECT_EQ(hand().caret(), (GridPoint{19, 4}));
    QTest::mouseClick(net, Qt::LeftButton);
    net->selectAll();
    QTest::keyClicks(net, "out");
    QTest::keyClick(net, Qt::Key_Return);
    expectPair();
}

TEST_F(DrawUnitTest, ByKeysAlone) {
    const auto press = [this](int key) { QTest::keyClick(QApplication::focusWidget(), static_cast<Qt::Key>(key)); };
    const auto walkTo = [&](GridPoint point) {
        while (hand().caret().x != point.x) {
            press(hand().caret().x < point.x ? Qt::Key_Right : Qt::Key_Left);
        }
        while (hand().caret().y != point.y) {
            press(hand().caret().y < point.y ? Qt::Key_Down : Qt::Key_Up);
        }
    };
    QTest::keyClick(&*window, Qt::Key_N, Qt::ControlModifier | Qt::ShiftModifier);
    ASSERT_EQ(window->place(), Place::draw);
    ASSERT_EQ(QApplication::focusWidget(), &canvas());
    for (const Put& put : things()) {
        walkTo(put.at);
        QTest::keyClick(&canvas(), put.key);
        for (int turn = 0; turn < put.turns; ++turn) {
            press(Qt::Key_Period);
        }
        QTest::keyClicks(&canvas(), put.typed);
        press(Qt::Key_Return);
        ASSERT_FALSE(hand().held()) << put.key << ": " << window->refusal().toStdString();
    }
    for (const std::vector<GridPoint>& points : wires()) {
        for (const GridPoint point : points) {
            walkTo(point);
            press(Qt::Key_Space);
        }
        ASSERT_TRUE(hand().pen().empty()) << window->refusal().toStdString();
    }
    walkTo({19, 4});
    press(Qt::Key_N);
    type("out");
    press(Qt::Key_Return);
    EXPECT_EQ(QApplication::focusWidget(), &canvas());
    expectPair();
    // Step by step back to the empty sheet.
    while (window->document().undoStack().canUndo()) {
        QTest::keyClick(&canvas(), Qt::Key_Z, Qt::ControlModifier);
    }
    EXPECT_EQ(drawn(), Circuit());
}

TEST_F(DrawUnitTest, ADrawnUnitIsDescribedTidiedAndTakenBack) {
    window->showPlace(Place::draw);
    QCoreApplication::processEvents();
    const Job before = job();
    const Part& c4 = *findPartByReference(before.stock, "C4");
    const GridPoint pin = pinPoint(c4, 0);
    QTest::mouseClick(canvas().viewport(), Qt::LeftButton, Qt::ShiftModifier,
                      canvas().viewPoint(pin) + (canvas().viewPoint(pinPoint(c4, 1)) - canvas().viewPoint(pin)) / 2);
    ASSERT_EQ(hand().picked().parts, std::vector<PartId>{c4.id});

    // A digit begins the value; Enter gives the keyboard back to the drawing.
    QTest::keyClick(&canvas(), Qt::Key_6);
    type("8n");
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
    EXPECT_EQ(QApplication::focusWidget(), &canvas());
    EXPECT_NEAR(findPart(drawn(), c4.id)->value, 68e-9, 1e-15);
    EXPECT_EQ(job().plan, before.plan) << "the plan is not touched by what is drawn";

    // The plan works on it: it stays.
    QTest::keyClick(&canvas(), Qt::Key_Delete);
    EXPECT_NE(findPart(drawn(), c4.id), nullptr);
    EXPECT_TRUE(window->refusal().contains("take mod A off the list first")) << window->refusal().toStdString();

    // The whole drawing laid out anew joins the same pins.
    QTest::keyClick(&canvas(), Qt::Key_Escape);
    ASSERT_TRUE(hand().picked().isEmpty());
    QTest::mouseClick(find<QPushButton>("Tidy"), Qt::LeftButton);
    ASSERT_TRUE(QTest::qWaitFor([&] { return drawn().drawing != before.stock.drawing; }, 60000));
    for (const Part& part : before.stock.parts) {
        EXPECT_EQ(findPart(drawn(), part.id)->nets, part.nets) << part.reference;
    }
    while (window->document().undoStack().canUndo()) {
        QTest::keyClick(&canvas(), Qt::Key_Z, Qt::ControlModifier);
    }
    EXPECT_EQ(job(), before);
}

TEST_F(DrawUnitTest, WhatIsPickedIsOfferedToTheShelf) {
    window->showPlace(Place::draw);
    QCoreApplication::processEvents();
    // A box round what stands in the third stage, pulled with the pointer.
    const Stage& stage = job().stock.stages[2];
    const int right = job().stock.stages.size() > 3 ? job().stock.stages[3].firstColumn : job().stock.drawing.size.x;
    const QPoint from = canvas().viewPoint({stage.firstColumn, 0});
    const QPoint to = canvas().viewPoint({right, job().stock.drawing.size.y});
    QTest::mousePress(canvas().viewport(), Qt::LeftButton, {}, from);
    QTest::mouseMove(canvas().viewport(), to);
    QTest::mouseRelease(canvas().viewport(), Qt::LeftButton, {}, to);
    for (const PartId& part : stage.parts) {
        const std::vector<PartId>& picked = hand().picked().parts;
        EXPECT_NE(std::find(picked.begin(), picked.end(), part), picked.end()) << part;
    }
    QTest::mouseClick(find<QPushButton>("Keep as a stage"), Qt::LeftButton);
    EXPECT_TRUE(window->stageKeeper().isVisible());
}

}  // namespace
}  // namespace ohmwright
