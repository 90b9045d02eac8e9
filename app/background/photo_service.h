/// Photos of the board, read beside the window: upright, at the size that a screen can show, in halves of it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/board.h"

#include <QImage>
#include <QObject>
#include <QSize>
#include <QString>

#include <memory>
#include <vector>

namespace ohmwright {

template <class Answer>
class OwnLane;

/// A photo in steps of half the size. However large the file is, no more than some 90 MB are kept.
struct PhotoPicture {
    QSize size;                  ///< Of the photo as it is seen upright [px]; marks count in it.
    std::vector<QImage> levels;  ///< Largest first, its longer side at most `largestLevel`; empty: see fault.
    QString fault;               ///< Why it is not shown, a sentence.

    static constexpr int largestLevel = 4096;
    static constexpr int smallestLevel = 256;
    /// The smallest level that still has a pixel for each of the screen's. @param scale  screen px a photo px.
    [[nodiscard]] const QImage& levelFor(double scale) const;
};

/// On any thread. Orientation is Exif's; the file is held against its hash first.
PhotoPicture readPhotoPicture(const QString& folder, const BoardPhoto& photo, BoardSide side);

class PhotoService : public QObject {
    Q_OBJECT
public:
    explicit PhotoService(QObject* parent = nullptr);
    ~PhotoService() override;

    /// Answers with read(); the newest question counts. What was read last is not read again.
    void ask(const QString& folder, const BoardPhoto& photo, BoardSide side);
    /// Nothing is wanted any more.
    void forget();
    [[nodiscard]] bool isBusy() const;

signals:
    void read(std::shared_ptr<const ohmwright::PhotoPicture> picture);

private:
    std::unique_ptr<OwnLane<PhotoPicture>> m_lane;
    QString m_folder;
    BoardPhoto m_photo;
    std::shared_ptr<const PhotoPicture> m_picture;
};

}  // namespace ohmwright
