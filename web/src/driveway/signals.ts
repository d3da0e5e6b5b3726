// SPDX-License-Identifier: Apache-2.0
// How a mark is told: sound, vibration, voice. Each by itself, since one of them always fails somewhere.
import { preferences } from "../settings/preferences";
import type { Mark } from "./fog_timer";

let context: AudioContext | undefined;

/** Browsers let sound out only after a tap; call it in one. */
export function wakeSound(): void {
  if (!preferences.value.sound) return;
  context ??= new AudioContext();
  void context.resume();
}

/** Low mark: one low tone; target: two; high mark: five sharp ones that nobody takes for the others. */
const tones: Record<Mark, { hertz: number; times: number }> = {
  low: { hertz: 520, times: 1 },
  target: { hertz: 780, times: 2 },
  high: { hertz: 1180, times: 5 },
};

function beep({ hertz, times }: { hertz: number; times: number }): void {
  if (!context) return;
  for (let at = 0; at < times; at++) {
    const tone = context.createOscillator();
    const level = context.createGain();
    const start = context.currentTime + at * 0.28;
    tone.type = "square";
    tone.frequency.value = hertz;
    level.gain.setValueAtTime(0.35, start);
    level.gain.exponentialRampToValueAtTime(0.001, start + 0.22);
    tone.connect(level).connect(context.destination);
    tone.start(start);
    tone.stop(start + 0.24);
  }
}

function speak(words: string): void {
  if (!("speechSynthesis" in globalThis)) return;
  const said = new SpeechSynthesisUtterance(words);
  said.lang = preferences.value.language;
  speechSynthesis.cancel();
  speechSynthesis.speak(said);
}

/** Browsers let a phone shake only after a tap. */
function shake(pattern: number[]): void {
  if (navigator.userActivation?.hasBeenActive ?? true) navigator.vibrate?.(pattern);
}

export function signal(mark: Mark, words: string): void {
  if (preferences.value.sound) beep(tones[mark]);
  shake(mark === "high" ? [400, 120, 400, 120, 400] : mark === "target" ? [250, 120, 250] : [250]);
  if (preferences.value.voice) speak(words);
}
