// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import type { Job } from "../../api/generated";
import { Button } from "../../components/button";
import { Choice } from "../../components/choice";
import { FaultNote } from "../../components/fault_note";
import { Field } from "../../components/field";
import { ask } from "../../data/ask";
import { planOf, readingsOf } from "../../driveway/shapes";
import { useWords } from "../../i18n/use_words";
import { number, roundTo, timeOfDay } from "../../settings/units";

const readingUnits = ["ppm", "mg/m3"] as const;

/** What an instrument shows, beside the limit that it must not pass. */
export function Readings({ job, onDone }: { job: Job; onDone: () => void }) {
  const { t, language } = useWords();
  const limits = planOf(job).limits;
  const [cas, setCas] = useState(limits[0]?.cas ?? "");
  const [unit, setUnit] = useState<(typeof readingUnits)[number]>("ppm");
  const [value, setValue] = useState("");
  const [instrument, setInstrument] = useState("");
  const [fan, setFan] = useState<"yes" | "no" | "">("");
  const [fault, setFault] = useState<unknown>();
  const taken = readingsOf(job);
  if (limits.length === 0) return null;
  const take = async () => {
    setFault(undefined);
    const body = { substance: cas, value: `${value.trim()} ${unit}`, fan_running: fan === "yes", ...(instrument.trim() ? { instrument: instrument.trim() } : {}) };
    await ask("takeReading", { path: { job: job.job }, body }).then(() => (setValue(""), setFan(""), onDone()), setFault);
  };
  return (
    <details class="readings" open={job.hold?.readings_needed === true}>
      <summary>{t("reading.title")}</summary>
      {taken.length > 0 && (
        <table class="figures">
          <thead><tr><th scope="col">{t("reading.time")}</th><th scope="col">{t("reading.value")}</th><th scope="col">{t("reading.fan")}</th></tr></thead>
          <tbody>{taken.map((one) => <tr key={one.ms}><td>{timeOfDay(one.ms, job.zone ?? "UTC", language)}</td><td>{one.typed}</td><td>{one.fan_running ? t("common.yes") : t("common.no")}</td></tr>)}</tbody>
        </table>
      )}
      <Choice label={t("reading.substance")} value={cas} onValue={setCas} options={limits.map((one) => ({
        value: one.cas,
        words: one.name,
        // The limit is shown no higher than it is.
        detail: t("reading.limit", { limit: number(roundTo(one.occupant_ug_m3 / 1000, 3, "down"), 3, language) }),
      }))} />
      <Choice label={t("reading.unit")} value={unit} onValue={setUnit} options={readingUnits.map((one) => ({ value: one, words: one === "mg/m3" ? "mg/m³" : one }))} />
      <Field label={t("reading.value")} value={value} onValue={setValue} keys="decimal" unit={unit} />
      <Choice label={t("reading.fan")} value={fan} onValue={setFan} options={[{ value: "yes", words: t("common.yes") }, { value: "no", words: t("common.no") }]} />
      <Field label={t("reading.instrument")} value={instrument} onValue={setInstrument} />
      <FaultNote fault={fault} />
      <Button wide disabled={!value.trim() || !fan} onPress={take}>{t("reading.button")}</Button>
    </details>
  );
}
