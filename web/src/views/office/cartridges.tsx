// SPDX-License-Identifier: Apache-2.0
import { Badge } from "../../components/office/badge";
import { FoldOut } from "../../components/office/fold_out";
import { Table } from "../../components/office/table";
import { WriteForm } from "../../components/office/write_form";
import { WriteOneOf } from "../../components/office/write_one_of";
import { hasRole } from "../../data/session";
import { useWords } from "../../i18n/use_words";
import type { Cartridge } from "../../office/shapes";
import { minutes } from "../../settings/units";

function Left({ one }: { one: Cartridge }) {
  const { t } = useWords();
  const left = one.schedule_minutes - one.used_minutes;
  if (left <= 0) return <Badge tone="danger">{t("cartridge.over")}</Badge>;
  return <>{minutes(left)} {left * 4 <= one.schedule_minutes && <Badge tone="hold">{t("cartridge.soon")}</Badge>}</>;
}

/** Hours against the maker's change schedule; no life is ever reckoned here. */
export function Cartridges({ cartridges }: { cartridges: Cartridge[] }) {
  const { t } = useWords();
  return (
    <>
      <Table
        caption={t("gear.cartridges")}
        headed
        empty={t("cartridge.none")}
        rows={cartridges}
        keyOf={(one) => one.cartridge}
        columns={[
          { head: t("cartridge.name"), cell: (one) => one.cartridge },
          { head: t("cartridge.model"), cell: (one) => one.model },
          { head: t("cartridge.words"), cell: (one) => <span lang="en">{one.words.join(", ")}</span> },
          { head: t("cartridge.used"), figure: true, cell: (one) => `${minutes(one.used_minutes)} / ${minutes(one.schedule_minutes)}` },
          { head: t("cartridge.left"), figure: true, cell: (one) => <Left one={one} /> },
          { head: t("cartridge.basis"), cell: (one) => one.basis },
        ]}
      />
      <p class="fine">{t("cartridge.how")}</p>
      {hasRole("safety-officer") && (
        <FoldOut title={t("cartridge.register")}>
          <WriteForm id="registerCartridge" button="stock.write" fields={[
            { name: "cartridge", label: "cartridge.name", needed: true },
            { name: "model", label: "cartridge.model", needed: true },
            { name: "words", label: "cartridge.words", hint: "cartridge.wordsHint", kind: "words", needed: true },
            { name: "schedule", label: "cartridge.schedule", hint: "cartridge.scheduleHint", needed: true },
            { name: "basis", label: "cartridge.basis", hint: "cartridge.basisHint", needed: true },
          ]} />
        </FoldOut>
      )}
      <WriteOneOf
        title={t("cartridge.retire")}
        label={t("cartridge.name")}
        options={cartridges.filter((one) => one.active).map((one) => ({ value: one.cartridge, words: one.cartridge }))}
        id="retireCartridge"
        names="cartridge"
        grave
        button="cartridge.retireButton"
        fields={[{ name: "why", label: "stop.why", needed: true }]}
      />
    </>
  );
}
