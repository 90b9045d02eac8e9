// What a drawn circuit promises: that of every demo job, of every whole template and of every piece to be joined.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/map_layout.h"
#include "core/files/atomic_file.h"
#include "core/files/stage_file.h"
#include "tests/support/demo_job.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <numeric>
#include <set>

namespace ohmwright::test {
namespace {

bool isPiece(const std::filesystem::path& file) {
    return file.parent_path().filename() == "pieces";
}

Circuit drawnCircuit(const std::filesystem::path& file) {
    if (isPiece(file)) {
        const Result<StagePiece> piece = loadStagePiece(file);
        if (!piece) {
            ADD_FAILURE() << piece.error().message;
            return {};
        }
        return piece->circuit;
    }
    if (file.extension() == ".ohmjob") {
        return jobIn(file).stock;
    }
    const Result<std::string> text = readWholeFile(file);
    const Result<Circuit> circuit = text ? readCircuit(*text) : Result<Circuit>(text.error());
    if (!circuit) {
        ADD_FAILURE() << circuit.error().message;
        return {};
    }
    return *circuit;
}

std::vector<std::filesystem::path> drawnFiles() {
    std::vector<std::filesystem::path> files = demoJobPaths();
    const std::vector<std::filesystem::path> templates = filesBelow(OHMWRIGHT_SOURCE_DIR "/resources/stages", ".json");
    files.insert(files.end(), templates.begin(), templates.end());
    return files;
}

/// "harbour_lamp", as a test may be called.
std::string testName(const std::filesystem::path& file) {
    std::string name = file.stem().string();
    std::replace(name.begin(), name.end(), '-', '_');
    return name;
}

bool isBetween(int value, int a, int b) {
    return value >= std::min(a, b) && value <= std::max(a, b);
}

bool isOn(GridPoint point, GridPoint from, GridPoint to) {
    return isBetween(point.x, from.x, to.x) && isBetween(point.y, from.y, to.y) &&
           (from.x == to.x ? point.x == from.x : point.y == from.y);
}

GridPoint gridPin(const Part& part, int pin) {
    const QPointF at = pinPosition(part, pin) / 20.0;
    EXPECT_DOUBLE_EQ(at.x(), std::round(at.x())) << part.reference;
    EXPECT_DOUBLE_EQ(at.y(), std::round(at.y())) << part.reference;
    return {static_cast<int>(std::lround(at.x())), static_cast<int>(std::lround(at.y()))};
}

struct DrawnPin {
    std::string name;
    NetName net;
    GridPoint at;
};

std::vector<DrawnPin> drawnPins(const Circuit& circuit) {
    std::vector<DrawnPin> pins;
    for (const Part& part : circuit.parts) {
        for (int pin = 0; part.placement && pin < drawnPinCount(part.kind); ++pin) {
            pins.push_back({part.reference + " pin " + std::to_string(pin + 1),
                            part.nets[static_cast<std::size_t>(pin)], gridPin(part, pin)});
        }
    }
    return pins;
}

/// Groups of points of one net that are joined by wires; signs of one name are joined through it.
class JoinedPoints {
public:
    JoinedPoints(const Circuit& circuit, const NetName& net) {
        for (const Wire& wire : circuit.drawing.wires) {
            for (std::size_t i = 1; wire.net == net && i < wire.corners.size(); ++i) {
                join(add(wire.corners[i - 1]), add(wire.corners[i]));
            }
        }
        std::size_t firstSign = none;
        for (const Flag& flag : circuit.drawing.flags) {
            if (flag.net == net && flag.kind != FlagKind::note && flag.kind != FlagKind::terminal) {
                const std::size_t sign = add(flag.at);
                join(firstSign == none ? sign : firstSign, sign);
                firstSign = sign;
            }
        }
    }

    std::size_t add(GridPoint point) {
        const auto known = std::find(m_points.begin(), m_points.end(), point);
        if (known != m_points.end()) {
            return static_cast<std::size_t>(known - m_points.begin());
        }
        m_points.push_back(point);
        m_group.push_back(m_group.size());
        return m_group.size() - 1;
    }
    std::size_t groupOf(std::size_t index) const {
        while (m_group[index] != index) {
            index = m_group[index];
        }
        return index;
    }

private:
    static constexpr std::size_t none = static_cast<std::size_t>(-1);
    void join(std::size_t a, std::size_t b) { m_group[groupOf(a)] = groupOf(b); }

    std::vector<GridPoint> m_points;
    std::vector<std::size_t> m_group;
};

class DrawingTest : public testing::TestWithParam<std::filesystem::path> {
protected:
    const Circuit circuit = drawnCircuit(GetParam());
};

TEST_P(DrawingTest, EveryPartOfTheBoardHasAPlace) {
    const std::set<std::string> wordsOnly{"RLOAD", "IU1B"};  // the next box is a knob; U1B is the spare half
    for (const Part& part : circuit.parts) {
        EXPECT_EQ(part.placement.has_value(), wordsOnly.count(part.reference) == 0) << part.reference;
    }
    if (isPiece(GetParam())) {
        return;  // the sheet is made when pieces are joined
    }
    // The map is three times as wide as high; a sheet of that shape fills it.
    const double shape = double(circuit.drawing.size.x) / circuit.drawing.size.y;
    EXPECT_GT(shape, 2.8);
    EXPECT_LT(shape, 3.4);
}

TEST_P(DrawingTest, EveryPinMeetsItsOwnNet) {
    const std::vector<DrawnPin> pins = drawnPins(circuit);
    for (const DrawnPin& pin : pins) {
        bool meets = false;
        for (const Wire& wire : circuit.drawing.wires) {
            meets = meets || (wire.net == pin.net &&
                              std::find(wire.corners.begin(), wire.corners.end(), pin.at) != wire.corners.end());
        }
        for (const Flag& flag : circuit.drawing.flags) {
            meets = meets || (flag.net == pin.net && flag.at == pin.at);
        }
        for (const DrawnPin& other : pins) {
            meets = meets || (&other != &pin && other.net == pin.net && other.at == pin.at);
        }
        EXPECT_TRUE(meets) << pin.name << " of net " << pin.net << " hangs in the air";
    }
}

TEST_P(DrawingTest, NothingOfAnotherNetTouchesAPin) {
    const std::vector<DrawnPin> pins = drawnPins(circuit);
    for (const DrawnPin& pin : pins) {
        for (const Wire& wire : circuit.drawing.wires) {
            for (std::size_t i = 1; wire.net != pin.net && i < wire.corners.size(); ++i) {
                EXPECT_FALSE(isOn(pin.at, wire.corners[i - 1], wire.corners[i]))
                    << "a wire of " << wire.net << " runs through " << pin.name;
            }
        }
        for (const DrawnPin& other : pins) {
            EXPECT_TRUE(other.net == pin.net || !(other.at == pin.at)) << pin.name << " lies on " << other.name;
        }
        for (const Flag& flag : circuit.drawing.flags) {
            EXPECT_TRUE(flag.net == pin.net || !(flag.at == pin.at)) << "a sign of " << flag.net << " at " << pin.name;
        }
    }
}

TEST_P(DrawingTest, EveryNetIsJoinedUp) {
    std::map<NetName, std::vector<DrawnPin>> byNet;
    for (const DrawnPin& pin : drawnPins(circuit)) {
        byNet[pin.net].push_back(pin);
    }
    for (const auto& [net, pins] : byNet) {
        JoinedPoints points(circuit, net);
        std::set<std::size_t> groups;
        for (const DrawnPin& pin : pins) {
            groups.insert(points.groupOf(points.add(pin.at)));
        }
        EXPECT_EQ(groups.size(), 1U) << "net " << net << " is drawn in pieces";
    }
}

TEST_P(DrawingTest, WiresRunAtRightAnglesOnTheSheet) {
    for (const Wire& wire : circuit.drawing.wires) {
        ASSERT_GE(wire.corners.size(), 2U);
        for (std::size_t i = 0; i < wire.corners.size(); ++i) {
            const GridPoint corner = wire.corners[i];
            EXPECT_TRUE(isBetween(corner.x, 0, circuit.drawing.size.x) &&
                        isBetween(corner.y, 0, circuit.drawing.size.y));
            if (i > 0) {
                EXPECT_NE(corner.x == wire.corners[i - 1].x, corner.y == wire.corners[i - 1].y) << wire.net;
            }
        }
    }
}

TEST_P(DrawingTest, WiresOfTwoNetsNeverShareAPoint) {
    const std::vector<Wire>& wires = circuit.drawing.wires;
    for (const Wire& wire : wires) {
        for (const Wire& other : wires) {
            for (std::size_t i = 1; other.net != wire.net && i < other.corners.size(); ++i) {
                for (const GridPoint& corner : wire.corners) {
                    EXPECT_FALSE(isOn(corner, other.corners[i - 1], other.corners[i])) << wire.net << ", " << other.net;
                }
            }
        }
    }
}

TEST_P(DrawingTest, NoWireRunsUnderABody) {
    for (const Part& part : circuit.parts) {
        if (!part.placement) {
            continue;
        }
        const QRectF body = placementTransform(*part.placement).mapRect(symbolOf(part).bodyBox);
        for (const Wire& wire : circuit.drawing.wires) {
            for (std::size_t i = 1; i < wire.corners.size(); ++i) {
                const QLineF line(scenePoint(wire.corners[i - 1]), scenePoint(wire.corners[i]));
                EXPECT_DOUBLE_EQ(lengthInside(line, body), 0.0) << wire.net << " under " << part.reference;
            }
        }
    }
}

TEST_P(DrawingTest, StagesFollowEachOtherAndHoldTheirParts) {
    const std::vector<Stage>& stages = circuit.stages;
    for (std::size_t i = 0; i < stages.size(); ++i) {
        const int left = stages[i].firstColumn;
        const int right = i + 1 < stages.size() ? stages[i + 1].firstColumn : circuit.drawing.size.x;
        EXPECT_LT(left, right) << stages[i].name;
        for (const PartId& id : stages[i].parts) {
            const Part* part = findPart(circuit, id);
            ASSERT_NE(part, nullptr) << id;
            if (part->placement) {
                const double centre =
                    placementTransform(*part->placement).mapRect(symbolOf(*part).bodyBox).center().x();
                EXPECT_GT(centre, left * 20.0) << part->reference;
                EXPECT_LT(centre, right * 20.0) << part->reference;
            }
        }
    }
}

TEST_P(DrawingTest, NoTwoBodiesOverlap) {
    for (const Part& part : circuit.parts) {
        for (const Part& other : circuit.parts) {
            if (part.placement && other.placement && part.id < other.id) {
                const QRectF first = placementTransform(*part.placement).mapRect(symbolOf(part).bodyBox);
                const QRectF second = placementTransform(*other.placement).mapRect(symbolOf(other).bodyBox);
                EXPECT_FALSE(first.intersects(second)) << part.reference << ", " << other.reference;
            }
        }
    }
}

INSTANTIATE_TEST_SUITE_P(Demo, DrawingTest, testing::ValuesIn(drawnFiles()), [](const auto& parameter) {
    return testName(parameter.param) + (parameter.param.extension() == ".json" ? "_stage" : "_job");
});

/// The plans under which a demo's words must stand free: stock, as opened, and with every mod.
enum class PlanState { stock, asOpened, everyMod };

class DemoWordsTest : public testing::TestWithParam<std::tuple<std::filesystem::path, PlanState>> {
protected:
    DemoWordsTest() {
        const auto& [file, plan] = GetParam();
        Job job = jobIn(file);
        for (Mod& mod : job.plan) {
            mod.on = plan == PlanState::everyMod || (plan == PlanState::asOpened && mod.on);
        }
        MapState state;
        state.job = std::make_shared<const Job>(std::move(job));
        state.holdsStock = plan == PlanState::stock;
        layout = layoutMap(state, 1.0);
    }

    /// Boxes of all words and triangles, with whose they are.
    [[nodiscard]] std::vector<std::pair<std::string, QRectF>> wordBoxes() const {
        std::vector<std::pair<std::string, QRectF>> boxes;
        for (const MapLabel& label : layout.labels) {
            for (const QRectF& box : label.label.boxes) {
                boxes.emplace_back(label.part, box);
            }
        }
        for (const MapText& text : layout.texts) {
            boxes.emplace_back(text.block.front().runs.front().text.toStdString(), text.boxes.front());
        }
        return boxes;
    }

    MapLayout layout;
};

TEST_P(DemoWordsTest, EveryPartIsNamedWithReferenceAndValue) {
    for (const DrawnPart& part : layout.parts) {
        const MapLabel* label = layout.labelOf(part.id);
        ASSERT_NE(label, nullptr) << part.id;
        QStringList said;
        for (const LabelLine& line : label->label.block) {
            for (const LabelRun& run : line.runs) {
                said << run.text;
            }
        }
        EXPECT_TRUE(said.contains(part.view.nowValue)) << part.id;
        EXPECT_TRUE(said.contains(part.view.reference) || part.innerText == part.view.reference) << part.id;
    }
}

TEST_P(DemoWordsTest, NoWordsLieOverOtherWords) {
    const auto boxes = wordBoxes();
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        for (std::size_t j = i + 1; j < boxes.size(); ++j) {
            const QRectF common = boxes[i].second.intersected(boxes[j].second);
            EXPECT_TRUE(common.isEmpty() || common.width() < 0.1 || common.height() < 0.1 ||
                        boxes[i].first == boxes[j].first)
                << boxes[i].first << " over " << boxes[j].first;
        }
    }
}

TEST_P(DemoWordsTest, NoWordsLieOverWiresOrZoneLines) {
    for (const auto& [whose, box] : wordBoxes()) {
        for (const Wire& wire : layout.job->stock.drawing.wires) {
            for (std::size_t i = 1; i < wire.corners.size(); ++i) {
                const QLineF line(scenePoint(wire.corners[i - 1]), scenePoint(wire.corners[i]));
                EXPECT_LT(lengthInside(line, box), 0.1) << whose << " over a wire of " << wire.net;
            }
        }
        for (const QLineF& zone : layout.zoneLines) {
            EXPECT_LT(lengthInside(zone, box), 0.1) << whose << " crosses a zone line";
        }
        EXPECT_TRUE(layout.extent.contains(box)) << whose << " is not in view";
    }
}

TEST_P(DemoWordsTest, NoWordsLieOverABody) {
    for (const auto& [whose, box] : wordBoxes()) {
        for (const DrawnPart& part : layout.parts) {
            for (const DrawnSymbol& symbol : part.symbols) {
                QPainterPath body = symbol.place.map(symbol.symbol.outline);
                if (body.isEmpty()) {
                    body.addRect(symbol.place.mapRect(symbol.symbol.bodyBox));
                }
                EXPECT_FALSE(body.intersects(box)) << whose << " over the body of " << part.id;
            }
        }
    }
}

std::string planName(PlanState plan) {
    switch (plan) {
        case PlanState::stock:
            return "Stock";
        case PlanState::asOpened:
            return "AsOpened";
        default:
            return "EveryMod";
    }
}

INSTANTIATE_TEST_SUITE_P(Demo, DemoWordsTest,
                         testing::Combine(testing::ValuesIn(demoJobPaths()),
                                          testing::Values(PlanState::stock, PlanState::asOpened, PlanState::everyMod)),
                         [](const auto& parameter) {
                             return testName(std::get<0>(parameter.param)) + "_" +
                                    planName(std::get<1>(parameter.param));
                         });

}  // namespace
}  // namespace ohmwright::test
