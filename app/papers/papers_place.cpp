// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/papers_place.h"

#include "app/background/paper_service.h"
#include "app/document/job_document.h"
#include "app/look/level_units.h"
#include "app/look/panel_title.h"
#include "app/look/said_text.h"
#include "app/look/sign_text.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/papers/ask_printer.h"
#include "app/papers/make_paper.h"
#include "app/papers/page_view.h"
#include "app/papers/paper_list.h"
#include "core/files/atomic_file.h"

#include <QDateTime>
#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLocale>
#include <QPageSize>
#include <QPainter>
#include <QPrinter>
#include <QPushButton>
#include <QScrollArea>
#include <QStackedWidget>
#include <QTimer>
#include <QVBoxLayout>

#include <algorithm>
#include <filesystem>

namespace ohmwright {

namespace {

constexpr int margin = 14;
constexpr int railWidth = 304;
/// Pages that are being worked out are stamped after this [ms] (look rules, section 6).
constexpr int patienceMilliseconds = 300;

QString nameOf(PaperKind kind) {
    return saidText(paperName(kind));
}

/// Inside a sentence: "bench sheet".
QString wordFor(PaperKind kind) {
    switch (kind) {
        case PaperKind::bench:
            return QObject::tr("bench sheet");
        case PaperKind::wayBack:
            return QObject::tr("way-back sheet");
        case PaperKind::customer:
            return QObject::tr("customer sheet");
        case PaperKind::label:
            return QObject::tr("label");
        case PaperKind::quote:
            return QObject::tr("quote");
    }
    return {};
}

QPushButton* sizeButton(const QString& words, QWidget* parent) {
    auto* button = new QPushButton(words, parent);
    button->setCheckable(true);
    button->setAutoExclusive(true);
    return button;
}

QHBoxLayout* titleRow(const QString& title, QWidget* parent) {
    auto* row = new QHBoxLayout;
    row->setContentsMargins(margin, 10, margin, 4);
    row->addWidget(new PanelTitle(title, parent));
    return row;
}

}  // namespace

PapersPlace::PapersPlace(JobDocument& document, PaperService& service, QWidget* parent)
    : QWidget(parent),
      m_document(document),
      m_service(service),
      m_size(QLocale().measurementSystem() == QLocale::ImperialUSSystem ? PaperSize::letter : PaperSize::a4),
      m_patience(new QTimer(this)) {
    m_patience->setSingleShot(true);
    m_patience->setInterval(patienceMilliseconds);
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(1);
    layout->addWidget(buildRail());
    layout->addWidget(buildPages(), 1);
    connectWidgets();
}

// --- building ----------------------------------------------------------------------------------------------------

QWidget* PapersPlace::buildRail() {
    auto* rail = new QWidget(this);
    // As wide as the longest line of the list.
    const auto widen = [this, rail] { rail->setFixedWidth(std::max(railWidth, m_list->sizeHint().width())); };
    rail->setAutoFillBackground(true);
    m_list = new PaperList(rail);
    widen();
    connect(&Theme::current(), &Theme::changed, rail, widen);
    m_save = new QPushButton(tr("Save as PDF \u2026"), rail);
    m_print = new QPushButton(tr("Print \u2026"), rail);
    m_message = new SignText(rail);
    auto* printed = new QWidget(rail);
    printed->setAutoFillBackground(true);
    m_printedLayout = new QVBoxLayout(printed);
    m_printedLayout->setContentsMargins(margin, 4, margin, 10);
    m_printedLayout->setSpacing(8);
    auto* scroll = new QScrollArea(rail);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setWidgetResizable(true);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setAccessibleName(tr("Printed in this visit"));
    scroll->setWidget(printed);

    auto* ways = new QHBoxLayout;
    ways->setSpacing(8);
    ways->addWidget(m_save, 1);
    ways->addWidget(m_print, 1);
    auto* inner = new QVBoxLayout;
    inner->setContentsMargins(margin, 12, margin, 8);
    inner->setSpacing(8);
    inner->addWidget(buildSizes());
    inner->addLayout(ways);
    inner->addWidget(m_message);
    auto* layout = new QVBoxLayout(rail);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addLayout(titleRow(tr("Papers"), rail));
    layout->addWidget(m_list);
    layout->addLayout(inner);
    layout->addLayout(titleRow(tr("Printed in this visit"), rail));
    layout->addWidget(scroll, 1);
    return rail;
}

QWidget* PapersPlace::buildSizes() {
    auto* sizes = new QWidget(this);
    m_a4 = sizeButton("A4", sizes);
    m_letter = sizeButton(tr("Letter"), sizes);
    auto* words = new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, sizes);
    words->setText(tr("On"));
    auto* layout = new QHBoxLayout(sizes);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(8);
    layout->addWidget(words);
    layout->addWidget(m_a4, 1);
    layout->addWidget(m_letter, 1);
    (m_size == PaperSize::a4 ? m_a4 : m_letter)->setChecked(true);
    return sizes;
}

QWidget* PapersPlace::buildPages() {
    auto* pages = new QWidget(this);
    pages->setAutoFillBackground(true);
    m_title = new ThemedLabel(TextRole::panelTitle, true, &ThemeColours::ink, pages);
    m_pageWords = new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, pages);
    m_previous = new QPushButton(tr("Previous page"), pages);
    m_next = new QPushButton(tr("Next page"), pages);
    m_smaller = new QPushButton(tr("Smaller"), pages);
    m_larger = new QPushButton(tr("Larger"), pages);
    m_fitWidth = new QPushButton(tr("Whole width"), pages);
    m_fitPage = new QPushButton(tr("Whole page"), pages);
    for (QPushButton* fit : {m_fitWidth, m_fitPage}) {
        fit->setCheckable(true);
    }
    auto* head = new QHBoxLayout;
    head->setContentsMargins(margin, 8, margin, 8);
    head->setSpacing(8);
    head->addWidget(m_title);
    head->addSpacing(8);
    head->addWidget(m_pageWords, 1);
    for (QPushButton* button : {m_previous, m_next, m_smaller, m_larger, m_fitWidth, m_fitPage}) {
        head->addWidget(button);
    }
    m_view = new PageView(pages);
    m_refusal = buildRefusal();
    m_middle = new QStackedWidget(pages);
    m_middle->addWidget(m_view);
    m_middle->addWidget(m_refusal);
    auto* layout = new QVBoxLayout(pages);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addLayout(head);
    layout->addWidget(m_middle, 1);
    return pages;
}

QWidget* PapersPlace::buildRefusal() {
    auto* refusal = new QWidget(this);
    m_reason = new SignText(refusal);
    m_reason->setMaximumWidth(640);
    m_markSeen = new QPushButton(refusal);
    auto* layout = new QVBoxLayout(refusal);
    layout->setContentsMargins(margin, 24, margin, margin);
    layout->setSpacing(12);
    layout->addWidget(m_reason);
    layout->addWidget(m_markSeen, 0, Qt::AlignLeft);
    layout->addStretch(1);
    return refusal;
}

void PapersPlace::connectWidgets() {
    connect(m_list, &PaperList::paperChosen, this, [this] {
        say({}, false);
        if (isVisible()) {
            m_service.want(m_list->chosen());
        }
        follow();
        m_view->goToPage(0);
    });
    connect(m_a4, &QPushButton::clicked, this, [this] { setPaperSize(PaperSize::a4); });
    connect(m_letter, &QPushButton::clicked, this, [this] { setPaperSize(PaperSize::letter); });
    connect(m_save, &QPushButton::clicked, this, &PapersPlace::askSave);
    connect(m_print, &QPushButton::clicked, this, &PapersPlace::askPrint);
    connect(m_markSeen, &QPushButton::clicked, this, &PapersPlace::markPartsSeen);
    connect(m_previous, &QPushButton::clicked, this, [this] { m_view->goToPage(m_view->page() - 1); });
    connect(m_next, &QPushButton::clicked, this, [this] { m_view->goToPage(m_view->page() + 1); });
    connect(m_smaller, &QPushButton::clicked, this, [this] { m_view->stepZoom(-1); });
    connect(m_larger, &QPushButton::clicked, this, [this] { m_view->stepZoom(1); });
    connect(m_fitWidth, &QPushButton::clicked, this, [this] { m_view->setFit(PageView::Fit::width); });
    connect(m_fitPage, &QPushButton::clicked, this, [this] { m_view->setFit(PageView::Fit::page); });
    connect(m_view, &PageView::viewChanged, this, &PapersPlace::followView);
    connect(m_patience, &QTimer::timeout, this, [this] { m_view->setStale(!isReady()); });
    connect(&m_service, &PaperService::changed, this, &PapersPlace::follow);
    connect(&m_document, &JobDocument::jobChanged, this, &PapersPlace::follow);
    // Levels are printed in the unit that they are read in.
    connect(&LevelUnits::current(), &LevelUnits::changed, this, [this] {
        m_laidOut.reset();
        follow();
    });
}

// --- what stands --------------------------------------------------------------------------------------------------

void PapersPlace::choose(PaperKind kind) {
    m_list->setChosen(kind);
}

PaperKind PapersPlace::chosen() const {
    return m_list->chosen();
}

void PapersPlace::setPaperSize(PaperSize size) {
    m_size = size;
    m_a4->setChecked(size == PaperSize::a4);
    m_letter->setChecked(size == PaperSize::letter);
    m_laidOut.reset();
    follow();
}

bool PapersPlace::isReady() const {
    const auto answers = m_service.answers();
    return answers && answers->kind == chosen() && m_laidOut == answers->job;
}

bool PapersPlace::isRefused() const {
    return m_middle->currentWidget() == m_refusal;
}

QString PapersPlace::words() const {
    return isRefused() ? m_reason->text() : m_view->words();
}

QStringList PapersPlace::printed() const {
    const Job& job = *m_document.job();
    QStringList lines;
    for (auto paper = job.visit.papers.rbegin(); paper != job.visit.papers.rend(); ++paper) {
        const std::optional<PaperKind> kind = paperOfWord(paper->kind);
        lines << (isVoid(job, *paper) ? tr("%1 %2, plan %3: void, printed from an earlier plan")
                                      : tr("%1 %2, plan %3: current"))
                     .arg(kind ? nameOf(*kind) : QString::fromStdString(paper->kind), paperTime(paper->when),
                          QString::fromStdString(paper->hash));
    }
    return lines;
}

void PapersPlace::follow() {
    if (!isVisible()) {
        return;  // It follows when it is opened: a value that is wheeled elsewhere lays nothing out here.
    }
    m_list->follow(*m_document.job());
    showPrinted();
    followPaper();
    followView();
}

void PapersPlace::followPaper() {
    m_title->setText(nameOf(chosen()));
    const QString fault = m_service.fault();
    const auto last = m_service.lastAnswers();
    const auto answers = m_service.answers();
    if (!fault.isEmpty()) {
        m_laidOut.reset();
        m_view->setPaper(std::nullopt);
        m_reason->setSentence(fault, SignKind::stop);
        const Job& job = *m_document.job();
        const std::vector<PartId> unseen = unseenParts(job);
        QStringList names;
        for (const PartId& id : unseen) {
            names << QString::fromStdString(displayName(*findPart(job.stock, id)));
        }
        m_markSeen->setVisible(!unseen.empty());
        m_markSeen->setText(tr("%1 looked at on the board: mark as seen").arg(names.join(", ").left(60)));
        m_middle->setCurrentWidget(m_refusal);
    } else {
        m_middle->setCurrentWidget(m_view);
        if (last && last->kind == chosen() && m_laidOut != last->job) {
            m_view->setPaper(layOut(*last, m_size, m_service.lastPhotos()));
            m_laidOut = last->job;
        } else if (!last || last->kind != chosen()) {
            m_view->setPaper(std::nullopt);
            m_laidOut.reset();
        }
    }
    if (answers || !fault.isEmpty()) {
        m_patience->stop();
        m_view->setStale(false);
    } else if (!m_patience->isActive() && !m_view->isStale()) {
        m_patience->start();
    }
    m_save->setEnabled(isReady());
    m_print->setEnabled(isReady());
}

void PapersPlace::followView() {
    const int pages = m_view->pages();
    const bool hasPages = pages > 0 && m_middle->currentWidget() == m_view;
    m_pageWords->setText(
        hasPages ? tr("page %1 of %2, %3 %").arg(m_view->page() + 1).arg(pages).arg(100.0 * m_view->zoom(), 0, 'f', 0)
        : m_service.fault().isEmpty() ? tr("being worked out")
                                      : tr("no pages"));
    m_previous->setEnabled(hasPages && m_view->page() > 0);
    m_next->setEnabled(hasPages && m_view->page() + 1 < pages);
    for (QPushButton* button : {m_smaller, m_larger, m_fitWidth, m_fitPage}) {
        button->setEnabled(hasPages);
    }
    m_fitWidth->setChecked(m_view->fit() == PageView::Fit::width);
    m_fitPage->setChecked(m_view->fit() == PageView::Fit::page);
}

void PapersPlace::showPrinted() {
    while (QLayoutItem* item = m_printedLayout->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    const QStringList lines = printed();
    if (lines.isEmpty()) {
        auto* none = new ThemedLabel(TextRole::caption, false, &ThemeColours::ink3);
        none->setText(tr("No paper of this visit was printed yet."));
        none->setWordWrap(true);
        m_printedLayout->addWidget(none);
    }
    const Job& job = *m_document.job();
    for (qsizetype i = 0; i < lines.size(); ++i) {
        const PrintedPaper& paper = job.visit.papers[std::size_t(lines.size() - 1 - i)];
        auto* words = new SignText;
        words->setSentence(lines[i], isVoid(job, paper) ? SignKind::care : SignKind::tick);
        m_printedLayout->addWidget(words);
    }
    m_printedLayout->addStretch(1);
}

void PapersPlace::say(const QString& sentence, bool isRefusal) {
    m_message->setSentence(sentence, sentence.isEmpty() ? SignKind::none : isRefusal ? SignKind::care : SignKind::tick);
}

// --- onto paper -----------------------------------------------------------------------------------------------------

bool PapersPlace::mayLeave() {
    if (isReady()) {
        return true;
    }
    const QString fault = m_service.fault();
    const QString why =
        fault.isEmpty() ? tr("No paper is made: its figures are not current. Wait until the solve has ended.") : fault;
    say(why, true);
    emit refused(why);
    return false;
}

bool PapersPlace::savePdf(const QString& path) {
    if (!mayLeave()) {
        return false;
    }
    const QByteArray pdf = pdfOf(*m_view->paper());
    const Result<void> written = replaceFile(std::filesystem::path(path.toStdU16String()),
                                             {pdf.constData(), static_cast<std::size_t>(pdf.size())});
    if (!written) {
        const QString why = QString::fromStdString(written.error().message);
        say(why, true);
        emit refused(why);
        return false;
    }
    record(tr("%1 saved: %2").arg(wordFor(chosen()), path));
    return true;
}

bool PapersPlace::printOn(QPrinter& printer) {
    if (!mayLeave()) {
        return false;
    }
    printer.setPageSize(QPageSize(m_size == PaperSize::a4 ? QPageSize::A4 : QPageSize::Letter));
    printer.setPageOrientation(QPageLayout::Portrait);
    printer.setFullPage(true);
    printer.setDocName(m_view->paper()->title);
    if (!ohmwright::printOn(*m_view->paper(), printer)) {
        const QString why = tr("The printer took nothing. Save the paper as PDF and print that.");
        say(why, true);
        emit refused(why);
        return false;
    }
    record(tr("%1 sent to the printer").arg(wordFor(chosen())));
    return true;
}

/// A list of what was printed in a visit that is gone is closed with its record; the paper itself is made.
void PapersPlace::record(const QString& done) {
    const Job& job = *m_document.job();
    Result<Job> recorded = recordPaper(job, chosen(), QDateTime::currentDateTime().toString(Qt::ISODate).toStdString());
    if (recorded) {
        m_document.edit(std::move(recorded), tr("List the %1 as printed").arg(wordFor(chosen())), JobAspect::words);
        say(done, false);
    } else {
        say(done + ". " + QString::fromStdString(recorded.error().message), false);
    }
    emit said(done);
}

void PapersPlace::askSave() {
    const Job& job = *m_document.job();
    const QString unit = QString::fromStdString(job.unit.name).simplified().replace('/', '-');
    const QString file = m_document.path().isEmpty() ? m_document.netlistPath() : m_document.path();
    const QDir folder = file.isEmpty() ? QDir() : QFileInfo(file).dir();
    const QString name = QString("%1 %2.pdf").arg(unit, wordFor(chosen()));
    const QString path = QFileDialog::getSaveFileName(this, nameOf(chosen()), folder.filePath(name), tr("PDF (*.pdf)"));
    if (!path.isEmpty()) {
        savePdf(QFileInfo(path).suffix().isEmpty() ? path + ".pdf" : path);
    }
}

void PapersPlace::askPrint() {
    if (!mayLeave()) {
        return;
    }
    askPrinter(this, {tr("Print the %1").arg(wordFor(chosen())), m_size, QPageLayout::Portrait},
               [this](QPagedPaintDevice& printer) { printOn(static_cast<QPrinter&>(printer)); });
}

void PapersPlace::markPartsSeen() {
    const Job& job = *m_document.job();
    const std::vector<PartId> unseen = unseenParts(job);
    QStringList names;
    for (const PartId& id : unseen) {
        names << QString::fromStdString(displayName(*findPart(job.stock, id)));
    }
    m_document.edit(markSeen(job, unseen), tr("Mark %1 as seen").arg(names.join(", ")));
}

// --- events ---------------------------------------------------------------------------------------------------------

void PapersPlace::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    m_service.want(chosen());
    follow();
}

void PapersPlace::hideEvent(QHideEvent* event) {
    QWidget::hideEvent(event);
    m_service.want(std::nullopt);
    m_patience->stop();
}

void PapersPlace::paintEvent(QPaintEvent*) {
    QPainter(this).fillRect(rect(), Theme::current().colours().hair);
}

}  // namespace ohmwright
