// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/look_style.h"

#include "app/look/painters.h"
#include "app/look/theme.h"

#include <QAbstractItemView>
#include <QPainter>
#include <QStyleFactory>
#include <QStyleOption>

#include <algorithm>

namespace ohmwright {
namespace {

constexpr int scrollBarExtent = 12;  // LOOK section 9
constexpr int checkBoxSide = 18;
constexpr int spinHalfWidth = 44;  // tokens hit.spin
constexpr int focusMargin = 4;     // 2 px outline standing 2 px outside
constexpr int shortestSlider = 24;
constexpr int leastHitHeight = 36;  // tokens hit.mouse

void paintFocusOutline(QPainter& painter, const QRectF& box) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(Theme::current().colours().focus, line::focus));
    const double inset = line::focus / 2;
    painter.drawRoundedRect(box.adjusted(inset, inset, -inset, -inset), radius::button, radius::button);
    painter.restore();
}

void paintScrollBar(QPainter& painter, const QRect& groove, const QRect& slider, bool active) {
    const ThemeColours& c = Theme::current().colours();
    painter.save();
    painter.fillRect(groove, c.panel);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(Qt::NoPen);
    painter.setBrush(active ? c.ink3 : c.edge);
    painter.drawRoundedRect(QRectF(slider).adjusted(3, 3, -3, -3), 3, 3);
    painter.restore();
}

void paintSpinHalf(QPainter& painter, const QRect& box, bool plus, bool enabled, bool pressed) {
    const ThemeColours& c = Theme::current().colours();
    if (pressed) {
        painter.fillRect(box.adjusted(1, 1, -1, -1), c.app);
    }
    painter.setPen(QPen(enabled ? c.ink : c.ink3, line::icon, Qt::SolidLine, Qt::RoundCap));
    const QPointF centre = QRectF(box).center();
    constexpr double arm = 4.5;
    painter.drawLine(centre - QPointF(arm, 0), centre + QPointF(arm, 0));
    if (plus) {
        painter.drawLine(centre - QPointF(0, arm), centre + QPointF(0, arm));
    }
}

void paintSpinBox(const LookStyle& style, QPainter& painter, const QStyleOptionSpinBox& option, const QWidget* widget) {
    const ThemeColours& c = Theme::current().colours();
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(c.edge, line::hair));
    painter.setBrush(option.state & QStyle::State_Enabled ? c.raised : c.panel);
    painter.drawRoundedRect(QRectF(option.rect).adjusted(0.5, 0.5, -0.5, -0.5), radius::field, radius::field);
    const QRect up = style.subControlRect(QStyle::CC_SpinBox, &option, QStyle::SC_SpinBoxUp, widget);
    const QRect down = style.subControlRect(QStyle::CC_SpinBox, &option, QStyle::SC_SpinBoxDown, widget);
    if (up.isValid()) {
        painter.setPen(QPen(c.hair, line::hair));
        painter.drawLine(QPointF(up.left() + 0.5, up.top()), QPointF(up.left() + 0.5, down.bottom()));
        painter.drawLine(QPointF(up.left(), down.top() + 0.5), QPointF(up.right(), down.top() + 0.5));
        const bool sunken = option.state & QStyle::State_Sunken;
        paintSpinHalf(painter, up, true, option.stepEnabled & QAbstractSpinBox::StepUpEnabled,
                      sunken && option.activeSubControls == QStyle::SC_SpinBoxUp);
        paintSpinHalf(painter, down, false, option.stepEnabled & QAbstractSpinBox::StepDownEnabled,
                      sunken && option.activeSubControls == QStyle::SC_SpinBoxDown);
    }
    painter.restore();
}

/// A chevron that says "opens".
void paintChevron(QPainter& painter, const QPointF& centre, const QColor& colour) {
    painter.setPen(QPen(colour, line::icon, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(QPolygonF{centre + QPointF(-4, -2), centre + QPointF(0, 2), centre + QPointF(4, -2)});
}

void paintComboBox(QPainter& painter, const QStyleOptionComboBox& option) {
    const ThemeColours& c = Theme::current().colours();
    const bool enabled = option.state & QStyle::State_Enabled;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(enabled ? c.edge : c.hair, line::hair));
    painter.setBrush(enabled ? c.raised : c.panel);
    painter.drawRoundedRect(QRectF(option.rect).adjusted(0.5, 0.5, -0.5, -0.5), radius::field, radius::field);
    paintChevron(painter, QPointF(option.rect.right() - 14, option.rect.center().y() + 0.5), enabled ? c.ink2 : c.ink3);
    painter.restore();
}

void paintRadioButton(QPainter& painter, const QStyleOption& option) {
    const ThemeColours& c = Theme::current().colours();
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const QRectF ring = QRectF(option.rect).adjusted(1, 1, -1, -1);
    const bool on = option.state & QStyle::State_On;
    painter.setPen(QPen(on ? c.ink : c.edge, 1.6));
    painter.setBrush(c.raised);
    painter.drawEllipse(ring);
    if (on) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(c.ink);
        painter.drawEllipse(ring.adjusted(4, 4, -4, -4));
    }
    painter.restore();
}

void paintSlider(QPainter& painter, const QRect& groove, const QRect& handle, bool across) {
    const ThemeColours& c = Theme::current().colours();
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const QRectF track = across ? QRectF(groove.left(), groove.center().y() - 1.0, groove.width(), 3)
                                : QRectF(groove.center().x() - 1.0, groove.top(), 3, groove.height());
    painter.fillRect(track, c.edge);
    painter.setPen(QPen(c.ink, line::body));
    painter.setBrush(c.raised);
    const double side = std::min(handle.width(), handle.height()) - 3.0;
    painter.drawEllipse(QRectF(handle).center(), side / 2, side / 2);
    painter.restore();
}

QRect spinBoxRect(const QRect& box, bool buttons, QStyle::SubControl part) {
    const int half = buttons ? qMin(spinHalfWidth, box.width() / 3) : 0;
    const int left = box.right() - half + 1;
    const int middle = box.top() + box.height() / 2;
    switch (part) {
        case QStyle::SC_SpinBoxUp:
            return {left, box.top(), half, middle - box.top()};
        case QStyle::SC_SpinBoxDown:
            return {left, middle, half, box.bottom() - middle + 1};
        case QStyle::SC_SpinBoxEditField:
            return box.adjusted(8, 2, -half - 4, -2);
        default:
            return box;
    }
}

QRect scrollBarRect(const QStyleOptionSlider& option, QStyle::SubControl part) {
    const QRect box = option.rect;
    const bool across = option.orientation == Qt::Horizontal;
    const int length = across ? box.width() : box.height();
    const int range = option.maximum - option.minimum;
    int sliderLength = length;
    if (range > 0) {
        const double share = static_cast<double>(option.pageStep) / (static_cast<double>(range) + option.pageStep);
        sliderLength = qBound(qMin(shortestSlider, length), qRound(share * length), length);
    }
    const int start = QStyle::sliderPositionFromValue(option.minimum, option.maximum, option.sliderPosition,
                                                      length - sliderLength, option.upsideDown);
    const auto piece = [&](int from, int to) {
        return across ? QRect(box.left() + from, box.top(), to - from, box.height())
                      : QRect(box.left(), box.top() + from, box.width(), to - from);
    };
    switch (part) {
        case QStyle::SC_ScrollBarSlider:
            return piece(start, start + sliderLength);
        case QStyle::SC_ScrollBarSubPage:
            return piece(0, start);
        case QStyle::SC_ScrollBarAddPage:
            return piece(start + sliderLength, length);
        case QStyle::SC_ScrollBarGroove:
            return box;
        default:
            return {};
    }
}

}  // namespace

LookStyle::LookStyle() : QProxyStyle(QStyleFactory::create("Fusion")) {}

void LookStyle::drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                              const QWidget* widget) const {
    switch (element) {
        case PE_IndicatorCheckBox:
        case PE_IndicatorItemViewItemCheck:
            paintCheckBox(*painter, option->rect, option->state & State_On, Theme::current().colours().ink,
                          Theme::current().colours().panel);
            return;
        case PE_IndicatorRadioButton:
            paintRadioButton(*painter, *option);
            return;
        case PE_FrameFocusRect:
            // Other controls have the outline outside themselves (focus_outline.h).
            if (qobject_cast<const QAbstractItemView*>(widget) != nullptr) {
                paintFocusOutline(*painter, option->rect);
            }
            return;
        case PE_FrameTabBarBase:
            return;
        default:
            QProxyStyle::drawPrimitive(element, option, painter, widget);
    }
}

void LookStyle::drawControl(ControlElement element, const QStyleOption* option, QPainter* painter,
                            const QWidget* widget) const {
    const ThemeColours& c = Theme::current().colours();
    if (element == CE_FocusFrame) {
        paintFocusOutline(*painter, option->rect);
        return;
    }
    if (element == CE_TabBarTabShape) {
        const QRect box = option->rect;
        painter->fillRect(box, c.panel);
        if (option->state & State_Selected) {
            const int mark = qRound(line::tabMark);
            painter->fillRect(QRect(box.left(), box.bottom() - mark + 1, box.width(), mark), c.ink);
        }
        return;
    }
    if (element == CE_TabBarTabLabel) {
        if (const auto* tab = qstyleoption_cast<const QStyleOptionTab*>(option)) {
            const bool selected = tab->state & State_Selected;
            painter->save();
            painter->setFont(Theme::current().font(TextRole::body, selected));
            painter->setPen(selected ? c.ink : c.ink2);
            painter->drawText(tab->rect, Qt::AlignCenter | Qt::TextShowMnemonic, tab->text);
            painter->restore();
            return;
        }
    }
    QProxyStyle::drawControl(element, option, painter, widget);
}

void LookStyle::drawComplexControl(ComplexControl control, const QStyleOptionComplex* option, QPainter* painter,
                                   const QWidget* widget) const {
    if (control == CC_ScrollBar) {
        paintScrollBar(*painter, option->rect, subControlRect(control, option, SC_ScrollBarSlider, widget),
                       option->state & (State_MouseOver | State_Sunken));
        return;
    }
    if (const auto* spin = qstyleoption_cast<const QStyleOptionSpinBox*>(option); control == CC_SpinBox && spin) {
        paintSpinBox(*this, *painter, *spin, widget);
        return;
    }
    if (const auto* combo = qstyleoption_cast<const QStyleOptionComboBox*>(option); control == CC_ComboBox && combo) {
        paintComboBox(*painter, *combo);
        return;
    }
    if (const auto* slider = qstyleoption_cast<const QStyleOptionSlider*>(option); control == CC_Slider && slider) {
        paintSlider(*painter, subControlRect(control, option, SC_SliderGroove, widget),
                    subControlRect(control, option, SC_SliderHandle, widget), slider->orientation == Qt::Horizontal);
        return;
    }
    QProxyStyle::drawComplexControl(control, option, painter, widget);
}

QRect LookStyle::subControlRect(ComplexControl control, const QStyleOptionComplex* option, SubControl part,
                                const QWidget* widget) const {
    if (const auto* slider = qstyleoption_cast<const QStyleOptionSlider*>(option); control == CC_ScrollBar && slider) {
        return scrollBarRect(*slider, part);
    }
    if (const auto* spin = qstyleoption_cast<const QStyleOptionSpinBox*>(option); control == CC_SpinBox && spin) {
        return spinBoxRect(spin->rect, spin->buttonSymbols != QAbstractSpinBox::NoButtons, part);
    }
    if (control == CC_ComboBox && part == SC_ComboBoxEditField) {
        return option->rect.adjusted(10, 2, -28, -2);
    }
    return QProxyStyle::subControlRect(control, option, part, widget);
}

QSize LookStyle::sizeFromContents(ContentsType type, const QStyleOption* option, const QSize& contents,
                                  const QWidget* widget) const {
    QSize size = QProxyStyle::sizeFromContents(type, option, contents, widget);
    // Spin boxes get theirs from the style sheet, which does not ask here.
    if (type == CT_ComboBox) {
        size.setHeight(qMax(size.height(), leastHitHeight));
        size.rwidth() += 16;
    }
    return size;
}

int LookStyle::pixelMetric(PixelMetric metric, const QStyleOption* option, const QWidget* widget) const {
    switch (metric) {
        case PM_ScrollBarExtent:
            return scrollBarExtent;
        case PM_ScrollBarSliderMin:
            return shortestSlider;
        case PM_IndicatorWidth:
        case PM_IndicatorHeight:
            return checkBoxSide;
        case PM_FocusFrameHMargin:
        case PM_FocusFrameVMargin:
            return focusMargin;
        case PM_TabBarTabHSpace:
            return 24;
        case PM_TabBarTabVSpace:
            return 16;
        case PM_TabBarTabShiftVertical:
        case PM_TabBarTabShiftHorizontal:
        case PM_ButtonShiftHorizontal:
        case PM_ButtonShiftVertical:
            return 0;
        case PM_SplitterWidth:
            return 1;
        default:
            return QProxyStyle::pixelMetric(metric, option, widget);
    }
}

int LookStyle::styleHint(StyleHint hint, const QStyleOption* option, const QWidget* widget,
                         QStyleHintReturn* result) const {
    switch (hint) {
        case SH_FocusFrame_AboveWidget:
            return 1;
        case SH_FocusFrame_Mask:
        case SH_EtchDisabledText:
            return 0;
        case SH_UnderlineShortcut:
            return 1;
        case SH_DialogButtonBox_ButtonsHaveIcons:
            return 0;  // words, not a stock picture beside them
        case SH_TabBar_Alignment:
            return Qt::AlignLeft;
        case SH_Widget_Animate:
        case SH_Widget_Animation_Duration:
            return 0;
        default:
            return QProxyStyle::styleHint(hint, option, widget, result);
    }
}

}  // namespace ohmwright
