// SPDX-License-Identifier: Apache-2.0
// A form that writes one entry: its fields are a table, its answer is the desk's.
import { useState } from "preact/hooks";
import type { OperationId, Operations } from "../../api/generated";
import type { Call } from "../../api/operation";
import { askOfficeFor } from "../../data/ask";
import type { Key } from "../../i18n";
import { useWords } from "../../i18n/use_words";
import { typedUnit, withUnit } from "../../settings/units";
import { Button } from "../button";
import type { Option } from "../choice";
import { FaultNote } from "../fault_note";
import { Field } from "../field";
import { Select } from "./select";

export interface FormField {
  name: string;
  label: Key;
  hint?: Key;
  needed?: boolean;
  /** words: several, parted by commas. */
  kind?: "text" | "volume" | "date" | "decimal" | "password" | "words";
  options?: Option<string>[];
}

export type Typed = Record<string, string>;

export interface WriteFormProps<Id extends OperationId> {
  id: Id;
  path?: Record<string, string>;
  fields: FormField[];
  button: Key;
  /** What is not typed. */
  fixed?: Record<string, unknown>;
  typed?: Typed;
  onTyped?: (typed: Typed) => void;
  onDone?: (answer: Operations[Id]["answer"]) => void;
  grave?: boolean;
}

function valueOf({ kind }: FormField, text: string, unit: string): unknown {
  if (kind === "volume") return withUnit(text, unit);
  return kind === "words" ? text.split(",").map((word) => word.trim()).filter(Boolean) : text;
}

export function WriteForm<Id extends OperationId>(props: WriteFormProps<Id>) {
  const { id, path, fields, button, fixed, onDone, grave } = props;
  const { t, units } = useWords();
  const [own, setOwn] = useState<Typed>(() => Object.fromEntries(fields.map((field) => [field.name, field.needed ? (field.options?.[0]?.value ?? "") : ""])));
  const [fault, setFault] = useState<unknown>();
  const [done, setDone] = useState(false);
  const typed = { ...own, ...props.typed };
  const unit = typedUnit[units].volume;
  const set = (name: string, text: string) => {
    setDone(false);
    setOwn((before) => ({ ...before, [name]: text }));
    props.onTyped?.({ ...props.typed, [name]: text });
  };
  const textOf = ({ name }: FormField) => (typed[name] ?? "").trim();
  const ready = fields.every((field) => !field.needed || textOf(field));

  const write = async () => {
    setFault(undefined);
    const given = fields.filter(textOf).map((field) => [field.name, valueOf(field, textOf(field), unit)] as const);
    const call = { ...(path ? { path } : {}), body: { ...fixed, ...Object.fromEntries(given) } } as Call<Id>;
    await askOfficeFor(id, call).then((answer) => {
      setOwn((before) => Object.fromEntries(Object.keys(before).map((name) => [name, fields.find((one) => one.name === name)?.options ? (before[name] ?? "") : ""])));
      props.onTyped?.({});
      setDone(true);
      onDone?.(answer);
    }, setFault);
  };

  return (
    <form class="form" onSubmit={(event) => event.preventDefault()}>
      {fields.map((field) => field.options
        ? <Select key={field.name} label={t(field.label)} value={typed[field.name] ?? ""} onValue={(text) => set(field.name, text)} options={field.needed ? field.options : [{ value: "", words: t("form.none") }, ...field.options]} />
        : <FormInput key={field.name} field={field} value={typed[field.name] ?? ""} unit={unit} onValue={(text) => set(field.name, text)} />)}
      <FaultNote fault={fault} />
      <Button type="submit" kind={grave ? "grave" : "main"} disabled={!ready} onPress={write}>{t(button)}</Button>
      <p role="status">{done ? t("form.done") : ""}</p>
    </form>
  );
}

function FormInput({ field, value, unit, onValue }: { field: FormField; value: string; unit: string; onValue: (text: string) => void }) {
  const { t } = useWords();
  const { kind = "text" } = field;
  return (
    <Field
      label={field.needed ? t(field.label) : t("form.optional", { label: t(field.label) })}
      hint={field.hint && t(field.hint)}
      value={value}
      onValue={onValue}
      required={field.needed ?? false}
      type={kind === "date" || kind === "password" ? kind : "text"}
      keys={kind === "volume" || kind === "decimal" ? "decimal" : "text"}
      {...(kind === "volume" ? { unit } : {})}
      {...(kind === "password" ? { autocomplete: "current-password" } : {})}
    />
  );
}
