/// The screens in grey, as a printer without colours gives them: saved for the eye, and the curves and triangles
/// measured where they stand on the screen.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/open_window.h"

#include "app/curves/response_plot.h"
#include "app/map/map_layout.h"
#include "app/papers/papers_place.h"
#include "core/plan/edits.h"
#include "tests/app/look/grey_picture.h"

#include <algorithm>
#include <map>

namespace ohmwright::test {
namespace {

class GreyScreens : public OpenWindow, public testing::WithParamInterface<ThemeKind> {
protected:
    GreyScreens() {
        Theme::current().setKind(GetParam());
        EXPECT_TRUE(waitForAnswers());
        QCoreApplication::processEvents();
    }
    ~GreyScreens() override { Theme::current().setKind(ThemeKind::light); }
    GreyScreens(const GreyScreens&) = delete;
    GreyScreens& operator=(const GreyScreens&) = delete;

    QImage grey(const char* name) {
        const QImage picture = inGrey(window->grab().toImage());
        const QString pictures = QString::fromLocal8Bit(OHMWRIGHT_PICTURES_DIR "/screens");
        QDir().mkpath(pictures);
        const char* theme = GetParam() == ThemeKind::light ? "light" : "dark";
        EXPECT_TRUE(picture.save(QString("%1/grey-%2-%3.png").arg(pictures, name, theme)));
        return picture;
    }

    /// A curve of the response on the picture, where the other one is more than a line away.
    [[nodiscard]] LineLook curveOn(const QImage& picture, const ResponseCurve& own, const ResponseCurve& other) {
        const auto* plot = window->findChild<ResponsePlot*>();
        const QPoint origin = plot->mapTo(&*window, QPoint(0, 0));
        const int ground = qGray(Theme::current().colours().canvas.rgb());
        constexpr int reach = 4;
        constexpr double apart = 2.0 * reach + 2.0;
        std::map<int, bool> inkAt;
        int thickest = 0;
        for (std::size_t i = 0; i + 1 < own.hz.size(); ++i) {
            // Point by point along the line, one a column.
            const QPointF from = plot->pointOf(own.hz[i], own.gainDb[i]);
            const QPointF to = plot->pointOf(own.hz[i + 1], own.gainDb[i + 1]);
            const double otherY = plot->pointOf(other.hz[i], other.gainDb[i]).y();
            const bool isLevel = std::abs(to.y() - from.y()) < 0.4 * (to.x() - from.x());
            for (int x = static_cast<int>(std::ceil(from.x())); x < to.x() && isLevel; ++x) {
                const double y = from.y() + (x - from.x()) / (to.x() - from.x()) * (to.y() - from.y());
                if (std::abs(y - otherY) < apart) {
                    continue;
                }
                int rows = 0;
                for (int dy = -reach; dy <= reach; ++dy) {
                    rows += isInk(picture, origin.x() + x, origin.y() + qRound(y) + dy, ground) ? 1 : 0;
                }
                inkAt[x] = rows > 0;
                thickest = std::max(thickest, rows);
            }
        }
        std::vector<bool> along;
        for (const auto& [x, isInked] : inkAt) {
            along.push_back(isInked);
        }
        EXPECT_GT(along.size(), 100U) << "too little of the curve stands alone";
        return lookOf(along, thickest);
    }

    /// Share of ink in the foot of a triangle on the map: all but its letter, or its dashed outline alone.
    [[nodiscard]] double fillOf(const QImage& picture, const PartId& part) {
        MapView& view = window->map().view();
        for (const MapLabel& label : window->map().scene().layout().labels) {
            if (label.part != part || label.label.marks.empty()) {
                continue;
            }
            const QRectF box = label.label.marks.front();
            const QPoint low =
                view.viewport()->mapTo(&*window, view.mapFromScene(QPointF(box.center().x(), box.bottom())));
            const int half = std::max(2, qRound(0.3 * box.width() * view.transform().m11()));
            const int ground = qGray(Theme::current().colours().canvas.rgb());
            constexpr int rows = 6;
            int inked = 0;
            for (int y = 1; y <= rows; ++y) {
                for (int x = -half; x <= half; ++x) {
                    inked += isInk(picture, low.x() + x, low.y() - y, ground) ? 1 : 0;
                }
            }
            return inked / (rows * (2.0 * half + 1.0));
        }
        ADD_FAILURE() << "no triangle at " << part;
        return 0.0;
    }
};

TEST_P(GreyScreens, StockAndNowAreToldApartOnTheCurves) {
    const QImage picture = grey("map");
    const auto answer = window->solver().linear();
    const LineLook stock = curveOn(picture, answer->stock.response, answer->now.response);
    const LineLook now = curveOn(picture, answer->now.response, answer->stock.response);
    EXPECT_GT(now.inked, 0.98) << "now is solid";
    EXPECT_LT(stock.inked, 0.9) << "stock is dashed";
    EXPECT_GT(stock.inked, 0.4);
    EXPECT_FALSE(stock.isLike(now));
}

TEST_P(GreyScreens, AModThatIsOnIsToldFromOneThatIsOffOnTheMap) {
    // A is on, C is off: C4 and R5.
    const QImage picture = grey("map");
    EXPECT_GT(fillOf(picture, idOf("C4")), 0.55);
    EXPECT_LT(fillOf(picture, idOf("R5")), 0.45);
    ASSERT_TRUE(window->document().edit(setModOn(job(), job().plan[0].id, false), "off"));
    ASSERT_TRUE(window->document().edit(setModOn(job(), job().plan[2].id, true), "on"));
    ASSERT_TRUE(waitForAnswers());
    QTest::qWait(50);
    const QImage changed = grey("map-c");
    EXPECT_LT(fillOf(changed, idOf("C4")), 0.45);
    EXPECT_GT(fillOf(changed, idOf("R5")), 0.55);
}

TEST_P(GreyScreens, WhoOwnsTheFrequencyIsSaidByFiguresWithASign) {
    window->actions().action("view.owners")->trigger();
    ASSERT_TRUE(QTest::qWaitFor([this] { return !window->map().scene().ownerMarks().empty(); }, 60'000));
    grey("owners");
    for (const OwnerMark& mark : window->map().scene().ownerMarks()) {
        EXPECT_TRUE(mark.figure.startsWith('+') || mark.figure.startsWith(QChar(0x2212))) << mark.figure.toStdString();
    }
}

TEST_P(GreyScreens, EveryPlaceHasItsGreyPicture) {
    for (const Place place : allPlaces) {
        window->showPlace(place);
        QTest::qWait(place == Place::map ? 10 : 1500);
        EXPECT_FALSE(grey(QString(placeName(place)).toLower().replace(' ', '-').toUtf8().constData()).isNull());
    }
}

INSTANTIATE_TEST_SUITE_P(Themes, GreyScreens, testing::Values(ThemeKind::light, ThemeKind::dark));

}  // namespace
}  // namespace ohmwright::test
