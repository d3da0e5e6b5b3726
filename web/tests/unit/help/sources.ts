// SPDX-License-Identifier: Apache-2.0
// What the C++ sources say: their string literals, joined as the compiler joins them.
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";

const escapes: Record<string, string> = { n: "\n", t: "\t" };

/** The literals of a source, without comments, raw strings and characters. */
export function literals(text: string): string[] {
  const found: string[] = [];
  let at = 0;
  let joined: string | undefined;
  const end = () => {
    if (joined !== undefined) found.push(joined);
    joined = undefined;
  };
  while (at < text.length) {
    const two = text.slice(at, at + 2);
    const one = text.charAt(at);
    if (two === "//") at = text.indexOf("\n", at) < 0 ? text.length : text.indexOf("\n", at);
    else if (two === 'R"') {
      end();
      const close = `)${text.slice(at + 2, text.indexOf("(", at))}"`;
      const last = text.indexOf(close, at);
      if (last < 0) throw new Error("a raw string does not end");
      at = last + close.length;
    }
    else if (one === "'" && !/[0-9a-fA-F]/.test(text.charAt(at - 1))) (end(), (at += text.charAt(at + 1) === "\\" ? 4 : 3));
    else if (one === '"') {
      let literal = "";
      for (at++; text.charAt(at) !== '"'; at++) literal += text.charAt(at) === "\\" ? (escapes[text.charAt(++at)] ?? text.charAt(at)) : text.charAt(at);
      joined = (joined ?? "") + literal;
      at++;
    } else {
      if (!/\s/.test(one)) end();
      at++;
    }
  }
  end();
  return found;
}

/** What stands in the brackets of each call or initialiser of that name. */
export function calls(text: string, names: string[]): string[] {
  const found: string[] = [];
  for (const { index, 0: opening } of text.matchAll(new RegExp(`\\b(?:${names.join("|")})[({]`, "g"))) {
    let depth = 1;
    let at = index + opening.length;
    for (; depth > 0 && at < text.length; at++) depth += /[({]/.test(text.charAt(at)) ? 1 : /[)}]/.test(text.charAt(at)) ? -1 : 0;
    found.push(text.slice(index, at));
  }
  return found;
}

/** The texts of the sources of a layer, but for some. */
export function sources(layer: string, wanted: (name: string) => boolean): string[] {
  const folder = join(process.cwd(), "..", "src", layer);
  return readdirSync(folder).filter((name) => /\.[ch]pp$/.test(name) && wanted(name)).map((name) => readFileSync(join(folder, name), "utf8"));
}
