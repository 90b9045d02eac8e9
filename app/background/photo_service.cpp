// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/photo_service.h"

#include "app/background/own_lane.h"
#include "core/files/photo_file.h"

#include <QCoreApplication>
#include <QImageReader>

#include <algorithm>
#include <utility>

namespace ohmwright {

namespace {

QString unreadable(const BoardPhoto& photo, const QString& reason) {
    return QCoreApplication::translate("ohmwright::PhotoService",
                                       "%1 cannot be shown (%2): save it anew with another program and add it again.")
        .arg(QString::fromStdString(photo.file), reason);
}

/// A JPEG is read at the smaller size at once; the reader turns it upright after that.
QImage readUpright(QImageReader& reader) {
    reader.setAutoTransform(true);
    const QSize stored = reader.size();
    if (std::max(stored.width(), stored.height()) > PhotoPicture::largestLevel) {
        reader.setScaledSize(
            stored.scaled(PhotoPicture::largestLevel, PhotoPicture::largestLevel, Qt::KeepAspectRatio));
    }
    return reader.read();
}

}  // namespace

const QImage& PhotoPicture::levelFor(double scale) const {
    const auto fits = [this, scale](const QImage& level) { return level.width() >= scale * size.width(); };
    const auto found = std::find_if(levels.rbegin(), levels.rend(), fits);
    return found != levels.rend() ? *found : levels.front();
}

PhotoPicture readPhotoPicture(const QString& folder, const BoardPhoto& photo, BoardSide side) {
    PhotoPicture picture;
    picture.size = QSize(photo.width, photo.height);
    const auto path = findPhoto(folder.toStdString(), photo, side);
    if (!path) {
        picture.fault = QString::fromStdString(path.error().message);
        return picture;
    }
    QImageReader reader(QString::fromStdString(path->string()));
    const QImage whole = readUpright(reader);
    if (whole.isNull()) {
        picture.fault = unreadable(photo, reader.errorString());
        return picture;
    }
    picture.levels.push_back(whole.convertToFormat(QImage::Format_RGB32));
    while (std::max(picture.levels.back().width(), picture.levels.back().height()) > 2 * PhotoPicture::smallestLevel) {
        const QImage& last = picture.levels.back();
        picture.levels.push_back(last.scaled(last.size() / 2, Qt::IgnoreAspectRatio, Qt::SmoothTransformation));
    }
    return picture;
}

PhotoService::PhotoService(QObject* parent)
    : QObject(parent), m_lane(std::make_unique<OwnLane<PhotoPicture>>(*this, [this](PhotoPicture picture) {
          m_picture = std::make_shared<const PhotoPicture>(std::move(picture));
          emit read(m_picture);
      })) {}

PhotoService::~PhotoService() = default;

void PhotoService::ask(const QString& folder, const BoardPhoto& photo, BoardSide side) {
    const bool isAsked = m_folder == folder && m_photo == photo;
    if (isAsked && isBusy()) {
        return;
    }
    if (isAsked && m_picture && m_picture->fault.isEmpty()) {
        emit read(m_picture);
        return;
    }
    m_folder = folder;
    m_photo = photo;
    m_picture.reset();
    m_lane->start([folder, photo, side](const std::stop_token&) { return readPhotoPicture(folder, photo, side); });
}

void PhotoService::forget() {
    m_lane->stop();
    m_folder.clear();
    m_photo = {};
    m_picture.reset();
}

bool PhotoService::isBusy() const {
    return m_lane->isRunning();
}

}  // namespace ohmwright
