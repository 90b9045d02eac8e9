// Words on the map as a window shows them: at their own part, over nothing, with every part's reference.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/label_item.h"
#include "app/map/map_scene.h"
#include "app/map/map_view.h"
#include "core/drawing/arrange.h"
#include "core/drawing/join.h"
#include "core/files/stage_file.h"
#include "core/files/stage_shelf.h"
#include "tests/support/undrawn_circuits.h"

#include <gtest/gtest.h>
#include <QDir>
#include <QImage>
#include <QPainter>

namespace ohmwright::test {
namespace {

/// The map's own field in windows of 1366 x 768, 1600 x 1000 and 1920 x 1080, panels open.
const std::vector<QSize> fields{{996, 256}, {1040, 355}, {1360, 390}};

struct NamedJob {
    std::string name;
    Job job;
};

Circuit joinedOf(const std::vector<const char*>& stages, const char* supply) {
    std::vector<Circuit> pieces{houseStage("source").circuit};
    for (const char* stage : stages) {
        pieces.push_back(houseStage(stage).circuit);
    }
    pieces.push_back(houseStage("output").circuit);
    pieces.push_back(houseStage(supply).circuit);
    Result<Circuit> joined = joinStages(pieces);
    if (!joined) {
        ADD_FAILURE() << joined.error().message;
        return {};
    }
    return *joined;
}

std::vector<NamedJob> jobs() {
    std::vector<NamedJob> all;
    for (const std::filesystem::path& path : demoJobPaths()) {
        all.push_back({path.stem().string(), jobIn(path)});
    }
    const auto add = [&all](const char* name, const Circuit& circuit) {
        Job job;
        job.stock = circuit;
        all.push_back({name, job});
    };
    add("joined-drive", joinedOf({"buffer", "soft-clip", "tone-roll", "level", "buffer"}, "supply-half"));
    add("joined-boost", joinedOf({"one-transistor", "level"}, "supply-half"));
    add("joined-fuzz", joinedOf({"two-transistor", "tone-scoop", "recovery", "level"}, "supply-half"));
    add("joined-hard", joinedOf({"jfet", "hard-clip", "tone-stack", "recovery", "level"}, "supply-half"));
    add("joined-valve", joinedOf({"valve", "tone-stack", "valve", "level"}, "supply-250v"));
    for (const std::filesystem::path& path : demoJobPaths()) {
        add(("arranged-" + path.stem().string()).c_str(), arrange(stripped(jobIn(path).stock)));
    }
    for (const UndrawnCircuit& undrawn : suiteWithoutDrawing()) {
        if (undrawn.circuit.parts.size() <= 30) {
            add(("netlist-" + undrawn.name).c_str(), arrange(undrawn.circuit));
        }
    }
    return all;
}

/// Broken rules of one map, a sentence each.
std::vector<std::string> wordFaults(const MapLayout& layout) {
    std::vector<std::string> faults;
    const auto overlap = [](const QRectF& a, const QRectF& b) {
        const QRectF common = a.intersected(b);
        return common.width() > 0.5 && common.height() > 0.5;
    };
    for (const MapLabel& label : layout.labels) {
        const QRectF words = boundsOf(label.label.boxes);
        for (const DrawnPart& part : layout.parts) {
            // The corners of an op-amp's box beside its tip are empty.
            const QRectF box = part.symbols.front().symbol.bodyBox;
            const QRectF body = part.symbols.front().place.mapRect(
                part.innerText.isEmpty() ? box
                                         : box.adjusted(0, box.height() / 4, -box.width() / 3, -box.height() / 4));
            const bool isOwn = part.id == label.part;
            for (const QRectF& line : label.label.boxes) {
                if (overlap(line, body)) {
                    faults.push_back("the words of " + label.part + " lie over " + part.id);
                }
            }
            if (!isOwn && gapBetween(words, body) < gapBetween(words, layout.part(label.part)->body)) {
                faults.push_back("the words of " + label.part + " stand nearer to " + part.id);
            }
        }
        for (const MapLabel& other : layout.labels) {
            for (const QRectF& box : label.label.boxes) {
                for (const QRectF& otherBox : other.label.boxes) {
                    if (&other > &label && overlap(box, otherBox)) {
                        faults.push_back("the words of " + label.part + " and " + other.part + " overlap");
                    }
                }
            }
        }
        for (const MapText& text : layout.texts) {
            for (const QRectF& box : label.label.boxes) {
                if (overlap(box, text.boxes.front())) {
                    faults.push_back("the words of " + label.part + " lie over \"" +
                                     text.block.front().runs.front().text.toStdString() + "\"");
                }
            }
        }
        for (const DrawnNet& net : layout.nets) {
            for (const QPointF& at : net.grounds) {
                const QRectF sign(at.x() - 9, at.y() + 6, 18, 9);
                for (const QRectF& box : label.label.boxes) {
                    if (overlap(box, sign)) {
                        faults.push_back("the words of " + label.part + " lie over a ground sign");
                    }
                }
            }
        }
    }
    for (const DrawnPart& part : layout.parts) {
        bool isNamed = part.innerText == part.view.reference;
        if (const MapLabel* label = layout.labelOf(part.id)) {
            for (const LabelLine& line : label->label.block) {
                for (const LabelRun& run : line.runs) {
                    isNamed = isNamed || run.text == part.view.reference;
                }
            }
        }
        if (!isNamed) {
            faults.push_back(part.id + " has no reference");
        }
    }
    return faults;
}

TEST(MapWords, StandAtTheirOwnPartInEveryWindow) {
    const QString folder = QString::fromLocal8Bit(OHMWRIGHT_PICTURES_DIR "/words");
    ASSERT_TRUE(QDir().mkpath(folder));
    int faulty = 0;
    for (const NamedJob& named : jobs()) {
        MapState state;
        state.job = std::make_shared<const Job>(named.job);
        for (const QSize& field : fields) {
            MapScene scene;
            scene.setState(state);
            MapView view(scene);
            view.setMinimumSize(field);
            view.resize(field);
            view.show();
            QCoreApplication::processEvents();
            ASSERT_EQ(view.viewport()->size(), field);
            for (const std::string& fault : wordFaults(scene.layout())) {
                faulty += 1;
                ADD_FAILURE() << named.name << " at " << field.width() << " x " << field.height() << ": " << fault;
            }
            // What the view shows holds every item with words.
            const QRectF shown = view.mapToScene(view.viewport()->rect()).boundingRect().adjusted(-1, -1, 1, 1);
            for (const QGraphicsItem* item : scene.items()) {
                if (dynamic_cast<const LabelItem*>(item)) {
                    EXPECT_TRUE(shown.contains(item->boundingRect().adjusted(5, 5, -5, -5)))
                        << named.name << " at " << field.width() << ": words are cut off at the edge";
                }
            }
            QImage image(field, QImage::Format_RGB32);
            QPainter painter(&image);
            view.render(&painter);
            painter.end();
            EXPECT_TRUE(
                image.save(folder + QString("/%1-%2.png").arg(QString::fromStdString(named.name)).arg(field.width())));
        }
    }
    RecordProperty("faulty", faulty);
}

}  // namespace
}  // namespace ohmwright::test
