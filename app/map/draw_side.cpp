// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_side.h"

#include "app/map/draw_hand.h"
#include "app/map/fault_list.h"
#include "app/map/part_fields.h"
#include "app/map/place_fields.h"

#include <QVBoxLayout>

namespace ohmwright {

DrawSide::DrawSide(JobDocument& document, DrawHand& hand, QWidget* parent)
    : QWidget(parent),
      m_part(new PartFields(document, hand, this)),
      m_place(new PlaceFields(document, hand, this)),
      m_faults(new FaultList(this)) {
    setAccessibleName(tr("What is picked"));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(m_part);
    column->addWidget(m_place);
    column->addWidget(m_faults, 1);
    for (EntryForm* form : {static_cast<EntryForm*>(m_part), static_cast<EntryForm*>(m_place)}) {
        connect(form, &EntryForm::done, this, &DrawSide::done);
        connect(form, &EntryForm::refused, this, &DrawSide::refused);
    }
    connect(m_place, &PlaceFields::keepAsked, this, &DrawSide::keepAsked);
    connect(m_faults, &FaultList::done, this, &DrawSide::done);
    connect(m_faults, &FaultList::placeChosen, &hand, &DrawHand::setCaret);
    connect(m_faults, &FaultList::partChosen, &hand, [&hand](const PartId& part) { hand.pick({{part}, {}, {}}); });
    connect(&hand, &DrawHand::valueTyped, m_part, &PartFields::typeValue);
    connect(&hand, &DrawHand::nameAsked, m_place, &PlaceFields::typeNetName);
    connect(&hand, &DrawHand::stageAsked, m_place, &PlaceFields::typeStageName);
    connect(&hand, &DrawHand::frameAsked, m_place, &PlaceFields::typeAreaName);
}

}  // namespace ohmwright
