// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/candidate_list.h"

#include "app/look/theme.h"
#include "app/part/candidate_model.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

namespace ohmwright {

namespace {

constexpr int margin = 14;
constexpr int tagGap = 12;
constexpr int columnGap = 14;

int rowHeight() {
    return qRound(space::row * Theme::current().textScale());
}

int columnWidth(const QString& widest) {
    return QFontMetrics(Theme::current().font(TextRole::body, true)).horizontalAdvance(widest);
}

}  // namespace

int CandidateDelegate::haveRight() {
    return margin;
}

int CandidateDelegate::changeRight(bool withHave) {
    return withHave ? haveRight() + columnWidth(QObject::tr("none")) + columnGap : margin;
}

int CandidateDelegate::cornerRight(bool withHave) {
    // The heading "at 1.05 kHz" is the widest thing in its column.
    const int heading = QFontMetrics(Theme::current().font(TextRole::caption)).horizontalAdvance(tr("at 1.05 kHz"));
    return changeRight(withHave) + std::max(columnWidth("−00.00"), heading) + columnGap;
}

QSize CandidateDelegate::sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const {
    return {160, rowHeight()};
}

void CandidateDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const Theme& theme = Theme::current();
    const ThemeColours& colours = theme.colours();
    const bool isNow = index.data(CandidateModel::nowRole).toBool();
    const bool isGhost = index.data(CandidateModel::ghostRole).toBool();
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->fillRect(option.rect, isNow ? colours.nowSoft : colours.panel);
    const bool isUsedUp = index.data(CandidateModel::usedUpRole).toBool();
    const bool withHave = !index.data(CandidateModel::haveRole).toString().isEmpty();
    const QColor colour = isNow ? colours.now : isUsedUp ? colours.ink3 : colours.ink;
    const QRect words = option.rect.adjusted(margin, 0, 0, 0);
    const auto put = [&](const QFont& font, const QColor& ink, const QRect& box, Qt::Alignment side, int role) {
        painter->setFont(font);
        painter->setPen(ink);
        painter->drawText(box, static_cast<int>(side | Qt::AlignVCenter), index.data(role).toString());
    };
    const QFont nameFont = theme.font(TextRole::figure, isNow);
    put(nameFont, colour, words, Qt::AlignLeft, Qt::DisplayRole);
    const int tagLeft = std::max(QFontMetrics(nameFont).horizontalAdvance(index.data().toString()),
                                 QFontMetrics(nameFont).horizontalAdvance("000n")) +
                        tagGap;
    put(theme.font(TextRole::caption, isNow), isNow ? colours.now : colours.ink3, words.adjusted(tagLeft, 0, 0, 0),
        Qt::AlignLeft, CandidateModel::tagRole);
    const QFont figureFont = theme.font(TextRole::body, isNow);
    put(figureFont, colour, option.rect.adjusted(0, 0, -cornerRight(withHave), 0), Qt::AlignRight,
        CandidateModel::cornerRole);
    put(figureFont, colour, option.rect.adjusted(0, 0, -changeRight(withHave), 0), Qt::AlignRight,
        CandidateModel::changeRole);
    put(theme.font(TextRole::body), colour, option.rect.adjusted(0, 0, -haveRight(), 0), Qt::AlignRight,
        CandidateModel::haveRole);
    if (isGhost && !isNow) {
        QPen dashes(colours.ghost, 1.4);
        dashes.setDashPattern({3.0, 2.0});
        painter->setPen(dashes);
        painter->setBrush(Qt::NoBrush);
        painter->drawRect(QRectF(option.rect).adjusted(2.5, 2.5, -2.5, -2.5));
    }
    if (option.state.testFlag(QStyle::State_HasFocus)) {
        painter->setPen(QPen(colours.focus, line::focus));
        painter->setBrush(Qt::NoBrush);
        painter->drawRect(QRectF(option.rect).adjusted(1, 1, -1, -1));
    }
    painter->restore();
}

CandidateList::CandidateList(QWidget* parent) : QListView(parent) {
    setItemDelegate(new CandidateDelegate(this));
    setFrameShape(QFrame::NoFrame);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setEditTriggers(QAbstractItemView::NoEditTriggers);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
    setMouseTracking(true);
    viewport()->setAutoFillBackground(false);
    setProperty("focusOutline", false);  // the row under the keyboard is outlined
    connect(this, &QListView::entered, this, &CandidateList::tried);
    connect(&Theme::current(), &Theme::changed, this, [this] {
        doItemsLayout();
        updateGeometry();
    });
}

QSize CandidateList::sizeHint() const {
    return {space::rightRail, rowHeight() * (model() ? model()->rowCount() : 0)};
}

void CandidateList::currentChanged(const QModelIndex& current, const QModelIndex& previous) {
    QListView::currentChanged(current, previous);
    if (m_isKeyboard) {
        emit tried(current);
    }
}

void CandidateList::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
        case Qt::Key_Return:
        case Qt::Key_Enter:
        case Qt::Key_Space:
            if (currentIndex().isValid()) {
                emit taken(currentIndex());
            }
            return;
        case Qt::Key_Escape:
            emit tried({});
            event->ignore();
            return;
        case Qt::Key_Up:
        case Qt::Key_Down:
        case Qt::Key_Home:
        case Qt::Key_End:
            m_isKeyboard = true;
            QListView::keyPressEvent(event);
            m_isKeyboard = false;
            return;
        default:
            event->ignore();
    }
}

void CandidateList::mousePressEvent(QMouseEvent* event) {
    QListView::mousePressEvent(event);
    event->accept();
}

void CandidateList::mouseReleaseEvent(QMouseEvent* event) {
    QListView::mouseReleaseEvent(event);
    const QModelIndex index = indexAt(event->position().toPoint());
    if (event->button() == Qt::LeftButton && index.isValid() && index == currentIndex()) {
        emit taken(index);
    }
}

void CandidateList::focusOutEvent(QFocusEvent* event) {
    QListView::focusOutEvent(event);
    emit tried({});
}

bool CandidateList::viewportEvent(QEvent* event) {
    if (event->type() == QEvent::Leave) {
        emit tried({});
    }
    return QListView::viewportEvent(event);
}

}  // namespace ohmwright
