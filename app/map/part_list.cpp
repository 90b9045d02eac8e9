// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/part_list.h"

#include "app/look/painters.h"
#include "app/look/sign_text.h"
#include "app/look/symbols.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/map/part_list_model.h"
#include "app/map/value_keys.h"

#include <QContextMenuEvent>
#include <QHeaderView>
#include <QKeyEvent>
#include <QPainter>
#include <QVBoxLayout>
#include <QWheelEvent>

#include <algorithm>
#include <array>

namespace ohmwright {

namespace {

// px at 96 dpi and text scale 1.
constexpr int margin = 14;
constexpr int cellGap = 10;
constexpr int indentStep = 14;
constexpr int triangleWidth = 22;
constexpr int triangleHeight = 20;
constexpr int symbolWidth = 40;
constexpr int symbolHeight = 30;
/// As much of the leads as tells which way they go.
constexpr double leadShown = 11.0;
constexpr double largestSymbolScale = 0.62;
constexpr int widestPart = 220;
constexpr int widestValue = 320;
constexpr int widestRead = 400;  ///< Rows whose words are measured; the column of a longer list may cut some.
/// A step of an ordinary wheel: 15 degrees in eighths.
constexpr int wheelStep = 120;
/// A wheel that has just scrolled goes on scrolling, whatever comes under the pointer.
constexpr int scrollingMilliseconds = 500;

int scaled(int pixels) {
    return qRound(pixels * Theme::current().textScale());
}

int rowHeight() {
    return scaled(space::row);
}

/// Room at the left of the part's name: the margin, its calls, and the column of triangles.
int nameLeft(int depth) {
    return scaled(margin + triangleWidth + 6 + depth * indentStep);
}

class ListHeader : public QHeaderView {
public:
    explicit ListHeader(QWidget* parent) : QHeaderView(Qt::Horizontal, parent) {
        setSectionsMovable(false);
        setSectionsClickable(false);
        setHighlightSections(false);
        setStretchLastSection(true);
    }

    [[nodiscard]] QSize sizeHint() const override {
        return {QHeaderView::sizeHint().width(),
                QFontMetrics(Theme::current().font(TextRole::caption)).height() + scaled(8)};
    }

protected:
    void paintSection(QPainter* painter, const QRect& box, int section) const override {
        const ThemeColours& colours = Theme::current().colours();
        painter->fillRect(box, colours.canvas);
        painter->setFont(Theme::current().font(TextRole::caption));
        painter->setPen(colours.ink3);
        const int left = section == PartListModel::partColumn ? nameLeft(0) : 0;
        painter->drawText(box.adjusted(left, 0, -cellGap, 0), Qt::AlignLeft | Qt::AlignVCenter,
                          model()->headerData(section, Qt::Horizontal, Qt::DisplayRole).toString());
        painter->fillRect(box.left(), box.bottom(), box.width(), 1, colours.hair);
    }
};

void paintSmallSymbol(QPainter& painter, const QRect& cell, const Part& part, bool turned) {
    const ThemeColours& colours = Theme::current().colours();
    const Symbol symbol = symbolOf(part, symbolStandard(), turned);
    const QRectF near = symbol.bodyBox.adjusted(-leadShown, -leadShown, leadShown, leadShown);
    const QRectF whole = symbol.leads.boundingRect().united(symbol.bodyBox).intersected(near);
    const QSizeF room(scaled(symbolWidth), scaled(symbolHeight));
    const double scale = std::min({room.width() / whole.width(), room.height() / whole.height(), largestSymbolScale});
    painter.save();
    painter.translate(cell.left() + room.width() / 2.0, cell.center().y() + 0.5);
    painter.scale(scale, scale);
    // By the body's middle: sensing pins hang below it.
    painter.translate(-whole.center().x(), -symbol.bodyBox.center().y());
    painter.setClipRect(whole.adjusted(-2, -2, 2, 2), Qt::IntersectClip);
    paintSymbol(painter, symbol, {colours.ink, colours.ink, colours.canvas, false});
    painter.restore();
}

void paintPartCell(QPainter& painter, const QRect& cell, const QModelIndex& index) {
    const Theme& theme = Theme::current();
    const ThemeColours& colours = theme.colours();
    const QString letter = index.data(PartListModel::markRole).toString();
    const int side = scaled(triangleHeight);
    const QRectF sign(cell.left() + scaled(margin), cell.center().y() + 0.5 - side / 2.0, scaled(triangleWidth), side);
    if (index.data(PartListModel::faultRole).toBool()) {
        paintStopSign(painter, QRectF(sign.left(), sign.top(), side, side).adjusted(2, 2, -2, -2));
    } else if (!letter.isEmpty()) {
        paintRevisionTriangle(
            painter, sign, letter,
            index.data(PartListModel::markOnRole).toBool() ? TriangleState::active : TriangleState::off);
    }
    const int depth = index.data(PartListModel::depthRole).toInt();
    for (int call = 0; call < depth; ++call) {
        painter.fillRect(cell.left() + nameLeft(call) + 2, cell.top(), 1, cell.height(), colours.gridMajor);
    }
    const QRect words = cell.adjusted(nameLeft(depth), 0, -cellGap, 0);
    const QFont font = theme.font(TextRole::body, true);
    painter.setFont(font);
    painter.setPen(colours.ink);
    painter.drawText(words, Qt::AlignLeft | Qt::AlignVCenter,
                     QFontMetrics(font).elidedText(index.data().toString(), Qt::ElideMiddle, words.width()));
}

void paintValueCell(QPainter& painter, const QRect& cell, const QModelIndex& index) {
    const Theme& theme = Theme::current();
    const ThemeColours& colours = theme.colours();
    const QString stock = index.data(PartListModel::stockRole).toString();
    const QString now = index.data(PartListModel::nowRole).toString();
    const QFont font = theme.font(TextRole::body);
    const QFontMetrics metrics(font);
    painter.setFont(font);
    const double baseline = cell.top() + (cell.height() + metrics.ascent() - metrics.descent()) / 2.0;
    double used = 0.0;
    if (stock.isEmpty()) {
        const QString shown = metrics.elidedText(now, Qt::ElideRight, cell.width() - cellGap);
        painter.setPen(colours.ink);
        painter.drawText(QPointF(cell.left(), baseline), shown);
        used = metrics.horizontalAdvance(shown);
    } else {
        used = paintStockToNow(painter, QPointF(cell.left(), baseline), stock, now);
    }
    const QString fitting = index.data(PartListModel::fittingRole).toString();
    if (!fitting.isEmpty()) {
        painter.setFont(font);
        painter.setPen(colours.now);
        const double left = cell.left() + used + cellGap;
        painter.drawText(QPointF(left, baseline),
                         metrics.elidedText(fitting, Qt::ElideRight, qRound(cell.right() - cellGap - left)));
    }
}

}  // namespace

// --- cells -------------------------------------------------------------------------------------------------------

QSize PartListDelegate::sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const {
    return {scaled(100), rowHeight()};
}

void PartListDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const Theme& theme = Theme::current();
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->setClipRect(option.rect);
    if (index.column() == PartListModel::partColumn) {
        paintPartCell(*painter, option.rect, index);
    } else if (index.column() == PartListModel::valueColumn) {
        paintValueCell(*painter, option.rect, index);
    } else {
        QRect words = option.rect.adjusted(0, 0, -cellGap, 0);
        if (index.column() == PartListModel::kindColumn) {
            const auto* model = static_cast<const PartListModel*>(index.model());
            paintSmallSymbol(*painter, option.rect, model->part(index.row()), model->isTurned(index.row()));
            words.setLeft(words.left() + scaled(symbolWidth + cellGap));
        }
        const QFont font = theme.font(TextRole::body);
        painter->setFont(font);
        painter->setPen(theme.colours().ink2);
        painter->drawText(words, Qt::AlignLeft | Qt::AlignVCenter,
                          QFontMetrics(font).elidedText(index.data().toString(), Qt::ElideRight, words.width()));
    }
    painter->restore();
}

// --- table -------------------------------------------------------------------------------------------------------

PartTable::PartTable(PartListModel& model, QWidget* parent) : QTreeView(parent), m_model(model) {
    setHeader(new ListHeader(this));
    setItemDelegate(new PartListDelegate(this));
    setModel(&model);
    setRootIsDecorated(false);
    setItemsExpandable(false);
    setUniformRowHeights(true);
    setAllColumnsShowFocus(true);
    setFrameShape(QFrame::NoFrame);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setSelectionBehavior(QAbstractItemView::SelectRows);
    setEditTriggers(QAbstractItemView::NoEditTriggers);
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setAccessibleName(tr("Parts"));
    viewport()->setAutoFillBackground(false);
    // As on the map, brackets show what the keys act on.
    setProperty("focusOutline", false);
    connect(&model, &QAbstractItemModel::modelReset, this, &PartTable::fitColumns);
    connect(&Theme::current(), &Theme::changed, this, [this] {
        doItemsLayout();
        fitColumns();
    });
}

void PartTable::setSelected(const PartId& part) {
    const int row = m_model.rowOf(part);
    const QModelIndex wanted = row < 0 ? QModelIndex() : m_model.index(row, 0);
    if (m_selected == part && currentIndex().row() == row) {
        return;
    }
    m_selected = part;
    m_isFollowing = true;
    setCurrentIndex(wanted);
    m_isFollowing = false;
    if (wanted.isValid()) {
        scrollTo(wanted, QAbstractItemView::EnsureVisible);
    } else {
        clearSelection();
    }
    viewport()->update();
}

void PartTable::currentChanged(const QModelIndex& current, const QModelIndex& previous) {
    QTreeView::currentChanged(current, previous);
    viewport()->update();
    if (!m_isFollowing && current.isValid()) {
        m_selected = m_model.part(current.row()).id;
        emit partChosen(m_selected);
    }
}

void PartTable::drawRow(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const ThemeColours& colours = Theme::current().colours();
    const bool isSelected = index.row() == currentIndex().row() && currentIndex().isValid();
    const QRect row(0, option.rect.top(), viewport()->width(), option.rect.height());
    painter->fillRect(row, isSelected ? colours.app : colours.canvas);
    painter->fillRect(row.left() + scaled(margin), row.bottom(), row.width() - 2 * scaled(margin), 1, colours.grid);
    // The delegate draws every cell on the row's own ground.
    QStyleOptionViewItem plain = option;
    plain.state &= ~(QStyle::State_Selected | QStyle::State_HasFocus);
    for (int column = 0; column < m_model.columnCount(); ++column) {
        plain.rect = QRect(columnViewportPosition(column), row.top(), columnWidth(column), row.height());
        itemDelegate()->paint(painter, plain, index.siblingAtColumn(column));
    }
    if (isSelected) {
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        paintSelectionBrackets(*painter, QRectF(row).adjusted(4, 3, -4, -3));
        painter->restore();
    }
}

void PartTable::fitColumns() {
    const QFontMetrics bold(Theme::current().font(TextRole::body, true));
    const QFontMetrics plain(Theme::current().font(TextRole::body));
    int part = bold.horizontalAdvance("R10");
    int kind = plain.horizontalAdvance(tr("resistor"));
    int value = plain.horizontalAdvance(tr("Value or type"));
    for (int row = 0; row < std::min(m_model.rowCount(), widestRead); ++row) {
        const auto words = [&](int column) { return m_model.index(row, column).data().toString(); };
        const int depth = m_model.index(row, 0).data(PartListModel::depthRole).toInt();
        part = std::max(part, bold.horizontalAdvance(words(PartListModel::partColumn)) + scaled(depth * indentStep));
        kind = std::max(kind, plain.horizontalAdvance(words(PartListModel::kindColumn)));
        value = std::max(value, plain.horizontalAdvance(words(PartListModel::valueColumn)));
    }
    // Stock and now side by side need twice the room of a short value.
    const int pair = 2 * bold.horizontalAdvance("100k") + cellGap + scaled(40);
    const int partWidth = nameLeft(0) + std::min(part, scaled(widestPart)) + 2 * cellGap;
    const int kindWidth = scaled(symbolWidth) + kind + 3 * cellGap;
    const int valueWidth = std::clamp(value, pair, scaled(widestValue)) + 2 * cellGap;
    // The nets are what tells parts apart: they keep a quarter, and the kind's words give way first.
    const int spare = viewport()->width() * 3 / 4 - partWidth - valueWidth;
    setColumnWidth(PartListModel::partColumn, partWidth);
    setColumnWidth(PartListModel::kindColumn, std::clamp(kindWidth, scaled(symbolWidth) + cellGap,
                                                         std::max(spare, scaled(symbolWidth) + 8 * cellGap)));
    setColumnWidth(PartListModel::valueColumn, valueWidth);
}

bool PartTable::event(QEvent* event) {
    // Digits belong to the value here, whatever else they call elsewhere in the window.
    if (event->type() == QEvent::ShortcutOverride && !m_selected.empty() &&
        isDigitKey(*static_cast<QKeyEvent*>(event))) {
        event->accept();
        return true;
    }
    return QTreeView::event(event);
}

void PartTable::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
        case Qt::Key_Up:
        case Qt::Key_Down:
        case Qt::Key_Home:
        case Qt::Key_End:
            QTreeView::keyPressEvent(event);
            return;
        // The path has one direction in a list.
        case Qt::Key_Left:
        case Qt::Key_Right: {
            const int row = currentIndex().isValid() ? currentIndex().row() : -1;
            const int next = std::clamp(row + (event->key() == Qt::Key_Right ? 1 : -1), 0, m_model.rowCount() - 1);
            setCurrentIndex(m_model.index(next, 0));
            return;
        }
        case Qt::Key_PageUp:
        case Qt::Key_PageDown:
            if (!m_selected.empty()) {
                emit valueStepped(m_selected, event->key() == Qt::Key_PageUp ? 1 : -1, event->modifiers());
            }
            return;
        default:
            break;
    }
    if (!m_selected.empty() && startsValue(*event)) {
        emit typedOnPart(event->text());
        return;
    }
    event->ignore();
}

bool PartTable::stepsAt(const QPoint& position) const {
    const QModelIndex index = indexAt(position);
    const bool isScrolling = m_scrolled.isValid() && m_scrolled.elapsed() < scrollingMilliseconds;
    return !isScrolling && index.isValid() && index.row() == currentIndex().row() &&
           index.column() == PartListModel::valueColumn && hasValue(m_model.part(index.row()).kind);
}

void PartTable::wheelEvent(QWheelEvent* event) {
    if (!stepsAt(event->position().toPoint())) {
        m_wheelRest = 0;
        m_scrolled.start();
        QTreeView::wheelEvent(event);
        return;
    }
    event->accept();
    // Alt turns the wheel sideways on some desktops.
    const QPoint angle = event->angleDelta();
    m_wheelRest += angle.y() != 0 ? angle.y() : angle.x();
    const int steps = m_wheelRest / wheelStep;
    if (steps != 0) {
        m_wheelRest -= steps * wheelStep;
        emit valueStepped(m_selected, steps, event->modifiers());
    }
}

void PartTable::contextMenuEvent(QContextMenuEvent* event) {
    const bool isByKey = event->reason() == QContextMenuEvent::Keyboard;
    const QModelIndex index = isByKey ? currentIndex() : indexAt(event->pos());
    if (!index.isValid()) {
        return;
    }
    setCurrentIndex(index);
    const QPoint place =
        isByKey ? viewport()->mapToGlobal(visualRect(index.siblingAtColumn(PartListModel::valueColumn)).center())
                : event->globalPos();
    emit contextMenuAsked(m_model.part(index.row()).id, place);
    event->accept();
}

void PartTable::focusInEvent(QFocusEvent* event) {
    // Not the base's: it makes the first row current by itself, whoever gave the keyboard. What is left is to paint.
    update();
    viewport()->update();
    // Keys need a part to act on: coming in by Tab takes the first one.
    if (event->reason() == Qt::TabFocusReason && !currentIndex().isValid() && m_model.rowCount() > 0) {
        setCurrentIndex(m_model.index(0, 0));
    }
}

void PartTable::resizeEvent(QResizeEvent* event) {
    QTreeView::resizeEvent(event);
    fitColumns();
}

// --- list --------------------------------------------------------------------------------------------------------

PartList::PartList(QWidget* parent)
    : QWidget(parent),
      m_model(new PartListModel(this)),
      m_note(new ThemedLabel(TextRole::caption, false, &ThemeColours::ink3, this)),
      m_fault(new SignText(this)),
      m_table(new PartTable(*m_model, this)) {
    m_note->setText(tr("No drawing yet: the circuit as a list."));
    m_note->setContentsMargins(margin, 6, margin, 2);
    m_fault->setContentsMargins(margin, 2, margin, 2);
    m_fault->hide();
    auto* faultRow = new QHBoxLayout;
    faultRow->setContentsMargins(margin, 2, margin, 4);
    faultRow->addWidget(m_fault);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(m_note);
    column->addLayout(faultRow);
    column->addWidget(m_table, 1);
    setFocusProxy(m_table);
}

void PartList::setState(const MapState& state) {
    m_model->setState(state.job, state.holdsStock, state.faultPlace);
    m_fault->setSentence(state.fault, SignKind::stop);
    m_fault->setVisible(!state.fault.isEmpty());
    m_table->setSelected(state.selected);
}

void PartList::paintEvent(QPaintEvent*) {
    QPainter(this).fillRect(rect(), Theme::current().colours().canvas);
}

}  // namespace ohmwright
