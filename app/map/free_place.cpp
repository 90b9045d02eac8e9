// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/free_place.h"

#include <limits>

namespace ohmwright {
namespace {

constexpr double laterIsWorse = 4.0;  // px² a place: of two bad ones the earlier, unless it hides clearly more

}  // namespace

QRectF takeFreeBox(const std::vector<QRectF>& wished, Obstacles& drawn) {
    Q_ASSERT(!wished.empty());
    QRectF best = wished.front();
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < wished.size(); ++i) {
        const double covered = drawn.covered(wished[i], least);
        if (covered == 0.0) {
            best = wished[i];
            break;
        }
        if (covered + laterIsWorse * static_cast<double>(i) < least) {
            best = wished[i];
            least = covered + laterIsWorse * static_cast<double>(i);
        }
    }
    drawn.boxes.push_back(best);
    return best;
}

std::vector<QRectF> boxesRound(const QRectF& body, const QSizeF& size, double gap) {
    const double left = body.left() - gap - size.width();
    const double right = body.right() + gap;
    const double above = body.top() - gap - size.height();
    const double below = body.bottom() + gap;
    const double centre = body.center().x() - size.width() / 2;
    const double middle = body.center().y() - size.height() / 2;
    std::vector<QRectF> boxes;
    for (const QPointF& at :
         {QPointF(centre, below), QPointF(centre, above), QPointF(right, middle), QPointF(left, middle),
          QPointF(right, below), QPointF(left, below), QPointF(right, above), QPointF(left, above)}) {
        boxes.emplace_back(at, size);
    }
    return boxes;
}

}  // namespace ohmwright
