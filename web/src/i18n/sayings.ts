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
}

const place = /("?)\{\}/g;

function formOf([english, says]: [string, string]): Form {
  const quoted = [...english.matchAll(place)].map(([, quote]) => quote === '"');
  const parts = english.split("{}").map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"));
  return { exactly: new RegExp(`^${parts.join("([\\s\\S]*?)")}$`), quoted, says, own: english.length - 2 * quoted.length };
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
  const [sentenceForms, valueForms] = [formsOf(sentences), formsOf(values)];

  function byForm(text: string, forms: Form[]): string | undefined {
    for (const { exactly, quoted, says } of forms) {
      const found = exactly.exec(text);
      if (found) return filled(says, found.slice(1).map((value, at) => (quoted[at] ? value : inside(value))));
    }
    return undefined;
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
    return values[text] ?? item(text) ?? byForm(text, valueForms) ?? sentence(text) ?? (text.includes("; ") ? each(text.split("; ")) : text);
  }

  return sentence;
}
