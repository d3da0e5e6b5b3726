// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { Button } from "../../components/button";
import { FaultNote } from "../../components/fault_note";
import { Field } from "../../components/field";
import { FoldOut } from "../../components/office/fold_out";
import { askOfficeFor } from "../../data/ask";
import { useWords } from "../../i18n/use_words";
import { withUnit } from "../../settings/units";

interface Run {
  caught: string;
  time: string;
}

const fewest = 3;
const none = (): Run[] => Array.from({ length: fewest }, () => ({ caught: "", time: "" }));

/** What a fogger put out into a measure, run by run. */
export function CatchTestForm({ fogger }: { fogger: string }) {
  const { t } = useWords();
  const [runs, setRuns] = useState<Run[]>(none);
  const [on, setOn] = useState("");
  const [fault, setFault] = useState<unknown>();
  const [done, setDone] = useState(false);
  const change = (at: number, part: Partial<Run>) => (setDone(false), setRuns(runs.map((run, n) => (n === at ? { ...run, ...part } : run))));
  const given = runs.filter((run) => run.caught.trim() && run.time.trim());
  const write = async () => {
    setFault(undefined);
    const body = { runs: given.map((run) => ({ caught: withUnit(run.caught, "mL"), time: withUnit(run.time, "s") })), ...(on ? { on } : {}) };
    await askOfficeFor("testFogger", { path: { fogger }, body }).then(() => (setRuns(none()), setDone(true)), setFault);
  };
  return (
    <FoldOut title={t("catch.title")}>
      <p>{t("catch.how")}</p>
      <form class="form" onSubmit={(event) => event.preventDefault()}>
        {runs.map((run, at) => (
          <fieldset key={at} class="pair">
            <legend>{t("catch.run", { n: at + 1 })}</legend>
            <Field label={t("catch.caught")} value={run.caught} onValue={(caught) => change(at, { caught })} keys="decimal" unit="mL" />
            <Field label={t("catch.time")} value={run.time} onValue={(time) => change(at, { time })} keys="decimal" unit="s" />
          </fieldset>
        ))}
        <Button icon="plan" onPress={() => setRuns([...runs, { caught: "", time: "" }])}>{t("catch.more")}</Button>
        <Field label={t("catch.day")} type="date" value={on} onValue={setOn} hint={t("catch.dayHint")} />
        <FaultNote fault={fault} />
        <Button kind="main" type="submit" disabled={given.length < fewest} onPress={write}>{t("stock.write")}</Button>
        <p role="status">{done ? t("form.done") : ""}</p>
      </form>
    </FoldOut>
  );
}
