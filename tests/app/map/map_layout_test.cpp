// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/map_layout.h"

#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

namespace ohmwright::test {
namespace {

MapState stateOf(Job job) {
    MapState state;
    state.job = std::make_shared<const Job>(std::move(job));
    return state;
}

/// The demo with one more mod, switched on.
MapState demoWith(Change change) {
    Job job = harbourLamp();
    job.plan.clear();
    job.plan.push_back({"mod-x", "X", "", std::move(change), true});
    return stateOf(std::move(job));
}

MapState withBias(MapState state, std::vector<std::pair<NetName, double>> volts) {
    LinearAnswer answer;
    answer.stock.biasVolts = volts;
    answer.now.biasVolts = std::move(volts);
    state.linear = std::make_shared<const LinearAnswer>(std::move(answer));
    return state;
}

const NewPart thirdDiode{"D3", PartKind::diode, 0.0, {"1N4148", PartKind::diode, {}, {}}, 0.0};

QStringList textsOf(const MapLayout& layout) {
    QStringList texts;
    for (const MapText& text : layout.texts) {
        texts << text.block.front().runs.front().text;
    }
    return texts;
}

TEST(MapLayout, ADiodeInSeriesSharesTheSpanOfItsHost) {
    const MapLayout layout = layoutMap(demoWith(AddInSeries{"d2", 1, thirdDiode, false}), 1.0);
    const DrawnPart* host = layout.part("d2");
    ASSERT_NE(host, nullptr);
    ASSERT_EQ(host->symbols.size(), 2U);
    EXPECT_FALSE(host->symbols[0].isPlanned);
    EXPECT_TRUE(host->symbols[1].isPlanned);
    // D2 runs from x = 600 (anode) to 540; the new one joins its cathode.
    const double own = host->symbols[0].place.map(host->symbols[0].symbol.bodyBox.center()).x();
    const double fitted = host->symbols[1].place.map(host->symbols[1].symbol.bodyBox.center()).x();
    EXPECT_NEAR(own, 585.0, 1.0);
    EXPECT_NEAR(fitted, 555.0, 1.0);
    bool isNamed = false;
    for (const MapLabel& label : layout.labels) {
        isNamed = isNamed || label.label.block.front().runs.front().text == "D3";
    }
    EXPECT_TRUE(isNamed);
}

TEST(MapLayout, APartAcrossIsDrawnBesideItsHostBetweenItsPins) {
    const NewPart fitted{"C13", PartKind::capacitor, 64e-9, {}, 0.1};
    const MapLayout layout = layoutMap(demoWith(AddAcross{"c4", 0, 1, fitted, false}), 1.0);
    const DrawnPart* host = layout.part("c4");
    ASSERT_EQ(host->symbols.size(), 2U);
    const QRectF body = host->symbols[0].place.mapRect(host->symbols[0].symbol.bodyBox);
    const QRectF across = host->symbols[1].place.mapRect(host->symbols[1].symbol.bodyBox);
    EXPECT_FALSE(body.intersects(across));
    EXPECT_NEAR(across.center().y(), body.center().y(), 0.5);
    ASSERT_EQ(host->fittedLeads.size(), 4U);
    EXPECT_EQ(host->fittedLeads.front().p1(), host->pins[0]);
    EXPECT_EQ(host->fittedLeads.back().p2(), host->pins[1]);
}

TEST(MapLayout, TwoPartsAcrossStandOneAfterTheOtherAndAreNamed) {
    Job job = jobIn(demoJobPath("small-rooster"));
    for (Mod& mod : job.plan) {
        mod.on = true;
    }
    const MapLayout layout = layoutMap(stateOf(std::move(job)), 1.0);
    const DrawnPart* host = layout.part("r4");
    ASSERT_EQ(host->symbols.size(), 3U);
    const QRectF capacitor = host->symbols[1].place.mapRect(host->symbols[1].symbol.bodyBox);
    const QRectF resistor = host->symbols[2].place.mapRect(host->symbols[2].symbol.bodyBox);
    EXPECT_LT(capacitor.bottom(), resistor.top()) << "C4 at the emitter, R6 below it";
    EXPECT_NEAR(capacitor.center().x(), resistor.center().x(), 0.5);
    EXPECT_GT(capacitor.top(), host->pins[0].y());
    EXPECT_LT(resistor.bottom(), host->pins[1].y());
    ASSERT_EQ(host->fittedLeads.size(), 4U);
    EXPECT_EQ(host->fittedLeads.back().p2(), host->pins[1]);
    QStringList names;
    for (const MapLabel& label : layout.labels) {
        names << label.label.block.front().runs.front().text;
    }
    EXPECT_TRUE(names.contains("C4") && names.contains("R6"));
}

TEST(MapLayout, ALiftedLegHasAGapAtThatLeg) {
    const MapLayout layout = layoutMap(demoWith(Lift{"c4", 1}), 1.0);
    const DrawnPart* part = layout.part("c4");
    ASSERT_EQ(part->gaps.size(), 1U);
    EXPECT_LT(QLineF(part->gaps.front().center(), part->pins[1]).length(), 12.0);
    EXPECT_TRUE(layoutMap(stateOf(harbourLamp()), 1.0).part("c4")->gaps.empty());
}

TEST(MapLayout, ABridgeRunsBesideTheBodyFromPinToPin) {
    const MapLayout layout = layoutMap(demoWith(Bridge{"r7", 0, 1}), 1.0);
    const DrawnPart* part = layout.part("r7");
    ASSERT_EQ(part->bridges.size(), 1U);
    EXPECT_DOUBLE_EQ(part->bridges.front().length(), QLineF(part->pins[0], part->pins[1]).length());
    EXPECT_DOUBLE_EQ(lengthInside(part->bridges.front(), part->body), 0.0);
}

TEST(MapLayout, HoldingStockDrawsNothingPlanned) {
    Job job = harbourLamp();
    for (Mod& mod : job.plan) {
        mod.on = true;
    }
    MapState state = stateOf(std::move(job));
    state.holdsStock = true;
    const MapLayout layout = layoutMap(state, 1.0);
    for (const DrawnPart& part : layout.parts) {
        EXPECT_EQ(part.symbols.size(), 1U);
        EXPECT_FALSE(part.symbols.front().isPlanned) << part.id;
    }
    for (const MapLabel& label : layout.labels) {
        EXPECT_TRUE(label.marks.empty());
    }
}

// C2 couples Q1's emitter (3.4 V) to the half supply (4.5 V): its plus belongs at the op-amp's side.
TEST(MapLayout, ThePlusStandsAtThePlateThatTheBiasMakesPositive) {
    const MapState demo = stateOf(harbourLamp());
    const MapLayout upwards = layoutMap(withBias(demo, {{"e1", 3.4}, {"ip", 4.46}}), 1.0);
    const MapLayout downwards = layoutMap(withBias(demo, {{"e1", 5.4}, {"ip", 4.46}}), 1.0);
    const DrawnPart* right = upwards.part("c2");
    const DrawnPart* left = downwards.part("c2");
    ASSERT_TRUE(right->plus && left->plus);
    EXPECT_GT(right->plus->x(), right->body.center().x());
    EXPECT_LT(left->plus->x(), left->body.center().x());
    EXPECT_FALSE(upwards.part("c6")->plus) << "a film capacitor has no plus";
}

TEST(MapLayout, BiasIsSaidAtTheOpampsOutputAndAtHalfSupplyOnlyWhenKnown) {
    const MapState demo = stateOf(harbourLamp());
    EXPECT_FALSE(textsOf(layoutMap(demo, 1.0)).join(' ').contains(".00 V"));
    EXPECT_FALSE(textsOf(layoutMap(demo, 1.0)).contains("4.46 V"));
    const QStringList texts = textsOf(layoutMap(withBias(demo, {{"o1", 4.461}, {"vb", 4.462}}), 1.0));
    EXPECT_EQ(texts.count("4.46 V"), 2);
    EXPECT_TRUE(texts.contains("3") && texts.contains("2") && texts.contains("1")) << "pin numbers of U1A";
}

// Pin 1 and 4.48 V stood so close that they read as 14.48 V.
TEST(MapLayout, TheOpampsPinNumberAndItsVoltsAreTwoFigures) {
    const MapState demo = stateOf(harbourLamp());
    const MapLayout layout = layoutMap(withBias(demo, {{"o1", 4.48}}), 1.0);
    const auto boxOf = [&layout](const QString& said) {
        const auto found = std::find_if(layout.texts.begin(), layout.texts.end(), [&said](const MapText& text) {
            return text.block.front().runs.front().text == said;
        });
        return found == layout.texts.end() ? QRectF() : found->boxes.front();
    };
    const QRectF number = boxOf("1");
    const QRectF volts = boxOf("4.48 V");
    ASSERT_FALSE(number.isNull() || volts.isNull());
    const bool isOnOneLine = volts.top() < number.bottom() && number.top() < volts.bottom();
    EXPECT_TRUE(!isOnOneLine || volts.left() - number.right() >= 9.0) << volts.left() - number.right();
}

TEST(MapLayout, ACircuitWithoutADrawingIsEmptyAndSound) {
    Job job = harbourLamp();
    job.stock.drawing = {};
    for (Part& part : job.stock.parts) {
        part.placement.reset();
    }
    const MapLayout layout = layoutMap(stateOf(std::move(job)), 1.0);
    EXPECT_TRUE(layout.parts.empty());
    EXPECT_TRUE(layout.labels.empty());
    EXPECT_FALSE(layout.sheet.isEmpty());
}

TEST(MapLayout, AModOnAPinThatIsNotThereIsLeftOut) {
    const MapLayout layout = layoutMap(demoWith(Lift{"c4", 7}), 1.0);
    EXPECT_TRUE(layout.part("c4")->gaps.empty());
    EXPECT_TRUE(layoutMap(demoWith(Bridge{"c4", 0, 9}), 1.0).part("c4")->bridges.empty());
    EXPECT_EQ(layoutMap(demoWith(AddInSeries{"d2", 5, thirdDiode, false}), 1.0).part("d2")->symbols.size(), 1U);
}

TEST(MapLayout, TheSameCircuitAlwaysGivesTheSameMap) {
    const MapState demo = stateOf(harbourLamp());
    const MapLayout first = layoutMap(demo, 1.0);
    const MapLayout second = layoutMap(demo, 1.0);
    ASSERT_EQ(first.labels.size(), second.labels.size());
    for (std::size_t i = 0; i < first.labels.size(); ++i) {
        EXPECT_EQ(first.labels[i].label.boxes, second.labels[i].label.boxes);
    }
}

}  // namespace
}  // namespace ohmwright::test
