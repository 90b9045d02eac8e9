// What the hand does in the place Board: legs chosen and marked, photos added.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/board/board_place.h"
#include "app/board/board_view.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/look/text.h"
#include "core/board/board_legs.h"
#include "core/files/file_stem.h"
#include "core/files/photo_file.h"
#include "core/plan/board_marks.h"

#include <QDragEnterEvent>
#include <QFileDialog>
#include <QFileInfo>
#include <QMimeData>

#include <algorithm>

namespace ohmwright {

namespace {

bool isPicture(const QString& path) {
    const QString suffix = QFileInfo(path).suffix().toLower();
    return suffix == "jpg" || suffix == "jpeg" || suffix == "png";
}

}  // namespace

// --- choosing ----------------------------------------------------------------------------------------------------

void BoardPlace::setSide(BoardSide side) {
    m_side = side;
    follow();
}

void BoardPlace::choose(const Leg& leg) {
    m_leg = leg;
    m_isChoosing = true;
    m_selection.setPart(leg.part);
    m_isChoosing = false;
    m_view->setSelected(leg.part, m_leg);
    followWords();
}

void BoardPlace::stepLeg(int steps) {
    if (m_sheet.legs.empty()) {
        return;
    }
    const auto at = std::find_if(m_sheet.legs.begin(), m_sheet.legs.end(),
                                 [this](const PlacedLeg& leg) { return m_leg && leg.leg == *m_leg; });
    const auto last = static_cast<std::ptrdiff_t>(m_sheet.legs.size()) - 1;
    const auto next =
        at == m_sheet.legs.end() ? 0 : std::clamp<std::ptrdiff_t>(at - m_sheet.legs.begin() + steps, 0, last);
    choose(m_sheet.legs[static_cast<std::size_t>(next)].leg);
}

/// To the first leg of the next part, or of the one before.
void BoardPlace::stepPart(int steps) {
    std::vector<Leg> firsts;
    for (const PlacedLeg& leg : m_sheet.legs) {
        if (firsts.empty() || firsts.back().part != leg.leg.part) {
            firsts.push_back(leg.leg);
        }
    }
    if (firsts.empty()) {
        return;
    }
    const auto at =
        std::find_if(firsts.begin(), firsts.end(), [this](const Leg& leg) { return m_leg && leg.part == m_leg->part; });
    const auto last = static_cast<std::ptrdiff_t>(firsts.size()) - 1;
    const auto next = at == firsts.end() ? 0 : std::clamp<std::ptrdiff_t>(at - firsts.begin() + steps, 0, last);
    choose(firsts[static_cast<std::size_t>(next)]);
}

bool BoardPlace::goTo(const QString& words) {
    const QString typed = words.simplified();
    const QString name = typed.section(' ', 0, 0);
    const std::string leg = typed.section(' ', 1).toStdString();
    for (const PlacedLeg& placed : m_sheet.legs) {
        const Part& part = *findPart(*m_circuit, placed.leg.part);
        const bool isPart = name.compare(text(part.reference), Qt::CaseInsensitive) == 0 ||
                            name.compare(text(part.function), Qt::CaseInsensitive) == 0 ||
                            (part.kind == PartKind::opamp &&
                             text(legWords(*m_circuit, placed.leg)).startsWith(name + ' ', Qt::CaseInsensitive));
        if (isPart && (leg.empty() || pinOfWord(part, leg) == placed.leg.pin)) {
            choose(placed.leg);
            return true;
        }
    }
    emit refused(tr("No leg on the board is called \"%1\": type a part and a leg, as in C4 1 or U1 pin 2.").arg(typed));
    return false;
}

// --- marking -----------------------------------------------------------------------------------------------------

void BoardPlace::markNext(const BoardPoint& at) {
    const bool isOwnOpen = m_leg && m_sheet.find(*m_leg) != nullptr && m_sheet.find(*m_leg)->place == LegPlace::unknown;
    const auto leg = isOwnOpen ? m_leg : nextUnmarked(m_sheet, m_selection.part(), m_leg);
    if (!leg) {
        emit refused(tr("Every leg is marked. Drag a ring to put it right."));
        return;
    }
    if (m_document.edit(markLeg(*m_document.job(), m_sheet.face, *leg, m_sheet.turned(at)),
                        tr("Mark %1").arg(text(legWords(*m_circuit, *leg))), JobAspect::words)) {
        choose(*leg);
        if (const auto next = nextUnmarked(m_sheet, leg->part, leg)) {
            choose(*next);
        }
    }
}

void BoardPlace::moveMark(const Leg& leg, const BoardPoint& at, bool byKey) {
    const QString name = text(legWords(*m_circuit, leg));
    m_document.edit(markLeg(*m_document.job(), m_sheet.face, leg, m_sheet.turned(at)),
                    tr("Move the mark of %1").arg(name), JobAspect::words, byKey ? MergeKind::move : MergeKind::never,
                    name);
}

void BoardPlace::unmark(const Leg& leg) {
    m_document.edit(unmarkLeg(*m_document.job(), m_sheet.face, leg),
                    tr("Unmark %1").arg(text(legWords(*m_circuit, leg))), JobAspect::words);
}

// --- photos ------------------------------------------------------------------------------------------------------

bool BoardPlace::addPhoto(const QString& picture) {
    if (m_document.path().isEmpty()) {
        emit refused(tr("Save the job first: its photos lie beside it."));
        return false;
    }
    const QFileInfo jobFile(m_document.path());
    const std::string stem = fileStem(jobFile.completeBaseName().toStdString(), "job");
    const auto photo = m_document.mayEdit()
                           ? copyPhotoIn(picture.toStdString(), jobFile.absolutePath().toStdString(), stem, m_side)
                           : Result<BoardPhoto>(BoardPhoto());
    if (!photo) {
        emit refused(text(photo.error().message));
        return false;
    }
    return m_document.edit(setBoardPhoto(*m_document.job(), m_side, *photo),
                           tr("Add the photo of the %1").arg(text(sideWords(m_side))), JobAspect::words);
}

void BoardPlace::removePhoto() {
    m_document.edit(removeBoardPhoto(*m_document.job(), m_side),
                    tr("Remove the photo of the %1").arg(text(sideWords(m_side))), JobAspect::words);
}

void BoardPlace::askPhoto() {
    const QString picture = QFileDialog::getOpenFileName(this, tr("Photo of the %1").arg(text(sideWords(m_side))), {},
                                                         tr("Pictures (*.jpg *.jpeg *.png *.JPG *.JPEG *.PNG)"));
    if (!picture.isEmpty()) {
        addPhoto(picture);
    }
}

void BoardPlace::dragEnterEvent(QDragEnterEvent* event) {
    const QList<QUrl> urls = event->mimeData()->urls();
    if (!m_isBench && urls.size() == 1 && isPicture(urls.first().toLocalFile())) {
        event->acceptProposedAction();
    } else {
        event->ignore();
    }
}

void BoardPlace::dropEvent(QDropEvent* event) {
    const QString picture = event->mimeData()->urls().value(0).toLocalFile();
    if (isPicture(picture)) {
        event->acceptProposedAction();
        addPhoto(picture);
    }
}

}  // namespace ohmwright
