// SPDX-License-Identifier: Apache-2.0
import { useEffect, useId, useState } from "preact/hooks";
import { Icon } from "../../components/icon";
import type { Photo } from "../../driveway/photos";
import { useWords } from "../../i18n/use_words";

/** A picture from the camera. The record keeps its digest, this device the picture. */
export function PhotoField({ photo, onPicture }: { photo: Photo | undefined; onPicture: (picture: Blob) => void }) {
  const { t } = useWords();
  const id = useId();
  const [address, setAddress] = useState("");
  useEffect(() => {
    if (!photo) return;
    const made = URL.createObjectURL(photo.picture);
    setAddress(made);
    return () => URL.revokeObjectURL(made);
  }, [photo]);
  return (
    <div class="photo">
      <input id={id} class="unseen" type="file" accept="image/*" capture="environment" onChange={(event) => {
        const picture = event.currentTarget.files?.[0];
        if (picture) onPicture(picture);
      }} />
      <label for={id} class="button">
        <Icon name="camera" />
        <span>{photo ? t("photo.again") : t("photo.take")}</span>
      </label>
      {photo && (
        <figure>
          <img src={address} alt={t("photo.alt")} />
          <figcaption class="fine">SHA-256 {photo.digest.slice(0, 16)}… {t("photo.kept")}</figcaption>
        </figure>
      )}
    </div>
  );
}
