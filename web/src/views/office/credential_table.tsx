// SPDX-License-Identifier: Apache-2.0
import { Button } from "../../components/button";
import { Badge } from "../../components/office/badge";
import { Table } from "../../components/office/table";
import { clock } from "../../data/clock";
import { useWords } from "../../i18n/use_words";
import { standingOf, toneOf } from "../../office/credentials";
import { daysTo, endOfDay, isoDay } from "../../office/days";
import type { Credential } from "../../office/shapes";

export function CredentialTable({ credentials, onWithdraw }: { credentials: Credential[]; onWithdraw?: (one: Credential) => void }) {
  const { t, tn, word, language } = useWords();
  const now = clock.now();
  const facepiece = (one: Credential) => [one.facepiece && word("facepiece", one.facepiece), one.facepiece_model, one.facepiece_size].filter(Boolean).join(", ");
  const until = (one: Credential) => {
    if (!one.expires) return t("credential.noLastDay");
    const left = daysTo(endOfDay(one.expires), now);
    const day = isoDay(one.expires, language);
    if (left < 0) return day;
    return <>{day} <small>{left > 0 ? tn("days.left", left) : t("days.left.none")}</small></>;
  };
  return (
    <Table
      caption={t("crew.credentials")}
      empty={t("credential.none")}
      rows={[...credentials].sort((a, b) => (a.expires ?? "9999").localeCompare(b.expires ?? "9999"))}
      keyOf={(one) => one.entry}
      columns={[
        { head: t("credential.what"), cell: (one) => word("credential", one.what) },
        { head: t("credential.of"), cell: (one) => [facepiece(one), one.number, one.issuer, one.result].filter(Boolean).join("; ") || "–" },
        { head: t("credential.issued"), cell: (one) => isoDay(one.issued, language) },
        { head: t("shelf.lastDay"), cell: until },
        { head: t("credential.standing"), cell: (one) => <Badge tone={toneOf[standingOf(one, now)]}>{word("standing", standingOf(one, now))}</Badge> },
        ...(onWithdraw ? [{ head: t("credential.change"), cell: (one: Credential) => (one.withdrawn ? "–" : <Button onPress={() => onWithdraw(one)}>{t("credential.withdrawShort")}</Button>) }] : []),
      ]}
    />
  );
}
