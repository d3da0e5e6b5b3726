// SPDX-License-Identifier: Apache-2.0
// Two texts line by line, side by side: the longest common subsequence of their lines.

export interface LinePair {
  left?: { n: number; text: string };
  right?: { n: number; text: string };
  same: boolean;
}

/** Lengths of the common subsequences of what follows each pair of lines. */
function lengths(a: string[], b: string[]): Uint32Array[] {
  const table = Array.from({ length: a.length + 1 }, () => new Uint32Array(b.length + 1));
  for (let i = a.length - 1; i >= 0; i--)
    for (let j = b.length - 1; j >= 0; j--)
      table[i]![j] = a[i] === b[j] ? table[i + 1]![j + 1]! + 1 : Math.max(table[i + 1]![j]!, table[i]![j + 1]!);
  return table;
}

/** Lines that were taken out stand beside those that came in their place. */
function paired(gone: LinePair["left"][], come: LinePair["right"][]): LinePair[] {
  return Array.from({ length: Math.max(gone.length, come.length) }, (_, at) => ({
    ...(gone[at] ? { left: gone[at] } : {}), ...(come[at] ? { right: come[at] } : {}), same: false,
  }));
}

export function compareText(left: string, right: string): LinePair[] {
  const [a, b] = [left.split("\n"), right.split("\n")];
  const table = lengths(a, b);
  const pairs: LinePair[] = [];
  let [gone, come]: [LinePair["left"][], LinePair["right"][]] = [[], []];
  let [i, j] = [0, 0];
  while (i < a.length || j < b.length) {
    if (i < a.length && j < b.length && a[i] === b[j]) {
      pairs.push(...paired(gone, come), { left: { n: i + 1, text: a[i]! }, right: { n: j + 1, text: b[j]! }, same: true });
      [gone, come] = [[], []];
      i++, j++;
    } else if (j >= b.length || (i < a.length && table[i + 1]![j]! >= table[i]![j + 1]!)) {
      gone.push({ n: i + 1, text: a[i]! });
      i++;
    } else {
      come.push({ n: j + 1, text: b[j]! });
      j++;
    }
  }
  return [...pairs, ...paired(gone, come)];
}
