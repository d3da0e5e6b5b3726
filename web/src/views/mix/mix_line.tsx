// SPDX-License-Identifier: Apache-2.0
import type { Vessel } from "../../api/generated";
import { Button } from "../../components/button";
import { Field } from "../../components/field";
import { Scan } from "../../components/scan";
import { containersFor, measured, toggled, type MixDraft, type MixingLine, type MixingSheet } from "../../driveway/mix_draft";
import { containerOf } from "../../driveway/scan_text";
import { useWords } from "../../i18n/use_words";
import { minutes, typedUnit, volume } from "../../settings/units";

interface Props {
  line: MixingLine;
  sheet: MixingSheet;
  product: string;
  vessels: Vessel[];
  draft: MixDraft;
  onDraft: (change: (before: MixDraft) => MixDraft) => void;
}

/** One thing to measure out, and out of which container. */
export function MixLine({ line, sheet, product, vessels, draft, onDraft }: Props) {
  const { t, units, language } = useWords();
  const fitting = containersFor(line, sheet, product, vessels);
  const taken = draft.taken[line.ingredient] ?? [];
  const pick = (container: string) => onDraft((before) => toggled(before, line.ingredient, container));
  return (
    <li>
      <strong lang="en" class="label-words">{line.ingredient}</strong>
      <strong class="amount figures">{line.amount[units === "us" ? "us" : "metric"].replace(/ (?!\()/g, "\u00a0")}</strong>
      {line.instruction && <p lang="en" class="label-words">{line.instruction}</p>}
      {line.wait_minutes !== undefined && <p>{t("mix.wait", { time: minutes(line.wait_minutes) })}</p>}
      {line.from_container && (
        <fieldset class="group">
          <legend>{t("mix.from")}</legend>
          {fitting.length === 0 && <p>{t("mix.noContainer")}</p>}
          {fitting.length > 1 && <Scan onText={(text) => fitting.some((one) => one.id === containerOf(text)) && !taken.some((one) => one.container === containerOf(text)) && pick(containerOf(text))} />}
          <div class="picks">
            {fitting.map((one) => (
              <Button key={one.id} pressed={taken.some(({ container }) => container === one.id)} onPress={() => pick(one.id)}>
                {`${one.id}, ${volume(one.remaining_ul, units, "down", language)}${one.usable ? "" : `, ${t("stock.pastDate")}`}`}
              </Button>
            ))}
          </div>
          {taken.length > 1 && taken.map(({ container, volume: typed }) => (
            <Field key={container} label={t("mix.outOf", { container })} value={typed} onValue={(text) => onDraft((before) => measured(before, line.ingredient, container, text))} keys="decimal" unit={typedUnit[units].volume} required />
          ))}
        </fieldset>
      )}
    </li>
  );
}
