// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/symbols.h"

#include "core/drawing/outline.h"
#include "tests/app/look/picture.h"

#include <gtest/gtest.h>

namespace ohmwright {
namespace {

constexpr std::array allKinds{PartKind::resistor,
                              PartKind::capacitor,
                              PartKind::inductor,
                              PartKind::potentiometer,
                              PartKind::link,
                              PartKind::diode,
                              PartKind::bipolar,
                              PartKind::opamp,
                              PartKind::voltageSource,
                              PartKind::currentSource,
                              PartKind::jfet,
                              PartKind::mosfet,
                              PartKind::triode,
                              PartKind::pentode,
                              PartKind::switchContact,
                              PartKind::coupling,
                              PartKind::voltageControlledVoltage,
                              PartKind::voltageControlledCurrent,
                              PartKind::currentControlledCurrent,
                              PartKind::currentControlledVoltage,
                              PartKind::behaviouralVoltage,
                              PartKind::behaviouralCurrent};

Part placed(PartKind kind, const Placement& placement) {
    Part part;
    part.kind = kind;
    part.placement = placement;
    return part;
}

SymbolInk inkOf(const ThemeColours& c, bool changed = false) {
    return {changed ? c.now : c.ink, c.wire, c.canvas, changed};
}

TEST(Symbols, SizesAreThoseOfTheLook) {
    // Source: tokens.json `map`.
    EXPECT_EQ(symbolOf(PartKind::resistor, 3).bodyBox, QRectF(14, -6.5, 32, 13));
    EXPECT_EQ(symbolOf(PartKind::capacitor, 3).bodyBox, QRectF(26, -12, 8, 24));
    EXPECT_EQ(symbolOf(PartKind::diode, 3).bodyBox, QRectF(21, -9, 18, 18));
    EXPECT_EQ(symbolOf(PartKind::opamp, 3).bodyBox.size(), QSizeF(70, 76));
}

TEST(Symbols, BodiesCoverWhatTheDrawingKeepsFree) {
    // What core keeps wires and other bodies off is what is painted.
    for (const PartKind kind : allKinds) {
        for (int turns = 0; turns < 8; ++turns) {
            for (int span = 2; span <= 6; ++span) {
                const Part part = placed(kind, {{3, -2}, turns % 4, turns > 3, span, LabelSide::automatic});
                const GridBox box = bodyBox(part);
                const QRectF painted = placementTransform(*part.placement).mapRect(symbolOf(part).bodyBox);
                EXPECT_NEAR(box.left * 20, painted.left(), 1e-9) << kindName(kind) << " span " << span;
                EXPECT_NEAR(box.right * 20, painted.right(), 1e-9) << kindName(kind) << " span " << span;
                EXPECT_NEAR(box.top * 20, painted.top(), 1e-9) << kindName(kind) << " span " << span;
                EXPECT_NEAR(box.bottom * 20, painted.bottom(), 1e-9) << kindName(kind) << " span " << span;
            }
        }
    }
}

TEST(Symbols, LeadsReachExactlyToThePins) {
    for (const PartKind kind : allKinds) {
        const Symbol symbol = symbolOf(kind, 3);
        Part part = placed(kind, {});
        // An op-amp's supplies are not drawn.
        const int drawnPins = kind == PartKind::opamp ? 3 : pinCount(kind);
        for (int pin = 0; pin < drawnPins; ++pin) {
            const QPointF at = pinPosition(part, pin);
            bool reached = false;
            for (int element = 0; element < symbol.leads.elementCount(); ++element) {
                reached = reached || QPointF(symbol.leads.elementAt(element)) == at;
            }
            EXPECT_TRUE(reached) << kindName(kind) << " pin " << pin << " at " << at.x() << ", " << at.y();
        }
    }
}

TEST(Symbols, PinsOfATurnedPartStandOnTheGrid) {
    // A two-pin part of 3 steps at (10, 5): right, down, left, up, clockwise with y downwards.
    const std::array<QPointF, 4> ends{{{260, 100}, {200, 160}, {140, 100}, {200, 40}}};
    for (int turns = 0; turns < 4; ++turns) {
        const Part part = placed(PartKind::resistor, {{10, 5}, turns, false, 3, LabelSide::automatic});
        EXPECT_EQ(pinPosition(part, 0), QPointF(200, 100));
        EXPECT_EQ(pinPosition(part, 1), ends.at(static_cast<std::size_t>(turns)));
    }
}

TEST(Symbols, MirrorSwapsCollectorAndEmitterButNotTheBase) {
    Part part = placed(PartKind::bipolar, {{1, 4}, 0, false, 3, LabelSide::automatic});
    EXPECT_EQ(pinPosition(part, 0), QPointF(60, 40)) << "collector up";
    EXPECT_EQ(pinPosition(part, 1), QPointF(20, 80)) << "base";
    EXPECT_EQ(pinPosition(part, 2), QPointF(60, 120)) << "emitter down";
    part.placement->mirrored = true;
    EXPECT_EQ(pinPosition(part, 0), QPointF(60, 120));
    EXPECT_EQ(pinPosition(part, 1), QPointF(20, 80));
}

TEST(Symbols, OpampPinsAreInTheOrderOfTheNets) {
    const Part part = placed(PartKind::opamp, {{0, 0}, 0, false, 3, LabelSide::automatic});
    EXPECT_EQ(pinPosition(part, 0), QPointF(0, 0));
    EXPECT_EQ(pinPosition(part, 1), QPointF(0, 40));
    EXPECT_EQ(pinPosition(part, 2), QPointF(100, 20));
    EXPECT_LT(pinPosition(part, 3).y(), 0) << "positive supply above";
    EXPECT_GT(pinPosition(part, 4).y(), 40) << "negative supply below";
}

TEST(Symbols, PotentiometerWiperHangsBelowTheMiddleOfTheTrack) {
    const Part part = placed(PartKind::potentiometer, {{0, 0}, 0, false, 4, LabelSide::automatic});
    EXPECT_EQ(pinPosition(part, 1), QPointF(40, 20));
    EXPECT_EQ(pinPosition(part, 2), QPointF(80, 0));
}

TEST(Symbols, PartWithoutAPlaceOrWithAPinTooManyStillAnswers) {
    Part part;
    EXPECT_EQ(pinPosition(part, 0), QPointF(0, 0));
    EXPECT_EQ(pinPosition(part, 99), QPointF(60, 0));
}

TEST(Symbols, ASwitchShowsHowItStands) {
    Part contact = placed(PartKind::switchContact, {});
    EXPECT_LT(symbolOf(contact).body.boundingRect().top(), -8.0) << "open: the blade is lifted";
    contact.value = 1.0;
    EXPECT_EQ(symbolOf(contact).body.boundingRect().height(), 0.0) << "closed: it lies";
}

TEST(Symbols, APChannelHasItsArrowTurned) {
    for (const PartKind kind : {PartKind::bipolar, PartKind::jfet, PartKind::mosfet}) {
        const Part part = placed(kind, {});
        EXPECT_NE(symbolOf(part, SymbolStandard::iec60617, true).solid,
                  symbolOf(part, SymbolStandard::iec60617, false).solid)
            << kindName(kind);
    }
}

TEST(Symbols, SourceWithoutDriveIsABatteryWithAPlusSign) {
    Part part;
    part.kind = PartKind::voltageSource;
    part.acAmplitude = 1.0;
    EXPECT_FALSE(symbolOf(part).outline.isEmpty()) << "the pickup is a circle";
    part.acAmplitude = 0.0;
    const Symbol battery = symbolOf(part);
    EXPECT_TRUE(battery.outline.isEmpty());
    EXPECT_FALSE(battery.solid.isEmpty()) << "the short bar";
    const QRectF marks = battery.body.boundingRect();
    EXPECT_LT(marks.left(), battery.bodyBox.left()) << "plus sign on the side of pin 1";
}

TEST(Symbols, ResistorIsABoxByOneStandardAndAZigzagByTheOther) {
    Part part;
    part.kind = PartKind::resistor;
    EXPECT_FALSE(symbolOf(part).outline.isEmpty());
    const Symbol zigzag = symbolOf(part, SymbolStandard::ieee315);
    EXPECT_TRUE(zigzag.outline.isEmpty());
    EXPECT_EQ(zigzag.body.elementCount(), 8) << "start, six peaks, end";
}

TEST(Symbols, EveryKindIsPaintedInItsInkInBothThemes) {
    const ThemeGuard guard;
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        const ThemeColours& c = Theme::current().colours();
        for (const PartKind part : allKinds) {
            for (const bool changed : {false, true}) {
                const QString name = QString("symbol-%1%2").arg(static_cast<int>(part)).arg(changed ? "-changed" : "");
                const QImage image = paintedPicture(name, {140, 120}, [&](QPainter& painter) {
                    painter.translate(20, 50);
                    paintSymbol(painter, symbolOf(part, 3), inkOf(c, changed));
                });
                EXPECT_GT(pixelsOf(image, changed ? c.now : c.ink), 60) << kindName(part);
                EXPECT_EQ(pixelsOf(image, changed ? c.ink : c.now), 0) << kindName(part);
            }
        }
    }
}

TEST(Symbols, DiodeAndResistorAreFilledWithTheCanvasOverAPlate) {
    const ThemeColours& c = Theme::current().colours();
    for (const PartKind part : {PartKind::diode, PartKind::resistor, PartKind::opamp}) {
        const QImage image = paintedPicture("symbol-on-plate", {140, 120}, [&](QPainter& painter) {
            painter.fillRect(QRect(0, 0, 140, 120), c.raise[3]);
            painter.translate(20, 50);
            paintSymbol(painter, symbolOf(part, 3), inkOf(c));
        });
        EXPECT_GT(pixelsOf(image, c.canvas), 200) << kindName(part);
    }
    const QImage coil = paintedPicture("symbol-coil-on-plate", {140, 120}, [&](QPainter& painter) {
        painter.fillRect(QRect(0, 0, 140, 120), c.raise[3]);
        painter.translate(20, 50);
        paintSymbol(painter, symbolOf(PartKind::inductor, 3), inkOf(c));
    });
    EXPECT_EQ(pixelsOf(coil, c.canvas), 0) << "open arcs are not filled";
}

TEST(Symbols, SheetOfAllSymbolsForLookingAt) {
    const ThemeGuard guard;
    for (const ThemeKind kind : bothThemes) {
        Theme::current().setKind(kind);
        const ThemeColours& c = Theme::current().colours();
        const QImage sheet = paintedPicture("symbols-sheet", {620, 680}, [&](QPainter& painter) {
            int cell = 0;
            const auto draw = [&](const Symbol& symbol, bool changed, int turns) {
                painter.save();
                painter.translate(30 + 120 * (cell % 5), 60 + 110 * (cell / 5));
                painter.setTransform(placementTransform({{0, 0}, turns, false, 3, LabelSide::automatic}), true);
                paintSymbol(painter, symbol, inkOf(c, changed));
                painter.restore();
                ++cell;
            };
            for (const PartKind part : allKinds) {
                draw(symbolOf(part, 3), part == PartKind::capacitor, 0);
            }
            Part battery;
            battery.kind = PartKind::voltageSource;
            draw(symbolOf(battery), false, 1);
            Part resistor;
            draw(symbolOf(resistor, SymbolStandard::ieee315), false, 0);
            Part transistor;
            transistor.kind = PartKind::bipolar;
            draw(symbolOf(transistor, SymbolStandard::iec60617, true), false, 0);
            Part pickup;
            pickup.kind = PartKind::voltageSource;
            pickup.acAmplitude = 1.0;
            draw(symbolOf(pickup), false, 1);
            draw(symbolOf(PartKind::resistor, 2), false, 1);
        });
        EXPECT_GT(pixelsOf(sheet, c.ink), 4000);
        EXPECT_GT(pixelsOf(sheet, c.now), 200);
        EXPECT_GT(pixelsOf(sheet, c.wire), 800);
    }
}

}  // namespace
}  // namespace ohmwright
