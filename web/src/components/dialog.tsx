// SPDX-License-Identifier: Apache-2.0
import type { ComponentChildren } from "preact";
import { useEffect, useId, useRef } from "preact/hooks";
import { useWords } from "../i18n/use_words";
import { Button } from "./button";

/** Over the page; Escape and the button, which stays in sight, close it. The browser gives the focus back. */
export function Dialog({ title, onClose, grave, children }: { title: string; onClose: () => void; grave?: boolean; children: ComponentChildren }) {
  const { t } = useWords();
  const id = useId();
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const shown = dialog.current;
    shown?.showModal();
    return () => shown?.close();
  }, []);
  return (
    <dialog ref={dialog} class={grave ? "grave" : ""} aria-labelledby={id} onClose={onClose}>
      <h2 id={id}>{title}</h2>
      {children}
      <div class="actions closing">
        <Button wide icon="cross" onPress={() => dialog.current?.close()}>{t("common.close")}</Button>
      </div>
    </dialog>
  );
}
