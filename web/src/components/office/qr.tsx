// SPDX-License-Identifier: Apache-2.0
// A code that the server made: rows of "1" (dark) and "0". Always dark on white with four modules of quiet zone around
// (ISO/IEC 18004), whatever the theme: cameras need it so.
const quiet = 4;

export function qrPath(modules: string[]): string {
  return modules.flatMap((row, y) => [...row].map((module, x) => (module === "1" ? `M${x + quiet} ${y + quiet}h1v1h-1z` : ""))).join("");
}

export function Qr({ modules, label }: { modules: string[]; label: string }) {
  const side = modules.length + 2 * quiet;
  return (
    <svg class="qr" viewBox={`0 0 ${side} ${side}`} role="img" aria-label={label} shape-rendering="crispEdges">
      <rect width={side} height={side} fill="#ffffff" />
      <path d={qrPath(modules)} fill="#000000" />
    </svg>
  );
}
