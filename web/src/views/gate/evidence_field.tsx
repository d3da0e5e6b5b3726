// SPDX-License-Identifier: Apache-2.0
// How the evidence of an item is entered. The desk reads the text; here is only which keys a phone shows and what can be
// picked instead of typed.
import type { Job } from "../../api/generated";
import { Field } from "../../components/field";
import { Scan } from "../../components/scan";
import { largestPage } from "../../data/ask";
import { useAsk } from "../../data/use_ask";
import { containerOf } from "../../driveway/scan_text";
import { facepiecesOf } from "../../driveway/facepieces";
import type { Item } from "../../driveway/gate_queue";
import { withoutExample } from "../../driveway/item_words";
import { said } from "../../i18n";
import { useWords } from "../../i18n/use_words";
import { typedUnit, withUnit } from "../../settings/units";
import { Pick } from "./pick";

/** Items without a question of their own, and those that only ask whether. */
const onlyWhether = ["licence", "medical-clearance", "fit-test", "mix-in-life", "storage-kept"];
export const takesPlainYes = (item: Item): boolean => !item.question || onlyWhether.includes(item.item);

interface Props {
  job: Job;
  item: Item;
  value: string;
  onValue: (value: string) => void;
}

function Crew({ job, item, value, onValue }: Props) {
  const { answer } = useAsk("listCrew");
  const others = (answer?.items ?? []).filter((person) => person.active && person.handle !== job.technician);
  return <Pick label={item.question} names={others.map((person) => person.handle)} value={value} onValue={onValue} />;
}

function Cartridge({ item, value, onValue }: Props) {
  const { answer } = useAsk("listCartridges");
  return <Pick label={item.question} names={(answer?.items ?? []).map((one) => one.cartridge)} value={value} onValue={onValue} />;
}

/** What the technician was fit-tested with, as the desk reads it; the words are those of the page. */
function Facepiece({ job, item, value, onValue }: Props) {
  const { word } = useWords();
  const { answer } = useAsk("listCrew");
  const names = facepiecesOf(answer?.items.find((person) => person.handle === job.technician));
  const words = (name: string) => name.replace(/^[^,]+/, (kind) => word("facepiece", kind));
  return <Pick label={names.length > 0 ? withoutExample(item.question) : item.question} names={names} value={value} onValue={onValue} words={words} />;
}

/** Containers, or the batch, by scan or from what is on hand. */
function Vessel({ job, item, value, onValue }: Props) {
  const { answer } = useAsk("listVessels", { query: { limit: largestPage } });
  const batch = item.item === "mix-time";
  const known = (answer?.items ?? []).filter((one) => one.batch === batch && one.remaining_ul > 0 && one.item.split("/")[0] === job.product);
  const typed = value.split(/\s+/).filter(Boolean);
  const add = (id: string) => onValue(batch ? id : [...new Set([...typed, id])].join(" "));
  const toggle = (id: string) => (typed.includes(id) ? onValue(typed.filter((one) => one !== id).join(" ")) : add(id));
  return (
    <>
      <Scan onText={(text) => add(containerOf(text))} />
      <Pick label={item.question} names={known.map((one) => one.id)} value={value} onValue={onValue} onPick={toggle} />
    </>
  );
}

const volumes = ["volume-before", "volume-after"];
const wears = ["cartridge-hours", "cartridge-hours-added"];

function Typed({ item, value, onValue }: Props) {
  const { units } = useWords();
  const { volume } = typedUnit[units];
  if (item.evidence === "count") return <Field label={item.question} value={value} onValue={onValue} keys="numeric" />;
  const unit = volumes.includes(item.item) ? volume : wears.includes(item.item) ? "min" : item.item === "airflow-proved" ? "cfm" : "";
  const bareQuestion = withoutExample(item.question);
  if (item.item === "product-in-date") return <Field label={bareQuestion} value={value} onValue={onValue} type="date" />;
  if (!unit) return <Field label={item.question} value={value} onValue={onValue} />;
  const bare = value.endsWith(` ${unit}`) ? value.slice(0, -unit.length - 1) : value;
  return <Field label={bareQuestion} value={bare} onValue={(typed) => onValue(typed ? withUnit(typed, unit) : "")} keys="decimal" unit={unit} />;
}

export function EvidenceField({ item: asked, ...more }: Props) {
  const props = { ...more, item: { ...asked, question: said(asked.question).text } };
  switch (asked.item) {
    case "standby-person":
    case "standby-rescue":
      return <Crew {...props} />;
    case "respirator-facepiece":
      return <Facepiece {...props} />;
    case "cartridge-words":
      return <Cartridge {...props} />;
    case "lot-noted":
    case "mix-time":
      return <Vessel {...props} />;
    default:
      return <Typed {...props} />;
  }
}
