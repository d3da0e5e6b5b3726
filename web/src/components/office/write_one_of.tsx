// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import type { OperationId } from "../../api/generated";
import type { Option } from "../choice";
import { FoldOut } from "./fold_out";
import { Select } from "./select";
import { WriteForm, type WriteFormProps } from "./write_form";

export interface WriteOneOfProps<Id extends OperationId> extends Omit<WriteFormProps<Id>, "path"> {
  title: string;
  label: string;
  options: Option<string>[];
  /** What the chosen one is called in the operation's address. */
  names: string;
}

/** A form about one of several things, which is chosen first. */
export function WriteOneOf<Id extends OperationId>({ title, label, options, names, ...form }: WriteOneOfProps<Id>) {
  const [chosen, setChosen] = useState("");
  const value = options.some((one) => one.value === chosen) ? chosen : (options[0]?.value ?? "");
  if (!value) return null;
  return (
    <FoldOut title={title}>
      <Select label={label} value={value} onValue={setChosen} options={options} />
      <WriteForm key={value} path={{ [names]: value }} {...(form as unknown as WriteFormProps<Id>)} />
    </FoldOut>
  );
}
