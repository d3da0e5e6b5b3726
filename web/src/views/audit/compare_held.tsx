// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { Notice, type Tone } from "../../components/notice";
import { TextArea } from "../../components/office/text_area";
import { useWords } from "../../i18n/use_words";
import { compareCheckpoints, readCheckpoint, type CheckpointNote, type Compared } from "../../office/note_text";

const tones: Record<Compared, Tone> = { same: "done", "other-book": "hold", changed: "danger", older: "plain", newer: "danger" };

/** A checkpoint that somebody else kept, beside the book's own of now. */
export function CompareHeld({ now }: { now: CheckpointNote | null }) {
  const { t, tn, word } = useWords();
  const [typed, setTyped] = useState("");
  const held = readCheckpoint(typed);
  const result = now && held && compareCheckpoints(now, held);
  return (
    <>
      <TextArea label={t("held.text")} value={typed} onValue={setTyped} rows={5} hint={t("held.hint")} />
      {typed.trim() && !held && <Notice tone="hold" title={t("held.unread")} live />}
      {held && !now && <Notice title={t("held.signFirst")} live />}
      {held && <p>{tn("record.witnessCount", held.signers.filter((one) => one !== held.origin).length)}</p>}
      {result && <Notice tone={tones[result]} title={word("held", result)} live><p>{t("held.basis")}</p></Notice>}
    </>
  );
}
