// SPDX-License-Identifier: Apache-2.0
// check_json.js ORACLE: compares our canonical JSON with the JavaScript engine's own JSON.stringify, line by line.
'use strict';
const { execFileSync } = require('child_process');

// xorshift64*: the same sequence each time, so that a failure can be repeated.
let state = 88172645463325252n;
function random() {
  state ^= state >> 12n;
  state = (state ^ (state << 25n)) & 0xffffffffffffffffn;
  state ^= state >> 27n;
  return (state * 2685821657736338717n) & 0xffffffffffffffffn;
}

function double(bits) {
  const view = new DataView(new ArrayBuffer(8));
  view.setBigUint64(0, bits);
  return view.getFloat64(0);
}

function below(count) {
  return Number(random() % BigInt(count));
}

const characters = ['a', 'Z', '"', '\\', '/', '\n', '\u0001', '\u007f', '\u0080', 'é', '€', '\ud7ff', '\ue000', '\ufb33', '😀', '\u{10ffff}'];
const text = () => Array.from({ length: below(6) }, () => characters[below(characters.length)]).join('');

function number() {
  const kinds = [() => double(random()), () => below(1e9) / 100, () => Number(random()), () => 10 ** (below(60) - 30)];
  const value = kinds[below(kinds.length)]();
  return Number.isFinite(value) ? value : 0;
}

function value(depth) {
  const kind = below(depth > 0 ? 6 : 4);
  if (kind === 0) return text();
  if (kind < 3) return number();
  if (kind === 3) return [true, false, null][below(3)];
  if (kind === 4) return Array.from({ length: below(5) }, () => value(depth - 1));
  return Object.fromEntries(Array.from({ length: below(5) }, () => [text(), value(depth - 1)]));
}

// Default sort() orders strings by UTF-16 code units, which is what RFC 8785 asks for.
function canonical(item) {
  if (Array.isArray(item)) return `[${item.map(canonical).join()}]`;
  if (item === null || typeof item !== 'object') return JSON.stringify(item);
  return `{${Object.keys(item).sort().map((key) => `${JSON.stringify(key)}:${canonical(item[key])}`).join()}}`;
}

const values = Array.from({ length: 20000 }, () => value(4));
const input = values.map((item) => JSON.stringify(item)).join('\n') + '\n';
const output = execFileSync(process.argv[2], { input, maxBuffer: 1 << 28 }).toString().split('\n');
let wrong = 0;
values.forEach((item, i) => {
  if (output[i] !== canonical(item) && ++wrong <= 10) {
    console.log(`given  ${JSON.stringify(item)}\nwanted ${canonical(item)}\ngot    ${output[i]}`);
  }
});
console.log(`${values.length} values compared, ${wrong} differ`);
process.exit(wrong === 0 && output.length === values.length + 1 ? 0 : 1);
