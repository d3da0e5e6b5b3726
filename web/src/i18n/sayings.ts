// SPDX-License-Identifier: Apache-2.0
// Turns what was said in English, with its figures and names filled in, into another language: by the form that it was
// made with. What no form fits stays as it was said.

interface Form {
  exactly: RegExp;
  /** Which of its places stand in quotes: somebody's own words. */
  quoted: boolean[];
  says: string;
  /** Letters that the form itself has: the more, the surer. */
  own: number;
  /** Begins with what a case puts in. */
  open: boolean;
}

const place = /("?)\{\}/g;

function formOf([english, says]: [string, string]): Form {
  const quoted = [...english.matchAll(place)].map(([, quote]) => quote === '"');
  const parts = english.split("{}").map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"));
  return { exactly: new RegExp(`^${parts.join("([\\s\\S]*?)")}$`), quoted, says, own: english.length - 2 * quoted.length, open: english.startsWith("{}") };
}

const formsOf = (table: Record<string, string>): Form[] =>
  Object.entries(table).filter(([english]) => english.includes("{}")).map(formOf).sort((a, b) => b.own - a.own);

function filled(says: string, values: string[]): string {
  let next = 0;
  return says.replace(/\{(\d?)\}/g, (_, at: string) => values[at ? Number(at) : next++] ?? "");
}

export type Sayings = (text: string) => string | undefined;

/**
 * @param sentences what is said, with {} where a case puts something in; the translation takes that in order or by number
 * @param values what may stand inside a sentence, in the same way
 * @param items the words of the gate's items by id: "fit-test: why it is open"
 */
export function sayings(sentences: Record<string, string>, values: Record<string, string>, items: Record<string, string>): Sayings {
  const sentenceForms = formsOf(sentences);
  const allForms = formsOf({ ...sentences, ...values });

  /** Of several the one whose own words begin first: what it puts in may be a sentence, too. Of those the longest. */
  function byForm(text: string, forms: Form[]): string | undefined {
    let best: { form: Form; found: string[]; from: number } | undefined;
    for (const form of forms) {
      const found = form.exactly.exec(text);
      const from = found && form.open ? (found[1] ?? "").length : 0;
      if (found && (!best || from < best.from)) best = { form, found: found.slice(1), from };
    }
    return best && filled(best.form.says, best.found.map((value, at) => (best?.form.quoted[at] ? value : inside(value))));
  }

  const sentence = (text: string): string | undefined => sentences[text] ?? byItem(text) ?? byForm(text, sentenceForms);

  const item = (id: string): string | undefined => items[`item.${id}`]?.replace("{}", "…").replace(/\.$/, "");

  /** "fit-test: why" or "fit-test (why)"; "density: why", of a member of a profile. */
  function byItem(text: string): string | undefined {
    const [, id = "", why = ""] = /^([a-z_-]+): ([\s\S]+)$/.exec(text) ?? /^([a-z-]+) \(([\s\S]+)\)$/.exec(text) ?? [];
    const words = item(id);
    if (words) return `${words}: ${inside(why)}`;
    const own = id && sentence(why);
    return own ? `${id}: ${own}` : undefined;
  }

  const each = (parts: string[]) => parts.map(inside).join("; ");

  function inside(text: string): string {
    const openItems = text.split(/; (?=[a-z-]+ \()/);
    if (openItems.length > 1) return each(openItems);
    const either = text.split(" or ");
    if (either.every((one) => values[one])) return either.map((one) => values[one]).join(" o ");
    return item(text) ?? sentences[text] ?? byItem(text) ?? byForm(text, allForms) ?? (text.includes("; ") ? each(text.split("; ")) : text);
  }

  return sentence;
}
