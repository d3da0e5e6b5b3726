// SPDX-License-Identifier: Apache-2.0
// Our own small drawings on a grid of 24. They always stand beside a word.

const drawings = {
  today: "M4 6h16M4 12h10M4 18h13",
  plan: "M12 5v14M5 12h14",
  stock: "M5 8h14v11H5zM8 8V5h8v3M9 13h6",
  more: "M5 7h14M5 12h14M5 17h14",
  office: "M4 20V9l8-5 8 5v11M9 20v-6h6v6",
  audit: "M6 4h12v16l-6-4-6 4z",
  emergency: "M12 4v9M12 18v.5",
  back: "M14 6l-6 6 6 6",
  next: "M10 6l6 6-6 6",
  check: "M5 12.5l4.5 4.5L19 7",
  cross: "M6 6l12 12M18 6L6 18",
  clock: "M12 7v5l4 2M12 3a9 9 0 100 18 9 9 0 000-18z",
  stop: "M8 3h8l5 5v8l-5 5H8l-5-5V8z",
  camera: "M4 8h4l2-3h4l2 3h4v11H4zM12 10.5a3 3 0 100 6 3 3 0 000-6z",
  scan: "M4 8V4h4M16 4h4v4M20 16v4h-4M8 20H4v-4M8 8h3v3H8zM13 13h3v3h-3z",
  waiting: "M12 4v10M8 10l4 4 4-4M5 19h14",
  sent: "M5 12.5l4.5 4.5L19 7",
  nosignal: "M4 4l16 16M5 12a10 10 0 014-3M9 16a5 5 0 016 0",
  warn: "M12 4l9 16H3zM12 10v5M12 17.5v.5",
  fog: "M4 8c2.7-2.5 5.3-2.5 8 0s5.3 2.5 8 0M4 13c2.7-2.5 5.3-2.5 8 0s5.3 2.5 8 0M4 18c2.7-2.5 5.3-2.5 8 0s5.3 2.5 8 0",
  sound: "M5 10v4h4l5 4V6L9 10zM17 9a4 4 0 010 6",
} as const;

export type IconName = keyof typeof drawings;

export function Icon({ name }: { name: IconName }) {
  return (
    <svg class="icon" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      <path d={drawings[name]} />
    </svg>
  );
}
