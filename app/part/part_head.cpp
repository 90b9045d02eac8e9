// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/part_head.h"

#include "app/look/painters.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/part/part_words.h"

#include <QHBoxLayout>
#include <QPainter>
#include <QVBoxLayout>

namespace ohmwright {

namespace {
// px at 96 dpi, from the look's pictures.
constexpr int triangleWidth = 30;
constexpr int triangleHeight = 26;
}  // namespace

PartHead::PartHead(QWidget* parent)
    : QWidget(parent),
      m_name(new ThemedLabel(TextRole::panelTitle, true, &ThemeColours::ink, this)),
      m_role(new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, this)),
      m_place(new ThemedLabel(TextRole::caption, false, &ThemeColours::ink3, this)) {
    auto* words = new QHBoxLayout;
    words->setSpacing(8);
    words->addWidget(m_name);
    words->addWidget(m_role, 1);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, triangleWidth + 8, 0);
    layout->setSpacing(4);
    layout->addLayout(words);
    layout->addWidget(m_place);
    m_role->setWordWrap(true);
    m_place->setWordWrap(true);
}

void PartHead::show(const Part& part, const Mod* mod) {
    const std::string name = displayName(part);
    m_name->setText(QString::fromStdString(name));
    // A name may be longer than the panel is wide.
    m_name->setToolTip(QString("<p>%1</p>").arg(m_name->text().toHtmlEscaped()));
    m_role->setText(roleText(part));
    m_place->setText(placeText(part));
    m_letter = mod ? QString::fromStdString(mod->letter) : QString();
    m_isOn = mod && mod->on;
    const QString words = m_name->text() + ", " + m_role->text();
    setAccessibleName(!mod     ? words
                      : m_isOn ? tr("%1, mod %2 on").arg(words, m_letter)
                               : tr("%1, mod %2 off").arg(words, m_letter));
    update();
}

void PartHead::paintEvent(QPaintEvent*) {
    if (m_letter.isEmpty()) {
        return;
    }
    QPainter painter(this);
    const double scale = Theme::current().textScale();
    const QRectF box(width() - triangleWidth * scale, 0, triangleWidth * scale, triangleHeight * scale);
    paintRevisionTriangle(painter, box, m_letter, m_isOn ? TriangleState::active : TriangleState::off);
}

}  // namespace ohmwright
