// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import type { Invitation } from "../../api/generated";
import { Notice } from "../../components/notice";
import { Qr } from "../../components/office/qr";
import { SaveText } from "../../components/office/save_text";
import { WriteForm } from "../../components/office/write_form";
import type { Key } from "../../i18n";
import { useWords } from "../../i18n/use_words";
import { minuteOf } from "../../office/days";

/** A link that lets somebody, or another device of one's own, in: once. It asks for the password again. */
export function OneTimeLink({ id, handle, button }: { id: "invite" | "linkDevice"; handle?: string; button: Key }) {
  const { t, language } = useWords();
  const [made, setMade] = useState<Invitation>();
  return (
    <>
      <WriteForm
        id={id}
        button={button}
        {...(handle ? { path: { handle } } : {})}
        fields={[{ name: "password", label: "release.password", kind: "password", needed: true }]}
        onDone={setMade}
      />
      {made && (
        <>
          <Notice tone="hold" title={t("link.once")} live><p>{t("link.until", { time: minuteOf(made.until_ms, language), handle: made.handle })}</p></Notice>
          {made.qr && <Qr modules={made.qr} label={t("link.code", { handle: made.handle })} />}
          {made.link && <SaveText text={made.link} name={`fogwright-${made.handle}.txt`} />}
        </>
      )}
    </>
  );
}
