// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/recent_list.h"

#include "app/look/said_text.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/window/visit_strip.h"
#include "core/files/job_file.h"

#include <QAbstractButton>
#include <QDateTime>
#include <QFile>
#include <QFileInfo>
#include <QFontMetrics>
#include <QLocale>
#include <QPainter>
#include <QVBoxLayout>

#include <array>
#include <utility>

namespace ohmwright {

namespace {

constexpr int shownFiles = 5;
constexpr std::array states{VisitState::draft, VisitState::quoted, VisitState::onBench, VisitState::proven,
                            VisitState::gone};

/// "today 21:58", "12 Oct"
QString dayWords(const QDateTime& when) {
    const QDate today = QDate::currentDate();
    if (when.date() == today) {
        return RecentList::tr("today %1").arg(shownLocale().toString(when.time(), "HH:mm"));
    }
    return shownLocale().toString(
        when.date(), when.date().year() == today.year() ? QObject::tr("d MMM") : QObject::tr("d MMM yyyy"));
}

/// Name and number in the first line, five bars of the visit and its state in the second.
class RecentRow : public QAbstractButton {
public:
    RecentRow(RecentFile file, QWidget* parent) : QAbstractButton(parent), m_file(std::move(file)) {
        setText(m_file.name);
        setAccessibleName(m_file.name);
        setAccessibleDescription(QString("%1 %2 %3").arg(m_file.serial, visitWords(), m_file.state).simplified());
        setToolTip(m_file.path);
        setEnabled(m_file.isThere);
        setFocusPolicy(Qt::StrongFocus);
        setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    }

    [[nodiscard]] QSize sizeHint() const override {
        const int body = QFontMetrics(Theme::current().font(TextRole::body, true)).height();
        return {200, body + QFontMetrics(Theme::current().font(TextRole::caption)).height() + 18};
    }

protected:
    void paintEvent(QPaintEvent*) override {
        const Theme& theme = Theme::current();
        const ThemeColours& c = theme.colours();
        QPainter painter(this);
        painter.setPen(QPen(c.hair, line::hair));
        painter.drawLine(rect().bottomLeft(), rect().bottomRight());
        const QFont bold = theme.font(TextRole::body, true);
        const QFont caption = theme.font(TextRole::caption);
        const QFontMetrics boldMetrics(bold);
        const QFontMetrics metrics(caption);
        const int first = 6 + boldMetrics.ascent();
        const QString name = boldMetrics.elidedText(m_file.name, Qt::ElideRight, width() * 2 / 3);
        painter.setFont(bold);
        painter.setPen(isEnabled() ? c.ink : c.ink3);
        painter.drawText(0, first, name);
        const int after = boldMetrics.horizontalAdvance(name) + 8;
        painter.setFont(caption);
        painter.setPen(c.ink2);
        painter.drawText(after, first,
                         metrics.elidedText(QString("%1 %2").arg(m_file.serial, visitWords()).trimmed(), Qt::ElideRight,
                                            width() - after));
        const int second = 6 + boldMetrics.height() + 3 + metrics.ascent();
        const int left = m_file.visit ? paintBars(painter, second - metrics.capHeight() / 2) : 0;
        painter.setPen(c.ink3);
        painter.drawText(left, second, metrics.elidedText(m_file.state, Qt::ElideRight, width() - left));
        if (underMouse() && isEnabled()) {
            painter.setPen(QPen(c.ink, line::hair));
            painter.drawLine(rect().bottomLeft(), rect().bottomRight());
        }
    }

private:
    [[nodiscard]] QString visitWords() const {
        return m_file.visit ? RecentList::tr("visit %1").arg(m_file.visit->number) : QString();
    }

    /// @return where the words begin.
    int paintBars(QPainter& painter, int middle) const {
        constexpr int barWidth = 28;
        constexpr int gap = 2;
        bool isReached = true;
        int left = 0;
        for (const VisitState state : states) {
            painter.fillRect(QRect(left, middle - 1, barWidth, 4),
                             isReached ? Theme::current().colours().ink : Theme::current().colours().gridMajor);
            isReached = isReached && state != m_file.visit->state;
            left += barWidth + gap;
        }
        return left + 8;
    }

    RecentFile m_file;
};

}  // namespace

RecentFile readRecentFile(const QString& path) {
    const QFileInfo info(path);
    RecentFile recent{path, info.suffix() == "ohmjob" ? info.completeBaseName() : info.fileName(), {}, {}, {}};
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly)) {
        recent.isThere = false;
        recent.state = info.exists() ? RecentList::tr("cannot be read") : RecentList::tr("not there any more");
        return recent;
    }
    recent.state = dayWords(info.lastModified());
    if (info.suffix() != "ohmjob") {
        recent.state = RecentList::tr("netlist, %1").arg(recent.state);
        return recent;
    }
    const QByteArray text = file.readAll();
    const Result<Job> job = readJob({text.constData(), static_cast<std::size_t>(text.size())});
    if (!job) {
        return recent;
    }
    if (!job->unit.name.empty()) {
        recent.name = QString::fromStdString(job->unit.name);
    }
    recent.serial = QString::fromStdString(job->unit.serial);
    recent.visit = job->visit;
    recent.state = QString("%1 %2").arg(visitStateWords(job->visit.state), recent.state);
    return recent;
}

RecentList::RecentList(QWidget* parent)
    : QWidget(parent),
      m_rows(new QVBoxLayout(this)),
      m_lane(*this, [this](std::vector<RecentFile> files) { show(std::move(files)); }) {
    m_rows->setContentsMargins(0, 0, 0, 0);
    m_rows->setSpacing(2);
    show({});
}

void RecentList::setFiles(const QStringList& paths) {
    m_paths = paths.mid(0, shownFiles);
    m_lane.start([paths = m_paths](const std::stop_token& stop) {
        std::vector<RecentFile> files;
        for (const QString& path : paths) {
            if (!stop.stop_requested()) {
                files.push_back(readRecentFile(path));
            }
        }
        return files;
    });
}

void RecentList::show(std::vector<RecentFile> files) {
    m_files = std::move(files);
    while (QLayoutItem* item = m_rows->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    if (m_paths.isEmpty()) {
        auto* none = new ThemedLabel(TextRole::caption, false, &ThemeColours::ink3, this);
        none->setText(tr("None yet: what you open is listed here."));
        m_rows->addWidget(none);
    }
    for (const RecentFile& file : m_files) {
        auto* row = new RecentRow(file, this);
        m_rows->addWidget(row);
        connect(row, &QAbstractButton::clicked, this, [this, path = file.path] { emit fileAsked(path); });
    }
}

}  // namespace ohmwright
